"""What would fix it: the whole catalogue tried on one question, each change with its verdict."""

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.farthest import farthest
from reelwright.core.advice.pareto import front_of_runs
from reelwright.core.advice.question import CatalogueCable, Question
from reelwright.core.advice.reach_table import Installed, reach_m, reach_table
from reelwright.core.advice.search import ALL_KINDS, Advice, advise
from reelwright.core.advice.tried import SURE_CHANCE, Tried, carriers, try_all

__all__ = [
    "ALL_KINDS",
    "SURE_CHANCE",
    "Advice",
    "CatalogueCable",
    "Change",
    "Installed",
    "Kind",
    "Question",
    "Tried",
    "advise",
    "carriers",
    "farthest",
    "front_of_runs",
    "reach_m",
    "reach_table",
    "try_all",
]
