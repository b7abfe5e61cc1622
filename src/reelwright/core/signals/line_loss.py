"""Loss of a run at one frequency: the budget and the checks that video and television share."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.parts.layers import LayerRole
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.loss_law import ACCEPTED_RESIDUAL, LossLaw, fit_loss_law
from reelwright.core.physics.spread import BOOK_LOSS_SPREAD
from reelwright.core.quantities.show import show_both, show_both_whole, show_db, show_percent
from reelwright.core.quantities.show_scaled import show_megahertz
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
    law = fit_loss_law(run.cable.sheet.loss_points)
    if isinstance(law, Reason):
        return law
    per_metre = float(
        law.loss_db_per_m(limit.frequency_hz, temperature_celsius=run.temperature_celsius)
    )
    joints_db = joint_loss_db(run, frequency_hz=limit.frequency_hz)
    joints_spread = np.sqrt(run.joints) * CONNECTOR_LOSS_SPREAD_DB if joints_db else 0.0

    def used(lengths_m: FloatArray) -> FloatArray:
        return per_metre * lengths_m + joints_db

    def spread(lengths_m: FloatArray) -> FloatArray:
        return np.hypot(per_metre * lengths_m * BOOK_LOSS_SPREAD, joints_spread)

    return Budget(
        limit=limit.limit_db,
        used=used,
        spread=spread,
        length_relative_uncertainty=run.length_relative_uncertainty,
    )


def judge_line_loss(run: Run, limit: LossLimit, budget: Budget, *, signal: str) -> Check:
    """Return the check of the loss; ``signal`` is its name as the sentence says it."""
    used, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
    if margin < 0:
        outcome = Outcome.BAD
    else:
        outcome = Outcome.GOOD if margin >= limit.guard_db else Outcome.CAUTION
    return Check(
        name=limit.check_name,
        outcome=outcome,
        sentence=_sentence(run, limit, budget, used=used, margin=margin, signal=signal),
        source=limit.source,
        value=used,
        limit=limit.limit_db,
        margin=margin,
        unit="dB",
    )


def _sentence(
    run: Run, limit: LossLimit, budget: Budget, *, used: float, margin: float, signal: str
) -> str:
    length = show_both(run.length.mean_m)
    start = (
        f"Over {length} {run.cable.code} loses {show_db(used)} at "
        f"{show_megahertz(limit.frequency_hz)}; {signal} allows {show_db(limit.limit_db)}"
    )
    if margin >= limit.guard_db:
        return f"{start}, so there is {show_db(margin)} to spare."
    longest = longest_within_m(budget, guard=limit.guard_db)
    recommended = (
        f"The longest run we recommend on it is {show_both_whole(longest)}."
        if longest >= 1
        else "No length of it would do."
    )
    if margin >= 0:
        return (
            f"{start}, so only {show_db(margin)} is to spare, less than the "
            f"{show_db(limit.guard_db)} we hold back. {recommended}"
        )
    return f"{start}: {show_db(-margin)} too much. {recommended}"


def loss_doubts(run: Run, limit: LossLimit) -> tuple[Check, ...]:
    """Return what is doubtful about the loss: beyond its points, or poorly fitted."""
    law = fit_loss_law(run.cable.sheet.loss_points)
    if not isinstance(law, LossLaw):
        return ()
    return (*_beyond_points(run, limit, law), *_poor_fit(run, law))


def _beyond_points(run: Run, limit: LossLimit, law: LossLaw) -> tuple[Check, ...]:
    frequency, asked = limit.frequency_hz, show_megahertz(limit.frequency_hz)
    conductor = run.cable.layer(LayerRole.CONDUCTOR)
    # Copper on steel leaves the law far earlier: at 10 MHz the field still reaches the steel.
    clad = conductor is not None and "steel" in conductor.material.casefold()
    if frequency > law.highest_hz:
        outcome = Outcome.CAUTION
        sentence = (
            f"The loss at {asked} is carried on from points stated up to "
            f"{show_megahertz(law.highest_hz)} and is less sure than the others."
        )
    elif frequency < law.lowest_hz:
        outcome = Outcome.CAUTION if clad else Outcome.GOOD
        sentence = (
            f"The loss at {asked} is carried down from points stated from "
            f"{show_megahertz(law.lowest_hz)}"
            + (
                ", where copper on steel no longer follows the law."
                if clad
                else "; for copper the law holds down to 3\u202fMHz."
            )
        )
    else:
        return ()
    return (
        Check(
            name="how well the loss is known",
            outcome=outcome,
            sentence=sentence,
            source=Source(
                text="two-term law outside the frequencies it was fitted to", basis=Basis.COMPUTED
            ),
            value=frequency,
            limit=law.highest_hz if frequency > law.highest_hz else law.lowest_hz,
            margin=None,
            unit="Hz",
        ),
    )


def _poor_fit(run: Run, law: LossLaw) -> tuple[Check, ...]:
    if law.worst_residual <= ACCEPTED_RESIDUAL:
        return ()
    return (
        Check(
            name="fit of the stated losses",
            outcome=Outcome.CAUTION,
            sentence=(
                f"The stated losses of {run.cable.code} lie up to "
                f"{show_percent(law.worst_residual)} off the law fitted to them."
            ),
            source=Source(text="fit within 2 %", basis=Basis.COMMON_PRACTICE),
            value=law.worst_residual,
            limit=ACCEPTED_RESIDUAL,
            margin=ACCEPTED_RESIDUAL - law.worst_residual,
            unit="1",
        ),
    )
