"""Spares: what is left on the reels against the yield."""

import pytest

from reelwright.core.cutting import plan, spare_outlooks
from tests.core.cutting.days import RED, pieces, problem, racks, reel, stretch


def test_one_spare_for_thirty_cables_is_a_chance_of_76_per_cent() -> None:
    """The red reels give 31, 30 are wanted: at a yield of 0.97 all thirty come out in 76 %."""
    day = racks(3)
    (outlook,) = spare_outlooks(day, plan(day), yield_fraction=0.97, confidence=0.95)
    assert (outlook.cut, outlook.room_for_more, outlook.starts_needed) == (30, 1, 33)
    assert outlook.chance_all_good == pytest.approx(0.76, abs=0.005)
    assert not outlook.enough
    assert outlook.sentence == (
        "VID-60 red: 30\u202f× 3.060\u202fm cut, room for 1 more. With these as spares the chance "
        "that all can be delivered is 76\u202f%; 95\u202f% needs 3 pieces to spare."
    )


def test_a_long_reel_has_spares_enough() -> None:
    """With 90 m left the spares are there, and the outlook says enough."""
    day = problem(pieces(3, 3000), (reel("R", RED, stretch(0, 100_000, 100)),))
    (outlook,) = spare_outlooks(day, plan(day), yield_fraction=0.97, confidence=0.95)
    assert outlook.enough
    assert outlook.chance_all_good > 0.9999
