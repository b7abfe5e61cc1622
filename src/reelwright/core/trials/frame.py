"""What a search asks, without its trials: what can be set, what is measured, what is demanded."""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.trials.problem import Demand, TrialsProblem
from reelwright.core.trials.record import Trial
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.settings import Setting


@dataclass(frozen=True, kw_only=True)
class SearchFrame:
    """Settings (1 to 5), responses, looks and demand of one search.

    Raises InputFaults with all that does not go together.
    """

    settings: tuple[Setting, ...]
    responses: tuple[Response, ...]
    looks: tuple[Looks, ...]
    demand: Demand

    def __post_init__(self) -> None:
        self.problem(())

    def problem(self, trials: Sequence[Trial]) -> TrialsProblem:
        """Return the search with these trials made; raise InputFaults where they contradict it."""
        return TrialsProblem(
            settings=self.settings,
            responses=self.responses,
            looks=self.looks,
            trials=tuple(trials),
            demand=self.demand,
        )
