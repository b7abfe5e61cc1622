"""The cutting of one item, put into variables and rows.

How many pieces of each kind come from each stretch; where the last cut of each reel lies; and for
each stretch that is cut into or passed, which kind of rest is left there and how long it is. The
length of a rest stands in a variable of its kind alone, so that no large number ties a choice to a
length (the disaggregated form of a piecewise linear cost: Croxton, Gendron and Magnanti 2003).
"""

from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from reelwright.core.cutting.aims import Aim
from reelwright.core.cutting.item import (
    Counts,
    ItemCutting,
    lost_already_um,
    skipped_mm,
)
from reelwright.core.cutting.problem import LotRule
from reelwright.core.cutting.program._solver import FloatArray, Program
from reelwright.core.cutting.rests import WHOLE, Rest, rests_last, rests_passed


class Level:
    """A sum over variables in whole numbers, and what it is where they are all 0."""

    def __init__(self) -> None:
        self.terms: defaultdict[int, int] = defaultdict(int)
        self.fixed = 0

    def add(self, variable: int, amount: int) -> None:
        """Count ``amount`` for each unit of the variable."""
        if amount:
            self.terms[variable] += amount


@dataclass(frozen=True, eq=False)
class Goal:
    """An aim as the program counts it: its terms, and what is fixed in it, both scaled."""

    terms: dict[int, float]
    fixed: float
    scale: float

    def least(self, bound: float) -> float:
        """Return the value of the aim that a bound of the program stands for."""
        return (bound + self.fixed) / self.scale

    def lowest(self, value: int) -> float:
        """Return the limit of the terms that an aim of no less than ``value`` keeps."""
        return (value - 0.5) * self.scale - self.fixed

    def highest(self, value: int) -> float:
        """Return the limit of the terms that holds the aim to ``value``."""
        # Half a unit of what is counted: no whole value above comes in by rounding.
        return (value + 0.5) * self.scale - self.fixed


@dataclass(frozen=True, eq=False)
class _Choice:
    """A kind of rest of one stretch: whether it is that, and how long it then is."""

    rest: Rest
    chosen: int
    length_mm: int


