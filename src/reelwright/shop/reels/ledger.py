"""What the entries of one reel add up to. No database here: entries in, length out."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.shop.reels.models import EntryKind


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One ledger entry, as far as the sums need it; ``number`` rises in the order of booking."""

    number: int
    kind: str
    change_mm: int
    standard_uncertainty_mm: float
    wheel_uncertainty_mm: float
    reverses: int | None


@dataclass(frozen=True, kw_only=True)
class FlawMark:
    """A flaw as recorded, with the number of the entry after which it was found."""

    start_from_inner_mm: int
    length_mm: int
    after: int
    note: str


@dataclass(frozen=True, kw_only=True)
class FlawNow:
    """A flaw that is still on the reel, from the outer end, cut off where the reel ends."""

    start_mm: int
    length_mm: int
    note: str

    @property
    def end_mm(self) -> int:
        """Where it ends, from the outer end."""
        return self.start_mm + self.length_mm


@dataclass(frozen=True, kw_only=True)
class Remaining:
    """What is left on a reel by its ledger.

    ``length_mm`` falls a little below zero where more came off than the ledger knew of.
    """

    length_mm: int
    standard_uncertainty_mm: float


def standing(entries: Sequence[Entry]) -> list[Entry]:
    """Return the entries that were neither reversed nor are reversals."""
    gone = {entry.reverses for entry in entries if entry.reverses is not None}
    return [entry for entry in entries if entry.reverses is None and entry.number not in gone]


def remaining(entries: Sequence[Entry]) -> Remaining:
    """Return what is left, entries given in the order of booking.

    Entries since the last standing count combine: their own uncertainties in squares, the
    wheel's shares plainly, because one wheel errs the same way at every cut (common practice, no
    published source for the figures; the rule is that of the GUM, JCGM 100:2008, 5.2.2 note 1, for
    inputs that are wholly correlated).
    """
    length_mm = sum(entry.change_mm for entry in entries)
    since: list[Entry] = []
    for entry in standing(entries):
        if entry.kind == EntryKind.COUNTED:
            since.clear()
        since.append(entry)
    own = math.hypot(*(entry.standard_uncertainty_mm for entry in since))
    wheel = math.fsum(entry.wheel_uncertainty_mm for entry in since)
    return Remaining(length_mm=length_mm, standard_uncertainty_mm=math.hypot(own, wheel))


def _moved_mm(flaw: FlawMark, entries: Sequence[Entry]) -> int:
    """Return how far later entries corrected the length that the flaw's place was taken from."""
    by_number = {entry.number: entry for entry in entries}
    moved = 0
    for entry in entries:
        if entry.number <= flaw.after:
            continue
        if entry.kind == EntryKind.COUNTED:
            moved += entry.change_mm
        elif entry.reverses is not None:
            undone = by_number[entry.reverses]
            if undone.kind == EntryKind.COUNTED or undone.number <= flaw.after:
                moved += entry.change_mm
    return moved


def flaws_now(flaws: Sequence[FlawMark], entries: Sequence[Entry]) -> tuple[FlawNow, ...]:
    """Return the flaws still on the reel, from the outer end inwards."""
    length_mm = remaining(entries).length_mm
    found = []
    for flaw in flaws:
        inner_mm = flaw.start_from_inner_mm + _moved_mm(flaw, entries)
        end_mm = length_mm - inner_mm
        start_mm = max(0, end_mm - flaw.length_mm)
        end_mm = min(end_mm, length_mm)
        if end_mm > start_mm:
            found.append(FlawNow(start_mm=start_mm, length_mm=end_mm - start_mm, note=flaw.note))
    return tuple(sorted(found, key=lambda flaw: (flaw.start_mm, flaw.length_mm)))


def good_stretches(length_mm: int, flaws: Sequence[FlawNow]) -> tuple[tuple[int, int], ...]:
    """Return (start, length) of what lies between the flaws, from the outer end."""
    stretches = []
    at_mm = 0
    for flaw in sorted(flaws, key=lambda flaw: flaw.start_mm):
        if flaw.start_mm > at_mm:
            stretches.append((at_mm, flaw.start_mm - at_mm))
        at_mm = max(at_mm, flaw.end_mm)
    if length_mm > at_mm:
        stretches.append((at_mm, length_mm - at_mm))
    return tuple(stretches)
