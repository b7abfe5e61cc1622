"""Booking a cut when it is made, and taking it back."""

import datetime as dt

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.catalogue.models import CableType
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reels.models import LedgerEntry, Reel
from reelwright.shop.reels.receiving import reel_receive
from reelwright.shop.reels.selectors import ReelNow, reel_now
from reelwright.shop.reels.services import entry_reverse, reel_cut_book, reel_skip_book
from reelwright.shop.tools.to_core import wheel_on
from reelwright.shop.transactions import write_transaction
from reelwright.shop.work.models import CutPlan, Piece, PlannedCut


def cut_confirm(*, by: Person, code: str, reel_code: str, on: dt.date) -> PlannedCut:
    """Book that a planned piece was cut. ``code`` is the piece's code or serial as scanned.

    Where a flaw lies in front of the piece, what is cut away to get past it is booked as well.

    Raises:
        ShopRuleBroken: ``not_allowed``; ``already_cut``; ``not_planned`` where no plan holds the
            piece now; ``wrong_reel`` where it is planned off another; ``not_its_turn`` where
            another piece comes off this reel first; and those of booking a cut in the ledger.
        UnknownCode: no piece of that code or serial.
    """
    require_may(by, Action.BOOK_WORK)
    with write_transaction():
        piece = _piece(code)
        cut = _planned(piece)
        wheel = wheel_on(on)
        if cut.reel.code != reel_code:
            raise ShopRuleBroken(
                "wrong_reel",
                f"{piece.code} comes off reel {cut.reel.code}, not {reel_code}.",
                planned=cut.reel.code,
            )
        first = (
            PlannedCut.objects.filter(plan=cut.plan, reel=cut.reel, state=PlannedCut.State.PLANNED)
            .select_related("piece")
            .order_by("sequence")
            .first()
        )
        assert first is not None  # the cut itself is one of them
        if first.pk != cut.pk:
            raise ShopRuleBroken(
                "not_its_turn",
                f"{first.piece.code} comes off reel {reel_code} first, then {piece.code}.",
                first=first.piece.code,
            )
        _skip_flaws(by=by, reel_code=reel_code, cut=cut, piece=piece, on=on)
        reel_cut_book(
            by=by,
            reel_code=reel_code,
            piece=piece.code,
            cut_mm=piece.cut_length_mm,
            standard_uncertainty_mm=wheel.fixed_uncertainty_mm,
            # The wheel errs the same way at every cut, so its share is booked apart.
            wheel_uncertainty_mm=wheel.relative_uncertainty * piece.cut_length_mm,
            on=on,
        )
        _move(cut, PlannedCut.State.PLANNED, PlannedCut.State.CUT)
        _move_piece(piece, Piece.State.PLANNED, Piece.State.CUT)
    cut.state = PlannedCut.State.CUT
    return cut


def _piece(code: str) -> Piece:
    wanted = code.strip()
    found = (
        Piece.objects.filter(code__iexact=wanted).first()
        or Piece.objects.filter(serial=wanted).first()
    )
    if found is None:
        raise UnknownCode(kind="piece", code=wanted)
    return found


def _planned(piece: Piece) -> PlannedCut:
    if piece.state == Piece.State.CUT:
        raise ShopRuleBroken("already_cut", f"{piece.code} was cut and booked already.")
    cut = (
        PlannedCut.objects.filter(piece=piece, state=PlannedCut.State.PLANNED)
        .select_related("reel", "plan")
        .first()
    )
    if cut is None:
        raise ShopRuleBroken("not_planned", f"No plan holds {piece.code} now: plan the cuts first.")
    return cut


def _skip_flaws(*, by: Person, reel_code: str, cut: PlannedCut, piece: Piece, on: dt.date) -> None:
    """A piece never reaches into a flaw: the flaw, and what lies in front of it, comes off first.

    So does a flaw that the plan passes by although the piece would just fit in front of it: the
    length in front was not certain enough, and the bench cuts where the plan says.

    What lies in front is kept as a reel of its own where it is long enough to be of use.
    """
    while True:
        reel = reel_now(reel_code)
        flaw = min(reel.flaws, key=lambda each: each.start_mm, default=None)
        planned_mm = _still_in_front(cut, reel)
        if flaw is None or flaw.start_mm >= max(piece.cut_length_mm, planned_mm):
            return
        reel_skip_book(
            by=by,
            reel_code=reel_code,
            skipped_mm=flaw.end_mm,
            standard_uncertainty_mm=piece.cut_uncertainty_mm,
            on=on,
            reason=f"cut away to get past the flaw, in front of {piece.code}",
        )
        smallest = CableType.objects.get(code=reel.cable_code).smallest_remnant_mm
        if flaw.start_mm >= smallest:
            reel_receive(
                by=by,
                code=_loose_code(reel_code),
                lot_code=reel.lot_code,
                length_mm=flaw.start_mm,
                standard_uncertainty_mm=reel.standard_uncertainty_mm,
                on=on,
                location=reel.location,
            )


def _still_in_front(cut: PlannedCut, reel: ReelNow) -> int:
    """How far in from the free end, as it is now, the plan lets the piece begin."""
    then_mm = next(
        (each["length_mm"] for each in cut.plan.content["reels"] if each["reel"] == reel.code),
        reel.length_mm,
    )
    return int(cut.start_mm - (then_mm - reel.length_mm))


def _loose_code(reel_code: str) -> str:
    """Loose remnants count on behind the reel they came from: R-113-1, R-113-2."""
    taken = Reel.objects.filter(code__startswith=f"{reel_code}-").count()
    return f"{reel_code}-{taken + 1}"


def cut_take_back(*, by: Person, code: str, on: dt.date, reason: str) -> PlannedCut:
    """Take back a booked cut by a reversing entry that says why.

    The piece is planned again where its plan is still the newest; else it waits for the next one,
    for the plans made since know nothing of it. A bench may take back its own cuts of the day.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``not_cut``, ``reason_missing``, and those of reversing an
            entry. UnknownCode: no piece of that code or serial.
    """
    require_may(by, Action.BOOK_WORK)
    with write_transaction():
        piece = _piece(code)
        cut = (
            PlannedCut.objects.filter(piece=piece, state=PlannedCut.State.CUT)
            .select_related("reel", "plan")
            .first()
        )
        if cut is None:
            raise ShopRuleBroken("not_cut", f"{piece.code} is not booked as cut.")
        entry = LedgerEntry.objects.filter(piece=piece.code).order_by("-pk").first()
        assert entry is not None  # a cut is never booked without its entry
        entry_reverse(by=by, entry=entry.pk, on=on, reason=reason)
        if CutPlan.objects.filter(pk__gt=cut.plan_id).exists():
            cut.state, state = PlannedCut.State.REPLACED, Piece.State.WAITING
        else:
            cut.state, state = PlannedCut.State.PLANNED, Piece.State.PLANNED
        _move(cut, PlannedCut.State.CUT, cut.state)
        _move_piece(piece, Piece.State.CUT, state)
    return cut


def _move(cut: PlannedCut, old: str, new: str) -> None:
    if PlannedCut.objects.filter(pk=cut.pk, state=old).update(state=new) != 1:
        raise ShopRuleBroken("moved_meanwhile", "Somebody booked this cut at the same moment.")


def _move_piece(piece: Piece, old: str, new: str) -> None:
    if Piece.objects.filter(pk=piece.pk, state=old).update(state=new) != 1:
        raise ShopRuleBroken("moved_meanwhile", f"{piece.code} was moved on meanwhile.")
