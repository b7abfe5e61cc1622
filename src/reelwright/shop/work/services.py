"""Every write of pieces, plans, travellers and cuts."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Max

from reelwright.core.errors import ShopRuleBroken
from reelwright.core.parts.serial import serial_number
from reelwright.shop.catalogue.models import CableType
from reelwright.shop.orders.models import OrderLine
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reels.models import Reel
from reelwright.shop.setups.models import Revision
from reelwright.shop.work.models import BenchPlan, CutPlan, Piece, PlannedCut, Traveller


@dataclass(frozen=True, kw_only=True)
class PieceWish:
    """One piece to be made for a line. ``lot_group``: empty where lots do not matter."""

    line_id: int
    number: int
    code: str
    cable_code: str
    colour: str
    lot_group: str
    spare: bool
    finished_mm: int
    cut_length_mm: int
    wheel_setting_mm: int
    cut_uncertainty_mm: float


@dataclass(frozen=True, kw_only=True)
class CutWish:
    """One planned cut: ``sequence`` along the reel from 1, ``start_mm`` from its free end."""

    piece_code: str
    reel_code: str
    sequence: int
    start_mm: int


def pieces_start(*, by: Person, wishes: Iterable[PieceWish], on: dt.date) -> list[Piece]:
    """Enter pieces, each with a serial of its own, counted on within the working day.

    Raises ShopRuleBroken ``not_allowed``. A write transaction must be open.
    """
    require_may(by, Action.PLAN)
    cables = {row.code: row for row in CableType.objects.all()}
    started_today = Piece.objects.filter(serial__startswith=f"{on:%y%m%d}-").count()
    wanted = list(wishes)
    codes = _free_codes(wanted)
    pieces = [
        Piece(
            line_id=wish.line_id,
            number=wish.number,
            code=codes[wish.line_id, wish.number],
            serial=serial_number(day=on, number=started_today + count),
            cable=cables[wish.cable_code],
            colour=wish.colour,
            lot_group=wish.lot_group,
            spare=wish.spare,
            finished_mm=wish.finished_mm,
            cut_length_mm=wish.cut_length_mm,
            wheel_setting_mm=wish.wheel_setting_mm,
            cut_uncertainty_mm=wish.cut_uncertainty_mm,
            state=Piece.State.WAITING,
        )
        for count, wish in enumerate(wanted, start=1)
    ]
    return Piece.objects.bulk_create(pieces)


def _free_codes(wishes: Iterable[PieceWish]) -> dict[tuple[int, int], str]:
    """Return the codes by line and number.

    Two customers may number their orders alike; all pieces of the second one's line then carry the
    customer, or the line where even that is taken.
    """
    by_line: dict[int, list[PieceWish]] = {}
    for wish in wishes:
        by_line.setdefault(wish.line_id, []).append(wish)
    lines = OrderLine.objects.select_related("order__customer").in_bulk(list(by_line))
    given: set[str] = set()
    codes: dict[tuple[int, int], str] = {}
    for line_id, members in by_line.items():
        customer = lines[line_id].order.customer.number
        for front in ("", f"C{customer}-", f"L{line_id}-"):
            names = [f"{front}{wish.code}" for wish in members]
            if given.isdisjoint(names) and not Piece.objects.filter(code__in=names).exists():
                break
        given.update(names)
        codes.update(
            ((line_id, wish.number), name) for wish, name in zip(members, names, strict=True)
        )
    return codes


def cut_plan_record(
    *, by: Person, on: dt.date, content: Mapping[str, Any], cuts: Iterable[CutWish]
) -> CutPlan:
    """Record a plan for a day. Every planned cut not made yet of earlier plans is replaced by it.

    Raises ShopRuleBroken ``not_allowed``, ``piece_moved_on`` where a piece was cut meanwhile. A
    write transaction must be open.
    """
    require_may(by, Action.PLAN)
    last = CutPlan.objects.filter(planned_for=on).aggregate(last=Max("number"))["last"] or 0
    plan = CutPlan.objects.create(planned_for=on, number=last + 1, content=dict(content))
    replaced = PlannedCut.objects.filter(state=PlannedCut.State.PLANNED)
    Piece.objects.filter(pk__in=replaced.values("piece"), state=Piece.State.PLANNED).update(
        state=Piece.State.WAITING
    )
    replaced.update(state=PlannedCut.State.REPLACED)
    wishes = list(cuts)
    pieces = {
        row.code: row for row in Piece.objects.filter(code__in=[w.piece_code for w in wishes])
    }
    reels = {row.code: row for row in Reel.objects.filter(code__in=[w.reel_code for w in wishes])}
    PlannedCut.objects.bulk_create(
        PlannedCut(
            plan=plan,
            reel=reels[wish.reel_code],
            piece=pieces[wish.piece_code],
            sequence=wish.sequence,
            start_mm=wish.start_mm,
            state=PlannedCut.State.PLANNED,
        )
        for wish in wishes
    )
    moved = Piece.objects.filter(
        pk__in=[piece.pk for piece in pieces.values()], state=Piece.State.WAITING
    ).update(state=Piece.State.PLANNED)
    if moved != len(wishes):
        raise ShopRuleBroken(
            "piece_moved_on", "A piece was cut while the plan was made; plan again."
        )
    return plan


def traveller_issue(
    *, by: Person, line_id: int, revision_a: int, revision_b: int, on: dt.date
) -> Traveller:
    """Issue the sheet of a line, once; the set-up revisions stand on it as they are released now.

    Raises ShopRuleBroken ``not_allowed``. A write transaction must be open.
    """
    require_may(by, Action.PLAN)
    found = Traveller.objects.filter(line_id=line_id).first()
    if found is not None:
        return found
    issued = Traveller.objects.filter(issued_on=on).count()
    return Traveller.objects.create(
        number=f"T{on:%y%m%d}-{issued + 1:02d}",
        line_id=line_id,
        end_a=Revision.objects.get(pk=revision_a),
        end_b=Revision.objects.get(pk=revision_b),
        issued_on=on,
    )


def bench_plan_record(*, by: Person, on: dt.date, content: Mapping[str, Any]) -> BenchPlan:
    """Record a bench plan for a day. Raises ShopRuleBroken ``not_allowed``."""
    require_may(by, Action.PLAN)
    last = BenchPlan.objects.filter(planned_for=on).aggregate(last=Max("number"))["last"] or 0
    return BenchPlan.objects.create(planned_for=on, number=last + 1, content=dict(content))
