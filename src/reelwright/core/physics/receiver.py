"""A receiver of serial data: its low-pass, its cable equaliser, and the noise that these let in."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.step import Spectrum
from reelwright.core.quantities.guard import require_count, require_not_negative, require_positive

BOLTZMANN_J_PER_K = 1.380649e-23
"""SI Brochure, 9th edition: exact by definition of the kelvin."""

NEPER_DB = 20 / np.log(10)
"""Decibels in one neper [dB], by definition."""


def root_loss(frequency_hz: FloatArray, *, loss_db: float, at_hz: float) -> ComplexArray:
    """Return the transfer [1] of a cable of ``loss_db`` [dB] at ``at_hz`` [Hz], delay taken out.

    exp(−A·(1 + j)·√(f/f0)), A in neper: the √f law with the phase that goes with it (causal; its
    step is erfc). ``frequency_hz`` [Hz]; a negative loss is the inverse.
    """
    transfer: ComplexArray = np.exp(
        -(1 + 1j) * (loss_db / NEPER_DB) * np.sqrt(frequency_hz / at_hz)
    )
    return transfer


@dataclass(frozen=True, kw_only=True)
class Receiver:
    """A low-pass of maximally flat shape, behind an equaliser for a √f cable.

    ``corner_hz`` [Hz] is its −3 dB frequency, ``order_count`` its order; ``equalised_db`` [dB] is
    the cable loss at ``equalised_at_hz`` [Hz] that the equaliser undoes, 0 for none. Its gain
    levels off around ``levels_off_hz`` [Hz]; infinite is the exact inverse, which no receiver is:
    behind any low-pass its noise has no bound, so ``noise_v`` refuses it.
    """

    corner_hz: float
    order_count: int
    equalised_db: float
    equalised_at_hz: float
    levels_off_hz: float

    def __post_init__(self) -> None:
        require_positive(self, "corner_hz", "equalised_at_hz")
        require_count(self, "order_count", at_least=1)
        require_not_negative(self, "equalised_db")
        if not self.levels_off_hz > 0:
            raise BadValue(
                owner="Receiver",
                field="levels_off_hz",
                value=self.levels_off_hz,
                accepted="above zero, or infinite",
            )

    def transfer(self, frequency_hz: FloatArray) -> ComplexArray:
        """Return its transfer [1] at ``frequency_hz`` [Hz], 1 at rest.

        Butterworth poles (Butterworth 1930): evenly on the left half of the circle. Equaliser
        exp(A·√(2jx)), x = f/f0, with jx ← jx/(1 + jf/f1) where it levels off: of minimum phase.
        """
        frequency = np.asarray(frequency_hz, dtype=np.float64)
        scaled = 1j * frequency / self.corner_hz
        lifted = 2j * frequency / self.equalised_at_hz / (1 + 1j * frequency / self.levels_off_hz)
        whole: ComplexArray = np.exp(self.equalised_db / NEPER_DB * np.sqrt(lifted))
        for place in range(self.order_count):
            angle = np.pi * (2 * place + self.order_count + 1) / (2 * self.order_count)
            whole = whole * (1 / (1 - scaled * np.exp(-1j * angle)))
        return whole

    def behind(self, channel: Spectrum) -> Spectrum:
        """Return a channel with this receiver after it."""
        return lambda frequency_hz: channel(frequency_hz) * self.transfer(frequency_hz)

    def noise_v(
        self, *, impedance_ohm: float, noise_figure_db: float, temperature_k: float
    ) -> float:
        """Return the noise [V] behind the receiver, from a matched source of ``impedance_ohm`` [Ω].

        √(kT·R·F·∫|H|² df): half the open-circuit noise of the source, times ``noise_figure_db``
        [dB], at ``temperature_k`` [K]; the integral up to 40 corners on a fine mesh. Source:
        Johnson and Nyquist 1928, any text. Raises BadValue unless all are above zero, or for an
        equaliser that never levels off.
        """
        if np.isinf(self.levels_off_hz) and self.equalised_db > 0:
            raise BadValue(
                owner="Receiver.noise_v",
                field="levels_off_hz",
                value=self.levels_off_hz,
                accepted="a frequency: the noise of an exact inverse has no bound",
            )
        if impedance_ohm <= 0 or temperature_k <= 0 or noise_figure_db < 0:
            raise BadValue(
                owner="Receiver.noise_v",
                field="impedance_ohm",
                value=(impedance_ohm, noise_figure_db, temperature_k),
                accepted="an impedance and a temperature above zero, a figure of 0 dB or more",
            )
        # On the logarithm of frequency: the equaliser lifts the top, the poles cut it off.
        log_frequency = np.linspace(np.log(1e-6), np.log(40.0), 4001)
        frequency = self.corner_hz * np.exp(log_frequency)
        power = np.abs(self.transfer(frequency)) ** 2 * frequency
        step = log_frequency[1] - log_frequency[0]
        bandwidth_hz = step * (power.sum() - (power[0] + power[-1]) / 2)
        factor = 10 ** (noise_figure_db / 10)
        return float(
            np.sqrt(BOLTZMANN_J_PER_K * temperature_k * impedance_ohm * factor * bandwidth_hz)
        )
