"""A loudspeaker as its amplifier sees it, and what a cable does to its response.

The usual model of a moving coil in a closed box: Re and Le in series with the mechanical resonance
seen through the coil. Crossovers and ports add humps that no such figures tell; a curve that was
measured says more.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.quantities.guard import require_not_negative, require_positive

AUDIO_HZ = (20.0, 20e3)
"""Ends of the audio band [Hz]."""

_POINTS = 241


@dataclass(frozen=True, kw_only=True)
class Driver:
    """``coil_ohm`` Re [Ω], ``coil_henry`` Le [H], ``resonance_hz`` fs [Hz], Qms and Qes [1]."""

    coil_ohm: float
    coil_henry: float
    resonance_hz: float
    mechanical_q: float
    electrical_q: float

    def __post_init__(self) -> None:
        require_positive(self, "coil_ohm", "resonance_hz", "mechanical_q", "electrical_q")
        require_not_negative(self, "coil_henry")

    def impedance_ohm(self, frequency_hz: npt.ArrayLike) -> ComplexArray:
        """Return the impedance [Ω], shape of ``frequency_hz`` [Hz].

        Re + jωLe + Re·(Qms/Qes)/(1 + jQms(f/fs − fs/f)). Raises BadValue for a frequency that is
        not above zero. Source: any text on moving-coil loudspeakers (Thiele, Small).
        """
        frequency = np.asarray(frequency_hz, dtype=np.float64)
        if not (np.isfinite(frequency).all() and (frequency > 0).all()):
            raise BadValue(
                owner="Driver",
                field="frequency_hz",
                value=float(frequency.min()),
                accepted="finite frequencies above zero",
            )
        away = self.mechanical_q * (frequency / self.resonance_hz - self.resonance_hz / frequency)
        moving = self.coil_ohm * self.mechanical_q / self.electrical_q / (1 + 1j * away)
        impedance: ComplexArray = self.coil_ohm + 2j * np.pi * frequency * self.coil_henry + moving
        return impedance

    def scaled(self, factor: float) -> "Driver":
        """Return the driver with all its impedances times ``factor`` [1], resonance kept."""
        return Driver(
            coil_ohm=self.coil_ohm * factor,
            coil_henry=self.coil_henry * factor,
            resonance_hz=self.resonance_hz,
            mechanical_q=self.mechanical_q,
            electrical_q=self.electrical_q,
        )

    @property
    def lowest_ohm(self) -> float:
        """The lowest modulus of the impedance [Ω] in the audio band."""
        return float(np.abs(self.impedance_ohm(audio_frequencies_hz())).min())


def audio_frequencies_hz() -> FloatArray:
    """Return 20 Hz to 20 kHz in even steps of the logarithm [Hz], 80 to a decade."""
    return np.geomspace(*AUDIO_HZ, _POINTS)


def response_error_db(*, cable_ohm: npt.ArrayLike, load_ohm: npt.ArrayLike) -> FloatArray:
    """Return what a cable does to the level [dB], 0 or below where both are resistive.

    −20 log10|1 + Zcable/Zload| with both complex [Ω], of shapes that broadcast. The amplifier is
    taken as a source of no resistance. Raises BadValue for a load of zero.
    """
    load = np.asarray(load_ohm, dtype=np.complex128)
    if not (np.isfinite(load).all() and (np.abs(load) > 0).all()):
        raise BadValue(
            owner="response_error_db", field="load_ohm", value=0.0, accepted="other than zero"
        )
    error: FloatArray = -20 * np.log10(np.abs(1 + np.asarray(cable_ohm) / load))
    return error
