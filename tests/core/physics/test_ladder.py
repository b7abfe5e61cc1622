"""The loudspeaker line: against the demo's figures, against circuit laws, at its limits."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.physics.ladder import (
    ladder_voltages_v,
    tap_impedance_ohm,
    tap_voltages_v,
)
from reelwright.core.quantities.constants import FOOT_M


@pytest.mark.parametrize(
    ("conductor_ohm_per_km", "first_v", "last_v", "last_db"),
    [(13.17, 67.85, 66.94, -0.47), (8.286, 68.87, 68.29, -0.30), (5.211, 69.54, 69.17, -0.19)],
)
def test_the_church_of_the_demo(
    conductor_ohm_per_km: float, first_v: float, last_v: float, last_db: float
) -> None:
    """Eight 15 W taps on 70.7 V, 220 ft to the first and 20 ft apart, give the printed voltages."""
    voltages = tap_voltages_v(
        line_v=70.7,
        tap_w=15.0,
        taps=8,
        first_m=220 * FOOT_M,
        spacing_m=20 * FOOT_M,
        conductor_ohm_per_m=conductor_ohm_per_km / 1e3,
    )
    assert voltages.shape == (1, 8)
    assert voltages[0, 0] == pytest.approx(first_v, abs=0.005)
    assert voltages[0, -1] == pytest.approx(last_v, abs=0.005)
    assert 20 * np.log10(voltages[0, -1] / 70.7) == pytest.approx(last_db, abs=0.005)


@given(
    taps=st.integers(min_value=1, max_value=30),
    tap_w=st.floats(min_value=0.5, max_value=60),
    first_m=st.floats(min_value=0, max_value=300),
    spacing_m=st.floats(min_value=0, max_value=30),
)
def test_the_ladder_obeys_the_node_equations(
    taps: int, tap_w: float, first_m: float, spacing_m: float
) -> None:
    """The voltages solve Kirchhoff's equations of the whole line, set up as a matrix."""
    conductor = 8.286e-3
    voltages = tap_voltages_v(
        line_v=100.0,
        tap_w=tap_w,
        taps=taps,
        first_m=first_m + 1.0,
        spacing_m=spacing_m + 0.1,
        conductor_ohm_per_m=conductor,
    )[0]
    tap_s = 1 / tap_impedance_ohm(line_v=100.0, tap_w=tap_w)
    series_s = np.full(taps, 1 / (2 * conductor * (spacing_m + 0.1)))
    series_s[0] = 1 / (2 * conductor * (first_m + 1.0))
    nodes = np.zeros((taps, taps))
    for tap in range(taps):
        nodes[tap, tap] = tap_s + series_s[tap] + (series_s[tap + 1] if tap + 1 < taps else 0.0)
        if tap + 1 < taps:
            nodes[tap, tap + 1] = nodes[tap + 1, tap] = -series_s[tap + 1]
    fed = np.zeros(taps)
    fed[0] = series_s[0] * 100.0
    np.testing.assert_allclose(voltages, np.linalg.solve(nodes, fed), rtol=1e-8)


def test_a_line_of_no_length_gives_every_loudspeaker_the_full_voltage() -> None:
    """With no wire there is no drop."""
    voltages = tap_voltages_v(
        line_v=100.0, tap_w=6.0, taps=3, first_m=0.0, spacing_m=0.0, conductor_ohm_per_m=0.02
    )
    np.testing.assert_allclose(voltages, 100.0)


def test_many_lengths_are_answered_at_once() -> None:
    """Each row is what a single call gives, and voltage falls with length."""
    lengths = np.array([10.0, 50.0, 200.0])
    together = tap_voltages_v(
        line_v=70.7, tap_w=15.0, taps=4, first_m=lengths, spacing_m=5.0, conductor_ohm_per_m=0.008
    )
    assert together.shape == (3, 4)
    assert (np.diff(together[:, -1]) < 0).all()


@pytest.mark.parametrize("change", [{"taps": 0}, {"spacing_m": -1.0}, {"first_m": -1.0}])
def test_no_taps_and_negative_ways_are_refused(change: dict[str, float]) -> None:
    """A line needs a loudspeaker, and distances are not negative."""
    line = {"taps": 2, "spacing_m": 1.0, "first_m": 1.0, **change}
    with pytest.raises(BadValue):
        tap_voltages_v(line_v=70.7, tap_w=1.0, conductor_ohm_per_m=0.01, **line)  # type: ignore[arg-type]


@given(
    taps=st.lists(
        st.tuples(st.floats(min_value=0.5, max_value=60), st.floats(min_value=0.1, max_value=40)),
        min_size=1,
        max_size=20,
    ),
    line_v=st.sampled_from([25.0, 70.7, 100.0]),
)
def test_unequal_taps_obey_the_node_equations(
    taps: list[tuple[float, float]], line_v: float
) -> None:
    """Any watts at any spacing solve Kirchhoff's equations of the whole line."""
    watts, ways = [tap for tap, _ in taps], [way for _, way in taps]
    conductor = 8.286e-3
    voltages = ladder_voltages_v(
        line_v=line_v,
        taps_w=watts,
        first_m=ways[0],
        between_m=ways[1:],
        conductor_ohm_per_m=conductor,
    )[0]
    series_s = 1 / (2 * conductor * np.array(ways))
    nodes = np.diag(np.array(watts) / line_v**2 + series_s)
    nodes[:-1, :-1] += np.diag(series_s[1:])
    nodes -= np.diag(series_s[1:], 1) + np.diag(series_s[1:], -1)
    fed = np.zeros(len(taps))
    fed[0] = series_s[0] * line_v
    np.testing.assert_allclose(voltages, np.linalg.solve(nodes, fed), rtol=1e-7)
    assert (np.diff(voltages) < 0).all()


def test_a_higher_voltage_loses_less_of_itself() -> None:
    """The same watts on 100 V instead of 25 V draw a quarter of the current, and fall far less."""
    kept = [
        ladder_voltages_v(
            line_v=line_v,
            taps_w=(5.0, 10.0, 2.5),
            first_m=50.0,
            between_m=(10.0, 30.0),
            conductor_ohm_per_m=0.013,
        )[0, -1]
        / line_v
        for line_v in (25.0, 70.7, 100.0)
    ]
    assert kept == sorted(kept)


@pytest.mark.parametrize(
    "change",
    [
        {"taps_w": ()},
        {"taps_w": (15.0,)},
        {"taps_w": (15.0, 0.0)},
        {"taps_w": (15.0, float("nan"))},
        {"between_m": (-1.0,)},
        {"line_v": 0.0},
    ],
)
def test_ladders_that_cannot_be_are_refused(change: dict[str, object]) -> None:
    """Every tap takes something, every way is there, and a line has a voltage."""
    ladder = {"line_v": 70.7, "taps_w": (15.0, 30.0), "between_m": (5.0,), **change}
    with pytest.raises(BadValue):
        ladder_voltages_v(first_m=1.0, conductor_ohm_per_m=0.01, **ladder)  # type: ignore[arg-type]
