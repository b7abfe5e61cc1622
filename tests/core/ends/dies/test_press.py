"""Force that a crimp needs against what a press has."""

import pytest

from reelwright.core.ends.dies.press import (
    BRASS_ANNEALED,
    BRASS_HALF_HARD,
    COMMON_BENCH_PRESS_N,
    Force,
    ForceKnown,
    Press,
    best_press,
    cylinder_force_n,
    ferrule_force,
    judge_press,
    pin_force,
)
from reelwright.core.errors import BadValue
from reelwright.core.verdicts import Outcome

PLAIN = Press(
    code="cylinder",
    force_n=cylinder_force_n(bore_m=0.1, pressure_pa=6e5, ratio=1.0, efficiency=1.0),
    known=ForceKnown.COMPUTED,
)
BENCH = Press(code="PR-1", force_n=COMMON_BENCH_PRESS_N, known=ForceKnown.STATED)
PIN = pin_force(across_flats_m=1.6e-3, crimped_length_m=4.5e-3, metal=BRASS_HALF_HARD)
FERRULE = ferrule_force(wall_m=0.55e-3, crimped_length_m=12.5e-3, metal=BRASS_ANNEALED)


def test_a_plain_cylinder_is_not_three_tonnes() -> None:
    """100 mm at 6 bar closes a pin, not a 7 mm ferrule; with six to one in between it does both."""
    assert PLAIN.force_n < COMMON_BENCH_PRESS_N / 6
    assert judge_press("pin", PIN, PLAIN).outcome is Outcome.GOOD
    short = judge_press("ferrule", FERRULE, PLAIN)
    assert short.outcome is Outcome.BAD
    assert "will not close" in short.sentence
    assert judge_press("pin", PIN, BENCH).outcome is Outcome.GOOD
    assert judge_press("ferrule", FERRULE, BENCH).outcome is Outcome.GOOD
    helped = cylinder_force_n(bore_m=0.1, pressure_pa=6e5, ratio=6.6, efficiency=0.95)
    assert helped == pytest.approx(COMMON_BENCH_PRESS_N, rel=0.01)


def test_between_soft_and_hard_metal_it_is_a_caution() -> None:
    """Enough for the soft end and not for the hard one: try and measure."""
    middle = Press(
        code="PR-2", force_n=(FERRULE.low_n + FERRULE.high_n) / 2, known=ForceKnown.MEASURED
    )
    check = judge_press("ferrule", FERRULE, middle)
    assert check.outcome is Outcome.CAUTION
    assert check.margin == pytest.approx((FERRULE.low_n - FERRULE.high_n) / 2e3)


def test_forces_by_hand() -> None:
    """1.5·2·0.55·12.5·300 = 6.19 kN and 2·2·0.55·12.5·400 = 11 kN; 1.848·4.5·480 = 3.99 kN."""
    assert FERRULE.low_n == pytest.approx(6187.5)
    assert FERRULE.high_n == pytest.approx(11000.0)
    assert PIN.high_n == pytest.approx(3990.6, abs=0.1)


def test_the_strongest_press_is_taken() -> None:
    """Of several; none where there is none."""
    assert best_press((PLAIN, BENCH)) is BENCH
    assert best_press(()) is None


@pytest.mark.parametrize(
    "wrong",
    [{"bore_m": 0.0}, {"pressure_pa": -1.0}, {"ratio": 0.0}, {"efficiency": 1.1}],
    ids=lambda each: next(iter(each)),
)
def test_nonsense_is_refused(wrong: dict[str, float]) -> None:
    """A cylinder without a bore, an efficiency above one."""
    given = {"bore_m": 0.1, "pressure_pa": 6e5, "ratio": 1.0, "efficiency": 1.0} | wrong
    with pytest.raises(BadValue):
        cylinder_force_n(**given)
    with pytest.raises(BadValue):
        pin_force(across_flats_m=1.6e-3, crimped_length_m=0.0, metal=BRASS_ANNEALED)
    with pytest.raises(BadValue):
        Force(low_n=0.0, high_n=1.0, basis="nothing")
