"""Every write of the ledger: cut, skip, scrap, count, reverse; flaws. Receiving: ``receiving``."""

import datetime as dt
import math

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.core.quantities.show import show_metres
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reels import ledger
from reelwright.shop.reels.guards import (
    require_reason,
    require_uncertainty,
    require_whole_length,
)
from reelwright.shop.reels.measuring import lot_measure, lot_measurement_withdraw
from reelwright.shop.reels.models import EntryKind, Flaw, FlawWithdrawal, LedgerEntry, Reel
from reelwright.shop.reels.receiving import lot_receive, reel_move, reel_receive
from reelwright.shop.reels.rows import entries_of, flaws_of, locked_reel
from reelwright.shop.transactions import write_transaction

__all__ = [
    "entry_reverse",
    "flaw_record",
    "flaw_withdraw",
    "lot_measure",
    "lot_measurement_withdraw",
    "lot_receive",
    "reel_count_book",
    "reel_cut_book",
    "reel_move",
    "reel_receive",
    "reel_scrap_book",
    "reel_skip_book",
]

COVERAGE_FACTOR = 2.0
"""Standard uncertainties by which a ledger may prove too short before a booking is disbelieved."""


def reel_cut_book(
    *,
    by: Person,
    reel_code: str,
    piece: str,
    cut_mm: int,
    standard_uncertainty_mm: float,
    wheel_uncertainty_mm: float,
    on: dt.date,
) -> LedgerEntry:
    """Book that a piece was cut off the outer end of a reel.

    ``standard_uncertainty_mm`` is this cut's own; ``wheel_uncertainty_mm`` is the share that the
    wheel gets wrong the same way each time (its relative uncertainty times the cut). A piece is
    cut once: a second booking is refused, so that a scan sent twice takes nothing twice.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``length_bad``, ``uncertainty_bad``, ``piece_missing``,
            ``already_cut`` (its data say from which reel and how much), ``not_enough``,
            ``flaw_in_piece``, ``before_received``.
        UnknownCode: of the reel.
    """
    require_may(by, Action.BOOK_WORK)
    if not piece.strip() or len(piece) > 60:
        raise ShopRuleBroken("piece_missing", "Say which piece was cut, in 1 to 60 characters.")
    with write_transaction():
        reel = locked_reel(reel_code)
        earlier = LedgerEntry.objects.filter(kind=EntryKind.CUT, piece=piece).order_by("attempt")
        stands = earlier.filter(reversed_by__isnull=True).select_related("reel").first()
        if stands is not None:
            raise ShopRuleBroken(
                "already_cut",
                f"Piece {piece} was cut from reel {stands.reel.code} already, "
                f"{show_metres(-stands.change_mm)} on {stands.on:%Y-%m-%d}.",
                piece=piece,
                reel_code=stands.reel.code,
                cut_mm=-stands.change_mm,
                entry=stands.pk,
            )
        return _take(
            by=by,
            reel=reel,
            kind=EntryKind.CUT,
            taken_mm=cut_mm,
            standard_uncertainty_mm=standard_uncertainty_mm,
            wheel_uncertainty_mm=wheel_uncertainty_mm,
            on=on,
            piece=piece,
            attempt=earlier.count() + 1,
        )


def reel_skip_book(
    *,
    by: Person,
    reel_code: str,
    skipped_mm: int,
    standard_uncertainty_mm: float,
    on: dt.date,
    reason: str,
) -> LedgerEntry:
    """Book what was cut away to get past a flaw. Raises as ``reel_scrap_book``."""
    return _waste(
        by=by,
        reel_code=reel_code,
        kind=EntryKind.SKIPPED,
        wasted_mm=skipped_mm,
        standard_uncertainty_mm=standard_uncertainty_mm,
        on=on,
        reason=reason,
    )


def reel_scrap_book(
    *,
    by: Person,
    reel_code: str,
    scrapped_mm: int,
    standard_uncertainty_mm: float,
    on: dt.date,
    reason: str,
) -> LedgerEntry:
    """Book what was thrown away.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``length_bad``, ``uncertainty_bad``, ``reason_missing``,
            ``not_enough``, ``before_received``. UnknownCode: of the reel.
    """
    return _waste(
        by=by,
        reel_code=reel_code,
        kind=EntryKind.SCRAPPED,
        wasted_mm=scrapped_mm,
        standard_uncertainty_mm=standard_uncertainty_mm,
        on=on,
        reason=reason,
    )


