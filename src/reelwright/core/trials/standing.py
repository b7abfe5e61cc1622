"""Where a search stands: the window or why none, what to try next, whether to stop, in one value.

One problem and one seed always give the same standing, so it may be kept as long as the records
behind it are the same.
"""

from dataclasses import dataclass

from reelwright.core.trials.model import TrialsModel, fit_model
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.propose import Proposals, propose
from reelwright.core.trials.stop import (
    FirstOf,
    LittleToGain,
    NothingSafe,
    Progress,
    StopRule,
    TrialsUsedUp,
    WindowFound,
)
from reelwright.core.trials.window import NoWindow, Window, find_window
from reelwright.core.verdicts import Reason

LEAST_TRIALS = 3
"""Trials that came out before a window counts as found: fewer say nothing of what lies between."""

_LEAST_SCORE = 1e-6


@dataclass(frozen=True, kw_only=True, eq=False)
class Standing:
    """All that one search says today. ``stop``: why to try no further, ``None`` to go on."""

    progress: Progress
    stop: Reason | None

    @property
    def model(self) -> TrialsModel:
        """What the trials say everywhere."""
        return self.progress.model

    @property
    def window(self) -> Window | NoWindow:
        """The window, or why there is none."""
        return self.progress.window

    @property
    def next(self) -> Proposals:
        """What to try next, each with its sentence."""
        return self.progress.next

    @property
    def found(self) -> bool:
        """Whether the window is proven and its centre was tried."""
        return self.stop is not None and self.stop.code == "window found"

    @property
    def headline(self) -> str:
        """The one sentence that is read first, without its full stop."""
        problem = self.model.problem
        if isinstance(self.window, Window) and self.found:
            return f"The window is proven: {problem.show(self.window.centre)}"
        if self.stop is not None and self.stop.code == "nothing safe":
            return "No setting is safe enough to try"
        if self.stop is not None:
            return f"No window yet: {self.stop.sentence}"
        # Where there is no reason to stop there is something to try.
        return f"Next: {problem.show(self.next.chosen[0].values)}"


def stop_rule(*, most_trials: int | None) -> StopRule:
    """Return the rule by which a search ends; ``most_trials``: how many may be made, if told."""
    rules: list[StopRule] = [WindowFound(least_trials=LEAST_TRIALS), NothingSafe()]
    if most_trials is not None:
        rules.append(TrialsUsedUp(most_trials=most_trials))
    rules.append(LittleToGain(least_score=_LEAST_SCORE))
    return FirstOf(rules=tuple(rules))


def stand(problem: TrialsProblem, *, count: int, seed: int, most_trials: int | None) -> Standing:
    """Return where a search stands, with up to ``count`` (1 to 3) trials to make next."""
    model = fit_model(problem)
    window = find_window(model, seed=seed)
    progress = Progress(
        model=model,
        window=window,
        next=propose(model, count=count, seed=seed, window=window),
    )
    return Standing(progress=progress, stop=stop_rule(most_trials=most_trials)(progress))
