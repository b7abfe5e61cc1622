"""Loudspeakers as they really are, and lines of loudspeakers that are not alike."""

import dataclasses

import numpy as np
import pytest

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, LotMeasure
from reelwright.core.physics.driver import Driver
from reelwright.core.signals.distributed_line import DistributedLine, even_line
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.loudspeaker import Loudspeaker
from reelwright.core.signals.loudspeaker_checks import USUAL_DRIVER, load_of
from reelwright.core.verdicts import Check, Outcome
from reelwright.demo.other_cables import other_entries
from tests import signal_world as world

FT = 0.3048
SPK_14 = next(entry.cable for entry in other_entries() if entry.cable.code == "SPK-14")
FOUR_OHM = Loudspeaker(nominal_ohm=4.0, lowest_ohm=None, driver=None)


def judged(
    signal: Loudspeaker | DistributedLine, length_m: float, cable: Cable = SPK_14
) -> Judgement:
    """Return the judgement of a run between bare ends."""
    return signal.judge(world.run(cable, length_m, ends=(world.PLAIN, world.PLAIN)))


def named(judgement: Judgement, name: str) -> Check:
    """Return the check of that name."""
    return next(check for check in judgement.verdict.checks if check.name == name)


def test_a_4_ohm_box_is_looked_at_at_3_2_ohm_too() -> None:
    """11 m of 2.08 mm² are within 5 % of 4 Ω and above 5 % of 3.2 Ω: a caution, with the reach."""
    judgement = judged(FOUR_OHM, 11.0)
    assert named(judgement, "level lost in the cable").outcome is Outcome.GOOD
    lowest = named(judgement, "level at its lowest impedance")
    assert lowest.outcome is Outcome.CAUTION
    assert lowest.value == pytest.approx(20 * np.log10(1 + 2 * 8.286e-3 * 11 / 3.2))
    assert "up to 10" in lowest.sentence
    assert judgement.verdict.works


def test_a_stated_lowest_impedance_decides() -> None:
    """The same 3.2 Ω, stated, are what the 5 % are taken of: the run is too long."""
    stated = dataclasses.replace(FOUR_OHM, lowest_ohm=3.2)
    judgement = judged(stated, 11.0)
    assert judgement.verdict.outcome is Outcome.BAD
    assert judgement.length_at_50_m == pytest.approx(0.05 * 3.2 / (2 * 8.286e-3), rel=1e-6)
    assert "falls to 3.2\u202fΩ" in judgement.sentence
    assert "level at its lowest impedance" not in {c.name for c in judgement.verdict.checks}


def test_a_usual_woofer_falls_to_the_lowest_impedance_assumed() -> None:
    """Without a curve the usual one is taken in proportion: 80 % of nominal at its lowest."""
    load = load_of(nominal_ohm=4.0, lowest_ohm=None, driver=None)
    assert load.driver.lowest_ohm == pytest.approx(3.2)
    assert not load.driver_stated
    assert load_of(nominal_ohm=4.0, lowest_ohm=2.6, driver=None).driver.lowest_ohm == pytest.approx(
        2.6
    )
    assert load_of(nominal_ohm=8.0, lowest_ohm=None, driver=USUAL_DRIVER).lowest_ohm == (
        pytest.approx(USUAL_DRIVER.lowest_ohm)
    )


def test_the_evenness_is_that_of_the_exact_response() -> None:
    """The unevenness is the level at the lowest impedance less that at resonance, nearly."""
    judgement = judged(FOUR_OHM, 8.0)
    even = named(judgement, "evenness of the response")
    lowest = float(named(judgement, "level at its lowest impedance").value or 0)
    assert lowest - 0.05 < float(even.value or 0) < lowest
    assert "assumed" in even.sentence


def test_a_stated_curve_is_used_and_said() -> None:
    """An even impedance is touched less than a usual woofer's: by the cable's own rise only."""
    even = Driver(
        coil_ohm=7.5, coil_henry=0.0, resonance_hz=60.0, mechanical_q=1.0, electrical_q=50.0
    )
    check, usual = (
        named(
            judged(Loudspeaker(nominal_ohm=8.0, lowest_ohm=None, driver=driver), 12.0),
            "evenness of the response",
        )
        for driver in (even, None)
    )
    assert float(check.value or 0) < 0.6 * float(usual.value or 0)
    assert "its stated impedance curve" in check.sentence


def test_damping_is_told_with_its_assumption() -> None:
    """Z over loop and amplifier; a loop far too long is a caution of its own."""
    near, far = judged(FOUR_OHM, 8.0), judged(FOUR_OHM, 30.0)
    damping = named(near, "damping factor")
    assert damping.value == pytest.approx(4 / (2 * 8.286e-3 * 8 + 0.04))
    assert "assumed" in damping.sentence
    assert named(far, "damping factor").outcome is Outcome.CAUTION


