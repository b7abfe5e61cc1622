"""Modes, structural return loss, return-loss steps and eyes, as published or worked out apart."""

import math
from functools import partial

import numpy as np

from reelwright.core.physics.mode_limit import (
    GUARD_FACTOR,
    te11_cutoff_hz,
    te11_estimate_hz,
)
from reelwright.core.physics.patterns import (
    CLOCK_STRESS,
    EQUALISER_STRESS,
    run_lengths,
    stress_pattern,
)
from reelwright.core.physics.pulse import cursors
from reelwright.core.physics.receiver import Receiver, root_loss
from reelwright.core.physics.reflection import return_loss_db
from reelwright.core.physics.structural import (
    Ripple,
    bump_train_reflection,
    random_reflection_power,
    spike_frequency_hz,
)
from reelwright.core.physics.terminations import return_loss
from reelwright.core.physics.two_port import line_of
from reelwright.core.quantities.constants import INCH_M
from tests.references.harness import (
    Basis,
    absolute,
    exact,
    reference_test,
    relative,
    rows_of,
)

_MODE = {"inner_m": 0.0645 * INCH_M, "outer_m": 0.205 * INCH_M, "relative_permittivity": 2.2}
_POZAR = "worked solution to Pozar, Microwave Engineering, example 3.3"
_BUMPS = "published theory of periodic reflections in coaxial cable, table for identical bumps"
_APART = "worked out apart from this code in many digits"
_STRESS = "SMPTE RP 178, runs of its stress patterns; word values remembered"
_LOSS_DB_PER_M_PER_ROOT_MHZ = 0.00776


_check = rows_of("core.physics", prefix="network.")


def _estimate_per_m() -> float:
    cutoff = te11_estimate_hz(**_MODE)
    return cutoff * 2 * math.pi * math.sqrt(2.2) / 299_792_458.0


def _long_section_return_loss_db(section_ohm: float, line_ohm: float) -> float:
    """What comes back at the near end of an endless, lossy piece of another impedance."""
    piece = line_of(
        frequency_hz=np.array([1e8]),
        gamma=np.array([0.5 + 3j]),
        impedance_ohm=section_ohm,
        length_m=200.0,
        reference_ohm=line_ohm,
    )
    return float(return_loss(piece.s11)[0])


def _spike_mhz(pitch_m: float, velocity_factor: float) -> float:
    return spike_frequency_hz(pitch_m=pitch_m, velocity_factor=velocity_factor, index=1) / 1e6


def _ripple_db(amplitude: float, pitch_m: float, length_m: float) -> float:
    spike_mhz = _spike_mhz(pitch_m, 0.8305)
    return Ripple(
        relative_amplitude=amplitude,
        pitch_m=pitch_m,
        length_m=length_m,
        loss_db_per_m=_LOSS_DB_PER_M_PER_ROOT_MHZ * math.sqrt(spike_mhz),
    ).return_loss_db


def _bumps_for_all(loss_db: float) -> float:
    """How many times one bump's reflection a whole train gives, loss one way per half wave."""
    return bump_train_reflection(one_reflection=1e-6, loss_between_db=loss_db) / 1e-6


def _random_db() -> float:
    alpha = _LOSS_DB_PER_M_PER_ROOT_MHZ * math.sqrt(1000) * math.log(10) / 20
    beta = 2 * math.pi * 1e9 / (0.8305 * 299_792_458.0)
    power = random_reflection_power(
        relative_spread_ratio=0.002,
        section_m=0.05,
        section_count=2000,
        gamma=np.array([alpha + 1j * beta]),
    )
    return return_loss_db(math.sqrt(float(power[0])))


def _bare_opening(loss_db: float) -> float:
    found = cursors(
        partial(root_loss, loss_db=loss_db, at_hz=0.5),
        at_rest_ratio=1.0,
        delay_s=0.0,
        bit_s=1.0,
        phase_count=2048,
        before_count=2,
        after_count=20,
    )
    return float(found.worst_opening_ratio.max())


def _equalised_opening(loss_db: float) -> float:
    """Opening within a window of 400 bits, what lies behind it left out."""
    rate = 2.97e9
    receiver = Receiver(
        corner_hz=0.7 * rate,
        order_count=4,
        equalised_db=20.0,
        equalised_at_hz=rate / 2,
        levels_off_hz=math.inf,
    )
    found = cursors(
        receiver.behind(partial(root_loss, loss_db=loss_db, at_hz=rate / 2)),
        at_rest_ratio=1.0,
        delay_s=0.0,
        bit_s=1 / rate,
        phase_count=64,
        before_count=4,
        after_count=400,
    )
    return float((found.worst_opening_ratio + abs(found.left_out_ratio)).max())


def _longest_run(words: tuple[int, int]) -> float:
    return float(max(run_lengths(stress_pattern(words, word_pairs=40))))


