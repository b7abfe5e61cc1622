"""Rows of the ledger as the sums take them: the reads that services and selectors share."""

from collections import defaultdict
from collections.abc import Iterable

from reelwright.core.errors import UnknownCode
from reelwright.shop.reels.ledger import Entry, FlawMark
from reelwright.shop.reels.models import Flaw, LedgerEntry, Reel


def locked_reel(code: str) -> Reel:
    """Return the reel, locked until the write transaction ends.

    Must run inside a write transaction. Raises UnknownCode.
    """
    reel = Reel.objects.select_for_update().filter(code=code).first()
    if reel is None:
        raise UnknownCode(kind="reel", code=code)
    return reel


def entries_of(reel_ids: Iterable[int]) -> dict[int, list[Entry]]:
    """Return the entries by reel, each list in the order of booking; one query."""
    found: dict[int, list[Entry]] = defaultdict(list)
    columns = (
        "reel_id",
        "id",
        "kind",
        "change_mm",
        "standard_uncertainty_mm",
        "wheel_uncertainty_mm",
        "reverses_id",
    )
    rows = LedgerEntry.objects.filter(reel_id__in=list(reel_ids)).order_by("id")
    for reel_id, number, kind, change, own, wheel, reverses in rows.values_list(*columns):
        found[reel_id].append(
            Entry(
                number=number,
                kind=kind,
                change_mm=change,
                standard_uncertainty_mm=own,
                wheel_uncertainty_mm=wheel,
                reverses=reverses,
            )
        )
    return found


def flaws_of(reel_ids: Iterable[int]) -> dict[int, list[FlawMark]]:
    """Return the flaws by reel, withdrawn ones left out; one query."""
    found: dict[int, list[FlawMark]] = defaultdict(list)
    rows = Flaw.objects.filter(reel_id__in=list(reel_ids), withdrawal__isnull=True).order_by("id")
    columns = ("reel_id", "start_from_inner_mm", "length_mm", "after_id", "note")
    for reel_id, start, length, after, note in rows.values_list(*columns):
        found[reel_id].append(
            FlawMark(start_from_inner_mm=start, length_mm=length, after=after, note=note)
        )
    return found
