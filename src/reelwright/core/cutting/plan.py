"""What a cut plan says: per reel every millimetre, per piece where from and why."""

import enum
from dataclasses import dataclass

from reelwright.core.cutting.words import level_shown
from reelwright.core.quantities.guard import require_count, require_text
from reelwright.core.verdicts import Reason


class SegmentKind(enum.StrEnum):
    """What becomes of one length of a reel."""

    CUT = "piece"
    FLAW = "flaw"
    KEPT_ON_REEL = "stays on the reel"
    KEPT_LOOSE = "kept as a loose remnant"
    SCRAP = "scrap"


@dataclass(frozen=True, kw_only=True)
class Segment:
    """One length of a reel, from its free end. ``piece_id`` is given for a piece only.

    ``stays_on_reel`` is False for whatever comes off: pieces, loose remnants, scrap and the
    flaws in front of the last cut.
    """

    kind: SegmentKind
    start_mm: int
    end_mm: int
    piece_id: str | None
    stays_on_reel: bool

    def __post_init__(self) -> None:
        require_count(self, "start_mm")
        require_count(self, "end_mm", at_least=self.start_mm + 1)

    @property
    def length_mm(self) -> int:
        """Its length."""
        return self.end_mm - self.start_mm


@dataclass(frozen=True, kw_only=True)
class ReelCuts:
    """What is done at one reel. ``segments`` stand from the free end and leave no gap.

    ``chance_of_enough`` (0 to 1) is the least over the stretches that are cut into.
    """

    reel_id: str
    item: str
    lot: str
    location: str | None
    segments: tuple[Segment, ...]
    chance_of_enough: float

    @property
    def cuts(self) -> tuple[Segment, ...]:
        """The pieces, in the order in which they are cut."""
        return tuple(part for part in self.segments if part.kind is SegmentKind.CUT)

    @property
    def loose_remnants(self) -> tuple[Segment, ...]:
        """Lengths cut off in front of a flaw and kept."""
        return tuple(part for part in self.segments if part.kind is SegmentKind.KEPT_LOOSE)

    @property
    def left_on_reel_mm(self) -> int:
        """What stays on the reel, flaws included; 0: the reel is empty."""
        return sum(part.length_mm for part in self.segments if part.stays_on_reel)

    @property
    def scrap_mm(self) -> int:
        """What is thrown away: scrap, and the flaws that come off with it."""
        return sum(
            part.length_mm
            for part in self.segments
            if part.kind is SegmentKind.SCRAP
            or (part.kind is SegmentKind.FLAW and not part.stays_on_reel)
        )


@dataclass(frozen=True, kw_only=True)
class Placement:
    """Where one piece comes from, and why from there."""

    piece_id: str
    reel_id: str
    lot: str
    start_mm: int
    end_mm: int
    why: tuple[Reason, ...]


@dataclass(frozen=True, kw_only=True)
class Unserved:
    """A piece that no reel gives, why, and what would serve it."""

    piece_id: str
    item: str
    cut_length_mm: int
    reasons: tuple[Reason, ...]
    would_serve: str

    def __post_init__(self) -> None:
        require_text(self, "would_serve")


@dataclass(frozen=True, kw_only=True)
class AimReached:
    """One aim of a plan: the value reached, and what it cannot be below; None: not known.

    ``given_back`` of it was free to be lost for the aims that follow.
    """

    name: str
    value: int
    bound: int | None
    given_back: int

    @property
    def met(self) -> bool:
        """True where no plan as good before is better by more than is given back."""
        return self.bound is not None and self.value <= self.bound + self.given_back


@dataclass(frozen=True, kw_only=True)
class Standing:
    """How good the plan of one item is, level by level, and how far that is proven.

    ``levels`` are (name, value) in the order in which they count, all to be as small as can be.
    ``aims`` are what the plan was asked to be good at, the first to be met first.
    """

    item: str
    levels: tuple[tuple[str, int], ...]
    aims: tuple[AimReached, ...]

    @property
    def proven_best(self) -> bool:
        """True where no plan is better at any aim."""
        return all(aim.met for aim in self.aims)

    @property
    def proven(self) -> tuple[str, ...]:
        """The names of the first aims that no other plan beats."""
        names = dict.fromkeys(aim.name for aim in self.aims)
        for aim in self.aims:
            if not aim.met:
                at = list(names).index(aim.name)
                return tuple(names)[:at]
        return tuple(names)

    @property
    def sentence(self) -> str:
        """What is proven, in words."""
        if self.proven_best:
            return f"{self.item}: proven best."
        if self.proven:
            return (
                f"{self.item}: proven best for {', '.join(self.proven)}; "
                f"the rest is good but not proven.{self._gap}"
            )
        return f"{self.item}: a good plan, not proven best.{self._gap}"

    @property
    def _gap(self) -> str:
        """How far the first aim that is not proven can be from the best."""
        first = next(aim for aim in self.aims if not aim.met)
        if first.bound is None:
            return ""
        value, bound = (level_shown(first.name, each) for each in (first.value, first.bound))
        return f" {first.name.capitalize()}: {value}, and no plan has less than {bound}."


@dataclass(frozen=True, kw_only=True)
class CutPlan:
    """The whole plan. Reels that nothing is cut from are not in it."""

    reels: tuple[ReelCuts, ...]
    placements: tuple[Placement, ...]
    unserved: tuple[Unserved, ...]
    warnings: tuple[Reason, ...]
    standings: tuple[Standing, ...]
