"""The change-over matrix of the demo workshop comes out of the rule."""

import pytest

from reelwright.core.bench import Station, change_over, differences
from tests.core.bench.days import COAX_S, RULE, SETTINGS, batch

MATRIX_MIN = {
    "T-01+T-11": (0, 10.5, 12, 16.5, 12, 10.5),
    "T-02": (10.5, 0, 8, 12.5, 10.5, 9),
    "T-03": (12, 8, 0, 14, 10.5, 12),
    "T-05": (16.5, 12.5, 14, 0, 18, 16.5),
    "T-08": (12, 10.5, 10.5, 18, 0, 6.5),
    "T-09": (10.5, 9, 12, 16.5, 6.5, 0),
}


@pytest.mark.parametrize("before", MATRIX_MIN)
def test_the_matrix_comes_from_the_rule(before: str) -> None:
    """Each of the 36 fields is first article + program + blades + dies + test adapters."""
    minutes = tuple(
        sum(part.duration_s for part in differences(RULE, SETTINGS[before], after)) / 60
        for after in SETTINGS.values()
    )
    assert minutes == MATRIX_MIN[before]


def test_a_bare_machine_needs_everything() -> None:
    """From nothing mounted: program, blades, two dies, adapters and the first article."""
    parts = differences(RULE, None, SETTINGS["T-02"])
    assert [part.what for part in parts] == [
        "program P-02",
        "blade set PVC",
        "die 1.60",
        "die 6.48",
        "test adapters BNC",
        "first article",
    ]
    assert sum(part.duration_s for part in parts) == 180 + 120 + 360 + 2 * 90 + 240


def test_each_part_stands_at_a_station_the_batch_passes() -> None:
    """A batch that is not stripped here gets its program time where its work begins."""
    short = {Station.PRESS: COAX_S[Station.PRESS], Station.TEST: COAX_S[Station.TEST]}
    one = batch("B", SETTINGS["T-03"], 1, each_s=short)
    change = change_over(RULE, SETTINGS["T-02"], one)
    assert {part.station for part in change.parts} == {Station.PRESS}
    assert change.at(Station.PRESS) == change.duration_s == 8 * 60
