"""Who makes what, when, in which order: ``sequence`` a ``BenchProblem``; weigh a rush order."""

from reelwright.core.bench.change_over import change_over, differences
from reelwright.core.bench.plan import (
    BatchTimes,
    BenchPlan,
    ChangeOver,
    ChangeOverPart,
    LineOrder,
    NotPlanned,
    PersonLoad,
    StationRow,
)
from reelwright.core.bench.problem import (
    Batch,
    BenchProblem,
    ChangeOverRule,
    Line,
    Person,
    Station,
    StationSetting,
    StationWork,
    Weights,
)
from reelwright.core.bench.rush import RushCase, RushChoice, rush_choices
from reelwright.core.bench.search import sequence

__all__ = [
    "Batch",
    "BatchTimes",
    "BenchPlan",
    "BenchProblem",
    "ChangeOver",
    "ChangeOverPart",
    "ChangeOverRule",
    "Line",
    "LineOrder",
    "NotPlanned",
    "Person",
    "PersonLoad",
    "RushCase",
    "RushChoice",
    "Station",
    "StationRow",
    "StationSetting",
    "StationWork",
    "Weights",
    "change_over",
    "differences",
    "rush_choices",
    "sequence",
]
