"""Whether the measured strips of a set-up keep their tolerances, cut by cut."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from reelwright.core.ends.strip.capability import (
    STRIPS_TO_MEASURE,
    SURE,
    judge_measured_strips,
)
from reelwright.core.quantities.show import show_number, show_share
from reelwright.core.quantities.words import listed
from reelwright.core.statistics.capability import Capability
from reelwright.core.verdicts import Check
from reelwright.shop.setups.readings.selectors import DimensionRead
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import STRIPS
from reelwright.shop.setups.to_core import strip_value


@dataclass(frozen=True, kw_only=True)
class CutFigures:
    """Cpk of one cut, what it is at least, the share that would lie outside; as they are read."""

    cpk: str
    least: str
    share: str


@dataclass(frozen=True, kw_only=True)
class StripsShown:
    """``checks`` of the cuts that were measured, ``missing`` in words what keeps the rest untold.

    ``figures`` by the name of the part, where they are computed.
    """

    checks: tuple[Check, ...]
    figures: Mapping[str, CutFigures]
    missing: str


def strips_shown(sheet: SetUpSheet, made: Sequence[DimensionRead]) -> StripsShown:
    """Return what the lengths that count say of each cut of a set-up's strip."""
    strip = strip_value(sheet)
    lengths_mm: dict[str, list[float]] = {}
    for each in made:
        if each.part in STRIPS:
            lengths_mm.setdefault(each.part.value, []).append(float(each.length_mm))
    if strip is None:
        told = "The strips are not judged: the set-up does not give its strip with tolerances yet."
        return StripsShown(checks=(), figures={}, missing=told if lengths_mm else "")
    cuts = judge_measured_strips(strip, {})
    names = [cut.letter for cut in cuts]
    measured = {name: lengths_mm[name] for name in names if name in lengths_mm}
    untold = [name for name in names if name not in measured]
    judged = [cut for cut in judge_measured_strips(strip, measured) if cut.letter in measured]
    missing = ""
    if untold:
        keeps = "keeps its tolerance" if len(untold) == 1 else "keep their tolerance"
        missing = (
            f"No strip was measured for {listed(untold)}: {STRIPS_TO_MEASURE} under the comparator "
            f"tell whether {'it' if len(untold) == 1 else 'they'} {keeps}."
        )
    return StripsShown(
        checks=tuple(cut.check for cut in judged),
        figures={cut.letter: cut_figures(cut.made) for cut in judged if cut.made is not None},
        missing=missing,
    )


def cut_figures(made: Capability) -> CutFigures:
    """Return the figures of a capability as they are read."""
    return CutFigures(
        cpk=show_number(made.cpk, decimals=2),
        least=show_number(made.cpk_least(confidence=SURE), decimals=2),
        share=show_share(made.outside_chance),
    )
