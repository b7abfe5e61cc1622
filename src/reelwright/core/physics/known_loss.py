"""The loss of the cable in hand at any frequency it is known for, with its spread and its doubts.

A loss asks less of a data sheet than a line does: two stated losses are enough. What is fitted is
the same exact rod in a lossy dielectric (sheet_line); where impedance or delay is not stated, any
value stands in, since above 3 MHz the fitted loss does not depend on it. At a frequency for which a
loss is stated the stated one is the answer: what the rod deviates there is taken out, between two
of them in proportion on the logarithm of frequency, and beyond the last as at the last.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from reelwright.core.parts.cable import Cable, LossPoint, Lot
from reelwright.core.parts.layers import LayerRole
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.lot_values import require_lot_of
from reelwright.core.physics.sheet_line import (
    SheetLine,
    fit_line,
    line_of_sheet,
    loss_points_in_hand,
)
from reelwright.core.physics.spread import BOOK_LOSS_SPREAD, book_spread_source
from reelwright.core.quantities.guard import require_positive
from reelwright.core.verdicts import Basis, Reason, Source

ACCEPTED_RESIDUAL = 0.02
"""Largest residual [1] of a fit that is taken without a caution (common practice, no source)."""

CLAD_STEEL_FROM_HZ = 10e6
"""Below this [Hz] copper on steel loses more than one rod of one metal does."""

AUDIO_HZ = 1e4
"""Down from here [Hz] a loss follows from stated resistance and capacitance alone."""

# Any would do: both cancel out of a loss that is fitted above 3 MHz.
_ANY_IMPEDANCE_OHM = 75.0
_ANY_DELAY_S_PER_M = 4e-9


@dataclass(frozen=True, kw_only=True)
class KnownLoss:
    """A fitted loss.

    ``relative_uncertainty`` [1] is its standard uncertainty between ``measured_low_hz`` and
    ``measured_high_hz`` [Hz], where the lot was measured; outside, and where it was not (both
    ``None``), it is that of the book. ``clad_steel`` where the conductor is copper on steel.
    ``points`` are what was stated, in rising frequency.
    """

    line: SheetLine
    points: tuple[LossPoint, ...]
    relative_uncertainty: float
    measured_low_hz: float | None
    measured_high_hz: float | None
    clad_steel: bool
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "relative_uncertainty")

    def loss_db_per_m(
        self, frequency_hz: npt.ArrayLike, *, temperature_celsius: float
    ) -> FloatArray:
        """Return the loss [dB/m], shape of ``frequency_hz`` [Hz], conductors at that [°C].

        Raises BadValue outside what the line is known for (``line.lowest_hz`` and on).
        """
        frequency = np.asarray(frequency_hz, dtype=np.float64)
        if frequency.ndim == 0:
            return np.array(_loss_at(self.line, self.points, float(frequency), temperature_celsius))
        line = self.line.parameters(frequency, temperature_celsius=temperature_celsius)
        loss: FloatArray = line.loss_db_per_m / _rod_over_stated(self.line, self.points, frequency)
        return loss

    def spread_at(self, frequency_hz: float) -> float:
        """Return the relative standard uncertainty [1] at ``frequency_hz`` [Hz]."""
        low, high = self.measured_low_hz, self.measured_high_hz
        if low is None or high is None or not low <= frequency_hz <= high:
            return BOOK_LOSS_SPREAD
        return self.relative_uncertainty

    def beyond(self, frequency_hz: float) -> bool:
        """Whether ``frequency_hz`` [Hz] lies above every loss stated: to be trusted less."""
        return self.line.extrapolates(frequency_hz)

    def doubtful_below(self, frequency_hz: float) -> bool:
        """Whether the conductor's steel makes a loss stated higher up too low at that [Hz]."""
        first = self.line.fitted_low_hz or 0.0
        return self.clad_steel and frequency_hz < min(first, CLAD_STEEL_FROM_HZ)

    @property
    def poorly_fitted(self) -> bool:
        """Whether a stated loss lies farther from the curve than is taken without a word."""
        return self.line.worst_residual > ACCEPTED_RESIDUAL


@lru_cache(maxsize=65536)
def _loss_at(
    line: SheetLine, points: tuple[LossPoint, ...], frequency_hz: float, temperature_celsius: float
) -> float:
    one = line.parameters([frequency_hz], temperature_celsius=temperature_celsius)
    rod = _rod_over_stated(line, points, np.array([frequency_hz]))
    return float(one.loss_db_per_m[0] / rod[0])


def _rod_over_stated(
    line: SheetLine, points: tuple[LossPoint, ...], frequency: FloatArray
) -> FloatArray:
    """The fitted rod over what is stated [1], on the logarithm of frequency."""
    used = [point.frequency_hz for point in points if point.frequency_hz >= line.lowest_hz]
    deviations = list(line.relative_residuals)
    # At audio the stated resistance rules, which the rod has exactly.
    if line.lowest_hz < AUDIO_HZ < used[0]:
        used, deviations = [AUDIO_HZ, *used], [0.0, *deviations]
    found: FloatArray = 1 + np.interp(np.log(frequency), np.log(used), deviations)
    return found


def known_loss(cable: Cable, lot: Lot | None) -> KnownLoss | Reason:
    """Return the loss of the lot, else of the data sheet, or the reason why it is not known.

    Raises BadValue where the lot is of another cable.
    """
    require_lot_of(cable, lot)
    return _known(cable, lot)


@lru_cache(maxsize=4096)
def _known(cable: Cable, lot: Lot | None) -> KnownLoss | Reason:
    points = loss_points_in_hand(cable, lot)
    if len(points) < 2:
        return Reason(
            code="loss-points-missing",
            sentence=(
                f"the loss is stated at {len(points)} "
                f"frequenc{'y' if len(points) == 1 else 'ies'}; two are needed"
            ),
        )
    line = line_of_sheet(cable, lot)
    if isinstance(line, Reason) and line.code == "line-not-stated":
        line = fit_line(
            impedance_ohm=_ANY_IMPEDANCE_OHM,
            delay_s_per_m=_ANY_DELAY_S_PER_M,
            direct_ohm_per_m=None,
            points=points,
        )
    if isinstance(line, Reason):
        return line
    conductor = cable.layer(LayerRole.CONDUCTOR)
    own = None if lot is None else lot.loss_relative_uncertainty
    book = book_spread_source(BOOK_LOSS_SPREAD)
    return KnownLoss(
        line=line,
        points=points,
        relative_uncertainty=own or BOOK_LOSS_SPREAD,
        measured_low_hz=lot.loss_points[0].frequency_hz if lot and lot.loss_points else None,
        measured_high_hz=lot.loss_points[-1].frequency_hz if lot and lot.loss_points else None,
        clad_steel=conductor is not None and "steel" in conductor.material.casefold(),
        source=(
            Source(text=f"losses measured on lot {lot.code}", basis=Basis.OWN_SHOP)
            if lot is not None and lot.loss_points
            else Source(text=f"{cable.sheet.source.text}; {book}", basis=cable.sheet.source.basis)
        ),
    )
