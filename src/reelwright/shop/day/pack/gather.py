"""What a pack is made of, read once."""

import datetime as dt
import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from reelwright.core.bench.problem import Station
from reelwright.core.errors import UnknownCode
from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.connector import Connector
from reelwright.documents.sheet import SheetMark
from reelwright.shop.catalogue import selectors as catalogue
from reelwright.shop.day.models import DayRun
from reelwright.shop.orders.selectors import LineView, lines_by_id
from reelwright.shop.people.selectors import workshop
from reelwright.shop.reels.to_core import lot_values
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.work.selectors import (
    PieceView,
    PlanView,
    TravellerView,
    bench_plan,
    cut_plan,
    pieces_of_lines,
    pieces_of_plan,
    travellers_of_lines,
)


@dataclass(frozen=True, kw_only=True)
class PackData:
    """One run with all that its papers need.

    ``lines`` are the run's own; ``planned``: those of every piece of its cut plan, with the number
    of their pieces, earlier runs' that still wait included. ``sheets``: set-ups by revision.
    """

    workshop_name: str
    currency: str
    on: dt.date
    run_number: int
    file_name: str
    lines: tuple[LineView, ...]
    planned: tuple[tuple[LineView, int], ...]
    pieces: Mapping[int, list[PieceView]]
    travellers: Mapping[int, TravellerView]
    sheets: Mapping[int, SetUpSheet]
    cut_plan: PlanView | None
    bench_plan: PlanView | None
    cables: Mapping[str, Cable]
    connectors: Mapping[str, Connector]
    lots: Mapping[str, Lot]

    def mark(self, code: str) -> SheetMark:
        """Return what stands on every sheet of one paper."""
        return SheetMark(
            workshop=self.workshop_name,
            code=f"{code} {self.on:%y%m%d}-{self.run_number}",
            date=f"{self.on:%a} {self.on.day} {self.on:%b %Y}",
            revision=str(self.run_number),
        )

    def with_state(self, state: str) -> list[LineView]:
        """Return the lines that were last answered so."""
        return [view for view in self.lines if view.state == state]

    @property
    def cut_reels(self) -> list[Mapping[str, Any]]:
        """The reels of the cut plan as recorded, in the order in which the benches need them."""
        if self.cut_plan is None:
            return []
        needed = self._cut_starts()
        return sorted(
            self.cut_plan.content["reels"],
            key=lambda reel: min(
                (needed.get(part["piece"], math.inf) for part in reel["segments"] if part["piece"]),
                default=math.inf,
            ),
        )

    def _cut_starts(self) -> dict[str, float]:
        """When the bench plan begins to cut the batch of a piece, in seconds, by its code."""
        if self.bench_plan is None:
            return {}
        content = self.bench_plan.content
        starts = {
            row["batch_id"]: row["start_s"]
            for row in content["rows"]
            if row["station"] == Station.CUT
        }
        return {
            piece: starts[batch["id"]]
            for batch in content["batches"]
            if batch["id"] in starts
            for piece in batch["pieces"]
        }


def gather(run_id: int) -> PackData:
    """Return everything of a run. Raises UnknownCode."""
    run = DayRun.objects.filter(pk=run_id).first()
    if run is None:
        raise UnknownCode(kind="run of the day", code=str(run_id))
    lines = lines_by_id(run.lines.values_list("pk", flat=True))
    cut = None if run.cut_plan_id is None else cut_plan(run.cut_plan_id)
    bench = None if run.bench_plan_id is None else bench_plan(run.bench_plan_id)
    house = workshop()
    travellers = travellers_of_lines(view.id for view in lines)
    revisions = {
        revision
        for sheet in travellers.values()
        for revision in (sheet.revision_a, sheet.revision_b)
    }
    return PackData(
        workshop_name=house.name,
        currency=house.currency,
        on=run.on,
        run_number=run.number,
        file_name=run.file_name,
        lines=tuple(lines),
        planned=() if cut is None else _planned(cut.id),
        pieces=pieces_of_lines(view.id for view in lines),
        travellers=travellers,
        sheets={revision: revision_sheet(revision) for revision in sorted(revisions)},
        cut_plan=cut,
        bench_plan=bench,
        cables=catalogue.cables(),
        connectors=catalogue.connectors(),
        lots=lot_values(),
    )


def _planned(plan_id: int) -> tuple[tuple[LineView, int], ...]:
    pieces = Counter(piece.line_id for piece in pieces_of_plan(plan_id))
    return tuple((view, pieces[view.id]) for view in lines_by_id(pieces))
