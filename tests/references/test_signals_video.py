"""Serial and analogue video: rates, limits and levels against standards and equipment manuals."""

from functools import partial

from reelwright.core.signals.component_video import SKEW_LIMIT
from reelwright.core.signals.end_reflections import EQUIPMENT_75
from reelwright.core.signals.run_eye import RunEyes, eyes_of_run
from reelwright.core.signals.serial_reach import LAUNCHED_V
from reelwright.core.signals.serial_video import RATES_BIT_PER_S, SerialVideo
from tests import signal_world as world
from tests.references.harness import (
    Basis,
    LeftOut,
    absolute,
    exact,
    reference_test,
    relative,
    rows_of,
)

_RATES = "encyclopedia articles on the serial digital interface and on SMPTE 259M"
_NAMED = exact(because="the value is named, not measured")


_check = rows_of("core.signals")


def _nearest(rate_bit_per_s: float) -> float:
    """The known rate that lies nearest."""
    return float(min(RATES_BIT_PER_S, key=lambda rate: abs(rate - rate_bit_per_s)))


def _half_hz(rate_bit_per_s: int) -> float:
    return SerialVideo(rate_bit_per_s=rate_bit_per_s).limit.frequency_hz


_COAX = world.cable(
    "VID-70 with its screen",
    world.sheet(74.4, 54.0, 4.019, 20.93, (1.93, 7.26, 17.72, 25.78), screen_ohm_per_km=7.5),
)


def _closes_at_db() -> float:
    """The loss at half the clock of 1.485 Gb/s at which the eye closes as it arrives."""
    low, high = 20.0, 120.0
    while high - low > 0.1:
        middle = (low + high) / 2
        found = eyes_of_run(world.run(_COAX, middle), rate_bit_per_s=1.485e9)
        assert isinstance(found, RunEyes)
        low, high = (middle, high) if found.arrives.height_ratio > 0 else (low, middle)
    at_end = eyes_of_run(world.run(_COAX, low), rate_bit_per_s=1.485e9)
    assert isinstance(at_end, RunEyes)
    return at_end.loss_db


CHECKS = (
    *(
        _check(f"sdi.rate.{name}", f"bit rate of {standard}", source, basis, rate, "bit/s", _NAMED,
               partial(_nearest, rate))
        for name, standard, source, basis, rate in (
            ("259M-C", "SMPTE 259M-C", _RATES, Basis.SEEN, 270e6),
            ("292", "SMPTE 292", _RATES, Basis.SEEN, 1.485e9),
            ("424", "SMPTE 424", _RATES, Basis.SEEN, 2.97e9),
            ("2081", "SMPTE ST 2081-1", "SMPTE ST 2081-1:2015", Basis.MEMORY, 5.94e9),
            ("2082", "SMPTE ST 2082-1", "SMPTE ST 2082-1:2015", Basis.MEMORY, 11.88e9),
        )
    ),
    *(
        _check(f"sdi.half.{name}", f"frequency at which the loss of {name} is quoted",
               "half the bit rate", Basis.COMPUTED, expected, "Hz", _NAMED,
               partial(_half_hz, rate))
        for name, rate, expected in (
            ("2081-1", 5_940_000_000, 2.97e9),
            ("2082-1", 11_880_000_000, 5.94e9),
        )
    ),
    _check("sdi.loss.424", "cable loss at half the clock, 2.97 Gb/s", "SMPTE ST 424, scope",
           Basis.MEMORY, 20.0, "dB", _NAMED,
           lambda: SerialVideo(rate_bit_per_s=2_970_000_000).limit.limit_db),
    _check("sdi.amp", "level sent into 75 Ω, peak to peak",
           "output tables of two equipment manuals (makers withheld)", Basis.SEEN, 0.8, "V",
           _NAMED, lambda: LAUNCHED_V),
    _check("sdi.z", "impedance of cable and connector",
           "output tables of two equipment manuals (makers withheld)", Basis.SEEN, 75.0, "Ω",
           _NAMED,
           lambda: SerialVideo(rate_bit_per_s=1_485_000_000).needs.impedance_ohm or 0.0),
    _check("sdi.rl.292", "return loss of a device, 5 MHz to 1.485 GHz",
           "waveform monitor's manual, table of physical characteristics (maker withheld)",
           Basis.SEEN, 15.0, "dB", _NAMED, lambda: EQUIPMENT_75.limit_db(1.485e9)),
    *(
        _check(f"sdi.rl.{name}", f"return loss of a device by ST {standard} at {hz / 1e9:g} GHz",
               f"SMPTE ST {standard}, coaxial interface clause", Basis.MEMORY, expected, "dB",
               _NAMED, partial(EQUIPMENT_75.limit_db, hz))
        for name, standard, hz, expected in (
            ("424.5 MHz-1.485 GHz", "424", 1.485e9, 15.0),
            ("424.1.485-2.97 GHz", "424", 2.97e9, 10.0),
            ("2081-1.5 MHz-1.485 GHz", "2081-1", 1e9, 15.0),
            ("2081-1.1.485-3 GHz", "2081-1", 3e9, 10.0),
            ("2081-1.3-6 GHz", "2081-1", 5.94e9, 7.0),
            ("2082-1.5 MHz-1.485 GHz", "2082-1", 5e6, 15.0),
        )
    ),
    _check("sdi.ui.292", "length of a bit at 1.485 Gb/s", "1/1.485 GHz, on paper", Basis.COMPUTED,
           673.4, "ps", absolute(0.05, because="four digits are given"),
           lambda: 1e12 / RATES_BIT_PER_S[1]),
    _check("vid.yc.skew", "skew between brightness and colour",
           "studio practice, EBU Tech. N10; an equipment manual asks for less than 10 ns",
           Basis.MEMORY, 10.0, "ns", _NAMED, lambda: SKEW_LIMIT.limit_s * 1e9),
    _check("signal.serial.closes", "loss at half the clock at which an unequalised eye closes",
           "closed form of a √f line without a low-pass, worked out to twenty digits",
           Basis.COMPUTED, 10.5885, "dB",
           relative(0.12, because="our receiver's low-pass takes a tenth of it, noise a hundredth"),
           _closes_at_db),
)  # fmt: skip
test_video = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("sdi.rate.259M-A", "sdi.rate.259M-B", "sdi.rate.259M-D"),
        quantity="serial video at 143, 177 and 360 Mb/s",
        reason="composite and wide-screen rates: the customer is asked, they are not judged",
    ),
    LeftOut(
        names=("sdi.rise.259", "sdi.rise.292", "sdi.rise.424", "sdi.rise.2081-1"),
        quantity="rise and fall time of the source",
        reason="a property of the source; an eye is drawn for an edge faster than its low-pass",
    ),
    LeftOut(
        names=("sdi.jit.292.t", "sdi.jit.292.a", "sdi.jit.259.a", "sdi.jit.424", "sdi.jit.2081-1",
               "sdi.jit.2082-1"),
        quantity="jitter of the source",
        reason="a property of the source; no passive cable adds to it but through its eye",
    ),
)  # fmt: skip
