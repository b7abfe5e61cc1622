"""Structural return loss: what regular and random variation along a cable sends back.

Referred to the cable's own mean impedance, where return loss is referred to the nominal one.
"""

import math
from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.quantities.guard import require_not_negative, require_positive

DECIBEL_PER_NEPER = 20 / math.log(10)
"""Decibels in one neper [dB], by definition."""


@dataclass(frozen=True, kw_only=True)
class Ripple:
    """A regular variation Z0·(1 + ε sin 2πz/Λ) along a cable of one loss.

    ``relative_amplitude`` is ε [1], ``pitch_m`` Λ [m], ``length_m`` [m] the length that has it,
    ``loss_db_per_m`` [dB/m] one way at the frequency of the spike.
    """

    relative_amplitude: float
    pitch_m: float
    length_m: float
    loss_db_per_m: float

    def __post_init__(self) -> None:
        require_positive(self, "relative_amplitude", "pitch_m", "length_m")
        require_not_negative(self, "loss_db_per_m")
        if self.relative_amplitude >= 1:
            raise BadValue(
                owner="Ripple",
                field="relative_amplitude",
                value=self.relative_amplitude,
                accepted="above 0, below 1",
            )

    @property
    def coupling_per_m(self) -> float:
        """Coupling κ [1/m] of the waves to and fro: πε/(2Λ)."""
        return math.pi * self.relative_amplitude / (2 * self.pitch_m)

    @property
    def first_order_reflection(self) -> float:
        """|S11| at the spike [1] without re-reflections: κ(1 − exp(−2αL))/(2α); κL without loss.

        Too high where the answer is not small; for screening only.
        """
        alpha = self.loss_db_per_m / DECIBEL_PER_NEPER
        if alpha == 0:
            return self.coupling_per_m * self.length_m
        return self.coupling_per_m * -math.expm1(-2 * alpha * self.length_m) / (2 * alpha)

    @property
    def reflection(self) -> float:
        """|S11| at the spike [1]: κ sinh gL/(g cosh gL + α sinh gL), g = √(κ² + α²).

        Coupled-mode theory (Kogelnik and Shank 1972, from memory), re-reflections held.
        """
        alpha = self.loss_db_per_m / DECIBEL_PER_NEPER
        growth = math.hypot(self.coupling_per_m, alpha)
        slope = math.tanh(growth * self.length_m)
        return self.coupling_per_m * slope / (growth + alpha * slope)

    @property
    def return_loss_db(self) -> float:
        """Structural return loss [dB] at the spike, from ``reflection``."""
        return -20 * math.log10(self.reflection)


def spike_frequency_hz(*, pitch_m: float, velocity_factor: float, index: int) -> float:
    """Return the frequency [Hz] of spike number ``index``: n·v·c/(2Λ), ``pitch_m`` Λ [m].

    A smooth ripple has the first only, bumps and dents have all. Raises BadValue for a pitch or a
    velocity factor that is not above zero, or an index below 1.
    """
    if pitch_m <= 0 or not 0 < velocity_factor <= 1 or index < 1:
        raise BadValue(
            owner="spike_frequency_hz",
            field="pitch_m",
            value=(pitch_m, velocity_factor, index),
            accepted="a pitch above zero, a velocity factor in 0 to 1, an index of 1 or more",
        )
    return index * velocity_factor * SPEED_OF_LIGHT_M_PER_S / (2 * pitch_m)


def widest_step_hz(*, loss_db_per_m: float, velocity_factor: float) -> float:
    """Return the widest sweep step [Hz] that does not miss a spike: v·α/(4π).

    The spike of a long cable is v·α/π wide at half its power where the coupling is small against
    the loss ``loss_db_per_m`` [dB/m] (wider otherwise): a quarter of that.
    """
    alpha = loss_db_per_m / DECIBEL_PER_NEPER
    return velocity_factor * SPEED_OF_LIGHT_M_PER_S * alpha / (4 * math.pi)


def bump_train_reflection(*, one_reflection: float, loss_between_db: float) -> float:
    """Return |S11| [1] of an endless row of like bumps at the frequency where all add up.

    Γ·L²/(1 − L²) with L² the loss to and fro over one pitch, ``loss_between_db`` [dB] one way;
    re-reflections left out (4 % high at Γ = 0.001 and 0.02 dB). Source: a published theory of
    periodic reflections in coaxial cable. Raises BadValue for a loss that is not above zero.
    """
    if loss_between_db <= 0 or not 0 <= one_reflection < 1:
        raise BadValue(
            owner="bump_train_reflection",
            field="loss_between_db",
            value=loss_between_db,
            accepted="a loss above zero and a reflection of 0 to 1",
        )
    kept = 10 ** (-2 * loss_between_db / 20)
    return one_reflection * kept / (1 - kept)


def random_reflection_power(
    *,
    relative_spread_ratio: float,
    section_m: float,
    section_count: int,
    gamma: ComplexArray,
) -> FloatArray:
    """Return the mean |S11|² [1] of sections whose impedances are independent, to first order.

    s²/4·|1 − q|²·(1 − |q|^2N)/(1 − |q|²), q = exp(−2γ·dl): ``relative_spread_ratio`` s [1] is the
    standard deviation over the mean, ``section_m`` dl [m], ``section_count`` N, ``gamma`` [1/m]
    complex; the shape is that of ``gamma``. |S11|² of one cable scatters about it like an
    exponential variable. Derived from the first-order sum, both ends matched.
    """
    if relative_spread_ratio < 0 or section_m <= 0:
        raise BadValue(
            owner="random_reflection_power",
            field="section_m",
            value=section_m,
            accepted="a section above zero and a spread of zero or more",
        )
    through = -2 * gamma * section_m
    count = float(section_count)
    fade = 2 * through.real
    # Without loss the sum of the powers is N itself.
    lossless = fade == 0
    safe = np.where(lossless, -1.0, fade)
    total = np.where(lossless, count, np.expm1(count * safe) / np.expm1(safe))
    power: FloatArray = relative_spread_ratio**2 / 4 * np.abs(np.expm1(through)) ** 2 * total
    return power
