"""From a table of counts to what is done at each reel: every millimetre gets its fate.

In a stretch the pieces of lot groups come first, then the others, the longest first: they are cut
while the position is known best, and the short ones at the inner end absorb the error.
"""

from reelwright.core.cutting.certainty import chance_of
from reelwright.core.cutting.item import Counts, ItemCutting
from reelwright.core.cutting.plan import ReelCuts, Segment, SegmentKind
from reelwright.core.cutting.problem import ItemRules, ReelStock

Wanted = tuple[tuple[str, int], ...]
"""(piece id, cut length in mm), in the order in which they are cut"""


def lay_out(cutting: ItemCutting, counts: Counts) -> tuple[ReelCuts, ...]:
    """Return the reels that are cut into, the oldest first."""
    names = [list(kind.piece_ids) for kind in cutting.kinds]
    in_bin: list[Wanted] = []
    order = sorted(
        range(len(cutting.kinds)),
        key=lambda at: (cutting.kinds[at].group is None, -cutting.kinds[at].length_mm, at),
    )
    for at in range(len(cutting.bins)):
        wanted: list[tuple[str, int]] = []
        for kind in order:
            taken = names[kind][: counts[kind][at]]
            del names[kind][: counts[kind][at]]
            wanted += [(name, cutting.cut_mm[kind][at]) for name in taken]
        in_bin.append(tuple(wanted))
    return tuple(
        _reel(reel, tuple(in_bin[at] for at in bins), cutting.rules)
        for reel, bins in zip(cutting.reels, cutting.bins_of_reel, strict=True)
        if any(in_bin[at] for at in bins)
    )


def _reel(reel: ReelStock, wanted: tuple[Wanted, ...], rules: ItemRules) -> ReelCuts:
    last = max(at for at, names in enumerate(wanted) if names)
    segments: list[Segment] = []
    reached = 0
    for at, (stretch, names) in enumerate(zip(reel.stretches, wanted, strict=True)):
        gone = at <= last
        _add(segments, SegmentKind.FLAW, reached, stretch.start_mm, stays=not gone)
        reached = stretch.start_mm
        for name, length in names:
            segments.append(_piece(name, reached, reached + length))
            reached += length
        worth = stretch.end_mm - reached >= rules.smallest_remnant_mm
        if at < last:
            kind = SegmentKind.KEPT_LOOSE if worth else SegmentKind.SCRAP
            _add(segments, kind, reached, stretch.end_mm, stays=False)
        else:
            _add(segments, SegmentKind.KEPT_ON_REEL, reached, stretch.end_mm, stays=True)
        reached = stretch.end_mm
    if not _worth_keeping(segments, rules):
        segments = [_thrown_away(part) if part.stays_on_reel else part for part in segments]
    return ReelCuts(
        reel_id=reel.id,
        item=reel.item,
        lot=reel.lot,
        location=reel.location,
        segments=tuple(segments),
        chance_of_enough=min(
            chance_of(stretch, wanted_mm=sum(length for _, length in names))
            for stretch, names in zip(reel.stretches, wanted, strict=True)
            if names
        ),
    )


def _worth_keeping(segments: list[Segment], rules: ItemRules) -> bool:
    clean = [part.length_mm for part in segments if part.kind is SegmentKind.KEPT_ON_REEL]
    return max(clean, default=0) >= rules.smallest_remnant_mm


def _thrown_away(part: Segment) -> Segment:
    kind = SegmentKind.FLAW if part.kind is SegmentKind.FLAW else SegmentKind.SCRAP
    return Segment(
        kind=kind, start_mm=part.start_mm, end_mm=part.end_mm, piece_id=None, stays_on_reel=False
    )


def _piece(name: str, start_mm: int, end_mm: int) -> Segment:
    return Segment(
        kind=SegmentKind.CUT,
        start_mm=start_mm,
        end_mm=end_mm,
        piece_id=name,
        stays_on_reel=False,
    )


def _add(
    segments: list[Segment], kind: SegmentKind, start_mm: int, end_mm: int, *, stays: bool
) -> None:
    if end_mm > start_mm:
        segments.append(
            Segment(kind=kind, start_mm=start_mm, end_mm=end_mm, piece_id=None, stays_on_reel=stays)
        )
