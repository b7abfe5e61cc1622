"""Writes when cable comes in: a lot, its reels, where they stand."""

import datetime as dt

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.shop.catalogue.models import CableType
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reels.guards import require_code, require_uncertainty, require_whole_length
from reelwright.shop.reels.models import EntryKind, LedgerEntry, Lot, Reel, ReelEnd
from reelwright.shop.reels.rows import locked_reel
from reelwright.shop.transactions import write_transaction


def lot_receive(
    *,
    by: Person,
    code: str,
    cable_code: str,
    colour: str,
    received_on: dt.date,
    delay_s_per_m: float | None,
    delay_relative_uncertainty: float | None,
    note: str = "",
) -> Lot:
    """Enter a production run as received, with what was measured of it.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``code_bad``, ``lot_exists``, ``delay_bad``.
        UnknownCode: of the cable or the colour.
    """
    require_may(by, Action.RECEIVE)
    require_code(code, what="lot")
    if colour not in COLOUR_NAMES:
        raise UnknownCode(kind="colour", code=colour, near=COLOUR_NAMES)
    measured = (delay_s_per_m, delay_relative_uncertainty)
    if measured != (None, None) and not all(value is not None and value > 0 for value in measured):
        raise ShopRuleBroken(
            "delay_bad",
            "A measured delay is given with its relative uncertainty, both above zero, or not at "
            "all.",
        )
    with write_transaction():
        cable = CableType.objects.filter(code=cable_code).first()
        if cable is None:
            raise UnknownCode(kind="cable", code=cable_code)
        if Lot.objects.filter(code=code).exists():
            raise ShopRuleBroken("lot_exists", f"There is a lot {code} already.", lot_code=code)
        return Lot.objects.create(
            code=code,
            cable=cable,
            colour=colour,
            received_on=received_on,
            delay_s_per_m=delay_s_per_m,
            delay_relative_uncertainty=delay_relative_uncertainty,
            note=note,
        )


def reel_receive(
    *,
    by: Person,
    code: str,
    lot_code: str,
    length_mm: int,
    standard_uncertainty_mm: float,
    on: dt.date,
    location: str = "",
    outside_end: ReelEnd | str = ReelEnd.A,
) -> Reel:
    """Enter a reel of a lot with the length it came with, and open its ledger.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``code_bad``, ``length_bad``, ``uncertainty_bad``,
            ``end_bad``, ``reel_exists``.
        UnknownCode: of the lot.
    """
    require_may(by, Action.RECEIVE)
    require_code(code, what="reel")
    require_whole_length(length_mm, what="The length received")
    require_uncertainty(standard_uncertainty_mm=standard_uncertainty_mm)
    if outside_end not in ReelEnd.values:
        raise ShopRuleBroken("end_bad", f"{outside_end!r} is not an end. Accepted: A, B.")
    with write_transaction():
        lot = Lot.objects.filter(code=lot_code).first()
        if lot is None:
            raise UnknownCode(kind="lot", code=lot_code)
        if Reel.objects.filter(code=code).exists():
            raise ShopRuleBroken("reel_exists", f"There is a reel {code} already.", reel_code=code)
        reel = Reel.objects.create(
            code=code, lot=lot, location=location, outside_end=outside_end, received_on=on
        )
        LedgerEntry.objects.create(
            reel=reel,
            kind=EntryKind.RECEIVED,
            change_mm=length_mm,
            standard_uncertainty_mm=standard_uncertainty_mm,
            wheel_uncertainty_mm=0.0,
            by=by,
            on=on,
        )
    return reel


def reel_move(*, by: Person, reel_code: str, location: str) -> Reel:
    """Note where a reel stands now.

    Raises:
        ShopRuleBroken: ``not_allowed``. UnknownCode: of the reel.
    """
    require_may(by, Action.BOOK_WORK)
    with write_transaction():
        reel = locked_reel(reel_code)
        reel.location = location
        reel.save(update_fields=["location"])
    return reel
