"""What antenna and television signals share: a level goes in, a tuner wants one within two figures.

The highest frequency decides what arrives, since a cable loses most there; the lowest decides
whether it is too much, since least is lost there; the difference is the slope over the band.
"""

import math
from abc import abstractmethod
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.quantities.guard import require_finite, require_given, require_positive
from reelwright.core.quantities.show import show_both, show_db, show_in, show_plain
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import (
    LossLimit,
    joint_loss_db,
    loss_budget,
    loss_check,
    told_against,
)
from reelwright.core.signals.run import Run
from reelwright.core.signals.supply_drop import Supply, supply_checks
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

OUTLET_SOURCE = Source(
    text="EN 60728-1, levels at the outlet, as a trade compendium gives them",
    basis=Basis.PUBLISHED,
)
"""Where the levels of the European standard were read."""

_SLOPE_SOURCE = Source(
    text="EN 60728-1, difference of levels between channels at one outlet",
    basis=Basis.FROM_MEMORY,
)


@dataclass(frozen=True, kw_only=True)
class Window:
    """What a tuner takes: ``least_dbuv`` to ``most_dbuv`` [dBµV] on 75 Ω, its band in [Hz].

    ``most_dbuv`` is None where the source states no upper figure; ``slope_db`` [dB] the largest
    difference between the ends of the band, None where no figure is known. Raises BadValue for a
    band or a window that is turned round.
    """

    low_hz: float
    high_hz: float
    least_dbuv: float
    most_dbuv: float | None
    guard_db: float
    slope_db: float | None
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "low_hz", "high_hz")
        require_finite(self, "least_dbuv")
        require_given(self, "guard_db", "slope_db")
        if self.low_hz >= self.high_hz:
            raise BadValue(
                owner="Window",
                field="low_hz",
                value=self.low_hz,
                accepted=f"below high_hz, {self.high_hz:g}",
            )
        if self.most_dbuv is not None and not self.least_dbuv < self.most_dbuv:
            raise BadValue(
                owner="Window",
                field="most_dbuv",
                value=self.most_dbuv,
                accepted=f"above least_dbuv, {self.least_dbuv:g}",
            )


