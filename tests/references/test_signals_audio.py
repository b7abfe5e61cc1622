"""Analogue audio and loudspeakers as signals: against printed values and separate arithmetic."""

import math

import numpy as np
from scipy.optimize import brentq

from reelwright.core.materials.insulation import PVC
from reelwright.core.materials.metals import COPPER
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.audio_line import open_line_loss_db
from reelwright.core.physics.balanced_line import LegUnbalance, PhantomSupply
from reelwright.core.physics.coil_source import CoilSource
from reelwright.core.physics.conductor import solid_wire
from reelwright.core.physics.driver import Driver, audio_frequencies_hz, response_error_db
from reelwright.core.physics.ladder import ladder_voltages_v
from reelwright.core.physics.pair_line import PairGeometry
from reelwright.core.quantities.constants import FOOT_M
from reelwright.core.signals.audio_band import DROOP_LIMIT_DB
from reelwright.core.signals.balanced_audio import BalancedAudio, Level
from reelwright.core.signals.distributed_line import DROP_LIMIT_FRACTION
from reelwright.core.signals.instrument_pickup import REFERENCE_F_PER_M
from reelwright.core.signals.line_audio import LineAudio
from reelwright.core.signals.loudspeaker import LOOP_LIMIT_FRACTION
from tests.references.harness import (
    Basis,
    LeftOut,
    absolute,
    at_most,
    exact,
    reference_test,
    relative,
    rows_of,
)

_INTERFACES = "article on IEC 61938:2018, a copy of low trust; the standard itself was not opened"
_PAPER = "worked out on paper, apart from this code"
_APART = "computed apart from this code, in high precision"
_PRINTED = "all printed digits"


_check = rows_of("core.signals", prefix="sound.")


def _rejection_db() -> float:
    return LegUnbalance(
        resistance_ohm=1.0, capacitance_f=0.0, source_ohm=200.0, input_ohm=10e3
    ).rejection_db(60.0)


def _corner_of_inductance_hz() -> float:
    """Where the response into 8 Ω behind 300 ft of 0.21 µH/ft has fallen by half the power."""
    inductance_henry = 300 * 0.21e-6

    def away_db(frequency_hz: float) -> float:
        error = response_error_db(
            cable_ohm=2j * math.pi * frequency_hz * inductance_henry, load_ohm=8.0
        )
        return float(error) + 10 * math.log10(2)

    return float(brentq(away_db, 1e3, 1e5))


def _area_mm2() -> float:
    """The area at which one tap of 100 W, 100 V behind 300 m keeps what our drop limit allows."""

    def away_v(area_mm2: float) -> float:
        last = ladder_voltages_v(
            line_v=100.0,
            taps_w=(100.0,),
            first_m=300.0,
            between_m=(),
            conductor_ohm_per_m=0.0175 / area_mm2,
        )[0, -1]
        return float(last) - 100.0 * (1 - DROP_LIMIT_FRACTION)

    return float(brentq(away_v, 0.1, 10.0))


def _response_db() -> FloatArray:
    pair = PairGeometry(
        conductor=solid_wire(COPPER, diameter_m=math.sqrt(2.5e-6 * 4 / math.pi)),
        conductors=2,
        spacing_m=3.2e-3,
        insulation=PVC,
        field_fraction=0.6,
        twists_per_m=0.0,
        screen=None,
    )
    driver = Driver(
        coil_ohm=6.0, coil_henry=0.5e-3, resonance_hz=60.0, mechanical_q=5.0, electrical_q=0.5
    )
    frequency = audio_frequencies_hz()
    series = pair.parameters(frequency, temperature_celsius=20.0).series_impedance_ohm_per_m
    return response_error_db(cable_ohm=10 * series, load_ohm=driver.impedance_ohm(frequency))


def _long_line_db() -> float:
    """20 kHz attenuation constant of a 0.81 mm video coax, from the far end of two long runs."""
    turning = 2 * math.pi * 20e3
    resistance, capacitance = 0.0433, 53.6e-12
    runs = open_line_loss_db(
        source_ohm=0.0,
        series_ohm_per_m=resistance,
        shunt_siemens_per_m=1j * turning * capacitance,
        length_m=[50e3, 50.1e3],
    )
    return float(runs[1] - runs[0])


def _moving_magnet() -> CoilSource:
    return CoilSource(coil_henry=0.5, coil_ohm=1000.0, own_f=0.0, load_ohm=47e3)


def _microphone_v() -> float:
    supply = PhantomSupply(supply_v=48.0, feed_ohm=6.81e3)
    return float(
        supply.microphone_v(
            current_a=0.01, leg_ohm_per_m=0.085, screen_ohm_per_m=0.03, length_m=100.0
        )
    )


def _church_v(place: int) -> float:
    return float(
        ladder_voltages_v(
            line_v=70.7,
            taps_w=(15.0,) * 8,
            first_m=220 * FOOT_M,
            between_m=(20 * FOOT_M,) * 7,
            conductor_ohm_per_m=8.286e-3,
        )[0, place]
    )


def _source_ohm(signal: BalancedAudio | LineAudio) -> float:
    return signal.source.resistance_ohm


_EXACT_LIMIT = exact(because="the recommended value itself is taken")

