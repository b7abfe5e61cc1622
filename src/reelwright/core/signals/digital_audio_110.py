"""Balanced digital audio on a 110 Ω pair: a length the standard allows, beyond it the eye."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.root_line import loss_for_opening_db
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_both, show_db, show_plain, show_plain_m
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.biphase import Levels, cell_rate_hz, fundamental_hz, level_check
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.length_rule import length_budget
from reelwright.core.signals.line_loss import LossLimit, judge_line_loss, loss_budget, loss_doubts
from reelwright.core.signals.practice import GUARD_DB
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

LONGEST_M = 100.0
"""Length [m] without an equaliser at frame rates up to 50 kHz, IEC 60958-4-4."""

HIGHEST_RATE_HZ = 50_000
"""The frame rate [Hz] up to which that length is stated."""

LEVELS = Levels(
    launched_v=2.0,
    needed_v=0.2,
    source=Source(
        text=(
            "AES3 and SMPTE 276M as equipment manuals give them: 2 to 7 V launched into 110 Ω, an "
            "eye of 0.2 V"
        ),
        basis=Basis.PUBLISHED,
    ),
)
"""The weakest launch, and the eye needed [V peak to peak]."""

_SOURCE = Source(
    text="IEC 60958-4-4:2016, 100 m without equalisation at frame rates to 50 kHz",
    basis=Basis.STANDARD,
)
_EYE_SOURCE = Source(
    text=(
        "the loss that leaves an eye of 0.2 V of 2 V launched, in the worst pattern and without an "
        "equaliser; levels of AES3 as equipment manuals give them"
    ),
    basis=Basis.COMPUTED,
)
_NAME = "length"


@dataclass(frozen=True, kw_only=True)
class DigitalAudio110(JudgedSignal):
    """Balanced digital audio at ``sample_rate_hz`` [Hz]."""

    sample_rate_hz: int

    needs = SignalNeeds(
        legs=2, balanced=True, phantom_power=False, screen=True, impedance_ohm=110.0
    )
    """Two legs and a screen, 110 Ω."""

    families = (Family.PAIR,)
    """Balanced pairs only."""

    def __post_init__(self) -> None:
        require_positive(self, "sample_rate_hz")

    @property
    def by_length(self) -> bool:
        """Whether the standard states a length at this rate."""
        return self.sample_rate_hz <= HIGHEST_RATE_HZ

    @property
    def margin_unit(self) -> str:
        """Metres where the standard states a length, else decibels."""
        return "m" if self.by_length else "dB"

    @property
    def check_name(self) -> str:
        """The length, or the loss at the highest fundamental."""
        return _NAME if self.by_length else self.limit.check_name

    @property
    def check_source(self) -> Source:
        """The standard's length, or its levels."""
        return _SOURCE if self.by_length else _EYE_SOURCE

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return "A receiver terminated with 110\u202fΩ that gets 200\u202fmV or more."

    @property
    def name(self) -> str:
        """Balanced digital audio with its sample rate."""
        return f"balanced digital audio {self.sample_rate_hz / 1e3:g} kHz"

    @property
    def limit(self) -> LossLimit:
        """The loss allowed at the highest fundamental, 64 times the sample rate: 9.33 dB.

        The level alone would allow 20 dB, but without an equaliser the eye is closed at 10.6 dB.
        """
        return LossLimit(
            frequency_hz=fundamental_hz(self.sample_rate_hz),
            limit_db=loss_for_opening_db(LEVELS.needed_v / LEVELS.launched_v, rise_ratio=0.0),
            guard_db=GUARD_DB,
            source=_EYE_SOURCE,
        )

    def budget(self, run: Run) -> Budget | Reason:
        """Return the length against the standard's; above 50 kHz the loss against the eye's."""
        if self.by_length:
            return length_budget(run, limit_m=LONGEST_M, used_m=lambda lengths_m: lengths_m)
        budget = loss_budget(run, self.limit)
        if isinstance(budget, Budget):
            return budget
        return Reason(
            code="rate-beyond-the-rule",
            sentence=(
                "the standard states a length up to 50\u202fkHz only; at "
                f"{show_plain(self.sample_rate_hz / 1e3, 'kHz')} the loss of {run.cable.code} from "
                f"{show_megahertz(fundamental_hz(self.sample_rate_hz))} to "
                f"{show_megahertz(cell_rate_hz(self.sample_rate_hz))} is needed, and "
                f"{budget.sentence}"
            ),
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the length, above 50 kHz that of the loss."""
        if not self.by_length:
            return judge_line_loss(run, self.limit, budget, signal=self.name)
        margin = budget.margin_at(run.length.mean_m)
        allowed = show_plain_m(LONGEST_M)
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"{show_both(run.length.mean_m)} of {run.cable.code} "
                + (
                    f"is within the {allowed} that {self.name} may go without an equaliser, "
                    f"{show_plain_m(margin)} to spare."
                    if margin >= 0
                    else f"is {show_plain_m(-margin)} more than the {allowed} that {self.name} "
                    "may go without an equaliser."
                )
            ),
            source=_SOURCE,
            value=run.length.mean_m,
            limit=LONGEST_M,
            margin=margin,
            unit="m",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return the level at the receiver and the losses, where they are known."""
        level = level_check(run, sample_rate_hz=self.sample_rate_hz, levels=LEVELS)
        if not self.by_length:
            return (*level, *_beyond_the_rule(run), *loss_doubts(run, self.limit))
        return (*level, *self._loss(run))

    def _loss(self, run: Run) -> tuple[Check, ...]:
        """The loss beside the length: more than an eye takes is a caution, as the length rules."""
        known, limit = known_loss(run.cable, run.lot), self.limit
        budget = loss_budget(run, limit)
        if not isinstance(budget, Budget) or not isinstance(known, KnownLoss):
            return ()
        used, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
        cells_hz = cell_rate_hz(self.sample_rate_hz)
        at_cells = run.length.mean_m * float(
            known.loss_db_per_m(cells_hz, temperature_celsius=run.temperature_celsius)
        )
        return (
            Check(
                name=limit.check_name,
                outcome=Outcome.GOOD if margin >= 0 else Outcome.CAUTION,
                sentence=(
                    f"Over {show_both(run.length.mean_m)} {run.cable.code} loses "
                    f"{show_db(used)} at the highest fundamental, "
                    f"{show_megahertz(limit.frequency_hz)}, and {show_db(at_cells)} at the cell "
                    f"rate, {show_megahertz(cells_hz)}; "
                    + (
                        f"an eye without an equaliser takes {show_db(limit.limit_db)} at the "
                        "fundamental."
                        if margin >= 0
                        else f"at the fundamental that is {show_db(-margin)} more than an eye "
                        "without an equaliser takes."
                    )
                ),
                source=_EYE_SOURCE,
                value=used,
                limit=limit.limit_db,
                margin=margin,
                unit="dB",
            ),
        )


def _beyond_the_rule(run: Run) -> tuple[Check, ...]:
    """A faster rate may not seem to go further for nothing: it rests on this one cable's loss."""
    length_m = run.length.mean_m
    if length_m <= LONGEST_M:
        return ()
    return (
        Check(
            name="length named by the standard",
            outcome=Outcome.CAUTION,
            sentence=(
                f"Even at rates to 50\u202fkHz the standard promises no more than "
                f"{show_plain_m(LONGEST_M)} of any cable: {show_both(length_m)} rest on the loss "
                f"of {run.cable.code} alone, and equipment need not be built for it."
            ),
            source=_SOURCE,
            value=length_m,
            limit=LONGEST_M,
            margin=LONGEST_M - length_m,
            unit="m",
        ),
    )
