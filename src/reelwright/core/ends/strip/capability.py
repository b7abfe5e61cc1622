"""Whether measured strips keep their tolerances: Cpk of each cut before a set-up is relied on."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.errors import BadValue
from reelwright.core.quantities.show import (
    show_length_mm,
    show_number,
    show_percent,
    show_share,
)
from reelwright.core.quantities.words import counted
from reelwright.core.statistics.capability import CAPABLE_RATIO, Capability, capability
from reelwright.core.verdicts import Basis, Check, Outcome, Source

STRIPS_TO_MEASURE = 30
"""How many strips are laid under the comparator for a new set-up; common practice."""

SURE = 0.95
"""Confidence [1] of what a Cpk is at least, and at most; common practice."""

_CPK = Source(
    text=f"Cpk of at least {CAPABLE_RATIO} on {STRIPS_TO_MEASURE} strips",
    basis=Basis.COMMON_PRACTICE,
)


@dataclass(frozen=True, kw_only=True)
class JudgedCut:
    """What the measured lengths of one cut say; ``made`` in mm, None where it is not computed."""

    letter: str
    layer: str
    made: Capability | None
    check: Check

    @property
    def cpk_least(self) -> float | None:
        """What the Cpk [1] is at least with 95 % confidence; None where it is not computed."""
        return None if self.made is None else self.made.cpk_least(confidence=SURE)

    @property
    def outside_chance(self) -> float | None:
        """The share [1] of strips that would lie outside; None where it is not computed."""
        return None if self.made is None else self.made.outside_chance


@dataclass(frozen=True, kw_only=True)
class _Cut:
    letter: str
    layer: str
    aim_mm: float
    tolerance_mm: float


def judge_measured_strips(
    strip: StripPlan | WireStrip, measured_mm: Mapping[str, Sequence[float]]
) -> tuple[JudgedCut, ...]:
    """Return what measured lengths [mm] say of each cut, in the order of the cuts.

    ``measured_mm``: lengths by ``a``, ``b`` and ``c`` as counted in ``StripPlan``, or by ``cores
    bared``; a cut of which none is given was not measured. Capable from Cpk 1.33 on thirty strips.
    Fewer leave a caution; below 1.33 it is bad once even what the Cpk is at most, with 95 %
    confidence, is below. Fewer than two lengths, lengths all alike and a cut without a tolerance
    are not computed. A cut of no length is left out. Raises BadValue for a name that is no cut's
    and for a length that is not above zero.
    """
    cuts = _cuts(strip)
    for name, lengths_mm in measured_mm.items():
        if name not in {cut.letter for cut in cuts}:
            raise BadValue(
                owner="judge_measured_strips",
                field="measured_mm",
                value=name,
                accepted=f"a cut of this strip: {', '.join(cut.letter for cut in cuts)}",
            )
        if any(not math.isfinite(each) or each <= 0 for each in lengths_mm):
            raise BadValue(
                owner="judge_measured_strips",
                field=name,
                value=tuple(lengths_mm),
                accepted="lengths above zero",
            )
    return tuple(_judge(cut, measured_mm.get(cut.letter, ())) for cut in cuts)


def _cuts(strip: StripPlan | WireStrip) -> tuple[_Cut, ...]:
    if isinstance(strip, WireStrip):
        named: tuple[tuple[str, str, float, float], ...] = (
            ("cores bared", "conductor", strip.bared_mm, strip.tolerance_mm),
        )
    else:
        kept = strip.tolerances
        named = (
            ("a", "conductor", strip.conductor_mm, kept.conductor_mm),
            ("b", "dielectric", strip.dielectric_mm, kept.dielectric_mm),
            ("c", "braid", strip.braid_mm, kept.braid_mm),
        )
    return tuple(
        _Cut(letter=letter, layer=layer, aim_mm=aim_mm, tolerance_mm=tolerance_mm)
        for letter, layer, aim_mm, tolerance_mm in named
        if aim_mm > 0
    )


def _judge(cut: _Cut, lengths_mm: Sequence[float]) -> JudgedCut:
    why = _not_computed(cut, lengths_mm)
    if why is not None:
        return JudgedCut(
            letter=cut.letter,
            layer=cut.layer,
            made=None,
            check=_check(cut, Outcome.NOT_COMPUTED, why, cpk=None),
        )
    made = capability(
        lengths_mm,
        low=cut.aim_mm - cut.tolerance_mm,
        high=cut.aim_mm + cut.tolerance_mm,
        unit="mm",
    )
    outcome, told = _outcome(made)
    count = counted(made.sample_size, "strip")
    sentence = (
        f"{count}, mean {show_length_mm(made.mean, decimals=2)}, "
        f"Cpk {show_number(made.cpk, decimals=2)}, at least "
        f"{show_number(made.cpk_least(confidence=SURE), decimals=2)} with {show_percent(SURE)} "
        f"confidence; {show_share(made.outside_chance)} would lie outside "
        f"±{show_length_mm(cut.tolerance_mm, decimals=2)}; {told}"
    )
    return JudgedCut(
        letter=cut.letter,
        layer=cut.layer,
        made=made,
        check=_check(cut, outcome, sentence, cpk=made.cpk),
    )


def _not_computed(cut: _Cut, lengths_mm: Sequence[float]) -> str | None:
    """What is missing to tell the capability of a cut; None where nothing is."""
    count = len(lengths_mm)
    if cut.tolerance_mm == 0:
        return "no tolerance is laid down: nothing to judge it by"
    if count < 2:
        told = "one strip tells" if count else "no strip was measured: that tells"
        return f"{told} nothing of a spread; measure {STRIPS_TO_MEASURE - count} more"
    if len(set(lengths_mm)) == 1:
        alike = show_length_mm(lengths_mm[0], decimals=3)
        return (
            f"{count} strips all alike at {alike} tell nothing of a spread: read the comparator "
            "finer"
        )
    return None


def _outcome(made: Capability) -> tuple[Outcome, str]:
    more = max(0, STRIPS_TO_MEASURE - made.sample_size)
    measure = f"measure {more} more to tell"
    if made.cpk >= CAPABLE_RATIO:
        if more:
            return Outcome.CAUTION, f"good so far; {measure}"
        return Outcome.GOOD, "it keeps its tolerance"
    if more and made.cpk_most(confidence=SURE) >= CAPABLE_RATIO:
        return Outcome.CAUTION, f"under the {CAPABLE_RATIO} aimed at so far; {measure}"
    off_mm = made.mean - (made.low + made.high) / 2
    if made.cp >= CAPABLE_RATIO:
        lies = f"it spreads little and lies {show_length_mm(abs(off_mm), decimals=2)} off its aim"
        return Outcome.BAD, f"{lies}: strip {'shorter' if off_mm > 0 else 'longer'}"
    if made.cpk < 0:
        return Outcome.BAD, "the mean itself lies outside"
    return Outcome.BAD, f"it strays too far for {CAPABLE_RATIO}: look at clamp, blades, tolerance"


def _check(cut: _Cut, outcome: Outcome, told: str, *, cpk: float | None) -> Check:
    return Check(
        name=f"capability of {cut.letter}",
        outcome=outcome,
        sentence=f"{cut.letter} ({cut.layer}): {told}",
        source=_CPK,
        value=cpk,
        limit=None if cpk is None else CAPABLE_RATIO,
        margin=None if cpk is None else cpk - CAPABLE_RATIO,
        unit="1",
    )
