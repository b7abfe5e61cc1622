"""When to stop trying: small rules, each a callable that gives its reason or ``None``."""

from collections.abc import Callable
from dataclasses import dataclass

from reelwright.core.quantities.guard import require_count, require_not_negative
from reelwright.core.quantities.words import counted
from reelwright.core.trials.model import TrialsModel
from reelwright.core.trials.propose import Proposals
from reelwright.core.trials.window import NoWindow, Window
from reelwright.core.verdicts import Reason


@dataclass(frozen=True, kw_only=True)
class Progress:
    """Where a search stands: what the trials say, the window or why not, what would come next."""

    model: TrialsModel
    window: Window | NoWindow
    next: Proposals


StopRule = Callable[[Progress], Reason | None]


@dataclass(frozen=True, kw_only=True)
class WindowFound:
    """Stop where a window is proven and its centre was tried, after ``least_trials`` at least."""

    least_trials: int

    def __post_init__(self) -> None:
        require_count(self, "least_trials", at_least=1)

    def __call__(self, progress: Progress) -> Reason | None:
        """Return the reason to stop, or ``None``."""
        made = len(progress.model.problem.survived)
        window = progress.window
        if isinstance(window, NoWindow) or not window.confirmed or made < self.least_trials:
            return None
        return Reason(
            code="window found",
            sentence=(
                f"the window is proven: recommended is {progress.model.problem.show(window.centre)}"
            ),
        )


@dataclass(frozen=True, kw_only=True)
class TrialsUsedUp:
    """Stop after ``most_trials`` trials, found or not."""

    most_trials: int

    def __post_init__(self) -> None:
        require_count(self, "most_trials", at_least=1)

    def __call__(self, progress: Progress) -> Reason | None:
        """Return the reason to stop, or ``None``."""
        made = len(progress.model.problem.trials)
        if made < self.most_trials:
            return None
        return Reason(
            code="trials used up",
            sentence=f"{counted(made, 'trial')} were made, as many as were allowed",
        )


@dataclass(frozen=True, kw_only=True)
class LittleToGain:
    """Stop where the best proposal is expected to bring no more than ``least_score`` (1)."""

    least_score: float

    def __post_init__(self) -> None:
        require_not_negative(self, "least_score")

    def __call__(self, progress: Progress) -> Reason | None:
        """Return the reason to stop, or ``None``."""
        chosen = progress.next.chosen
        if not chosen or max(one.expected_gain_score for one in chosen) > self.least_score:
            return None
        return Reason(
            code="little to gain", sentence="no further trial is expected to bring anything"
        )


class NothingSafe:
    """Stop where no setting is safe enough to try."""

    def __call__(self, progress: Progress) -> Reason | None:
        """Return the reason to stop, or ``None``."""
        return None if progress.next.chosen else progress.next.reason


@dataclass(frozen=True, kw_only=True)
class FirstOf:
    """Stop where the first of ``rules`` says so."""

    rules: tuple[StopRule, ...]

    def __call__(self, progress: Progress) -> Reason | None:
        """Return the reason of the first rule that has one, or ``None``."""
        return next((reason for rule in self.rules if (reason := rule(progress))), None)
