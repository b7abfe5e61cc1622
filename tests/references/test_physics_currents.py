"""Resistance, loudspeakers, loudspeaker lines, audio roll-off, light: against printed values."""

import numpy as np

from reelwright.core.materials.metals import COPPER
from reelwright.core.physics.audio import corner_frequency_hz, droop_db
from reelwright.core.physics.fibre import OpticalLedger
from reelwright.core.physics.ladder import tap_impedance_ohm, tap_voltages_v
from reelwright.core.physics.loudspeaker import damping_factor, level_loss_db, longest_run_m
from reelwright.core.physics.resistance import (
    LAY_FACTOR_SEVEN_STRANDS,
    loop_resistance_ohm,
    temperature_factor,
    wire_resistance_ohm_per_m,
)
from reelwright.core.quantities.constants import FOOT_M
from reelwright.core.quantities.convert import awg_diameter_m
from reelwright.core.signals.digital_audio_75 import DigitalAudio75
from reelwright.core.signals.loudspeaker import LOOP_LIMIT_FRACTION
from reelwright.core.signals.rgbhv import RgbhvVideo
from reelwright.core.signals.serial_video import SerialVideo
from tests.references.harness import (
    Basis,
    absolute,
    exact,
    reference_test,
    relative,
    rows_of,
)

_NEC = "NFPA 70, chapter 9, table 8 (uncoated copper, 75 °C), as transcribed on a web page"
_AMPLIFIER_FIGURE = "manual of a power amplifier, figure 3.4 (maker withheld)"
_AMPLIFIER_TABLE = "owner's manual of a power amplifier, table of resistances, as quoted"
_LOSSES = "web page listing losses of 100 ft by gauge and load"
_LINE_NOTE = "note on power loss by wire length, examples 1 to 3"
_PAPER = "formula and ASTM B258 solid copper, worked out on paper"
_FRAME = "IEC 60958-4-4:2016, clauses 3 to 5: 128 cells a frame"
_STRANDED = "the manual's cable is stranded, up to 4 % more than solid"
_THREE_DIGITS = "three digits are given"


_check = rows_of("core.physics", others={"signal": "core.signals"})


def _wire(awg: int, lay_factor: float = 1.0) -> float:
    return wire_resistance_ohm_per_m(
        diameter_m=awg_diameter_m(awg), metal=COPPER, lay_factor=lay_factor
    )


def _warm_ohm_per_1000ft(awg: int, lay_factor: float) -> float:
    return _wire(awg, lay_factor) * temperature_factor(75.0) * 1000 * FOOT_M


def _loop(awg: int, length_m: float) -> float:
    return loop_resistance_ohm(
        conductor_ohm_per_m=_wire(awg),
        return_ohm_per_m=_wire(awg),
        length_m=length_m,
        temperature_celsius=20.0,
    )


def _loss_of_100_ft(awg: int, nominal_ohm: float) -> float:
    return float(level_loss_db(loop_ohm=_loop(awg, 100 * FOOT_M), nominal_ohm=nominal_ohm))


def _power_through_160_ft() -> float:
    """A 75 W, 8 Ω amplifier is a fixed voltage; the cable and the loudspeaker stand in series."""
    loop_ohm = _loop(10, 160 * FOOT_M)
    voltage_squared = 75.0 * 8.0
    return voltage_squared / (8.0 + loop_ohm)


def _length_for_half_a_decibel(awg: int, line_v: float) -> float:
    """The one-way run at which a single 100 W tap has lost 0.5 dB, found on the ladder itself."""
    lengths = np.linspace(1.0, 1000.0, 99_901)
    voltages = tap_voltages_v(
        line_v=line_v,
        tap_w=100.0,
        taps=1,
        first_m=lengths,
        spacing_m=0.0,
        conductor_ohm_per_m=_wire(awg),
    )[:, 0]
    fall_db = 20 * np.log10(line_v / voltages)
    return float(np.interp(0.5, fall_db, lengths))


