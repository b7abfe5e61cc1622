"""Loss of a run at one frequency: the budget and the checks that video and television share."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.known_loss import ACCEPTED_RESIDUAL, KnownLoss, known_loss
from reelwright.core.quantities.show import show_both, show_db, show_percent
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.answer import told_longest
from reelwright.core.signals.budget import Budget, longest_within_m
from reelwright.core.signals.practice import (
    CONNECTOR_COUNTED_FROM_HZ,
    CONNECTOR_LOSS_DB,
    CONNECTOR_LOSS_SPREAD_DB,
)
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source


@dataclass(frozen=True, kw_only=True)
class LossLimit:
    """A loss [dB] allowed at a frequency [Hz], a guard [dB] held back, and the limit's source."""

    frequency_hz: float
    limit_db: float
    guard_db: float
    source: Source

    @property
    def check_name(self) -> str:
        """Name of the check, with the frequency."""
        return f"loss at {self.frequency_hz / 1e6:g} MHz"


def joint_loss_db(run: Run, *, frequency_hz: float) -> float:
    """Return the loss [dB] of both connectors and all adapters at ``frequency_hz`` [Hz]."""
    return run.joints * CONNECTOR_LOSS_DB if frequency_hz >= CONNECTOR_COUNTED_FROM_HZ else 0.0


def loss_budget(run: Run, limit: LossLimit) -> Budget | Reason:
    """Return the budget of a run against ``limit``, or the reason why the loss is not known."""
    known = known_loss(run.cable, run.lot)
    if isinstance(known, Reason):
        return known
    if limit.frequency_hz < known.line.lowest_hz:
        return Reason(
            code="loss-below-what-is-known",
            sentence=(
                f"the loss at {show_megahertz(limit.frequency_hz)} cannot be told from losses "
                "alone; the resistance of conductor and screen is needed"
            ),
        )
    per_metre = float(
        known.loss_db_per_m(limit.frequency_hz, temperature_celsius=run.temperature_celsius)
    )
    relative_spread = known.spread_at(limit.frequency_hz)
    joints_db = joint_loss_db(run, frequency_hz=limit.frequency_hz)
    joints_spread = np.sqrt(run.joints) * CONNECTOR_LOSS_SPREAD_DB if joints_db else 0.0

    def used(lengths_m: FloatArray) -> FloatArray:
        return per_metre * lengths_m + joints_db

    def spread(lengths_m: FloatArray) -> FloatArray:
        return np.hypot(per_metre * lengths_m * relative_spread, joints_spread)

    return Budget(
        limit=limit.limit_db,
        used=used,
        spread=spread,
        length_relative_uncertainty=run.length_relative_uncertainty,
    )


def judge_line_loss(run: Run, limit: LossLimit, budget: Budget, *, signal: str) -> Check:
    """Return the check of the loss; ``signal`` is its name as the sentence says it."""
    used, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
    start = (
        f"Over {show_both(run.length.mean_m)} {run.cable.code} loses {show_db(used)} at "
        f"{show_megahertz(limit.frequency_hz)}; {signal} allows {show_db(limit.limit_db)}"
    )
    told = told_against(limit, budget, start=start, margin_db=margin, beyond="too much")
    return loss_check(limit, used_db=used, margin_db=margin, sentence=told)


def loss_check(limit: LossLimit, *, used_db: float, margin_db: float, sentence: str) -> Check:
    """Return ``sentence`` as the check of a loss ``used_db`` that leaves ``margin_db``."""
    if margin_db < 0:
        outcome = Outcome.BAD
    else:
        outcome = Outcome.GOOD if margin_db >= limit.guard_db else Outcome.CAUTION
    return Check(
        name=limit.check_name,
        outcome=outcome,
        sentence=sentence,
        source=limit.source,
        value=used_db,
        limit=limit.limit_db,
        margin=margin_db,
        unit="dB",
    )


def told_against(
    limit: LossLimit, budget: Budget, *, start: str, margin_db: float, beyond: str
) -> str:
    """Return ``start`` with what is to spare or ``beyond`` the limit, and the run to take then."""
    if margin_db >= limit.guard_db:
        return f"{start}, so there is {show_db(margin_db)} to spare."
    recommended = told_longest(longest_within_m(budget, guard=limit.guard_db))
    if margin_db >= 0:
        return (
            f"{start}, so only {show_db(margin_db)} is to spare, less than the "
            f"{show_db(limit.guard_db)} we hold back. {recommended}"
        )
    return f"{start}: {show_db(-margin_db)} {beyond}. {recommended}"


def loss_doubts(run: Run, limit: LossLimit) -> tuple[Check, ...]:
    """Return what is doubtful about the loss: beyond its points, or poorly fitted."""
    known = known_loss(run.cable, run.lot)
    if not isinstance(known, KnownLoss):
        return ()
    return (*_beyond_points(limit, known), *_poor_fit(run, known))


def _beyond_points(limit: LossLimit, known: KnownLoss) -> tuple[Check, ...]:
    frequency, asked = limit.frequency_hz, show_megahertz(limit.frequency_hz)
    low, high = known.line.fitted_low_hz or 0.0, known.line.fitted_high_hz or 0.0
    if known.beyond(frequency):
        outcome = Outcome.CAUTION
        sentence = (
            f"The loss at {asked} is carried on from points stated up to "
            f"{show_megahertz(high)} and is less sure than the others."
        )
    elif known.doubtful_below(frequency):
        outcome = Outcome.CAUTION
        sentence = (
            f"The loss at {asked} is carried down from points stated from {show_megahertz(low)}, "
            "where copper on steel loses more than that."
        )
    elif frequency < low:
        outcome = Outcome.GOOD
        sentence = (
            f"The loss at {asked} is carried down from points stated from {show_megahertz(low)} by "
            "the exact skin effect of the conductor."
        )
    else:
        return ()
    return (
        Check(
            name="how well the loss is known",
            outcome=outcome,
            sentence=sentence,
            source=Source(
                text="exact rod in a lossy dielectric outside the frequencies it was fitted to",
                basis=Basis.COMPUTED,
            ),
            value=frequency,
            limit=high if known.beyond(frequency) else low,
            margin=None,
            unit="Hz",
        ),
    )


def _poor_fit(run: Run, known: KnownLoss) -> tuple[Check, ...]:
    if not known.poorly_fitted:
        return ()
    residual = known.line.worst_residual
    return (
        Check(
            name="fit of the stated losses",
            outcome=Outcome.CAUTION,
            sentence=(
                f"The stated losses of {run.cable.code} lie up to {show_percent(residual)} off the "
                "curve fitted to them."
            ),
            source=Source(text="fit within 2 %", basis=Basis.COMMON_PRACTICE),
            value=residual,
            limit=ACCEPTED_RESIDUAL,
            margin=ACCEPTED_RESIDUAL - residual,
            unit="1",
        ),
    )
