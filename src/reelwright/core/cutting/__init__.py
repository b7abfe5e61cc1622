"""Which reel each piece comes off: ``plan`` a ``CutProblem``; ``capacity`` of the rack."""

from reelwright.core.cutting.capacity import StretchCapacity, capacity
from reelwright.core.cutting.certainty import chance_of, usable_mm
from reelwright.core.cutting.plan import (
    CutPlan,
    Placement,
    ReelCuts,
    Segment,
    SegmentKind,
    Standing,
    Unserved,
)
from reelwright.core.cutting.problem import (
    CutProblem,
    ItemRules,
    LotGroup,
    LotRule,
    Piece,
    ReelStock,
    RemnantUse,
    Stretch,
)
from reelwright.core.cutting.search import plan
from reelwright.core.cutting.spares import SpareOutlook, spare_outlooks

__all__ = [
    "CutPlan",
    "CutProblem",
    "ItemRules",
    "LotGroup",
    "LotRule",
    "Piece",
    "Placement",
    "ReelCuts",
    "ReelStock",
    "RemnantUse",
    "Segment",
    "SegmentKind",
    "SpareOutlook",
    "Standing",
    "Stretch",
    "StretchCapacity",
    "Unserved",
    "capacity",
    "chance_of",
    "plan",
    "spare_outlooks",
    "usable_mm",
]