CHECKS = (
    *(
        _check(f"resistance.75.{awg}.{'solid' if lay == 1.0 else 'seven'}",
               f"resistance at 75 °C, {awg} AWG, {'solid' if lay == 1.0 else 'seven strands'}",
               _NEC, Basis.SEEN, printed, "Ω/1000 ft",
               relative(0.005 if lay == 1.0 else 0.01, because="three digits, 2 % of lay rounded"),
               lambda awg=awg, lay=lay: _warm_ohm_per_1000ft(awg, lay))
        for awg, lay, printed in (
            (18, 1.0, 7.77), (12, 1.0, 1.93),
            (18, LAY_FACTOR_SEVEN_STRANDS, 7.95), (16, LAY_FACTOR_SEVEN_STRANDS, 4.99),
            (14, LAY_FACTOR_SEVEN_STRANDS, 3.14), (12, LAY_FACTOR_SEVEN_STRANDS, 1.98),
        )
    ),
    *(
        _check(f"loop.{awg}.{length_m:g}", f"loop of {length_m:g} m of {awg} AWG",
               _AMPLIFIER_FIGURE, Basis.SEEN, printed, "Ω", within,
               lambda awg=awg, length_m=length_m: _loop(awg, length_m))
        for awg, length_m, printed, within in (
            (18, 2.5, 0.103, relative(0.045, because=_STRANDED)),
            (16, 2.5, 0.066, relative(0.045, because=_STRANDED)),
            (14, 20.0, 0.328, relative(0.045, because=_STRANDED)),
            (12, 2.5, 0.026, absolute(0.0015, because="two digits and stranded")),
            (10, 2.5, 0.016, absolute(0.0015, because="two digits and stranded")),
        )
    ),
    *(
        _check(f"loop.foot.{awg}", f"loop of one foot of {awg} AWG", _AMPLIFIER_TABLE, Basis.SEEN,
               printed, "Ω/ft", relative(0.03, because="stranded, and the table adds up to 2.5 %"),
               lambda awg=awg: _loop(awg, FOOT_M))
        for awg, printed in ((10, 0.00204), (12, 0.00324), (14, 0.00515), (16, 0.00819),
                             (18, 0.01302))
    ),
    *(
        _check(f"loudspeaker.loss.{awg}.{nominal:g}", f"loss of 100 ft of {awg} AWG into "
               f"{nominal:g} Ω", _LOSSES, Basis.SEEN, printed, "dB",
               relative(0.05, because="the page takes stranded wire and rounds to 0.01 dB"),
               lambda awg=awg, nominal=nominal: _loss_of_100_ft(awg, nominal))
        for awg, nominal, printed in ((18, 8.0, 1.33), (18, 16.0, 0.69), (16, 4.0, 1.65),
                                      (16, 16.0, 0.44))
    ),
    _check("loudspeaker.power", "power of a 75 W amplifier into 160 ft of 10 AWG and 8 Ω",
           _AMPLIFIER_TABLE, Basis.SEEN, 72.0, "W", absolute(0.3, because="whole watts"),
           _power_through_160_ft),
    _check("loudspeaker.rule", "loss of a loop of 5 % of the load",
           "20 log10 1.05, worked out on paper", Basis.COMPUTED, 0.4238, "dB",
           absolute(0.0001, because="four decimals are given"),
           lambda: float(level_loss_db(loop_ohm=LOOP_LIMIT_FRACTION, nominal_ohm=1.0))),
    _check("loudspeaker.damping", "damping factor at 8 Ω, loop 0.300 Ω, amplifier 8/400 Ω",
           "article on longest loudspeaker cables: 25 wanted, 0.300 Ω allowed", Basis.SEEN, 25.0,
           "1", relative(0.001, because="the article's own round numbers"),
           lambda: damping_factor(loop_ohm=0.300, amplifier_ohm=8.0 / 400, nominal_ohm=8.0)),
    *(
        _check(f"loudspeaker.longest.{awg}.{nominal:g}",
               f"longest run of {awg} AWG at 5 % of {nominal:g} Ω", _PAPER, Basis.COMPUTED,
               expected, "m", relative(0.005, because=_THREE_DIGITS),
               lambda awg=awg, nominal=nominal: longest_run_m(
                   conductor_ohm_per_m=_wire(awg), nominal_ohm=nominal,
                   fraction=LOOP_LIMIT_FRACTION))
        for awg, nominal, expected in (
            (18, 4.0, 4.77), (18, 8.0, 9.55), (16, 4.0, 7.59), (16, 8.0, 15.2), (14, 4.0, 12.1),
            (14, 8.0, 24.1), (12, 4.0, 19.2), (12, 8.0, 38.4), (10, 4.0, 30.5), (10, 8.0, 61.0),
        )
    ),
    _check("ladder.tap", "impedance of a 100 W tap at 70.7 V", _LINE_NOTE, Basis.SEEN, 49.98, "Ω",
           absolute(0.01, because="two decimals are printed"),
           lambda: tap_impedance_ohm(line_v=70.7, tap_w=100.0)),
    *(
        _check(f"ladder.longest.{awg}.{volts:g}",
               f"run of {awg} AWG to one 100 W tap at {volts:g} V that loses 0.5 dB", _PAPER,
               Basis.COMPUTED, expected, "m", relative(0.005, because=_THREE_DIGITS),
               lambda awg=awg, volts=volts: _length_for_half_a_decibel(awg, volts))
        for awg, volts, expected in ((18, 100.0, 141.0), (16, 70.7, 112.0), (14, 70.7, 179.0),
                                     (14, 100.0, 358.0), (12, 70.7, 284.0), (12, 100.0, 569.0))
    ),
    *(
        _check(f"audio.corner.{source:g}", f"−3 dB frequency of {source:g} Ω into "
               f"{capacitance * 1e12:g} pF", "1/(2πRC), worked out on paper", Basis.COMPUTED,
               expected, "Hz", relative(1e-5, because="six digits are given"),
               lambda source=source, capacitance=capacitance: corner_frequency_hz(
                   source_ohm=source, capacitance_f=capacitance))
        for source, capacitance, expected in ((10e3, 1e-9, 15915.5), (600.0, 10e-9, 26525.8))
    ),
    _check("audio.droop.17k", "droop at 17 kHz of R·C = 2.908 µs",
           "10 log10(1 + (ωRC)²), worked out on paper", Basis.COMPUTED, 0.4, "dB",
           absolute(0.0005, because="R·C is given to four digits"),
           lambda: float(droop_db(source_ohm=1000.0, capacitance_f=2.908e-9, frequency_hz=17e3))),
    _check("audio.droop.20k", "droop at 20 kHz of 600 Ω into 100 m of 100 pF/m",
           "10 log10(1 + (ωRC)²), worked out on paper", Basis.COMPUTED, 1.9548, "dB",
           absolute(0.0001, because="four decimals are given"),
           lambda: float(droop_db(source_ohm=600.0, capacitance_f=10e-9, frequency_hz=20e3))),
    _check("fibre.budget", "reach of a 6 dB budget with 1 dB held back at 0.2 dB/m",
           "(6 − 1)/0.2, worked out on paper", Basis.COMPUTED, 25.0, "m",
           relative(1e-6, because="exact but for a float's rounding"),
           lambda: OpticalLedger(launch_dbm=-21.0, needed_dbm=-27.0, interfaces=0,
                                 interface_loss_db=0.0, ageing_db=1.0
                                 ).longest_m(loss_db_per_m=0.2)),
    _check("signal.serial.limit.1485", "cable loss allowed at half the clock, 1.485 Gb/s",
           "ANSI/SMPTE 292M-1996, clause 1, as transcribed: up to 20 dB", Basis.SEEN, 20.0, "dB",
           exact(because="the limit is a whole number"),
           lambda: SerialVideo(rate_bit_per_s=1_485_000_000).limit.limit_db),
    *(
        _check(f"signal.serial.limit.{rate // 1_000_000}",
               f"cable loss recommended at half the clock, {rate / 1e9:g} Gb/s",
               "trade chart of recommended transmission distances (publisher withheld)",
               Basis.SEEN, 40.0, "dB", exact(because="the limit is a whole number"),
               lambda rate=rate: SerialVideo(rate_bit_per_s=rate).limit.limit_db)
        for rate in (5_940_000_000, 11_880_000_000)
    ),
    *(
        _check(f"signal.digital_audio.cells.{rate}", f"cell rate at {rate} Hz", _FRAME, Basis.SEEN,
               cells, "Hz", exact(because="a product of whole numbers"),
               lambda rate=rate: DigitalAudio75(sample_rate_hz=rate).limit.frequency_hz)
        for rate, cells in ((48_000, 6_144_000.0), (96_000, 12_288_000.0), (192_000, 24_576_000.0))
    ),
    _check("signal.rgbhv.skew", "quarter-pixel skew at a pixel clock of 65 MHz",
           "a quarter of 1/65 MHz, worked out on paper", Basis.COMPUTED, 3.846, "ns",
           relative(0.0002, because="four digits are given"),
           lambda: float(RgbhvVideo(pixel_clock_hz=65e6).judge_skew({"R": 0.0}).limit or 0) * 1e9),
)  # fmt: skip
test_currents = reference_test(CHECKS)
