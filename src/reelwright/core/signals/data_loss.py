"""The loss of a data run over its whole band, against the channel that its rate asks for.

Loss and limit both rise with frequency, but not alike. The frequency that decides is the one at
which the longest run allowed is the shortest: within the limit there, a run of any length is within
the limit everywhere, and beyond it there, it fails. So one frequency judges the whole band exactly.
"""

from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.category.cable import LOWEST_HZ, Category
from reelwright.core.signals.category.cords import warmth_factor
from reelwright.core.signals.category.links import (
    CHANNEL_SOURCE,
    Link,
    connection_loss_db,
    insertion_loss_db,
)
from reelwright.core.signals.category.shown import category_shown
from reelwright.core.signals.data_rates import EVEN_ON_SIX_M, SURE_ON_SIX_M, DataRate
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Reason

_FREQUENCIES = 96
_AT_20_CELSIUS = 20.0
_ONE_SIDED_95 = NormalDist().inv_cdf(0.95)


@dataclass(frozen=True, kw_only=True)
class ChannelLoss:
    """What decides over the band: at ``frequency_hz`` [Hz] a whole channel may lose ``limit_db``.

    The cable loses ``loss_db_per_m`` [dB/m] there, warm as it is, with ``relative_spread`` [1], and
    its plugs and adapters together ``joints_db`` [dB], each counted at its own limit.
    ``doubtful_hz`` [Hz] is where in the band the cable's loss is known least: its end where that
    lies beyond the stated losses.
    """

    frequency_hz: float
    limit_db: float
    loss_db_per_m: float
    joints_db: float
    relative_spread: float
    doubtful_hz: float

    @property
    def doubtful_limit(self) -> LossLimit:
        """The limit, put where the loss is known least."""
        return LossLimit(
            frequency_hz=self.doubtful_hz,
            limit_db=self.limit_db,
            guard_db=0.0,
            source=CHANNEL_SOURCE,
        )


def channel_loss(run: Run, category: Category) -> ChannelLoss | Reason:
    """Return what decides for ``run`` in a channel of ``category``, or why it is not known."""
    known = known_loss(run.cable, run.lot)
    if isinstance(known, Reason):
        return Reason(code=known.code, sentence=f"for {run.cable.code} {known.sentence}")
    return _deciding(run.cable, run.lot, category, run.joints, run.temperature_celsius)


def warm_loss_db_per_m(
    known: KnownLoss, frequency_hz: FloatArray, *, temperature_celsius: float, screened: bool
) -> FloatArray:
    """Return the loss [dB/m] at a temperature [°C]: the copper's own or the allowance, the more."""
    own = known.loss_db_per_m(frequency_hz, temperature_celsius=temperature_celsius)
    if temperature_celsius <= _AT_20_CELSIUS:
        return own
    cold = known.loss_db_per_m(frequency_hz, temperature_celsius=_AT_20_CELSIUS)
    return np.maximum(own, cold * warmth_factor(temperature_celsius, screened=screened))


@lru_cache(maxsize=4096)
def _deciding(
    cable: Cable, lot: Lot | None, category: Category, joints: int, temperature_celsius: float
) -> ChannelLoss | Reason:
    known = known_loss(cable, lot)
    if isinstance(known, Reason):
        return known
    highest = min(category.highest_hz, known.line.highest_hz)
    band = np.geomspace(max(LOWEST_HZ, known.line.lowest_hz), highest, _FREQUENCIES)
    # The ends of the band are limits of validity, and a power may round past them.
    band[0], band[-1] = max(LOWEST_HZ, known.line.lowest_hz), highest
    per_metre = warm_loss_db_per_m(
        known, band, temperature_celsius=temperature_celsius, screened=cable.screened
    )
    limit = insertion_loss_db(category, Link.CHANNEL, band)
    joints_db = joints * connection_loss_db(category, band)
    at = int(np.argmin((limit - joints_db) / per_metre))
    return ChannelLoss(
        frequency_hz=float(band[at]),
        limit_db=float(limit[at]),
        loss_db_per_m=float(per_metre[at]),
        joints_db=float(joints_db[at]),
        relative_spread=known.spread_at(float(band[at])),
        doubtful_hz=highest if known.beyond(highest) else float(band[at]),
    )


def channel_budget(run: Run, decides: ChannelLoss) -> Budget:
    """Return the budget of a run with the loss at the frequency that decides."""

    def used(lengths_m: FloatArray) -> FloatArray:
        return decides.loss_db_per_m * lengths_m + decides.joints_db

    def spread(lengths_m: FloatArray) -> FloatArray:
        return decides.relative_spread * decides.loss_db_per_m * lengths_m

    return Budget(
        limit=decides.limit_db,
        used=used,
        spread=spread,
        length_relative_uncertainty=run.length_relative_uncertainty,
    )


def neighboured_budget(run: Run, rate: DataRate, loss: Budget) -> Budget:
    """Return ``loss`` with what the cables beside the run leave of its reach at ``rate``.

    Only 10 Gb/s over category 6 is bound by its neighbours: it goes 37 m for sure (95 %) and 55 m
    at most, so even odds lie halfway. Their share of the limit grows with length; of theirs and
    the loss the larger one decides.
    """
    shown = category_shown(run.cable, run.lot).category
    if rate.category is not Category.SIX_A or shown is not Category.SIX:
        return loss
    relative = (EVEN_ON_SIX_M / SURE_ON_SIX_M - 1) / _ONE_SIDED_95

    def by_neighbours(lengths_m: FloatArray) -> FloatArray:
        share: FloatArray = loss.limit * lengths_m / EVEN_ON_SIX_M
        return share

    def used(lengths_m: FloatArray) -> FloatArray:
        return np.maximum(loss.used(lengths_m), by_neighbours(lengths_m))

    def spread(lengths_m: FloatArray) -> FloatArray:
        return np.hypot(loss.spread(lengths_m), relative * by_neighbours(lengths_m))

    return Budget(
        limit=loss.limit,
        used=used,
        spread=spread,
        length_relative_uncertainty=loss.length_relative_uncertainty,
    )
