"""How a finished end is handled: how tightly its cable may be bent, and how its braid may look."""

from dataclasses import dataclass

from reelwright.core.ends.order.inspection import InspectionPoint
from reelwright.core.ends.strength.strands import SHIELD_NICKED_FRACTION, SHIELD_SOURCE
from reelwright.core.parts.bend import (
    COAX_BEND,
    DATA_PAIR_BEND,
    BendRule,
    judge_bend,
    straight_at_end_m,
)
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Method
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.show import show_dimension, show_percent
from reelwright.core.verdicts import Outcome

_BARES_BRAID = (Method.CRIMP_CRIMP, Method.COMPRESSION, Method.SOLDER)


@dataclass(frozen=True, kw_only=True)
class BendShown:
    """How tightly the cable may be bent behind its end; ``mark``: good, caution or bad."""

    mark: str
    sentence: str
    source: str


def bend_shown(cable: Cable) -> BendShown | None:
    """Return how wide the cable is bent at the least; None where nothing is known of it.

    What its own sheet states, held against the rule for its kind where there is one. A coax wants
    its first bit behind the end straight.
    """
    radius_m, rule = cable.bend_radius_fixed_m, _rule(cable)
    stated = f"Its sheet states {_mm(radius_m)}" if radius_m else "Its sheet states no radius"
    if rule is None:
        if not radius_m:
            return None
        return BendShown(
            mark="good",
            sentence=f"Bend it no tighter than {_mm(radius_m)} when it is laid.",
            source=str(cable.sheet.source),
        )
    across_m = cable.jacket.outside_diameter_m
    least_m = rule.least_ratio * across_m
    told = f"Bend it no tighter than {_mm(max(radius_m, least_m))}"
    if rule.recommended_ratio is not None and rule.recommended_ratio * across_m > radius_m:
        told += f", better {_mm(rule.recommended_ratio * across_m)}"
    told += f". {stated}, the rule {_mm(least_m)}, {rule.least_ratio:g} times its diameter."
    if cable.family is Family.COAX:
        told += f" Leave {_mm(straight_at_end_m(across_m))} straight behind the end."
    mark = "good"
    if radius_m:
        found = judge_bend(outside_diameter_m=across_m, radius_m=radius_m, rule=rule)
        # That more is recommended is said by the sentence; only a sheet under the rule is minded.
        mark = "caution" if found.outcome is Outcome.BAD else "good"
    return BendShown(mark=mark, sentence=told, source=str(rule.source))


def braid_point(cable: Cable, method: Method) -> InspectionPoint | None:
    """Return what to look at on a bared braid; None where none is bared.

    The share is a rule for screens of space hardware. How many strands of a conductor may be hurt
    goes by their number, which no record holds.
    """
    if method not in _BARES_BRAID or cable.layer(LayerRole.BRAID) is None:
        return None
    return InspectionPoint(
        name="strands of the braid",
        good=f"none cut through, at most {show_percent(SHIELD_NICKED_FRACTION)} nicked",
        bad="one cut through, or more nicked: strip it again",
    )


def braid_source() -> str:
    """Return whose rule the strands of a braid are held against."""
    return f"strands of the braid: {SHIELD_SOURCE}"


def _rule(cable: Cable) -> BendRule | None:
    if cable.family is Family.COAX:
        return COAX_BEND
    if cable.family is Family.DATA and not cable.screened:
        return DATA_PAIR_BEND
    return None


def _mm(length_m: float) -> str:
    return show_dimension(length_m, decimals=1)
