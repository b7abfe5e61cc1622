"""Analogue sound as customers name it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.physics.driver import Driver
from reelwright.core.signals import Signal, read_signal
from reelwright.core.signals.cartridge import Cartridge
from reelwright.core.signals.distributed_line import DistributedLine
from reelwright.core.signals.instrument_pickup import InstrumentPickup
from reelwright.core.signals.loudspeaker import Loudspeaker
from reelwright.core.signals.low_frequency_effects import LowFrequencyEffects

FT = 0.3048


def loudspeaker(nominal_ohm: float, lowest_ohm: float | None = None) -> Loudspeaker:
    """Return a loudspeaker of which no curve is known."""
    return Loudspeaker(nominal_ohm=nominal_ohm, lowest_ohm=lowest_ohm, driver=None)


def cartridge(
    low_pf: float, high_pf: float, input_pf: float, coil_henry: float | None, coil_ohm: float | None
) -> Cartridge:
    """Return a cartridge from figures as they are printed."""
    return Cartridge(
        lowest_f=low_pf * 1e-12,
        highest_f=high_pf * 1e-12,
        input_f=input_pf * 1e-12,
        coil_henry=coil_henry,
        coil_ohm=coil_ohm,
    )


@pytest.mark.parametrize(
    ("typed", "signal"),
    [
        ("subwoofer line", LowFrequencyEffects()),
        ("LFE", LowFrequencyEffects()),
        ("line level to an active sub-woofer", LowFrequencyEffects()),
        ("subwoofer, 4 ohm", loudspeaker(4.0)),
        ("loudspeaker 4 ohm, minimum 3.2 ohm", loudspeaker(4.0, 3.2)),
        ("speaker, min. 2.8 Ω, nominal 4 Ω", loudspeaker(4.0, 2.8)),
        ("8 ohm speakers that dip to 5.5 ohms", loudspeaker(8.0, 5.5)),
        ("speaker 8 ohm, 6,4 ohm minimum", loudspeaker(8.0, 6.4)),
        (
            "loudspeaker 8 ohm, Re 6, Le 0.5 mH, fs 60 Hz, Qms 5, Qes 0.5",
            Loudspeaker(
                nominal_ohm=8.0,
                lowest_ohm=None,
                driver=Driver(
                    coil_ohm=6.0,
                    coil_henry=0.5e-3,
                    resonance_hz=60.0,
                    mechanical_q=5.0,
                    electrical_q=0.5,
                ),
            ),
        ),
        ("cartridge 150 to 300 pF, input 100 pF", cartridge(150, 300, 100, None, None)),
        ("MM cartridge, 150-300pF, 47 k input, 120 pF at the input, 500 mH, 750 ohm",
         cartridge(150, 300, 120, 0.5, 750.0)),
        ("turntable to phono stage 50 pF; cartridge wants 200 pF",
         cartridge(0, 200, 50, None, None)),
        ("guitar lead", InstrumentPickup(pickup=None)),
        ("bass guitar pickup", InstrumentPickup(pickup=None)),
        ("instrument level", InstrumentPickup(pickup=None)),
        (
            "70 V, 4 x 15 W and 2 x 30 W, 20 ft apart",
            DistributedLine(
                line_v=70.7, taps_w=(15.0,) * 4 + (30.0,) * 2, between_m=(20 * FT,) * 5
            ),
        ),
        (
            "100 V line, 2 x 6 W, 1 x 12 W, 5 and 7.5 m apart",
            DistributedLine(line_v=100.0, taps_w=(6.0, 6.0, 12.0), between_m=(5.0, 7.5)),
        ),
        (
            "25 V speaker line, 3 x 5 W, 3 m apart",
            DistributedLine(line_v=25.0, taps_w=(5.0,) * 3, between_m=(3.0, 3.0)),
        ),
        (
            "70 V line, first at 100 m, 20 ft apart, 2 x 15 W",
            DistributedLine(line_v=70.7, taps_w=(15.0, 15.0), between_m=(20 * FT,)),
        ),
    ],
)  # fmt: skip
def test_words_of_customers_are_read(typed: str, signal: Signal) -> None:
    """What is typed is the signal meant."""
    reading = read_signal(typed)
    assert reading.signal is not None, reading.question
    if isinstance(signal, Cartridge):
        assert isinstance(reading.signal, Cartridge)
        assert reading.signal.lowest_f == pytest.approx(signal.lowest_f)
        assert reading.signal.highest_f == pytest.approx(signal.highest_f)
        assert reading.signal.input_f == pytest.approx(signal.input_f)
        assert (reading.signal.coil_henry, reading.signal.coil_ohm) == (
            signal.coil_henry,
            signal.coil_ohm,
        )
    elif isinstance(signal, DistributedLine):
        assert isinstance(reading.signal, DistributedLine)
        assert reading.signal.line_v == signal.line_v
        assert reading.signal.taps_w == signal.taps_w
        assert reading.signal.between_m == pytest.approx(signal.between_m)
    else:
        assert reading.signal == signal


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("subwoofer", "at line level"),
        ("turntable", "in pF"),
        ("cartridge 200 pF", "what has the input"),
        ("cartridge, input 100 pF", "Which does yours want"),
        ("cartridge 300 to 150 pF, input 100 pF", "cannot be meant"),
        ("pick-up", "of a guitar or other instrument, or the cartridge"),
        ("loudspeaker 4 ohm, minimum 6 ohm", "which is which"),
        ("loudspeaker, minimum 3.2 ohm", "nominal impedance"),
        ("70 V, 4 x 15 W and 0 x 30 W, 20 ft apart", "above zero"),
        ("70 V, 4 x 15 W, 20, 30 ft apart", "how far they stand apart"),
        ("70 V, 900 x 15 W, 1 m apart", "above zero"),
    ],
)
def test_what_does_not_settle_the_signal_is_asked(typed: str, asked: str) -> None:
    """A figure that is missing or that contradicts another becomes a question."""
    reading = read_signal(typed)
    assert reading.signal is None
    assert reading.question is not None
    assert asked in reading.question


def test_what_was_assumed_is_said() -> None:
    """A coil and a pickup that nobody described are marked as assumed."""
    assert "500 mH" in read_signal("cartridge 150 to 300 pF, input 100 pF").assumed[0]
    assert "2.5 H" in read_signal("guitar cable").assumed[0]
    told = "cartridge 150 to 300 pF, input 100 pF, 600 mH, 1.2 kohm"
    assert read_signal(told).assumed == ()


@given(
    st.sampled_from(["cartridge ", "subwoofer ", "guitar lead ", "speaker ", "70 V line "]),
    st.text(alphabet="0123456789.,- xwpfmhkohtranidus'VΩ", max_size=60),
)
def test_any_figures_are_answered(start: str, rest: str) -> None:
    """No figures raise: it is a signal or a question."""
    reading = read_signal(start + rest)
    assert (reading.signal is None) != (reading.question is None)
