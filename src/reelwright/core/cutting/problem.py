"""What a cut plan is made from: pieces wanted, reels in stock, rules of each item.

All lengths are whole millimetres. Positions on a reel count from its free end, the end that is
pulled off first: a reel is only ever consumed from there, so what lies behind a flaw is reached
by unwinding everything in front of it.
"""

import datetime
import enum
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from reelwright.core.errors import BadValue, Fault, InputFaults
from reelwright.core.quantities.guard import (
    require_between,
    require_count,
    require_not_negative,
    require_text,
)


class LotRule(enum.StrEnum):
    """How strongly the pieces of one group want to come from one lot, or even one reel."""

    SAME = "same lot"
    SAME_REEL = "same reel"
    PREFER = "one lot preferred"


@dataclass(frozen=True, kw_only=True)
class LotGroup:
    """Pieces that belong together: a matched set, a rack of one shade."""

    id: str
    rule: LotRule

    def __post_init__(self) -> None:
        require_text(self, "id")


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One continuous length to cut.

    ``item`` names cable and colour together; only reels of the same item can serve it.
    ``cut_length_mm`` is what leaves the reel, trims and allowances included. ``due_day``: the
    day it is promised for, ``None`` where nothing was promised. ``priority``: 0 is ordinary, a
    higher number is served first, whatever is due. ``longer_by_lot_mm`` are (lot, how much longer
    the cut is from that lot), for pieces that must match in delay and not in length. ``only_reel``:
    the reel it is reserved on.
    """

    id: str
    item: str
    cut_length_mm: int
    due_day: datetime.date | None
    priority: int
    lot_group: str | None
    longer_by_lot_mm: tuple[tuple[str, int], ...] = ()
    only_reel: str | None = None

    def __post_init__(self) -> None:
        require_text(self, "id", "item")
        require_count(self, "cut_length_mm", at_least=1)
        require_count(self, "priority")
        lots = [lot for lot, _ in self.longer_by_lot_mm]
        shortest_mm = min((more_mm for _, more_mm in self.longer_by_lot_mm), default=0)
        if len(set(lots)) < len(lots) or self.cut_length_mm + shortest_mm < 1:
            raise BadValue(
                owner="Piece",
                field="longer_by_lot_mm",
                value=self.longer_by_lot_mm,
                accepted="each lot once, and something to cut from each",
            )

    @property
    def urgency(self) -> tuple[int, datetime.date]:
        """Sorts the most urgent first: highest priority, then the earliest promise."""
        return (-self.priority, self.due_day or datetime.date.max)


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """A continuous length without flaw or splice, and how well that length is known."""

    start_mm: int
    length_mm: int
    standard_uncertainty_mm: float

    def __post_init__(self) -> None:
        require_count(self, "start_mm")
        require_count(self, "length_mm", at_least=1)
        require_not_negative(self, "standard_uncertainty_mm")

    @property
    def end_mm(self) -> int:
        """Where the stretch ends, from the free end of the reel."""
        return self.start_mm + self.length_mm


@dataclass(frozen=True, kw_only=True)
class ReelStock:
    """One reel, or one loose remnant, as it lies in the rack.

    ``stretches`` stand in the order in which they unwind; what lies between two of them is a
    flaw. ``age_rank``: 0 is the oldest lot of its item. ``location`` is for the reader of the
    cut list, ``None`` where it is not known.
    """

    id: str
    item: str
    lot: str
    location: str | None
    stretches: tuple[Stretch, ...]
    age_rank: int

    def __post_init__(self) -> None:
        require_text(self, "id", "item", "lot")
        require_count(self, "age_rank")
        for before, after in zip(self.stretches, self.stretches[1:], strict=False):
            if after.start_mm <= before.end_mm:
                raise BadValue(
                    owner="ReelStock",
                    field="stretches",
                    value=self.stretches,
                    accepted="stretches in unwinding order with a flaw between each two",
                )

    @property
    def length_mm(self) -> int:
        """The whole length on the reel, flaws included; 0 for an empty reel."""
        return self.stretches[-1].end_mm if self.stretches else 0


@dataclass(frozen=True, kw_only=True)
class RemnantUse:
    """The chance (0 to 1) that a clean length of ``at_least_mm`` is used before it spoils."""

    at_least_mm: int
    use_chance: float

    def __post_init__(self) -> None:
        require_count(self, "at_least_mm", at_least=1)
        require_between(self, "use_chance", low=0.0, high=1.0)


@dataclass(frozen=True, kw_only=True)
class ItemRules:
    """What is worth keeping of one item.

    A rest of at least ``smallest_remnant_mm`` goes back to the rack; a rest of at most
    ``swarf_mm`` is sweepings; what lies between is an unusable end: wasted, and in the way.
    ``remnant_uses`` say what a remnant is worth to later orders, the shortest first, each length
    longer than the one before; with none given, every remnant worth keeping is worth its length.
    """

    item: str
    smallest_remnant_mm: int
    swarf_mm: int
    remnant_uses: tuple[RemnantUse, ...] = ()

    def __post_init__(self) -> None:
        require_text(self, "item")
        require_count(self, "swarf_mm")
        require_count(self, "smallest_remnant_mm", at_least=self.swarf_mm + 1)
        lengths = [use.at_least_mm for use in self.remnant_uses]
        if lengths != sorted(set(lengths)):
            raise BadValue(
                owner="ItemRules",
                field="remnant_uses",
                value=self.remnant_uses,
                accepted="each length once, the shortest first",
            )

    def worth_permille(self, length_mm: int) -> int:
        """Return what a clean length kept for later is worth, in thousandths of its length.

        Nothing where it is too short to keep; a length below all ``remnant_uses`` is of no use.
        """
        if length_mm < self.smallest_remnant_mm:
            return 0
        if not self.remnant_uses:
            return 1000
        chances = [use.use_chance for use in self.remnant_uses if use.at_least_mm <= length_mm]
        return round(1000 * chances[-1]) if chances else 0


@dataclass(frozen=True, kw_only=True)
class CutProblem:
    """Everything one cut plan needs, checked as a whole.

    ``chance_of_enough`` (between 0.5 and 1): how sure it must be that a stretch is long enough
    for all that is to be cut from it. Raises InputFaults with every contradiction at once.
    """

    pieces: tuple[Piece, ...]
    reels: tuple[ReelStock, ...]
    rules: tuple[ItemRules, ...]
    groups: tuple[LotGroup, ...]
    chance_of_enough: float

    def __post_init__(self) -> None:
        require_between(self, "chance_of_enough", low=0.5, high=0.999999)
        faults = [
            *_repeated("pieces", (piece.id for piece in self.pieces)),
            *_repeated("reels", (reel.id for reel in self.reels)),
            *_repeated("rules", (rule.item for rule in self.rules)),
            *_repeated("groups", (group.id for group in self.groups)),
            *self._unknown_names(),
            *self._groups_of_several_items(),
        ]
        if faults:
            raise InputFaults(faults)

    def rules_of(self, item: str) -> ItemRules:
        """Return the rules of an item that the problem names."""
        return next(rule for rule in self.rules if rule.item == item)

    @property
    def items(self) -> tuple[str, ...]:
        """The items that pieces are wanted of, sorted."""
        return tuple(sorted({piece.item for piece in self.pieces}))

    def _unknown_names(self) -> Iterator[Fault]:
        ruled = {rule.item for rule in self.rules}
        grouped = {group.id for group in self.groups}
        for piece in self.pieces:
            if piece.item not in ruled:
                yield _fault(f"piece {piece.id}, item", piece.item, "no rules for it", ruled)
            if piece.lot_group is not None and piece.lot_group not in grouped:
                yield _fault(
                    f"piece {piece.id}, lot group", piece.lot_group, "no such group", grouped
                )
        for reel in self.reels:
            if reel.item not in ruled:
                yield _fault(f"reel {reel.id}, item", reel.item, "no rules for it", ruled)
        of_item = {reel.id: reel.item for reel in self.reels}
        for piece in self.pieces:
            if piece.only_reel is not None and of_item.get(piece.only_reel) != piece.item:
                field, own = (
                    f"piece {piece.id}, only reel",
                    {name for name, item in of_item.items() if item == piece.item},
                )
                yield _fault(field, piece.only_reel, "no such reel of its item", own)

    def _groups_of_several_items(self) -> Iterator[Fault]:
        for group in self.groups:
            items = {piece.item for piece in self.pieces if piece.lot_group == group.id}
            if len(items) > 1:
                yield Fault(
                    file="cutting problem",
                    row=None,
                    field=f"group {group.id}",
                    value=", ".join(sorted(items)),
                    problem="pieces of several items cannot come from one lot",
                    accepted="pieces of one item",
                )


def _repeated(field: str, names: Iterable[str]) -> Iterator[Fault]:
    for name, count in sorted(Counter(names).items()):
        if count > 1:
            yield Fault(
                file="cutting problem",
                row=None,
                field=field,
                value=name,
                problem=f"given {count} times",
                accepted="each once",
            )


def _fault(field: str, value: str, problem: str, accepted: set[str]) -> Fault:
    return Fault(
        file="cutting problem",
        row=None,
        field=field,
        value=value,
        problem=problem,
        accepted=", ".join(sorted(accepted)) or "none is known",
    )
