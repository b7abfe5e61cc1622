"""A dielectric that is causal: its permittivity and its loss belong to one another.

A loss tangent that is the same at all frequencies answers before it is asked. The law of
Djordjevic, Biljic, Likar-Smiljanic and Sarkar (IEEE Transactions on Electromagnetic Compatibility
43 (2001) 662) spreads relaxations evenly over ln f between two corners and is causal by
construction; between the corners the loss tangent is all but constant. The lines here use no other.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_not_negative, require_positive

LOWEST_CORNER_HZ, HIGHEST_CORNER_HZ = 1e-2, 1e13
"""Corners of the law [Hz]: two decades outside of all that is asked, and no measured quantity."""

_Complex = npt.NDArray[np.complexfloating[Any, Any]]


@dataclass(frozen=True, kw_only=True)
class CausalDielectric:
    """ε(f) = ε∞ + d·ln((f2 + jf)/(f1 + jf)), through a stated value.

    At ``reference_hz`` [Hz] it has ``relative_permittivity`` [1] and ``loss_tangent`` [1]; f1 and
    f2 are the corners above. Raises BadValue where the loss is so high that ε∞ falls below 1.
    """

    relative_permittivity: float
    loss_tangent: float
    reference_hz: float

    def __post_init__(self) -> None:
        require_positive(self, "relative_permittivity", "reference_hz")
        require_not_negative(self, "loss_tangent")
        if self.high_frequency_permittivity < 1:
            raise BadValue(
                owner="CausalDielectric",
                field="loss_tangent",
                value=self.loss_tangent,
                accepted="a loss that leaves a permittivity of 1 at the highest frequencies",
            )

    @property
    def step_permittivity(self) -> float:
        """d [1]: what the permittivity falls by over one neper of frequency."""
        at = spread_of_relaxations(self.reference_hz)
        return -self.relative_permittivity * self.loss_tangent / float(at.imag)

    @property
    def high_frequency_permittivity(self) -> float:
        """ε∞ [1], above the upper corner."""
        at = spread_of_relaxations(self.reference_hz)
        return self.relative_permittivity - self.step_permittivity * float(at.real)

    def permittivity(self, frequency_hz: npt.ArrayLike) -> _Complex:
        """Return ε(f) = ε′ − jε″ [1], complex, shape of ``frequency_hz`` [Hz]."""
        result: _Complex = (
            self.high_frequency_permittivity
            + self.step_permittivity * spread_of_relaxations(frequency_hz)
        )
        return result


def spread_of_relaxations(frequency_hz: npt.ArrayLike) -> _Complex:
    """Return ln((f2 + jf)/(f1 + jf)), complex, shape of ``frequency_hz`` [Hz]: the law's shape."""
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    result = np.empty(frequency.shape, dtype=np.complex128)
    result.real = 0.5 * np.log(
        (HIGHEST_CORNER_HZ**2 + frequency**2) / (LOWEST_CORNER_HZ**2 + frequency**2)
    )
    result.imag = np.arctan(frequency / HIGHEST_CORNER_HZ) - np.arctan(frequency / LOWEST_CORNER_HZ)
    return result