CHECKS = (
    _check("source.microphone", "output resistance of a microphone", _INTERFACES, Basis.SEEN,
           200.0, "Ω", _EXACT_LIMIT,
           lambda: _source_ohm(BalancedAudio(level=Level.MICROPHONE, phantom_power=False))),
    _check("source.line", "largest output resistance of a balanced line output", _INTERFACES,
           Basis.SEEN, 100.0, "Ω", _EXACT_LIMIT,
           lambda: _source_ohm(BalancedAudio(level=Level.LINE, phantom_power=False))),
    _check("source.consumer", "largest output resistance of a consumer line output", _INTERFACES,
           Basis.SEEN, 1000.0, "Ω", _EXACT_LIMIT, lambda: _source_ohm(LineAudio(source_ohm=None))),
    _check("treble.limit", "treble loss at 20 kHz that is still called excellent",
           "article on impedance, cables and treble loss, audio magazine, November 1991",
           Basis.SEEN, 1.0, "dB", at_most(but_within=0.75, because="the next better grade is 0.25"),
           lambda: DROOP_LIMIT_DB),
    _check("capacitance.usual", "usual wire-to-screen capacitance of audio cable",
           "page on cables and the damping of treble", Basis.SEEN, 100.0, "pF/m",
           relative(0.5, because="as given with the value: cables differ by that much"),
           lambda: REFERENCE_F_PER_M * 1e12),
    _check("balance.rejection", "rejection with 1 Ω between the legs into 10 kΩ each",
           "20 log10(Zcm/ΔR), first order, " + _PAPER, Basis.COMPUTED, 80.0, "dB",
           absolute(0.5, because="as given with the value: first order"), _rejection_db),
    _check("loudspeaker.rule", "loop resistance over nominal load that is usually allowed",
           "trade rule in many installers' tables, from memory", Basis.MEMORY, 0.05, "1",
           _EXACT_LIMIT, lambda: LOOP_LIMIT_FRACTION),
    _check("loudspeaker.corner", "corner of 300 ft of 12 AWG, 0.21 µH/ft, into 8 Ω",
           "manual of a loudspeaker, page 9 (maker withheld)", Basis.SEEN, 20e3, "Hz",
           relative(0.03, because="as given with the value: a rounded figure"),
           _corner_of_inductance_hz),
    _check("line.area", "conductor for 300 m, 100 W, 100 V with 10 % lost",
           "note on power loss by wire length, example 1", Basis.SEEN, 0.945, "mm²",
           relative(0.002, because="three digits are printed"), _area_mm2),
    _check("response.lowest", "level that 10 m of 2 × 2.5 mm² take from a woofer, at the most",
           _APART, Basis.COMPUTED, -0.198, "dB", absolute(0.0005, because=_PRINTED),
           lambda: float(_response_db().min())),
    _check("response.highest", "the same, at the least", _APART, Basis.COMPUTED, -0.018, "dB",
           absolute(0.0005, because=_PRINTED), lambda: float(_response_db().max())),
    _check("response.span", "unevenness the same cable adds", _APART, Basis.COMPUTED, 0.180, "dB",
           absolute(0.0005, because=_PRINTED), lambda: float(np.ptp(_response_db()))),
    _check("line.long", "loss of 100 m far along a line of 43.3 mΩ/m and 53.6 pF/m at 20 kHz",
           "√(ωRC/2), the limit of a line of resistance and capacitance, " + _PAPER,
           Basis.COMPUTED, 868.589 * math.sqrt(2 * math.pi * 20e3 * 0.0433 * 53.6e-12 / 2), "dB",
           relative(1e-5, because="six digits of the constant"), _long_line_db),
    _check("cartridge.resonance", "resonance of 0.5 H and 250 pF", "1/(2π√(LC)), " + _PAPER,
           Basis.COMPUTED, 14235.25, "Hz", relative(1e-6, because=_PRINTED),
           lambda: float(_moving_magnet().resonance_hz(250e-12))),
    _check("cartridge.20k", "level at 20 kHz of 0.5 H, 1 kΩ into 250 pF and 47 kΩ",
           "complex arithmetic of the divider, " + _PAPER, Basis.COMPUTED, -4.2571, "dB",
           absolute(0.0001, because=_PRINTED),
           lambda: float(_moving_magnet().response_db(20e3, capacitance_f=250e-12))),
    _check("phantom.100m", "phantom voltage at 10 mA behind 100 m of 85 mΩ/m a leg, 30 mΩ/m screen",
           "Ohm's law, 48 − 0.01·(3405 + 4.25 + 3), " + _PAPER, Basis.COMPUTED, 13.8775, "V",
           absolute(1e-6, because="exact but for a float's rounding"), _microphone_v),
    _check("ladder.first", "first of eight 15 W taps on 70.7 V, 2.08 mm²",
           "demo workshop's order O-06, worked out apart from this code", Basis.COMPUTED, 68.87,
           "V", absolute(0.005, because=_PRINTED), lambda: _church_v(0)),
    _check("ladder.last", "last of the same taps",
           "demo workshop's order O-06, worked out apart from this code", Basis.COMPUTED, 68.29,
           "V", absolute(0.005, because=_PRINTED), lambda: _church_v(-1)),
)  # fmt: skip
test_sound = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("61938.mic_load_min", "61938.pro_line_load_min"),
        quantity="least load of a microphone and of a line output",
        reason=(
            "the far end of an audio line is taken as open, so no verdict uses a load; that of a "
            "balanced input enters the balance only, each leg with 10 kΩ (common practice)"
        ),
    ),
)
