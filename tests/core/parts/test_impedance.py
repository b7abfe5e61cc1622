"""One rule for the impedance classes."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.fit.compatibility import judge_fit
from reelwright.core.ends.fit.logic import judge_logic
from reelwright.core.errors import BadValue
from reelwright.core.parts.impedance import ImpedanceMatch, impedance_class
from reelwright.core.signals.fitness import judge_fitness
from reelwright.core.signals.serial_video import SerialVideo
from reelwright.core.verdicts import Outcome
from tests import signal_world as world


@pytest.mark.parametrize(
    ("stated_ohm", "match"),
    [
        (71.25, ImpedanceMatch.SAME),
        (78.75, ImpedanceMatch.SAME),
        (71.2, ImpedanceMatch.NEAR),
        (82.5, ImpedanceMatch.NEAR),
        (82.6, ImpedanceMatch.OTHER),
        (50.0, ImpedanceMatch.OTHER),
    ],
)
def test_five_and_ten_percent_part_the_classes(stated_ohm: float, match: ImpedanceMatch) -> None:
    """Around 75 Ω the classes part at 5 % and 10 %, the edges inside (common practice)."""
    assert impedance_class(75.0).match(stated_ohm) is match


@pytest.mark.parametrize("stated_ohm", [88.0, 100.0, 132.0])
def test_balanced_digital_audio_takes_the_band_of_its_standard(stated_ohm: float) -> None:
    """110 Ω ± 20 % is one class by its standard, and what lies outside is another."""
    wanted = impedance_class(110.0)
    assert wanted.match(stated_ohm) is ImpedanceMatch.SAME
    assert wanted.match(75.0) is ImpedanceMatch.OTHER
    assert wanted.match(133.0) is ImpedanceMatch.OTHER


def test_the_margin_is_what_is_left_of_the_class() -> None:
    """74.4 Ω lies 3.15 Ω inside the class of 75 Ω, 99.4 Ω lies 20.65 Ω outside."""
    assert impedance_class(75.0).margin_ohm(74.4) == pytest.approx(3.15)
    assert impedance_class(75.0).margin_ohm(99.4) == pytest.approx(-20.65)


def test_no_impedance_has_no_class() -> None:
    """Zero ohm is refused."""
    with pytest.raises(BadValue):
        impedance_class(0.0)


@given(st.floats(min_value=40.0, max_value=130.0))
def test_the_signal_the_end_and_the_pair_never_contradict_each_other(stated_ohm: float) -> None:
    """For any cable: refused for the signal where logic refuses it, a caution at most as a pair."""
    sheet = replace(world.VID_60.sheet, impedance_ohm=stated_ohm)
    cable = replace(world.VID_60, sheet=sheet)
    signal = SerialVideo(rate_bit_per_s=2_970_000_000)
    run = world.run(cable, 2.0)
    (of_signal,) = (
        check
        for check in judge_fitness(
            run, signal=signal.name, needs=signal.needs, families=signal.families
        )
        if check.name == f"impedance of {cable.code}"
    )
    against = judge_logic(
        cable=cable,
        connector_a=run.connectors[0],
        connector_b=run.connectors[1],
        needs=signal.needs,
    )
    (of_pair,) = (
        check
        for check in judge_fit(cable, run.connectors[0]).checks
        if check.name == "impedance class"
    )
    assert bool(against) == (of_signal.outcome is Outcome.BAD)
    assert (of_pair.outcome is Outcome.GOOD) == (of_signal.outcome is Outcome.GOOD)
    assert of_pair.margin == of_signal.margin
