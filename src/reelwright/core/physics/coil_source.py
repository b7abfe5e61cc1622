"""A coil that makes a signal: cartridge or pickup, into its cable's capacitance and a resistance.

Coil L with its resistance R in series, then the capacitance C of coil, cable and input with all
resistances G across it. The response is 1/|1 + (R + jωL)(G + jωC)|: exact for these parts.
"""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.quantities.guard import require_not_negative, require_positive


@dataclass(frozen=True, kw_only=True)
class CoilSource:
    """A coil of ``coil_henry`` [H], ``coil_ohm`` [Ω] and ``own_f`` [F], loaded by ``load_ohm`` [Ω].

    ``load_ohm`` is everything resistive across the coil in parallel: controls and input.
    """

    coil_henry: float
    coil_ohm: float
    own_f: float
    load_ohm: float

    def __post_init__(self) -> None:
        require_positive(self, "coil_henry", "coil_ohm", "load_ohm")
        require_not_negative(self, "own_f")

    def _total_f(self, capacitance_f: npt.ArrayLike) -> FloatArray:
        added = np.asarray(capacitance_f, dtype=np.float64)
        total: FloatArray = added + self.own_f
        if not (np.isfinite(added).all() and (added >= 0).all() and (total > 0).all()):
            raise BadValue(
                owner="CoilSource",
                field="capacitance_f",
                value=float(added.min()),
                accepted="finite, zero or more, and above zero with that of the coil",
            )
        return total

    def resonance_hz(self, capacitance_f: npt.ArrayLike) -> FloatArray:
        """Return 1/(2π√(L·C)) [Hz], shape of ``capacitance_f`` [F], to which the coil's is added.

        Raises BadValue for a capacitance below zero, or none at all.
        """
        resonance: FloatArray = 1 / (
            2 * math.pi * np.sqrt(self.coil_henry * self._total_f(capacitance_f))
        )
        return resonance

    def response_db(self, frequency_hz: npt.ArrayLike, *, capacitance_f: float) -> FloatArray:
        """Return the level [dB] against that at the lowest frequencies, shape of ``frequency_hz``.

        ``capacitance_f`` [F] is what is added to the coil's own. Raises BadValue as above.
        """
        angular = 2 * math.pi * np.asarray(frequency_hz, dtype=np.float64)
        admittance = 1 / self.load_ohm + 1j * angular * self._total_f(capacitance_f)
        divided = 1 + (self.coil_ohm + 1j * angular * self.coil_henry) * admittance
        at_rest = 1 + self.coil_ohm / self.load_ohm
        level: FloatArray = -20 * np.log10(np.abs(divided) / at_rest)
        return level

    def peak(self, capacitance_f: float) -> tuple[float, float] | None:
        """Return where the response is highest [Hz] and how high [dB]; None where it only falls.

        |1 + (R + jωL)(G + jωC)|² is a parabola in ω²; its lowest point is the peak. It lies below
        the resonance by what the resistances damp.
        """
        total = float(self._total_f(capacitance_f))
        conductance = 1 / self.load_ohm
        product = self.coil_henry * total
        damping = self.coil_ohm * total + self.coil_henry * conductance
        squared = (2 * product * (1 + self.coil_ohm * conductance) - damping**2) / (2 * product**2)
        if squared <= 0:
            return None
        frequency_hz = math.sqrt(squared) / (2 * math.pi)
        return frequency_hz, float(self.response_db(frequency_hz, capacitance_f=capacitance_f))
