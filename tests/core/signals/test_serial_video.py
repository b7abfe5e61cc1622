"""Serial video: what comes back, the one wave, how far physics would go, why a limit looks odd."""

import dataclasses
import math
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.physics.joint import ShortSection
from reelwright.core.physics.mode_limit import te11_cutoff_hz
from reelwright.core.physics.receiver import root_loss
from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.physics.terminations import near_reflection, return_loss
from reelwright.core.physics.two_port import cascade, line
from reelwright.core.signals import serial_reach
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.end_reflections import (
    CHECK_NAME,
    EQUIPMENT_75,
    SECTION_DELAY_S,
    EquipmentRule,
    sent_back,
)
from reelwright.core.signals.one_wave import one_wave_check, one_wave_limit_hz
from reelwright.core.signals.serial_reach import (
    ERROR_PROBABILITY,
    ceiling_db,
    error_probability,
    matched_receiver,
)
from reelwright.core.signals.serial_video import RATES_BIT_PER_S, SerialVideo
from reelwright.core.verdicts import Basis, Outcome
from tests import signal_world as world

THIN_PLUG = world.connector("thin plug", impedance_ohm=50.0)


def with_dielectric(cable: Cable, *, inner_m: float, outer_m: float) -> Cable:
    """Return the cable with a conductor and a dielectric of these diameters."""
    conductor, jacket = cable.layers[0], cable.layers[-1]
    return dataclasses.replace(
        cable,
        layers=(
            dataclasses.replace(conductor, outside_diameter_m=inner_m),
            Layer(
                role=LayerRole.DIELECTRIC,
                material="foam",
                outside_diameter_m=outer_m,
                tolerance_m=0.0,
            ),
            dataclasses.replace(jacket, outside_diameter_m=outer_m + 2e-3),
        ),
    )


@pytest.mark.parametrize("rate", RATES_BIT_PER_S)
def test_the_ceiling_is_where_the_error_rate_passes_1e_12(rate: int) -> None:
    """At the ceiling a bit in 10^12 or fewer is wrong, a tenth of a decibel above it more are."""
    ceiling = ceiling_db(rate)
    assert error_probability(rate_bit_per_s=rate, loss_db=ceiling) <= ERROR_PROBABILITY
    assert error_probability(rate_bit_per_s=rate, loss_db=ceiling + 0.1) > ERROR_PROBABILITY


def test_the_ceiling_falls_with_the_rate_and_lies_above_every_promise() -> None:
    """More bandwidth lets in more heat; physics allows more than any limit asks for."""
    ceilings = [ceiling_db(rate) for rate in RATES_BIT_PER_S]
    assert ceilings == sorted(ceilings, reverse=True)
    for rate, ceiling in zip(RATES_BIT_PER_S, ceilings, strict=True):
        assert ceiling > SerialVideo(rate_bit_per_s=rate).limit.limit_db + 10