CHECKS = (
    _check("te11.estimate", "approximate cut-off wave number of TE11, 2/(a + b)", _POZAR,
           Basis.SEEN, 584.342, "1/m", relative(1e-5, because="six digits are printed"),
           partial(_estimate_per_m)),
    _check("te11.highest", "highest recommended frequency, 0.95 of the approximate cut-off", _POZAR,
           Basis.SEEN, 17_857_500_000.0, "Hz", relative(1e-4, because="six digits, c rounded"),
           lambda: GUARD_FACTOR * te11_estimate_hz(**_MODE)),
    _check("te11.exact", "exact cut-off of TE11 of the same line",
           "lowest root of J1'(ka)Y1'(kb) = J1'(kb)Y1'(ka), worked out apart from this code",
           Basis.COMPUTED, 19_323_100_000.0, "Hz", relative(1e-5, because="six digits are given"),
           lambda: te11_cutoff_hz(**_MODE)),
    *(
        _check(f"step.{section:g}", f"return loss of endless {section:g} Ω behind {line:g} Ω",
               "20 log10 of |(Z1 + Z2)/(Z1 − Z2)|, worked out on paper", Basis.COMPUTED, expected,
               "dB", absolute(0.01, because="two decimals are given"),
               partial(_long_section_return_loss_db, section, line))
        for line, section, expected in ((50.0, 75.0, 13.979), (75.0, 76.0, 43.58),
                                        (75.0, 78.0, 34.15))
    ),
    _check("spike", "return-loss spike of a pitch of 0.30 m at velocity factor 0.8305", _APART,
           Basis.COMPUTED, 414.944, "MHz",
           relative(1e-4, because="the exact top lies 0.1 of its step aside, with c rounded"),
           partial(_spike_mhz, 0.30, 0.8305)),
    *(
        _check(f"ripple.{name}", f"structural return loss of a ripple of {text}, exact cascade",
               _APART, Basis.COMPUTED, expected, "dB",
               absolute(0.06, because="coupled modes leave out what is of second order in ε"),
               partial(_ripple_db, *values))
        for name, text, values, expected in (
            ("long", "0.2 %, 0.3 m, over 100 m", (0.002, 0.3, 100.0), 11.654),
            ("short", "0.2 %, 0.3 m, over 20 m", (0.002, 0.3, 20.0), 16.695),
            ("fine", "0.1 %, 50 mm, over 100 m", (0.001, 0.05, 100.0), 10.026),
        )
    ),
    _check("bumps.262", "bumps that 0.0165 dB per half wave makes of one", _BUMPS, Basis.SEEN,
           262.0, "1", relative(0.005, because="three digits are printed"),
           partial(_bumps_for_all, 0.0165)),
    _check("bumps.chain", "the same of 0.02 dB, exact chain of bumps of 1e-4", _APART,
           Basis.COMPUTED, 217.55, "1", relative(0.005, because="re-reflections are left out"),
           partial(_bumps_for_all, 0.02)),
    _check("random", "mean return loss at 1 GHz of 2,000 sections of 50 mm, spread 0.2 %",
           "mean of 200 exact cascades, worked out apart from this code", Basis.COMPUTED, 31.99,
           "dB", absolute(0.31, because="one standard error of that mean"), _random_db),
    *(
        _check(f"opening.{loss:g}", f"worst eye opening behind {loss:g} dB at half clock, √f cable",
               "2·max[erfc(c/2√t) − erfc(c/2√(t−1))] − 1, c = A√(2/π), " + _APART,
               Basis.COMPUTED, expected, "1", absolute(1e-5, because="five decimals are given"),
               partial(_bare_opening, loss))
        for loss, expected in ((6.0, 0.39622), (8.0, 0.21361), (10.5885, 0.0))
    ),
    *(
        _check(f"equalised.{loss:g}",
               f"worst eye opening behind {loss:g} dB with 20 dB equalised, low-pass 0.7 × rate",
               "simulation by transforms of one window, apart from this code", Basis.COMPUTED,
               expected, "1",
               absolute(0.006, because="its window, some hundred bits, is not stated"),
               partial(_equalised_opening, loss))
        for loss, expected in ((20.0, 0.933), (24.0, 0.587), (28.0, 0.167), (30.0, 0.004))
    ),
    _check("stress.19", "longest run of 300h 198h, scrambled", _STRESS, Basis.MEMORY, 19.0, "bits",
           exact(because="a count"), partial(_longest_run, EQUALISER_STRESS)),
    _check("stress.20", "longest run of 200h 110h, scrambled", _STRESS, Basis.MEMORY, 20.0, "bits",
           exact(because="a count"), partial(_longest_run, CLOCK_STRESS)),
)  # fmt: skip
test_networks = reference_test(CHECKS)