class ItemProgram:
    """The program of an item, and what each aim is in its variables."""

    def __init__(self, cutting: ItemCutting) -> None:
        self._cutting = cutting
        self.program = Program()
        self._missing = [Level() for _ in cutting.kinds]
        self._mixed, self._ends, self._lost = Level(), Level(), Level()
        self._touched, self._open, self._age = Level(), Level(), Level()
        self._taken: list[dict[int, int]] = [{} for _ in cutting.kinds]
        self._last = [self.program.variable(0, 1, whole=True) for _ in cutting.bins]
        self._choices: dict[tuple[int, bool], list[_Choice]] = {}
        self._origins: dict[tuple[str, str], int] = {}
        self._more_lots: dict[str, int] = {}
        self._pieces()
        for number in range(len(cutting.reels)):
            self._reel(number)
        self._groups()

    def _pieces(self) -> None:
        for number, kind in enumerate(self._cutting.kinds):
            level = self._missing[number]
            level.fixed = kind.wanted
            for at, one in enumerate(self._cutting.bins):
                most = self._cutting.most(number, at)
                if most:
                    variable = self.program.variable(0, most, whole=True)
                    self._taken[number][at] = variable
                    level.add(variable, -1)
                    age = self._cutting.cut_mm[number][at] * self._cutting.reels[one.reel].age_rank
                    self._age.add(variable, age)
            if self._taken[number]:
                each = dict.fromkeys(self._taken[number].values(), 1.0)
                self.program.row(each, high=kind.wanted)

    def _reel(self, number: int) -> None:
        cutting, reel = self._cutting, self._cutting.reels[number]
        bins = cutting.bins_of_reel[number]
        if not bins:
            return
        self.program.row(dict.fromkeys((self._last[at] for at in bins), 1.0), high=1)
        already_um = lost_already_um(reel, cutting.rules)
        for place, at in enumerate(bins):
            self._touched.add(self._last[at], 1)
            lost_um = WHOLE * skipped_mm(reel, place) - already_um
            self._lost.add(self._last[at], lost_um)
            later = [self._last[other] for other in bins[place + 1 :]]
            last = self._rests(at, rests_last(reel, place, cutting.rules), passed=False)
            self._only_where(last, [self._last[at]])
            passed: list[_Choice] = []
            if later:
                kinds = rests_passed(reel.stretches[place].length_mm, cutting.rules)
                passed = self._rests(at, kinds, passed=True)
                self._only_where(passed, later)
            self._fill(at, [*last, *passed])

    def _rests(self, at: int, kinds: tuple[Rest, ...], *, passed: bool) -> list[_Choice]:
        one = self._cutting.bins[at]
        least_mm = one.stretch.length_mm - one.usable_mm
        choices = []
        for rest in kinds:
            low_mm = max(rest.low_mm, least_mm)
            if low_mm > rest.high_mm:
                continue
            chosen = self.program.variable(0, 1, whole=True)
            length = self.program.variable(0, rest.high_mm, whole=False)
            self.program.row({length: 1.0, chosen: -low_mm}, low=0)
            self.program.row({length: 1.0, chosen: -rest.high_mm}, high=0)
            self._ends.add(chosen, rest.ends)
            self._open.add(chosen, rest.open_remnants)
            self._lost.add(chosen, rest.lost_um)
            self._lost.add(length, rest.lost_um_per_mm)
            choices.append(_Choice(rest, chosen, length))
        self._choices[at, passed] = choices
        return choices

    def _only_where(self, choices: list[_Choice], roles: list[int]) -> None:
        terms = {choice.chosen: 1.0 for choice in choices}
        self.program.row({**terms, **dict.fromkeys(roles, -1.0)}, low=0, high=0)

    def _fill(self, at: int, choices: list[_Choice]) -> None:
        """What is cut from a stretch is its length less the rest."""
        terms = {
            row[at]: float(cut[at])
            for cut, row in zip(self._cutting.cut_mm, self._taken, strict=True)
            if at in row
        }
        for choice in choices:
            terms[choice.chosen] = -float(self._cutting.bins[at].stretch.length_mm)
            terms[choice.length_mm] = 1.0
        self.program.row(terms, low=0, high=0)
        # A last cut where nothing is cut would throw away what lies in front of it, unseen.
        cut = {row[at]: 1.0 for row in self._taken if at in row}
        self.program.row({**cut, self._last[at]: -1.0}, low=0)
        # Follows from the fill, and spares branching: nothing is cut where the reel is not opened.
        number = self._cutting.bins[at].reel
        behind = [other for other in self._cutting.bins_of_reel[number] if other >= at]
        for kind, row in enumerate(self._taken):
            if at in row:
                most = self._cutting.most(kind, at)
                opened = dict.fromkeys((self._last[other] for other in behind), -float(most))
                self.program.row({row[at]: 1.0, **opened}, high=0)

    def _groups(self) -> None:
        cutting = self._cutting
        groups = {kind.group: kind.rule for kind in cutting.kinds if kind.group is not None}
        for group, rule in groups.items():
            used: dict[str, int] = {}
            for kind, row in zip(cutting.kinds, self._taken, strict=True):
                if kind.group != group:
                    continue
                of_origin: defaultdict[str, dict[int, float]] = defaultdict(dict)
                for at, variable in row.items():
                    of_origin[cutting.origin(at, rule)][variable] = 1.0
                for origin, terms in of_origin.items():
                    if origin not in used:
                        used[origin] = self.program.variable(0, 1, whole=True)
                        self._origins[group, origin] = used[origin]
                    self.program.row({**terms, used[origin]: -float(kind.wanted)}, high=0)
                    for variable in terms:
                        self.program.row({variable: 1.0, used[origin]: -float(kind.wanted)}, high=0)
            if len(used) < 2:
                continue
            each = dict.fromkeys(used.values(), 1.0)
            if rule is not LotRule.PREFER:
                self.program.row(each, high=1)
                continue
            more = self.program.variable(0, len(used) - 1, whole=True)
            self._more_lots[group] = more
            self.program.row({**each, more: -1.0}, high=1)
            self._mixed.add(more, 1)

    def goal(self, aim: Aim) -> Goal:
        """Return an aim in the terms of this program."""
        levels = (
            *self._missing,
            self._mixed,
            self._ends,
            self._lost,
            self._touched,
            self._open,
            self._age,
        )
        terms: defaultdict[int, int] = defaultdict(int)
        fixed = 0
        for weight, level in zip((*aim.missing, *aim.levels), levels, strict=True):
            if weight:
                fixed += weight * level.fixed
                for variable, amount in level.terms.items():
                    terms[variable] += weight * amount
        scaled = {variable: amount * aim.scale for variable, amount in terms.items() if amount}
        return Goal(scaled, fixed * aim.scale, aim.scale)

    def hold(self, aim: Aim, value: int) -> None:
        """Hold an aim to ``value`` at the most from now on."""
        goal = self.goal(aim)
        if goal.terms:
            self.program.row(goal.terms, high=goal.highest(value))

    def floor(self, aim: Aim, value: int) -> None:
        """Tell the program that an aim cannot come to less than ``value``."""
        goal = self.goal(aim)
        if goal.terms:
            self.program.row(goal.terms, low=goal.lowest(value))

    def counts(self, values: FloatArray) -> Counts:
        """Return the counts that an answer of the program stands for."""
        return tuple(
            tuple(
                round(float(values[row[at]])) if at in row else 0
                for at in range(len(self._cutting.bins))
            )
            for row in self._taken
        )

    def values(self, counts: Counts) -> FloatArray:
        """Return the answer of the program that counts stand for."""
        cutting = self._cutting
        values = np.zeros(self.program.size)
        for row, variables in zip(counts, self._taken, strict=True):
            for at, variable in variables.items():
                values[variable] = row[at]
        fills = cutting.fills_mm(counts)
        for bins in cutting.bins_of_reel:
            used = [at for at in bins if fills[at]]
            for at in bins if used else ():
                if at > used[-1]:
                    continue
                values[self._last[at]] = at == used[-1]
                length_mm = cutting.bins[at].stretch.length_mm - fills[at]
                for choice in self._choices[at, at != used[-1]]:
                    if choice.rest.low_mm <= length_mm <= choice.rest.high_mm:
                        values[choice.chosen] = 1
                        values[choice.length_mm] = length_mm
        for group, rule in {kind.group: kind.rule for kind in cutting.kinds}.items():
            origins = {
                cutting.origin(at, rule)
                for kind, row in zip(cutting.kinds, counts, strict=True)
                if kind.group == group
                for at, count in enumerate(row)
                if count
            }
            if group is not None:
                for origin in origins:
                    values[self._origins[group, origin]] = 1
                if group in self._more_lots:
                    values[self._more_lots[group]] = max(0, len(origins) - 1)
        return values
