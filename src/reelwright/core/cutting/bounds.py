"""What no plan of an item can beat, cheaply known."""

from itertools import accumulate

from reelwright.core.cutting.aims import Aim
from reelwright.core.cutting.item import ItemCutting, lost_already_um


def cheap_bound(cutting: ItemCutting, aim: Aim, *, served: bool) -> int:
    """Return what the value of an aim cannot be below.

    ``served``: only plans that serve everything are looked at.
    """
    total = sum(
        kind.wanted * least for kind, least in zip(cutting.kinds, cutting.least_cut_mm, strict=True)
    )
    oldest = min((reel.age_rank for reel in cutting.reels), default=0)
    levels = (
        0,
        0,
        # Nothing but what the reels had lost already can be won back.
        -sum(lost_already_um(reel, cutting.rules) for reel in cutting.reels),
        _fewest_reels(cutting, total) if served else 0,
        0,
        total * oldest if served else 0,
    )
    missing = 0
    for rank, count in enumerate(least_missing(cutting) if any(aim.missing) else ()):
        kinds = zip(cutting.kinds, aim.missing, strict=True)
        missing += count * min(weight for kind, weight in kinds if kind.rank == rank)
    return missing + sum(weight * level for weight, level in zip(aim.levels, levels, strict=True))


def least_missing(cutting: ItemCutting) -> tuple[int, ...]:
    """Return how many pieces of each urgency must stay unserved, whatever the plan.

    Each urgency is bounded on its own: by the room for each of its kinds alone, by the room for
    its shortest piece, and by its length against all that is usable.
    """
    usable = [one.usable_mm for one in cutting.bins]

    def slots(length_mm: int) -> int:
        return sum(room // length_mm for room in usable)

    bounds = []
    for rank in range(cutting.ranks):
        kinds = [
            (least, kind.wanted)
            for kind, least in zip(cutting.kinds, cutting.least_cut_mm, strict=True)
            if kind.rank == rank
        ]
        each = sum(max(0, wanted - slots(length)) for length, wanted in kinds)
        together = sum(wanted for _, wanted in kinds) - slots(min(kinds)[0])
        room = sum(usable)
        by_length = 0
        for length, wanted in sorted(kinds):
            fit = min(wanted, room // length)
            room -= fit * length
            by_length += wanted - fit
        bounds.append(max(each, together, by_length))
    return tuple(bounds)


def _fewest_reels(cutting: ItemCutting, total: int) -> int:
    room = sorted(
        (sum(cutting.bins[at].usable_mm for at in bins) for bins in cutting.bins_of_reel),
        reverse=True,
    )
    return next(
        (number for number, reached in enumerate(accumulate(room, initial=0)) if reached >= total),
        len(room),
    )
