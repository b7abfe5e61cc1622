"""Every read of reels and lots. Values come out; of lots, the rows themselves."""

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass

from django.db.models import Prefetch

from reelwright.core.errors import UnknownCode
from reelwright.shop.reels import ledger
from reelwright.shop.reels.ledger import FlawNow
from reelwright.shop.reels.models import LedgerEntry, Lot, LotMeasurement, Reel
from reelwright.shop.reels.rows import entries_of, flaws_of


@dataclass(frozen=True, kw_only=True)
class ReelNow:
    """A reel as its ledger has it now; places count from the outer end."""

    code: str
    cable_code: str
    colour: str
    lot_code: str
    lot_received_on: dt.date
    lot_note: str
    location: str
    outside_end: str
    received_on: dt.date
    length_mm: int
    standard_uncertainty_mm: float
    flaws: tuple[FlawNow, ...]

    @property
    def item(self) -> str:
        """Cable and colour together, as plans name it."""
        return item_of(self.cable_code, self.colour)


@dataclass(frozen=True, kw_only=True)
class ItemStock:
    """What lies in the rack of one cable in one colour."""

    cable_code: str
    colour: str
    reels: int
    length_mm: int


@dataclass(frozen=True, kw_only=True)
class LedgerLine:
    """One entry for a reader, with what was left after it."""

    entry: int
    on: dt.date
    kind: str
    change_mm: int
    left_mm: int
    piece: str
    by: str
    reason: str
    reverses: int | None
    is_reversed: bool


def item_of(cable_code: str, colour: str) -> str:
    """Return the name of a cable in a colour, as plans use it."""
    return f"{cable_code} {colour}"


def reels_now(
    *, cable_code: str | None = None, colour: str | None = None, codes: list[str] | None = None
) -> list[ReelNow]:
    """Return the reels with what is left on them, empty ones too, by code; three queries."""
    rows = Reel.objects.select_related("lot__cable").order_by("code")
    if cable_code is not None:
        rows = rows.filter(lot__cable__code=cable_code)
    if colour is not None:
        rows = rows.filter(lot__colour=colour)
    if codes is not None:
        rows = rows.filter(code__in=codes)
    found = list(rows)
    entries = entries_of(row.pk for row in found)
    flaws = flaws_of(row.pk for row in found)
    return [_reel_now(row, entries[row.pk], flaws[row.pk]) for row in found]


def reel_now(code: str) -> ReelNow:
    """Return one reel. Raises UnknownCode."""
    found = reels_now(codes=[code])
    if not found:
        raise UnknownCode(kind="reel", code=code)
    return found[0]


def stock_by_item() -> list[ItemStock]:
    """Return what lies in the rack by cable and colour, reels that hold something only."""
    lengths: dict[tuple[str, str], list[int]] = defaultdict(list)
    for reel in reels_now():
        if reel.length_mm > 0:
            lengths[reel.cable_code, reel.colour].append(reel.length_mm)
    return [
        ItemStock(cable_code=cable, colour=colour, reels=len(each), length_mm=sum(each))
        for (cable, colour), each in sorted(lengths.items())
    ]


def reel_ledger(code: str) -> list[LedgerLine]:
    """Return the entries of a reel in the order of booking. Raises UnknownCode."""
    if not Reel.objects.filter(code=code).exists():
        raise UnknownCode(kind="reel", code=code)
    rows = list(LedgerEntry.objects.filter(reel__code=code).select_related("by").order_by("id"))
    undone = {row.reverses_id for row in rows}
    left_mm = 0
    lines = []
    for row in rows:
        left_mm += row.change_mm
        lines.append(
            LedgerLine(
                entry=row.pk,
                on=row.on,
                kind=row.kind,
                change_mm=row.change_mm,
                left_mm=left_mm,
                piece=row.piece,
                by=row.by.display_name,
                reason=row.reason,
                reverses=row.reverses_id,
                is_reversed=row.pk in undone,
            )
        )
    return lines


def lots(*, cable_code: str | None = None) -> list[Lot]:
    """Return the lots, oldest first, with their cable and the measurements that stand."""
    standing = LotMeasurement.objects.filter(withdrawal__isnull=True)
    newest_last = Prefetch("measurements", standing.order_by("pk"))
    rows = (
        Lot.objects.select_related("cable")
        .prefetch_related(newest_last)
        .order_by("received_on", "code")
    )
    if cable_code is not None:
        rows = rows.filter(cable__code=cable_code)
    return list(rows)


def lot_measurements(code: str) -> list[LotMeasurement]:
    """Return every measurement of a lot with its withdrawal, if any, the newest first."""
    found = LotMeasurement.objects.filter(lot__code=code).select_related("by", "withdrawal__by")
    return list(found.order_by("-pk"))


def _reel_now(row: Reel, entries: list[ledger.Entry], flaws: list[ledger.FlawMark]) -> ReelNow:
    left = ledger.remaining(entries)
    return ReelNow(
        code=row.code,
        cable_code=row.lot.cable.code,
        colour=row.lot.colour,
        lot_code=row.lot.code,
        lot_received_on=row.lot.received_on,
        lot_note=row.lot.note,
        location=row.location,
        outside_end=row.outside_end,
        received_on=row.received_on,
        length_mm=left.length_mm,
        standard_uncertainty_mm=left.standard_uncertainty_mm,
        flaws=ledger.flaws_now(flaws, entries),
    )