def reel_count_book(
    *,
    by: Person,
    reel_code: str,
    counted_mm: int,
    standard_uncertainty_mm: float,
    on: dt.date,
    reason: str,
) -> LedgerEntry:
    """Set the ledger to what was found on the reel; ``reason`` says how it was counted.

    From here on the uncertainty is the count's; flaws keep their distance from the outer end.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``length_bad``, ``uncertainty_bad``, ``reason_missing``,
            ``before_received``. UnknownCode: of the reel.
    """
    require_may(by, Action.COUNT)
    require_whole_length(counted_mm, what="The length counted", least_mm=0)
    require_uncertainty(standard_uncertainty_mm=standard_uncertainty_mm)
    require_reason(reason)
    with write_transaction():
        reel = locked_reel(reel_code)
        _require_not_before(reel, on)
        known = ledger.remaining(entries_of([reel.pk])[reel.pk])
        return LedgerEntry.objects.create(
            reel=reel,
            kind=EntryKind.COUNTED,
            change_mm=counted_mm - known.length_mm,
            standard_uncertainty_mm=standard_uncertainty_mm,
            wheel_uncertainty_mm=0.0,
            by=by,
            on=on,
            reason=reason,
        )


def entry_reverse(*, by: Person, entry: int, on: dt.date, reason: str) -> LedgerEntry:
    """Take back an entry by a second one that says why; ``entry`` is its number.

    Who books work may take back a cut of their own on the day it was booked; anything else takes
    somebody who may correct.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``reason_missing``, ``already_reversed``,
            ``is_reversal``, ``counted_since``, ``not_enough``, ``before_received``.
        UnknownCode: no entry of that number.
    """
    with write_transaction():
        found = LedgerEntry.objects.filter(pk=entry).select_related("reel").first()
        own = found is not None and (found.kind, found.by_id, found.on) == (
            EntryKind.CUT,
            by.pk,
            on,
        )
        require_may(by, Action.BOOK_WORK if own else Action.CORRECT)
        require_reason(reason)
        if found is None:
            raise UnknownCode(kind="ledger entry", code=str(entry))
        reel = locked_reel(found.reel.code)
        _require_not_before(reel, on)
        entries = entries_of([reel.pk])[reel.pk]
        if found.reverses_id is not None:
            raise ShopRuleBroken(
                "is_reversal", "A reversal is not reversed: book what is right instead."
            )
        if any(other.reverses == entry for other in entries):
            raise ShopRuleBroken("already_reversed", "This entry was reversed already.")
        stands = ledger.standing(entries)
        if any(one.kind == EntryKind.COUNTED and one.number > entry for one in stands):
            raise ShopRuleBroken(
                "counted_since",
                f"Reel {reel.code} was counted after this entry, and the count holds what it did. "
                "Reverse the count first, or count again.",
                reel_code=reel.code,
            )
        _require_enough(entries, reel, taken_mm=found.change_mm, own_mm=0.0)
        return LedgerEntry.objects.create(
            reel=reel,
            kind=EntryKind.REVERSAL,
            change_mm=-found.change_mm,
            standard_uncertainty_mm=0.0,
            wheel_uncertainty_mm=0.0,
            by=by,
            on=on,
            reason=reason,
            reverses=found,
        )


def flaw_record(
    *, by: Person, reel_code: str, from_outer_mm: int, length_mm: int, note: str, on: dt.date
) -> Flaw:
    """Record a flaw that begins ``from_outer_mm`` behind the outer end.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``length_bad``, ``reason_missing`` (no note),
            ``flaw_off_the_reel``, ``before_received``. UnknownCode: of the reel.
    """
    require_may(by, Action.BOOK_WORK)
    require_whole_length(from_outer_mm, what="The flaw's distance from the end", least_mm=0)
    require_whole_length(length_mm, what="The flaw's length")
    require_reason(note)
    with write_transaction():
        reel = locked_reel(reel_code)
        _require_not_before(reel, on)
        entries = entries_of([reel.pk])[reel.pk]
        left = ledger.remaining(entries)
        inner_mm = left.length_mm - from_outer_mm - length_mm
        if inner_mm < 0:
            raise ShopRuleBroken(
                "flaw_off_the_reel",
                f"Reel {reel.code} holds {show_metres(left.length_mm)}; a flaw from "
                f"{show_metres(from_outer_mm)} to {show_metres(from_outer_mm + length_mm)} is not "
                "on it. If it is there, count the reel first.",
                reel_code=reel.code,
                length_mm=left.length_mm,
            )
        return Flaw.objects.create(
            reel=reel,
            after_id=entries[-1].number,
            start_from_inner_mm=inner_mm,
            length_mm=length_mm,
            note=note,
            by=by,
            on=on,
        )