def test_a_sheet_without_cores_leaves_the_response_out() -> None:
    """Where spacing is not stated there is no inductance, and no answer is held for it."""
    judgement = judged(FOUR_OHM, 5.0, world.SPK_14)
    assert "evenness of the response" not in {c.name for c in judgement.verdict.checks}
    assert judgement.verdict.outcome is Outcome.GOOD


def test_a_measured_lot_and_heat_are_in_the_level() -> None:
    """10 % more resistance on the lot is 10 % less reach, 40 °C another 7.9 %."""
    lot = dataclasses.replace(
        world.lot(SPK_14, 0.6),
        resistance_conductor_ohm_per_m=LotMeasure(value=9.1146e-3, relative_uncertainty=0.005),
    )
    book, measured, warm = (
        FOUR_OHM.judge(world.run(SPK_14, 5.0, lot_of=of, celsius=celsius)).length_at_50_m
        for of, celsius in ((None, 20.0), (lot, 20.0), (lot, 40.0))
    )
    assert book is not None
    assert measured is not None
    assert warm is not None
    assert book / measured == pytest.approx(1.1, rel=1e-6)
    assert measured / warm == pytest.approx(1.0786, rel=1e-6)


def test_loudspeakers_of_nothing_are_refused() -> None:
    """No ohms are no loudspeaker."""
    with pytest.raises(BadValue, match="nominal_ohm"):
        Loudspeaker(nominal_ohm=0.0, lowest_ohm=None, driver=None)
    with pytest.raises(BadValue, match="lowest_ohm"):
        dataclasses.replace(FOUR_OHM, lowest_ohm=-1.0)


UNEQUAL = DistributedLine(
    line_v=70.7, taps_w=(15.0, 15.0, 15.0, 15.0, 30.0, 30.0), between_m=(20 * FT,) * 5
)


def test_a_line_names_its_unequal_loudspeakers() -> None:
    """Four of 15 W and two of 30 W take 120 W, and are told apart."""
    assert UNEQUAL.name == "70 V loudspeaker line, 4 × 15 W + 2 × 30 W"
    assert UNEQUAL.total_w == 120.0
    sentence = judged(UNEQUAL, 360 * FT).sentence.replace("\u202f", " ")
    assert "4 loudspeakers of 15 W and 2 loudspeakers of 30 W" in sentence


def test_the_heavy_loudspeakers_at_the_far_end_lose_more() -> None:
    """The same 120 W with its 30 W boxes first fall less at the last one."""
    turned = dataclasses.replace(UNEQUAL, taps_w=tuple(reversed(UNEQUAL.taps_w)))
    far, near = (
        named(judged(line, 360 * FT), "level at the last loudspeaker").value
        for line in (UNEQUAL, turned)
    )
    assert far is not None
    assert near is not None
    assert far > near


def test_a_higher_tap_voltage_reaches_further() -> None:
    """The same watts from 100 V fall by about half of what they fall from 70.7 V."""
    falls = {
        volts: float(
            named(
                judged(UNEQUAL.with_line_v(volts), 360 * FT), "level at the last loudspeaker"
            ).value
            or 0
        )
        for volts in (25.0, 70.7, 100.0)
    }
    assert falls[25.0] > falls[70.7] > falls[100.0]
    assert falls[70.7] / falls[100.0] == pytest.approx(2.0, rel=0.05)
    assert UNEQUAL.with_line_v(100.0).taps_w == UNEQUAL.taps_w
    assert UNEQUAL.with_line_v(100.0).name.startswith("100 V")


@pytest.mark.parametrize(
    "change",
    [
        {"taps_w": ()},
        {"taps_w": (15.0, -1.0)},
        {"between_m": ()},
        {"between_m": (float("inf"),)},
        {"line_v": 0.0},
    ],
)
def test_lines_that_cannot_be_are_refused(change: dict[str, object]) -> None:
    """A line has a voltage, taps that take something, and one way between each two."""
    sound = {"line_v": 70.7, "taps_w": (15.0, 30.0), "between_m": (5.0,), **change}
    with pytest.raises(BadValue, match=next(iter(change))):
        DistributedLine(**sound)  # type: ignore[arg-type]


def test_an_even_line_is_a_line() -> None:
    """Alike and evenly spaced is one case of many."""
    assert even_line(line_v=70.7, taps=3, tap_w=6.0, spacing_m=2.0) == DistributedLine(
        line_v=70.7, taps_w=(6.0, 6.0, 6.0), between_m=(2.0, 2.0)
    )
    with pytest.raises(BadValue, match="taps_w"):
        even_line(line_v=70.7, taps=0, tap_w=6.0, spacing_m=2.0)
