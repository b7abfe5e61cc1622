"""Whether measured strips keep their tolerances: Cpk of a, b and c before a set-up is relied on."""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.ends.strip.plan import StripPlan
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_not_negative, require_positive
from reelwright.core.quantities.show import show_length_mm, show_number, show_percent
from reelwright.core.statistics.capability import CAPABLE_RATIO, Capability, capability
from reelwright.core.verdicts import Basis, Check, Outcome, Source

STRIPS_TO_MEASURE = 30
"""How many strips are laid under the comparator for a new set-up; common practice."""

_CPK = Source(
    text=f"Cpk of at least {CAPABLE_RATIO} on {STRIPS_TO_MEASURE} strips",
    basis=Basis.COMMON_PRACTICE,
)


@dataclass(frozen=True, kw_only=True)
class MeasuredStrip:
    """One stripped end under the comparator: a, b and c in mm, counted as in ``StripPlan``."""

    conductor_mm: float
    dielectric_mm: float
    braid_mm: float

    def __post_init__(self) -> None:
        require_positive(self, "conductor_mm")
        require_not_negative(self, "dielectric_mm", "braid_mm")


def judge_measured_strips(
    plan: StripPlan, measured: Sequence[MeasuredStrip]
) -> tuple[tuple[Capability, Check], ...]:
    """Return the capability of each stripped length with what it says, a to c.

    Capable from Cpk 1.33; fewer than thirty strips leave it at a caution, with what the Cpk is at
    least with 95 % confidence. A length of nothing is left out. Raises BadValue for fewer than two
    strips, and for lengths that never differ.
    """
    if len(measured) < 2:
        raise BadValue(
            owner="judge_measured_strips",
            field="measured",
            value=len(measured),
            accepted="two strips or more: one tells nothing of a spread",
        )
    lengths = (
        ("a", "conductor", plan.conductor_mm, plan.tolerances.conductor_mm),
        ("b", "dielectric", plan.dielectric_mm, plan.tolerances.dielectric_mm),
        ("c", "braid", plan.braid_mm, plan.tolerances.braid_mm),
    )
    found = []
    for letter, layer, aim_mm, tolerance_mm in lengths:
        if aim_mm == 0:
            continue
        made = capability(
            [getattr(each, f"{layer}_mm") for each in measured],
            low=aim_mm - tolerance_mm,
            high=aim_mm + tolerance_mm,
            unit="mm",
        )
        found.append((made, _check(letter, layer, made)))
    return tuple(found)


def _check(letter: str, layer: str, made: Capability) -> Check:
    capable, enough = made.cpk >= CAPABLE_RATIO, made.sample_size >= STRIPS_TO_MEASURE
    if not capable:
        outcome = Outcome.BAD
        told = f"{show_percent(made.outside_chance)} would lie outside"
    elif not enough:
        outcome = Outcome.CAUTION
        least = show_number(made.cpk_least(confidence=0.95), decimals=2)
        told = f"only {made.sample_size} strips: at least {least} with 95\u202f% confidence"
    else:
        outcome, told = Outcome.GOOD, "it keeps its tolerance"
    return Check(
        name=f"capability of {letter}",
        outcome=outcome,
        sentence=(
            f"{letter} ({layer}): mean {show_length_mm(made.mean, decimals=2)}, "
            f"Cpk {show_number(made.cpk, decimals=2)}, {told}"
        ),
        source=_CPK,
        value=made.cpk,
        limit=CAPABLE_RATIO,
        margin=made.cpk - CAPABLE_RATIO,
        unit="1",
    )
