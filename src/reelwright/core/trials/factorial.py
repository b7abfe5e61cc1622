"""What a two-level design says: effects, interactions, analysis of variance."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.trials._kernels import chance_of_larger_f, chance_of_larger_t
from reelwright.core.trials.designs import TwoLevel, column
from reelwright.core.trials.repeats import pool
from reelwright.core.trials.space import FloatArray


@dataclass(frozen=True, kw_only=True)
class Effect:
    """The mean at the high level less the mean at the low one, in ``unit``.

    ``letters`` name the setting or the settings that act together; ``mixed_with`` what it cannot
    be told from. ``chance``: how often noise alone would show as much; ``None`` where no noise is
    known.
    """

    letters: str
    unit: str
    effect: float
    sum_of_squares: float
    chance: float | None
    mixed_with: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class FactorialAnalysis:
    """All effects of one design, largest first; ``mean`` and ``noise`` in ``unit``.

    ``noise`` is the standard deviation of one reading from repeats with ``noise_degrees``; where
    nothing was repeated it is ``None`` and ``pseudo_error`` judges the effects.
    """

    unit: str
    mean: float
    effects: tuple[Effect, ...]
    noise: float | None
    noise_degrees: int
    pseudo_error: float

    def effect(self, letters: str) -> Effect:
        """Return the effect of these letters, or of what they are mixed with (BadValue: none)."""
        wanted = "".join(sorted(letters))
        for one in self.effects:
            if wanted == one.letters or wanted in [name.strip("−") for name in one.mixed_with]:
                return one
        raise BadValue(
            owner="FactorialAnalysis",
            field="letters",
            value=letters,
            accepted=", ".join(one.letters for one in self.effects),
        )


def pseudo_standard_error(effects: Sequence[float]) -> float:
    """Return Lenth's pseudo standard error of unreplicated ``effects``, in their unit.

    1.5·median of those within 2.5·(1.5·median of all), Technometrics 31 (1989), 469-473; its t has
    a third of the number of effects as degrees of freedom.
    """
    sizes = [abs(one) for one in effects]
    first = 1.5 * median(sizes)
    kept = [one for one in sizes if one < 2.5 * first]
    return 1.5 * median(kept) if kept else 0.0


def analyse_factorial(
    design: TwoLevel, readings: Sequence[Sequence[float]], *, unit: str
) -> FactorialAnalysis:
    """Return effects and analysis of variance; ``readings``: the repeats of each run, in ``unit``.

    Every run has as many repeats as the others (the effects are then independent of each other);
    raises BadValue otherwise. With repeats the noise is theirs and each effect is held against it
    by F(1, degrees); without, by Lenth's pseudo standard error.
    """
    points = design.points
    sizes = {len(group) for group in readings}
    if len(readings) != len(points) or len(sizes) != 1 or 0 in sizes:
        raise BadValue(
            owner="analyse_factorial",
            field="readings",
            value=[len(group) for group in readings],
            accepted=f"{len(points)} runs with equally many readings each",
        )
    repeats = sizes.pop()
    means = np.array([np.mean(group) for group in readings])
    within = pool(readings)
    noise = within.deviation or None
    sizes_of = {name: _effect(points, means, name) for name in design.contrasts}
    pseudo = pseudo_standard_error(list(sizes_of.values()))
    effects = []
    for name, size in sizes_of.items():
        squares = size**2 * len(points) * repeats / 4
        if noise:
            chance: float | None = chance_of_larger_f(
                ratio=squares / noise**2, degrees=1, degrees_below=within.degrees
            )
        elif pseudo and len(sizes_of) >= 7:
            chance = chance_of_larger_t(ratio=size / pseudo, degrees=len(sizes_of) // 3)
        else:
            chance = None
        effects.append(
            Effect(
                letters=name,
                unit=unit,
                effect=size,
                sum_of_squares=squares,
                chance=chance,
                mixed_with=tuple(str(word) for word in design.aliases(name)),
            )
        )
    return FactorialAnalysis(
        unit=unit,
        mean=float(means.mean()),
        effects=tuple(sorted(effects, key=lambda one: -abs(one.effect))),
        noise=noise,
        noise_degrees=within.degrees,
        pseudo_error=pseudo,
    )


def _effect(points: FloatArray, means: FloatArray, name: str) -> float:
    return float(2 * (column(points, name) @ means) / len(points))
