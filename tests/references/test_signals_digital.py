"""Digital audio, clocks and control: levels, cells, lengths and eyes that others have stated."""

from reelwright.core.parts.impedance import impedance_class
from reelwright.core.physics.root_line import (
    RISE_OVER_TAU,
    loss_for_opening_db,
    worst_opening_ratio,
)
from reelwright.core.signals import digital_audio_75 as consumer
from reelwright.core.signals import digital_audio_110 as balanced
from reelwright.core.signals import professional_digital_audio_75 as professional
from reelwright.core.signals.biphase import cell_rate_hz
from reelwright.core.signals.echo import MOVED_LIMIT
from reelwright.core.signals.reference_sync import SUBCARRIER_HZ
from reelwright.core.signals.termination import Ending, FarEnd
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

_FRAME = "IEC 60958-4-4:2016, clauses 3 to 5 and annex B.1.2, preview text"
_TABLES = "equipment manual, tables 4-6 and 4-7, citing AES3 and SMPTE 276M (maker withheld)"
_SUMMARY = "published summaries of the IEC 958 interface (two copies)"
_PAPER = "mpmath, 40 digits, of the peak-distortion formula for a √f line"


_check = rows_of("core.signals", others={"eye": "core.physics"})


_WHOLE = exact(because="the number is stated whole")


def _longest_balanced_m() -> float:
    ends = (world.PLAIN, world.PLAIN)
    signal = balanced.DigitalAudio110(sample_rate_hz=48_000)
    return signal.judge(world.run(world.AUD_BP, 10.0, ends=ends)).length_at_50_m or 0.0


def _balanced_band_percent() -> float:
    return 100 * impedance_class(110.0).same_fraction


CHECKS = (
    _check("audio.balanced.band", "upper end of the band in which 110 Ω are asked, 48 kHz",
           "Handbook for Sound Engineers, chapters 14 and 39", Basis.SEEN, 6_144_000.0, "Hz",
           exact(because="a product of whole numbers"), lambda: cell_rate_hz(48_000)),
    _check("audio.balanced.length", "balanced reach without equalisation, rates to 50 kHz",
           _FRAME, Basis.SEEN, 100.0, "m",
           relative(1e-8, because="found by search to a billionth"), _longest_balanced_m),
    _check("audio.balanced.launched", "weakest launch into 110 Ω", _TABLES, Basis.SEEN, 2.0, "V",
           _WHOLE, lambda: balanced.LEVELS.launched_v),
    _check("audio.balanced.eye", "least eye that a receiver reads",
           "audio measurement set manual, page A-17 (maker withheld)", Basis.SEEN, 0.2, "V",
           _WHOLE, lambda: balanced.LEVELS.needed_v),
    _check("audio.balanced.impedance", "band of the balanced line's impedance",
           "AES3 and IEC 60958-4", Basis.MEMORY, 20.0, "%", _WHOLE, _balanced_band_percent),
    _check("audio.jitter", "jitter of a transmitter's own, peak: what echoes may add",
           _FRAME, Basis.SEEN, 0.025, "cells", _WHOLE, lambda: MOVED_LIMIT),
    _check("audio.professional.return", "return loss of professional coax equipment, to 6 MHz",
           _TABLES, Basis.SEEN, 25.0, "dB", _WHOLE, lambda: professional.RETURN_LOSS_DB),
    _check("audio.professional.eye", "least eye that a professional coax receiver reads",
           "AES-3id-2001", Basis.MEMORY, 0.32, "V", _WHOLE,
           lambda: professional.LEVELS.needed_v),
    _check("audio.consumer.needed", "what a consumer receiver needs", _SUMMARY, Basis.SEEN, 0.2,
           "V", _WHOLE, lambda: consumer.LEVELS.needed_v),
    _check("audio.consumer.source", "tolerance of a consumer source's 75 Ω", _SUMMARY,
           Basis.SEEN, 20.0, "%", relative(1e-12, because="a quotient of whole numbers"),
           lambda: 100 * (1 - consumer.EQUIPMENT.source_low_ohm / 75.0)),
    *(
        _check(f"eye.root.{loss_db}", f"worst eye with {loss_db} dB at half the symbol rate",
               _PAPER, Basis.COMPUTED, opening, "1",
               absolute(5e-6, because="five decimals are given"),
               lambda loss_db=loss_db: worst_opening_ratio(float(loss_db), rise_ratio=0.0))
        for loss_db, opening in ((6, 0.39622), (8, 0.21361))
    ),
    _check("eye.root.closes", "loss at half the symbol rate that closes the eye", _PAPER,
           Basis.COMPUTED, 10.5885, "dB", absolute(1e-4, because="four decimals are given"),
           lambda: loss_for_opening_db(1e-9, rise_ratio=0.0)),
    _check("eye.root.rise", "rise from 10 to 90 % of a √f line over τ",
           "inverse complementary error functions of 0.1 and 0.9 (1.163087, 0.088856), any table",
           Basis.COMPUTED, 31.4793, "1", relative(2e-5, because="the table has five digits"),
           lambda: RISE_OVER_TAU),
    _check("clock.twice", "level lost with two terminations of 75 Ω instead of one",
           "20 log10((75 + 37.5)/(2 × 37.5)), worked out on paper", Basis.COMPUTED, 3.5218, "dB",
           absolute(0.03, because="ours counts the 10 kΩ of the last input as well"),
           lambda: Ending(far_end=FarEnd.TWICE, taps=0).lost_db),
    _check("sync.subcarrier", "colour subcarrier of the 625-line system",
           "ITU-R BT.470", Basis.MEMORY, 4_433_618.75, "Hz", _WHOLE, lambda: SUBCARRIER_HZ),
)  # fmt: skip
test_digital = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("aes.baud.48000", "aes.baud.96000", "aes.baud.192000", "rgb.skew.1024"),
        quantity="cell rates of digital audio, skew of a picture at 65 MHz",
        reason="held elsewhere on this page, under names of their own",
    ),
    LeftOut(
        names=("rgb.640x480", "rgb.800x600", "rgb.1024x768", "rgb.1600x1200", "rgb.est"),
        quantity="dot clocks of picture sizes, and an estimate of them",
        reason=(
            "the pixel clock is asked of the customer and never worked out from a picture's size: "
            "the source itself says that the estimate is too high"
        ),
    ),
)
