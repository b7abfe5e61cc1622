"""All that is known of one search for a window, validated once; the solvers trust it."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue, InputFaults
from reelwright.core.quantities.guard import require_finite, require_not_negative
from reelwright.core.trials.faults import faults_of
from reelwright.core.trials.record import Trial
from reelwright.core.trials.repeats import Repeats, pool
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.settings import Setting
from reelwright.core.trials.space import SettingSpace


@dataclass(frozen=True, kw_only=True)
class Demand:
    """What the lead asks of a window and of the way to it; all but the last are chances (1).

    ``coverage`` of all parts lie within each limit, claimed with ``confidence``. No trial is
    proposed whose chance of being unsafe is above ``unsafe_chance``. ``expected_good_fraction`` is
    the lead's own guess, before any, of how many trials anywhere do not fail outright.
    ``clear_drifts_ratio``: how many standard deviations of the machine's own play must lie between
    the recommended point and the nearest edge.
    """

    coverage: float
    confidence: float
    unsafe_chance: float
    expected_good_fraction: float
    clear_drifts_ratio: float

    def __post_init__(self) -> None:
        for field in ("coverage", "confidence", "unsafe_chance", "expected_good_fraction"):
            require_finite(self, field)
            if not 0 < getattr(self, field) < 1:
                raise BadValue(
                    owner="Demand",
                    field=field,
                    value=getattr(self, field),
                    accepted="above 0 and below 1",
                )
        require_not_negative(self, "clear_drifts_ratio")
        for field in ("coverage", "confidence"):
            if getattr(self, field) < 0.5:
                raise BadValue(
                    owner="Demand",
                    field=field,
                    value=getattr(self, field),
                    accepted="one half or more, and below 1",
                )


@dataclass(frozen=True, kw_only=True)
class TrialsProblem:
    """Settings (1 to 5), responses, looks, the trials so far, and what is demanded.

    Raises InputFaults with all faults together; see ``faults`` for what is refused and why.
    """

    settings: tuple[Setting, ...]
    responses: tuple[Response, ...]
    looks: tuple[Looks, ...]
    trials: tuple[Trial, ...]
    demand: Demand

    def __post_init__(self) -> None:
        found = faults_of(
            self.settings, self.responses, self.looks, self.trials, coverage=self.demand.coverage
        )
        if found:
            raise InputFaults(found)

    @property
    def space(self) -> SettingSpace:
        """The box of the settings."""
        return SettingSpace(self.settings)

    @property
    def survived(self) -> tuple[Trial, ...]:
        """The trials that did not fail outright."""
        return tuple(trial for trial in self.trials if trial.failure is None)

    def repeats_of(self, response: Response) -> Repeats:
        """Return the scatter within the trials of this response."""
        return pool(trial.values_of(response.name) for trial in self.trials)

    def show(self, values: tuple[float, ...]) -> str:
        """Return one point of settings, each in its unit, as a sentence has it."""
        return ", ".join(
            f"{one.name} {one.show(value)}"
            for one, value in zip(self.settings, values, strict=True)
        )
