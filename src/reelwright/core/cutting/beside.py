"""A plan beside what the plain rules make of the same day, all counted by the same standing."""

from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.cutting.item import LEVELS, ItemCutting
from reelwright.core.cutting.layout import lay_out
from reelwright.core.cutting.plain_rules import PLAIN_RULES
from reelwright.core.cutting.plan import CutPlan, ReelCuts
from reelwright.core.cutting.problem import CutProblem
from reelwright.core.quantities.show import show_metres
from reelwright.core.quantities.words import counted


@dataclass(frozen=True, kw_only=True)
class Tally:
    """What one way of cutting a day comes to. ``levels`` are summed over the items."""

    way: str
    served_count: int
    levels: tuple[tuple[str, int], ...]
    scrap_mm: int

    @property
    def sentence(self) -> str:
        """The figures in one line."""
        level = dict(self.levels)
        return (
            f"{self.way}: {counted(self.served_count, 'piece')} served, "
            f"{counted(level['unusable ends'], 'unusable end')}, "
            f"{show_metres(self.scrap_mm, decimals=2)} scrap, "
            f"{counted(level['reels touched'], 'reel')} touched, "
            f"{counted(level['open remnants'], 'open remnant')}"
        )


def beside(problem: CutProblem, plan: CutPlan) -> tuple[Tally, ...]:
    """Return the tally of a plan of the problem, then that of each plain rule."""
    cuttings = [ItemCutting.of(problem, item) for item in problem.items]
    tallies = [_tally("this plan", (standing.levels for standing in plan.standings), plan.reels)]
    for way, rule in PLAIN_RULES.items():
        made = [(cutting, rule(cutting)) for cutting in cuttings]
        tallies.append(
            _tally(
                way,
                (cutting.shown(cutting.standing(counts)) for cutting, counts in made),
                [reel for cutting, counts in made for reel in lay_out(cutting, counts)],
            )
        )
    return tuple(tallies)


def _tally(
    way: str, standings: Iterable[tuple[tuple[str, int], ...]], reels: Iterable[ReelCuts]
) -> Tally:
    total = dict.fromkeys(LEVELS, 0)
    for levels in standings:
        for name, value in levels:
            total[name] += value
    cut = list(reels)
    return Tally(
        way=way,
        served_count=sum(len(reel.cuts) for reel in cut),
        levels=tuple(total.items()),
        scrap_mm=sum(reel.scrap_mm for reel in cut),
    )
