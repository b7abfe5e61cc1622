"""What no plan of an item can beat, cheaply known."""

from itertools import accumulate

from reelwright.core.cutting.item import LEVELS, ItemCutting


class ServingBound:
    """How many pieces must stay unserved, whatever the plan, by urgency.

    ``least_missing(left, first_reel)``: ``left`` pieces of each kind are still to be cut and only
    the reels from ``first_reel`` on are still free. Each urgency is bounded on its own: by the
    slots for its kinds one by one, and by the slots for its shortest piece.
    """

    def __init__(self, cutting: ItemCutting) -> None:
        self._ranks = [
            [at for at, kind in enumerate(cutting.kinds) if kind.rank == rank]
            for rank in range(cutting.ranks)
        ]
        lengths = [kind.length_mm for kind in cutting.kinds]
        self._lengths = lengths
        self._slots = []
        self._usable = []
        for first in range(len(cutting.reels) + 1):
            usable = [one.usable_mm for one in cutting.bins if one.reel >= first]
            self._slots.append([sum(room // length for room in usable) for length in lengths])
            self._usable.append(sum(usable))

    def least_missing(self, left: tuple[int, ...], first_reel: int) -> tuple[int, ...]:
        """Return the bound, one number for each urgency."""
        slots = self._slots[first_reel]
        bound = []
        for kinds in self._ranks:
            each = sum(max(0, left[at] - slots[at]) for at in kinds)
            wanted = [at for at in kinds if left[at]]
            together = 0
            if wanted:
                shortest = min(wanted, key=lambda at: self._lengths[at])
                together = sum(left[at] for at in wanted) - slots[shortest]
            bound.append(max(each, together, self._by_length(left, wanted, first_reel)))
        return tuple(bound)

    def _by_length(self, left: tuple[int, ...], wanted: list[int], first_reel: int) -> int:
        room = self._usable[first_reel]
        missing = 0
        for at in sorted(wanted, key=lambda at: self._lengths[at]):
            fit = min(left[at], room // self._lengths[at])
            room -= fit * self._lengths[at]
            missing += left[at] - fit
        return missing


def proven_levels(cutting: ItemCutting, standing: tuple[int, ...]) -> tuple[str, ...]:
    """Return the names of the first levels at which the standing meets a bound."""
    wanted = tuple(kind.wanted for kind in cutting.kinds)
    least = ServingBound(cutting).least_missing(wanted, 0)
    # A bound of several urgencies holds from the left: the first one missed ends the proof.
    if standing[: cutting.ranks] != least:
        return ()
    proven = [LEVELS[0]]
    bounds = (0, 0, 0, *((0, 0, 0) if any(least) else _bounds_of_use(cutting, standing)))
    for name, value, bound in zip(LEVELS[1:], standing[cutting.ranks :], bounds, strict=True):
        if value != bound:
            break
        proven.append(name)
    return tuple(proven)


def _bounds_of_use(cutting: ItemCutting, standing: tuple[int, ...]) -> tuple[int, int, int]:
    """Return bounds of (reels touched, open remnants, age) where everything is served.

    They count only where the levels before them are met, so without scrap: then a single reel
    leaves no remnant only where its length is exactly what is wanted.
    """
    total = sum(kind.wanted * kind.length_mm for kind in cutting.kinds)
    fewest = _fewest_reels(cutting, total)
    touched = standing[cutting.ranks + 3]
    left_open = touched == 1 and all(reel.length_mm != total for reel in cutting.reels)
    oldest = min((reel.age_rank for reel in cutting.reels), default=0)
    return (fewest, int(left_open), total * oldest)


def _fewest_reels(cutting: ItemCutting, total: int) -> int:
    room = sorted(
        (sum(cutting.bins[at].usable_mm for at in bins) for bins in cutting.bins_of_reel),
        reverse=True,
    )
    return next(
        (number for number, reached in enumerate(accumulate(room, initial=0)) if reached >= total),
        len(room),
    )
