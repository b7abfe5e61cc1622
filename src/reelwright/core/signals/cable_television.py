"""Cable television: loss at the highest channel, against the level at the outlet if it is known."""

import math
from dataclasses import dataclass

from reelwright.core.quantities.guard import require_finite
from reelwright.core.quantities.show import show_both, show_db, show_plain
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import LossLimit, loss_budget
from reelwright.core.signals.practice import GUARD_DB
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

HIGHEST_CHANNEL_HZ = 862e6
"""Top [Hz] of the band of cable television."""

NEEDED_LEVEL_DBUV = 54.0
"""Least level [dBµV] for digital cable channels of the densest kind, 75 Ω."""

_SOURCE = Source(
    text=(
        "EN 60728-1 as a trade compendium gives it: 54 dBµV at least for 256-level cable channels"
    ),
    basis=Basis.PUBLISHED,
)


@dataclass(frozen=True, kw_only=True)
class CableTelevision(CoaxSignal):
    """Cable television; ``outlet_level_dbuv`` [dBµV] is None where the outlet was not measured."""

    outlet_level_dbuv: float | None

    def __post_init__(self) -> None:
        if self.outlet_level_dbuv is not None:
            require_finite(self, "outlet_level_dbuv")

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return "A tuner that gets 54\u202fdBµV or more at its highest channel, 75\u202fΩ."

    @property
    def name(self) -> str:
        """Cable television."""
        return "cable television"

    @property
    def limit(self) -> LossLimit:
        """The loss that the outlet's level leaves; all of it where that level is not known."""
        level = self.outlet_level_dbuv
        return LossLimit(
            frequency_hz=HIGHEST_CHANNEL_HZ,
            limit_db=math.inf if level is None else level - NEEDED_LEVEL_DBUV,
            guard_db=GUARD_DB,
            source=_SOURCE,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the loss, or that the outlet is too weak before any cable."""
        level = self.outlet_level_dbuv
        if level is None or level - NEEDED_LEVEL_DBUV >= 0:
            return super().main_check(run, budget)
        used = budget.used_at(run.length.mean_m)
        return Check(
            name=self.limit.check_name,
            outcome=Outcome.BAD,
            sentence=(
                f"Your outlet gives {show_plain(level, 'dBµV')}, and "
                f"{show_plain(NEEDED_LEVEL_DBUV, 'dBµV')} are needed behind the cable: no cable "
                "would do, an amplifier at the outlet might."
            ),
            source=_SOURCE,
            value=used,
            limit=self.limit.limit_db,
            margin=budget.margin_at(run.length.mean_m),
            unit="dB",
        )

    def budget(self, run: Run) -> Budget | Reason:
        """Return the loss of the run against the level at the outlet, if that is known."""
        if self.outlet_level_dbuv is None:
            return Reason(
                code="outlet-level-unknown", sentence="the level at the outlet is not known"
            )
        return super().budget(run)

    def unknown(self, run: Run, reason: Reason) -> Check:
        """Return the loss with the question for the level at the outlet."""
        if self.outlet_level_dbuv is not None:
            return super().unknown(run, reason)
        loss = loss_budget(run, self.limit)
        if isinstance(loss, Reason):
            return super().unknown(run, loss)
        used = loss.used_at(run.length.mean_m)
        return Check(
            name=self.limit.check_name,
            outcome=Outcome.CAUTION,
            sentence=(
                f"Over {show_both(run.length.mean_m)} {run.cable.code} loses "
                f"{show_db(used)} at {show_megahertz(HIGHEST_CHANNEL_HZ)}. Whether that leaves "
                "enough depends on the level at your outlet, which we do not know: if you can have "
                "it measured, tell us the figure."
            ),
            source=_SOURCE,
            value=used,
            limit=None,
            margin=None,
            unit="dB",
        )