class LevelSignal(CoaxSignal):
    """A signal that a tuner takes within a window of levels, on 75 Ω coax."""

    @property
    @abstractmethod
    def window(self) -> Window:
        """What the tuner takes."""

    @property
    @abstractmethod
    def near_level_dbuv(self) -> float | None:
        """Level [dBµV] where the run begins; None where nobody measured it."""

    @property
    @abstractmethod
    def near_end(self) -> str:
        """What the run begins at: "your outlet"."""

    @property
    def near_most_dbuv(self) -> float | None:
        """The most [dBµV] that what the run begins at may give; None where no figure is known."""
        return None

    @property
    def supply(self) -> Supply | None:
        """The supply that travels along the cable; none unless a signal says so."""
        return None

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        window = self.window
        levels = (
            f"{show_plain(window.least_dbuv, 'dBµV')} or more"
            if window.most_dbuv is None
            else f"{window.least_dbuv:g} to {show_plain(window.most_dbuv, 'dBµV')}"
        )
        return (
            f"A tuner that gets {levels} from {window.low_hz / 1e6:g} to "
            f"{show_megahertz(window.high_hz)}, 75\u202fΩ."
        )

    @property
    def limit(self) -> LossLimit:
        """The loss that the level leaves; all of it where the level is not known."""
        level, window = self.near_level_dbuv, self.window
        return LossLimit(
            frequency_hz=window.high_hz,
            limit_db=math.inf if level is None else level - window.least_dbuv,
            guard_db=window.guard_db,
            source=window.source,
        )

    def budget(self, run: Run) -> Budget | Reason:
        """Return the loss of the run against what the level leaves, if that is known."""
        if self.near_level_dbuv is None:
            return Reason(
                code="near-level-unknown",
                sentence=f"the level at {self.near_end} is not known",
            )
        return super().budget(run)

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return what arrives at the highest frequency against what is needed there."""
        level = self.near_level_dbuv
        if level is None:
            raise AssertionError("there is no budget without a level")
        used, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
        told = self._sentence(run, budget, level=level, used=used, margin=margin)
        return loss_check(self.limit, used_db=used, margin_db=margin, sentence=told)

    def _sentence(
        self, run: Run, budget: Budget, *, level: float, used: float, margin: float
    ) -> str:
        least = self.window.least_dbuv
        needed, gives = show_plain(least, "dBµV"), show_plain(level, "dBµV")
        if level < least:
            return (
                f"{self.near_end[:1].upper()}{self.near_end[1:]} gives {gives}, and {needed} are "
                f"needed behind the cable: no cable would do, an amplifier at {self.near_end} "
                "might."
            )
        start = (
            f"Over {show_both(run.length.mean_m)} {run.cable.code} loses {show_db(used)} at "
            f"{show_megahertz(self.window.high_hz)}: of {gives} {_level(level - used)} arrive, and "
            f"{needed} are needed"
        )
        return told_against(self.limit, budget, start=start, margin_db=margin, beyond="too little")

    def unknown(self, run: Run, reason: Reason) -> Check:
        """Return the loss, the level that it asks for, and the question for the level there is."""
        if self.near_level_dbuv is not None:
            return super().unknown(run, reason)
        loss = loss_budget(run, self.limit)
        if isinstance(loss, Reason):
            return super().unknown(run, loss)
        used, window, most = loss.used_at(run.length.mean_m), self.window, self.near_most_dbuv
        least = window.least_dbuv + used
        impossible = most is not None and least > most
        start = (
            f"Over {show_both(run.length.mean_m)} {run.cable.code} loses {show_db(used)} at "
            f"{show_megahertz(window.high_hz)}, so {self.near_end} must give "
        )
        return Check(
            name=self.limit.check_name,
            outcome=Outcome.BAD if impossible else Outcome.CAUTION,
            sentence=start
            + (
                f"{_level(least)}, and it may give {show_plain(most, 'dBµV')} at most."
                if most is not None and impossible
                else f"{_level(least + window.guard_db)} or more, with "
                f"{show_db(window.guard_db)} held back. How much it gives we do not know: if you "
                "can have it measured, tell us the figure."
            ),
            source=window.source,
            value=used,
            limit=None,
            margin=None,
            unit="dB",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return whether too much arrives, and what is doubtful about loss and ends."""
        return (*self._too_strong(run), *super().further_checks(run))

    def checks_besides(self, run: Run) -> tuple[Check, ...]:
        """Return slope and supply, which no level is needed for; without one, the doubts too."""
        supply = () if self.supply is None else supply_checks(run, self.supply)
        doubts = super().further_checks(run) if self.near_level_dbuv is None else ()
        return (*self._slope(run), *supply, *doubts)

    def _too_strong(self, run: Run) -> tuple[Check, ...]:
        level, most, known = self.near_level_dbuv, self.window.most_dbuv, _known(run, self.window)
        if level is None or most is None or known is None:
            return ()
        arrives = level - _lost(run, known, self.window.low_hz)
        good = arrives <= most
        low, allowed = show_megahertz(self.window.low_hz), show_plain(most, "dBµV")
        return (
            Check(
                name="level not to exceed",
                outcome=Outcome.GOOD if good else Outcome.CAUTION,
                sentence=(
                    f"At {low} {_level(arrives)} arrive; up to {allowed} are allowed."
                    if good
                    else f"At {low} {_level(arrives)} arrive, more than the {allowed} that a tuner "
                    f"should get: put an attenuator of {_whole_up(arrives - most)} or more in "
                    "front of it."
                ),
                source=self.window.source,
                value=arrives,
                limit=most,
                margin=most - arrives,
                unit="dBµV",
            ),
        )

    def _slope(self, run: Run) -> tuple[Check, ...]:
        window, known = self.window, _known(run, self.window)
        if window.slope_db is None or known is None:
            return ()
        low, high = (_lost(run, known, each) for each in (window.low_hz, window.high_hz))
        slope, limit = high - low, window.slope_db
        good = slope <= limit
        return (
            Check(
                name="slope over the band",
                outcome=Outcome.GOOD if good else Outcome.CAUTION,
                sentence=(
                    f"Over {show_both(run.length.mean_m)} {run.cable.code} loses {show_db(low)} at "
                    f"{show_megahertz(window.low_hz)} and {show_db(high)} at "
                    f"{show_megahertz(window.high_hz)}, a difference of {show_db(slope)}; "
                    f"{show_plain(limit, 'dB')} between channels is usually allowed"
                    + ("." if good else ": an equaliser would be needed to level it out.")
                ),
                source=_SLOPE_SOURCE,
                value=slope,
                limit=limit,
                margin=limit - slope,
                unit="dB",
            ),
        )


def _known(run: Run, window: Window) -> KnownLoss | None:
    known = known_loss(run.cable, run.lot)
    return None if isinstance(known, Reason) or window.low_hz < known.line.lowest_hz else known


def _lost(run: Run, known: KnownLoss, frequency_hz: float) -> float:
    per_metre = known.loss_db_per_m(frequency_hz, temperature_celsius=run.temperature_celsius)
    return float(per_metre) * run.length.mean_m + joint_loss_db(run, frequency_hz=frequency_hz)


def _level(level_dbuv: float) -> str:
    return show_in(level_dbuv, "dBµV", decimals=1)


def _whole_up(level_db: float) -> str:
    return show_in(math.ceil(level_db - 1e-9), "dB", decimals=0)
