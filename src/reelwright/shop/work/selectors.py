"""Every read of pieces, plans and travellers. Values come out, never rows."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet

from reelwright.core.errors import UnknownCode
from reelwright.shop.work.models import BenchPlan, CutPlan, Piece, PlannedCut, Traveller


@dataclass(frozen=True, kw_only=True)
class PieceView:
    """One piece as it stands. ``reel``, ``lot``, ``sequence``: where it is planned or was cut."""

    code: str
    serial: str
    line_id: int
    number: int
    cable: str
    colour: str
    lot_group: str
    spare: bool
    finished_mm: int
    cut_length_mm: int
    wheel_setting_mm: int
    cut_uncertainty_mm: float
    state: str
    reel: str | None
    lot: str | None
    sequence: int | None

    @property
    def is_cut(self) -> bool:
        """True once its cut is booked."""
        return self.state == Piece.State.CUT


@dataclass(frozen=True, kw_only=True)
class TravellerView:
    """One traveller: its line and the set-up revisions that stand on it."""

    number: str
    line_id: int
    revision_a: int
    revision_b: int
    issued_on: dt.date


@dataclass(frozen=True, kw_only=True)
class PlanView:
    """One recorded plan with all it says."""

    id: int
    planned_for: dt.date
    number: int
    content: Mapping[str, Any]


def _views(rows: QuerySet[Piece]) -> list[PieceView]:
    found = list(rows.select_related("cable").order_by("line", "number"))
    cuts = {
        cut.piece_id: cut
        for cut in PlannedCut.objects.filter(
            piece__in=[row.pk for row in found],
            state__in=(PlannedCut.State.PLANNED, PlannedCut.State.CUT),
        ).select_related("reel__lot")
    }
    views = []
    for row in found:
        cut = cuts.get(row.pk)
        views.append(
            PieceView(
                code=row.code,
                serial=row.serial,
                line_id=row.line_id,
                number=row.number,
                cable=row.cable.code,
                colour=row.colour,
                lot_group=row.lot_group,
                spare=row.spare,
                finished_mm=row.finished_mm,
                cut_length_mm=row.cut_length_mm,
                wheel_setting_mm=row.wheel_setting_mm,
                cut_uncertainty_mm=row.cut_uncertainty_mm,
                state=row.state,
                reel=None if cut is None else cut.reel.code,
                lot=None if cut is None else cut.reel.lot.code,
                sequence=None if cut is None else cut.sequence,
            )
        )
    return views


def pieces_not_cut() -> list[PieceView]:
    """Return every piece that still has to come off a reel."""
    return _views(Piece.objects.filter(state__in=(Piece.State.WAITING, Piece.State.PLANNED)))


def pieces_cut(*, on: dt.date) -> list[PieceView]:
    """Return the pieces of a day's plans that are cut already."""
    return _views(
        Piece.objects.filter(
            state=Piece.State.CUT,
            planned_cuts__state=PlannedCut.State.CUT,
            planned_cuts__plan__planned_for=on,
        )
    )


def pieces_of_lines(line_ids: Iterable[int]) -> dict[int, list[PieceView]]:
    """Return the pieces of each line, withdrawn ones left out."""
    found: dict[int, list[PieceView]] = {}
    rows = Piece.objects.filter(line__in=list(line_ids)).exclude(state=Piece.State.WITHDRAWN)
    for view in _views(rows):
        found.setdefault(view.line_id, []).append(view)
    return found


def pieces_of_plan(plan_id: int) -> list[PieceView]:
    """Return the pieces of a cut plan."""
    return _views(Piece.objects.filter(planned_cuts__plan=plan_id))


def piece(code: str) -> PieceView:
    """Return one piece by its code or serial. Raises UnknownCode."""
    wanted = code.strip()
    found = _views(Piece.objects.filter(code__iexact=wanted)) or _views(
        Piece.objects.filter(serial=wanted)
    )
    if not found:
        raise UnknownCode(kind="piece", code=wanted)
    return found[0]


def travellers_of_lines(line_ids: Iterable[int]) -> dict[int, TravellerView]:
    """Return the traveller of each line that has one."""
    rows = Traveller.objects.filter(line__in=list(line_ids))
    return {row.line_id: _traveller(row) for row in rows}


def traveller(number: str) -> TravellerView:
    """Return one traveller. Raises UnknownCode."""
    row = Traveller.objects.filter(number__iexact=number.strip()).first()
    if row is None:
        raise UnknownCode(kind="traveller", code=number)
    return _traveller(row)


def _traveller(row: Traveller) -> TravellerView:
    return TravellerView(
        number=row.number,
        line_id=row.line_id,
        revision_a=row.end_a_id,
        revision_b=row.end_b_id,
        issued_on=row.issued_on,
    )


def cut_plan(plan_id: int) -> PlanView:
    """Return one cut plan. Raises UnknownCode."""
    row = CutPlan.objects.filter(pk=plan_id).first()
    if row is None:
        raise UnknownCode(kind="cut plan", code=str(plan_id))
    return _plan(row)


def bench_plan(plan_id: int) -> PlanView:
    """Return one bench plan. Raises UnknownCode."""
    row = BenchPlan.objects.filter(pk=plan_id).first()
    if row is None:
        raise UnknownCode(kind="bench plan", code=str(plan_id))
    return _plan(row)


def newest_cut_plan(*, on: dt.date) -> PlanView | None:
    """Return the plan in force on a day, or None where none was made."""
    row = CutPlan.objects.filter(planned_for=on).order_by("-number").first()
    return None if row is None else _plan(row)


def newest_bench_plan(*, on: dt.date) -> PlanView | None:
    """Return the bench plan in force on a day, or None where none was made."""
    row = BenchPlan.objects.filter(planned_for=on).order_by("-number").first()
    return None if row is None else _plan(row)


def _plan(row: CutPlan | BenchPlan) -> PlanView:
    return PlanView(id=row.pk, planned_for=row.planned_for, number=row.number, content=row.content)