def flaw_withdraw(*, by: Person, flaw: int, on: dt.date, reason: str) -> FlawWithdrawal:
    """Take back a flaw that is none; ``flaw`` is its number.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``reason_missing``, ``already_withdrawn``.
        UnknownCode: no flaw of that number.
    """
    require_may(by, Action.CORRECT)
    require_reason(reason)
    with write_transaction():
        found = Flaw.objects.filter(pk=flaw).select_related("reel").first()
        if found is None:
            raise UnknownCode(kind="flaw", code=str(flaw))
        locked_reel(found.reel.code)
        if FlawWithdrawal.objects.filter(flaw=found).exists():
            raise ShopRuleBroken("already_withdrawn", "This flaw was withdrawn already.")
        return FlawWithdrawal.objects.create(flaw=found, by=by, on=on, reason=reason)


def _waste(
    *,
    by: Person,
    reel_code: str,
    kind: EntryKind,
    wasted_mm: int,
    standard_uncertainty_mm: float,
    on: dt.date,
    reason: str,
) -> LedgerEntry:
    require_may(by, Action.BOOK_WORK)
    require_reason(reason)
    with write_transaction():
        return _take(
            by=by,
            reel=locked_reel(reel_code),
            kind=kind,
            taken_mm=wasted_mm,
            standard_uncertainty_mm=standard_uncertainty_mm,
            wheel_uncertainty_mm=0.0,
            on=on,
            reason=reason,
        )


def _take(
    *,
    by: Person,
    reel: Reel,
    kind: EntryKind,
    taken_mm: int,
    standard_uncertainty_mm: float,
    wheel_uncertainty_mm: float,
    on: dt.date,
    piece: str = "",
    attempt: int = 1,
    reason: str = "",
) -> LedgerEntry:
    """Book that cable came off the outer end; the reel must be locked."""
    require_whole_length(taken_mm, what="The length taken")
    require_uncertainty(
        standard_uncertainty_mm=standard_uncertainty_mm, wheel_uncertainty_mm=wheel_uncertainty_mm
    )
    _require_not_before(reel, on)
    entries = entries_of([reel.pk])[reel.pk]
    own_mm = math.hypot(standard_uncertainty_mm, wheel_uncertainty_mm)
    _require_enough(entries, reel, taken_mm=taken_mm, own_mm=own_mm)
    if kind == EntryKind.CUT:
        for flaw in ledger.flaws_now(flaws_of([reel.pk])[reel.pk], entries):
            if flaw.start_mm < taken_mm:
                raise ShopRuleBroken(
                    "flaw_in_piece",
                    f"A piece of {show_metres(taken_mm)} would hold the flaw ({flaw.note}) that "
                    f"begins {show_metres(flaw.start_mm)} behind the end of reel {reel.code}. "
                    "Cut the flaw away and book that first.",
                    reel_code=reel.code,
                    flaw_start_mm=flaw.start_mm,
                )
    return LedgerEntry.objects.create(
        reel=reel,
        kind=kind,
        change_mm=-taken_mm,
        standard_uncertainty_mm=standard_uncertainty_mm,
        wheel_uncertainty_mm=wheel_uncertainty_mm,
        piece=piece,
        attempt=attempt,
        by=by,
        on=on,
        reason=reason,
    )


def _require_enough(
    entries: list[ledger.Entry], reel: Reel, *, taken_mm: int, own_mm: float
) -> None:
    """Raise ``not_enough`` where the reel cannot have held this much, its uncertainty granted."""
    left = ledger.remaining(entries)
    margin_mm = COVERAGE_FACTOR * math.hypot(left.standard_uncertainty_mm, own_mm)
    if taken_mm > left.length_mm + margin_mm:
        raise ShopRuleBroken(
            "not_enough",
            f"Reel {reel.code} holds {show_metres(left.length_mm)} by its ledger, at most "
            f"{show_metres(left.length_mm + margin_mm)}; {show_metres(taken_mm)} cannot come off "
            "it. If it did, count the reel first.",
            reel_code=reel.code,
            length_mm=left.length_mm,
            taken_mm=taken_mm,
        )


def _require_not_before(reel: Reel, on: dt.date) -> None:
    if on < reel.received_on:
        raise ShopRuleBroken(
            "before_received",
            f"Reel {reel.code} came in on {reel.received_on:%Y-%m-%d}, after {on:%Y-%m-%d}.",
            reel_code=reel.code,
        )
