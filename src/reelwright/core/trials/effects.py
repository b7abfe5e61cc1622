"""What trials say as a two-level design, where they happen to be one: effects and interactions.

Trials are one where every setting stood at two values and all combinations of them were made, or a
regular fraction: some settings free, each of the others moving as a product of free ones.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from reelwright.core.quantities.show import show_chance
from reelwright.core.quantities.words import counted, listed
from reelwright.core.trials.designs import LETTERS, TwoLevel, column
from reelwright.core.trials.factorial import analyse_factorial
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.response import Response
from reelwright.core.trials.space import FloatArray
from reelwright.core.verdicts import Reason

SELDOM = 0.05
"""How rarely [1] noise alone may show as much before an effect is named: common practice."""

_Point = tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class EffectRow:
    """One effect: the mean at the high end less that at the low end, in ``unit``.

    ``error`` is its standard error in ``unit``, ``chance`` (1) how often noise alone would show as
    much; both ``None`` where the trials tell no noise. ``mixed_with`` names what it cannot be told
    from.
    """

    name: str
    unit: str
    change: float
    error: float | None
    chance: float | None
    mixed_with: tuple[str, ...]

    @property
    def stands_out(self) -> bool:
        """Whether noise alone would seldom show as much."""
        return self.chance is not None and self.chance < SELDOM


@dataclass(frozen=True, kw_only=True)
class EffectsReading:
    """One response read as a design: ``effects`` largest first, and sentences on what they say."""

    response: str
    unit: str
    mean: str
    effects: tuple[EffectRow, ...]
    sentences: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class _Matched:
    """A design, the place of the setting behind each of its letters, the readings of its runs."""

    design: TwoLevel
    places: tuple[int, ...]
    readings: tuple[tuple[float, ...], ...]


def read_effects(problem: TrialsProblem, response: Response) -> EffectsReading | Reason:
    """Return the effects on ``response``, or why its trials are no two-level design."""
    matched = _match(problem, response)
    if isinstance(matched, Reason):
        return matched
    found = analyse_factorial(matched.design, matched.readings, unit=response.unit)
    readings = sum(len(each) for each in matched.readings)
    error: float | None = None
    if found.noise is not None:
        # Half of the readings stand on either side of an effect.
        error = 2 * found.noise / float(np.sqrt(readings))
    elif found.pseudo_error and len(found.effects) >= 7:
        error = found.pseudo_error
    names = [problem.settings[place].name for place in matched.places]
    rows = tuple(
        EffectRow(
            name=_named(one.letters, names),
            unit=response.unit,
            change=one.effect,
            error=error,
            chance=one.chance,
            mixed_with=tuple(_named(word, names) for word in one.mixed_with),
        )
        for one in found.effects
    )
    return EffectsReading(
        response=response.name,
        unit=response.unit,
        mean=response.show(found.mean),
        effects=rows,
        sentences=_sentences(response, matched, rows, repeated=found.noise is not None),
    )


def _named(letters: str, names: Sequence[str]) -> str:
    sign = "−" if letters.startswith("−") else ""
    told = " × ".join(names[LETTERS.index(letter)] for letter in letters.strip("−"))
    return sign + told


def _match(problem: TrialsProblem, response: Response) -> _Matched | Reason:
    made: dict[_Point, list[float]] = {}
    for trial in problem.trials:
        values = trial.values_of(response.name)
        if values:
            made.setdefault(trial.values, []).extend(values)
    levels = [sorted(set(each)) for each in zip(*made, strict=True)] if made else []
    if len(levels) < 2 or any(len(each) != 2 for each in levels):
        return _no_design(f"of {response.name} not every setting stood at two values")
    coded = {
        tuple(
            -1.0 if value == low else 1.0 for value, (low, _) in zip(point, levels, strict=True)
        ): readings
        for point, readings in made.items()
    }
    if len({len(each) for each in coded.values()}) != 1:
        return _no_design(f"{response.name} was not read equally often in each of its trials")
    points = np.array(sorted(coded))
    free_count = int(np.log2(len(points)))
    if 2**free_count != len(points):
        return _no_design(f"some combinations of the two values are missing for {response.name}")
    for free in combinations(range(points.shape[1]), free_count):
        if len(np.unique(points[:, free], axis=0)) == len(points):
            design = _fraction(points, free)
            if design is not None:
                order = (*free, *(p for p in range(points.shape[1]) if p not in free))
                runs = [
                    tuple(float(run[order.index(place)]) for place in range(len(order)))
                    for run in design.points
                ]
                return _Matched(
                    design=design,
                    places=order,
                    readings=tuple(tuple(coded[run]) for run in runs),
                )
    return _no_design(f"the trials of {response.name} leave out combinations without a rule")


def _no_design(why: str) -> Reason:
    return Reason(code="no design", sentence=f"these trials are no two-level design: {why}")


def _fraction(points: FloatArray, free: tuple[int, ...]) -> TwoLevel | None:
    """Return the design whose letters are first the free settings, then the others in order."""
    base = points[:, free]
    letters = LETTERS[: len(free)]
    generators = []
    others = [place for place in range(points.shape[1]) if place not in free]
    for letter, place in zip(LETTERS[len(free) :], others, strict=False):
        product = _product(base, points[:, place], letters)
        if product is None:
            return None
        generators.append(f"{letter}={product}")
    try:
        return TwoLevel(base_count=len(free), generators=tuple(generators))
    except ValueError:
        # Two settings moved together all the time: no effect of either can be told.
        return None


def _product(base: FloatArray, other: FloatArray, letters: str) -> str | None:
    for size in range(2, len(letters) + 1):
        for word in combinations(letters, size):
            both = column(base, "".join(word)) * other
            if bool(np.all(both == both[0])):
                return ("−" if both[0] < 0 else "") + "".join(word)
    return None


def _sentences(
    response: Response,
    matched: _Matched,
    rows: tuple[EffectRow, ...],
    *,
    repeated: bool,
) -> tuple[str, ...]:
    design = matched.design
    runs = counted(len(design.points), "setting")
    kind = "a full two-level design"
    if design.resolution is not None:
        kind = f"a fraction of a two-level design, resolution {design.resolution}"
    told = [f"the trials are {kind} of {runs} for {response.name}"]
    out = [row for row in rows if row.stands_out]
    if rows[0].chance is None:
        told.append(
            "nothing was repeated, and so few effects tell no noise: which of them are real "
            "cannot be said"
        )
    elif out:
        told.append(
            f"noise alone would show as much as {listed(row.name for row in out)} less often than "
            f"{show_chance(SELDOM)}"
        )
    else:
        told.append(f"no effect stands out of the noise, as {show_chance(SELDOM)} would ask")
    if rows[0].chance is not None and not repeated:
        told.append("the error is that of the small effects, for nothing was repeated")
    if any(row.mixed_with for row in rows):
        told.append("an effect may as well be that of what it is mixed with")
    return tuple(told)