@pytest.mark.parametrize(
    ("corner", "level"), [(0.45, 0.3), (0.55, 0.3), (0.6, 0.25), (0.5, 0.35), (0.7, 1.0)]
)
def test_no_neighbouring_equaliser_bears_much_more(
    corner: float, level: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Other corners and levels bear at most 1 dB above the one that was chosen."""
    rate, ours = 2_970_000_000, ceiling_db(2_970_000_000)
    monkeypatch.setattr(serial_reach, "CORNER_RATIO", corner)
    monkeypatch.setattr(serial_reach, "LEVELS_OFF_RATIO", level)
    assert error_probability(rate_bit_per_s=rate, loss_db=ours + 1) > ERROR_PROBABILITY


def test_the_matched_receiver_gives_the_level_back() -> None:
    """Cable and equaliser together are flat within 1 dB to a twentieth of the rate."""
    receiver = matched_receiver(rate_bit_per_s=2.97e9, loss_db=40.0)
    low = np.geomspace(1e4, 0.05 * 2.97e9, 20)
    whole = receiver.behind(lambda frequency: root_loss(frequency, loss_db=40.0, at_hz=1.485e9))(
        low
    )
    assert np.abs(20 * np.log10(np.abs(whole))).max() < 1.0


@pytest.mark.parametrize("loss_db", [0.0, -3.0])
def test_a_ceiling_without_loss_is_refused(loss_db: float) -> None:
    """Nothing to equalise is no question."""
    with pytest.raises(BadValue, match="loss_db"):
        error_probability(rate_bit_per_s=2.97e9, loss_db=loss_db)


@given(rate=st.sampled_from(RATES_BIT_PER_S), length_m=st.floats(1.0, 500.0))
def test_what_is_possible_lies_beyond_what_is_promised(rate: int, length_m: float) -> None:
    """The possible length is the one whose loss is the ceiling, and never below the limit's."""
    judged = SerialVideo(rate_bit_per_s=rate).judge(world.run(world.VID_60, length_m))
    assert judged.possible is not None
    assert judged.length_at_50_m is not None
    assert judged.possible.length_m > judged.length_at_50_m
    assert judged.possible.source.basis is Basis.COMPUTED
    assert "nobody promises" in judged.possible.sentence
    budget = SerialVideo(rate_bit_per_s=rate).budget(world.run(world.VID_60, length_m))
    assert isinstance(budget, Budget)
    assert budget.used_at(judged.possible.length_m) == pytest.approx(ceiling_db(rate), abs=1e-5)


def test_a_cable_that_cannot_carry_it_has_nothing_possible() -> None:
    """A pair gets no length beside its no, and an unknown loss none either."""
    signal = SerialVideo(rate_bit_per_s=1_485_000_000)
    assert signal.judge(world.run(world.AUD_BP, 10.0)).possible is None
    unknown = world.cable("no losses", world.sheet(75.0))
    assert signal.judge(world.run(unknown, 10.0)).possible is None
    assert signal.possible(world.run(unknown, 10.0)) is None


def test_the_odd_limit_is_explained_to_the_customer_where_it_is_asked() -> None:
    """At 2.97 Gb/s the sentence says why the faster 5.94 may go further; at no other rate."""
    for length_m in (20.0, 70.0, 500.0):
        for rate in RATES_BIT_PER_S:
            judged = SerialVideo(rate_bit_per_s=rate).judge(world.run(world.VID_70, length_m))
            assert ("stronger equalisers" in judged.sentence) is (rate == 2_970_000_000)


def test_limits_that_were_read_are_told_from_those_remembered() -> None:
    """ST 292 was read as transcribed, the 40 dB in a trade chart, 259 and 424 are from memory."""
    bases = [SerialVideo(rate_bit_per_s=rate).limit.source.basis for rate in RATES_BIT_PER_S]
    assert bases == [
        Basis.FROM_MEMORY,
        Basis.STANDARD,
        Basis.FROM_MEMORY,
        Basis.PUBLISHED,
        Basis.PUBLISHED,
    ]


def exact_worst_db(length_m: float, ohms: tuple[float, float], frequencies: np.ndarray) -> float:
    """Return the smallest return loss [dB] of plug, VID-70 and plug over frequencies [Hz]."""
    found = line_of_sheet(world.VID_70, None)
    assert isinstance(found, SheetLine)
    middle = line(
        parameters=found.parameters(frequencies, temperature_celsius=20.0),
        length_m=length_m,
        reference_ohm=75.0,
    )
    near, far = (
        ShortSection(impedance_ohm=each, delay_s=SECTION_DELAY_S, loss_at_1_ghz_db=0.0).two_port(
            frequency_hz=frequencies, reference_ohm=75.0
        )
        for each in ohms
    )
    back = near_reflection(cascade(near, middle, far), load_ohm=75.0)
    return float(return_loss(back).min())


@pytest.mark.parametrize("length_m", [0.5, 3.0, 30.0])
def test_no_exact_cascade_sends_back_more_than_the_worst_phase(length_m: float) -> None:
    """Plugs 5 % high and low around the real line, every phase: the bound holds, within 2 dB."""
    frequencies = np.linspace(1.3e9, 1.485e9, 4001)
    found = sent_back(
        world.run(world.VID_70, length_m), EQUIPMENT_75, nominal_ohm=75.0, highest_hz=1.485e9
    )
    assert found is not None
    bound = found.reflections.worst_return_loss_db
    exact = min(
        exact_worst_db(length_m, ohms, frequencies)
        for ohms in ((71.25, 71.25), (78.75, 71.25), (71.25, 78.75), (78.75, 78.75))
    )
    assert bound <= exact <= bound + 2.0


def test_ends_of_another_class_are_told_and_do_not_hold_a_good_run() -> None:
    """A 50-ohm plug gets a caution of its own; the bound says what it sends back."""
    signal = SerialVideo(rate_bit_per_s=2_970_000_000)
    run = world.run(world.VID_70, 10.0, ends=(THIN_PLUG, THIN_PLUG))
    found = next(check for check in signal.judge(run).verdict.checks if check.name == CHECK_NAME)
    assert found.outcome is Outcome.CAUTION
    assert found.margin is not None
    assert found.margin < 0
    sound = signal.judge(world.run(world.VID_70, 10.0))
    assert sound.verdict.outcome is Outcome.GOOD
    good = next(check for check in sound.verdict.checks if check.name == CHECK_NAME)
    assert re.search(r"lies \d\d\u202fdB below what is sent at worst", good.sentence)


@given(
    length_m=st.floats(0.1, 400.0),
    adapters=st.integers(0, 3),
    rate=st.sampled_from(RATES_BIT_PER_S),
)
def test_more_joints_send_back_more_and_typical_is_less_than_worst(
    length_m: float, adapters: int, rate: int
) -> None:
    """Return loss falls with every adapter; what is typical never exceeds the worst phase."""
    with_them, without = (
        sent_back(
            world.run(world.VID_60, length_m, adapters=count),
            EQUIPMENT_75,
            nominal_ohm=75.0,
            highest_hz=float(rate),
        )
        for count in (adapters, 0)
    )
    assert with_them is not None
    assert without is not None
    assert with_them.margin_db <= without.margin_db + 1e-9
    assert with_them.reflections.typical_reflection <= with_them.reflections.worst_reflection


def test_return_loss_is_left_out_where_it_is_not_known() -> None:
    """A plug made to no impedance or a cable without losses gives no figure."""
    plain = world.run(world.VID_70, 10.0, ends=(world.PLAIN, world.BNC))
    assert sent_back(plain, EQUIPMENT_75, nominal_ohm=75.0, highest_hz=1e9) is None
    unknown = world.run(world.cable("no losses", world.sheet(75.0)), 10.0)
    assert sent_back(unknown, EQUIPMENT_75, nominal_ohm=75.0, highest_hz=1e9) is None


def test_a_rule_or_a_band_that_is_none_is_refused() -> None:
    """Falling steps, no step, a limit of zero and a band below 5 MHz are refused by name."""
    source = EQUIPMENT_75.source
    for steps in ((), ((2e9, 10.0), (1e9, 15.0)), ((1e9, 0.0),)):
        with pytest.raises(BadValue, match="steps"):
            EquipmentRule(steps=steps, source=source)
    with pytest.raises(BadValue, match="highest_hz"):
        sent_back(world.run(world.VID_70, 9.0), EQUIPMENT_75, nominal_ohm=75.0, highest_hz=1e6)


def test_the_mode_limit_is_never_too_high() -> None:
    """Far from it an estimate stands in, at most 16 % low; near it the exact root is used."""
    cable = with_dielectric(world.VID_70, inner_m=1.024e-3, outer_m=4.57e-3)
    exact = 0.95 * te11_cutoff_hz(
        inner_m=1.024e-3,
        outer_m=4.57e-3,
        relative_permittivity=(299_792_458 * 4.019e-9) ** 2,
    )
    near = one_wave_limit_hz(cable, None, wanted_hz=25e9)
    far = one_wave_limit_hz(cable, None, wanted_hz=1e9)
    assert near == pytest.approx(exact, rel=1e-12)
    assert far is not None
    assert 0.84 * exact < far <= exact


@given(ratio=st.floats(1.05, 50.0), outer_mm=st.floats(1.0, 40.0))
def test_the_estimate_stays_below_the_exact_cut_off(ratio: float, outer_mm: float) -> None:
    """For any shape, what is promised without the exact root lies below the exact one."""
    outer_m = outer_mm / 1e3
    cable = with_dielectric(world.VID_70, inner_m=outer_m / ratio, outer_m=outer_m)
    far = one_wave_limit_hz(cable, None, wanted_hz=1.0)
    exact = te11_cutoff_hz(
        inner_m=outer_m / ratio,
        outer_m=outer_m,
        relative_permittivity=(299_792_458 * 4.019e-9) ** 2,
    )
    assert far is not None
    assert far <= exact
    assert math.isfinite(far)


def test_a_thick_line_is_told_before_a_second_wave_travels() -> None:
    """At 11.88 Gb/s a dielectric of 13 mm is too thick, one of 4.57 mm is not."""
    thin, thick = (
        world.run(with_dielectric(world.VID_70, inner_m=inner, outer_m=outer), 10.0)
        for inner, outer in ((1.024e-3, 4.57e-3), (2.9e-3, 13e-3))
    )
    assert one_wave_check(thin, highest_hz=11.88e9)[0].outcome is Outcome.GOOD
    told = one_wave_check(thick, highest_hz=11.88e9)[0]
    assert told.outcome is Outcome.CAUTION
    assert "second wave" in told.sentence
    assert one_wave_check(world.run(world.VID_70, 10.0), highest_hz=11.88e9) == ()


@pytest.mark.parametrize("rate", [0, -1, 1_000_000_000])
def test_an_unknown_rate_is_refused_with_those_that_are_known(rate: int) -> None:
    """The fault names the field and every rate there is."""
    with pytest.raises(BadValue, match="rate_bit_per_s"):
        SerialVideo(rate_bit_per_s=rate)
