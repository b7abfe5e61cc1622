"""What a rest is: swept up, an unusable end, or a remnant and what it is still worth.

A stretch that is cut into leaves a rest behind its last piece. Which of a few kinds it is depends
on its length and on whether the reel goes back to the rack behind it. Each kind costs so much an
end and so much a millimetre; the quick plans, the proof and the checks of a plan all read it here.
"""

from dataclasses import dataclass

from reelwright.core.cutting.problem import ItemRules, ReelStock

WHOLE = 1000
"""The worth of a good millimetre, in micrometres of cable: shares of worth stay whole numbers."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Rest:
    """A kind of rest, from ``low_mm`` to ``high_mm`` long, both included.

    ``ends`` unusable ends and ``open_remnants`` come of it; ``lost_um_per_mm`` of its length and
    ``lost_um`` besides are lost, in micrometres of whole cable.
    """

    low_mm: int
    high_mm: int
    ends: int
    open_remnants: int
    lost_um_per_mm: int
    lost_um: int

    def lost_at_um(self, length_mm: int) -> int:
        """Return what a rest of that length loses."""
        return self.lost_um_per_mm * length_mm + self.lost_um


def lost_when_kept_um(length_mm: int, rules: ItemRules) -> int:
    """Return what a clean length loses of its worth by being kept for later orders."""
    return length_mm * (WHOLE - rules.worth_permille(length_mm))


def rests_passed(length_mm: int, rules: ItemRules) -> tuple[Rest, ...]:
    """Return the kinds of rest of a stretch of ``length_mm`` with more cut behind it.

    Such a rest comes off the reel: kept loose, if it is worth that.
    """
    return (
        *_thrown(length_mm, rules, besides_mm=0),
        *_kept(length_mm, rules, lost_um=0),
    )


def rests_last(reel: ReelStock, place: int, rules: ItemRules) -> tuple[Rest, ...]:
    """Return the kinds of rest of the last stretch that is cut into.

    What lies behind it stays on the reel if one clean length there is worth keeping; else it goes
    the way of the rest: kept with it, or thrown away with it.
    """
    stretch = reel.stretches[place]
    later = reel.stretches[place + 1 :]
    behind_mm = reel.length_mm - stretch.end_mm
    kept_um = sum(lost_when_kept_um(one.length_mm, rules) for one in later)
    kept = _kept(stretch.length_mm, rules, lost_um=kept_um)
    if max((one.length_mm for one in later), default=0) >= rules.smallest_remnant_mm:
        short = Rest(
            low_mm=0,
            high_mm=min(stretch.length_mm, rules.smallest_remnant_mm - 1),
            ends=0,
            open_remnants=1,
            lost_um_per_mm=WHOLE,
            lost_um=kept_um,
        )
        return (short, *kept)
    return (*_thrown(stretch.length_mm, rules, besides_mm=behind_mm), *kept)


def of_length(rests: tuple[Rest, ...], length_mm: int) -> Rest:
    """Return the kind that a rest of that length is."""
    return next(rest for rest in rests if rest.low_mm <= length_mm <= rest.high_mm)


def _thrown(length_mm: int, rules: ItemRules, *, besides_mm: int) -> tuple[Rest, ...]:
    swept_mm = rules.swarf_mm - besides_mm
    longest_mm = min(length_mm, rules.smallest_remnant_mm - 1)
    both = ((0, min(swept_mm, longest_mm), 0), (max(0, swept_mm + 1), longest_mm, 1))
    return tuple(
        Rest(
            low_mm=low_mm,
            high_mm=high_mm,
            ends=ends,
            open_remnants=0,
            lost_um_per_mm=WHOLE,
            lost_um=WHOLE * besides_mm,
        )
        for low_mm, high_mm, ends in both
        if low_mm <= high_mm
    )


def _kept(length_mm: int, rules: ItemRules, *, lost_um: int) -> tuple[Rest, ...]:
    starts = [
        rules.smallest_remnant_mm,
        *(
            use.at_least_mm
            for use in rules.remnant_uses
            if use.at_least_mm > rules.smallest_remnant_mm
        ),
    ]
    ends = [*(start - 1 for start in starts[1:]), length_mm]
    return tuple(
        Rest(
            low_mm=low_mm,
            high_mm=min(high_mm, length_mm),
            ends=0,
            open_remnants=1,
            lost_um_per_mm=WHOLE - rules.worth_permille(low_mm),
            lost_um=lost_um,
        )
        for low_mm, high_mm in zip(starts, ends, strict=True)
        if low_mm <= length_mm
    )
