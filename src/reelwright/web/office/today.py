"""Today: what came in, what was answered, what to look at first."""

import datetime as dt
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from reelwright.core.errors import InputFaults
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.words import counted
from reelwright.shop.day.desk import benches_from
from reelwright.shop.day.pack.cut_list import cut_sentence
from reelwright.shop.day.pack.write import FILES
from reelwright.shop.day.selectors import run_summary, runs
from reelwright.shop.day.services import day_run, plan_again
from reelwright.shop.orders.answer import ACCEPTED, HELD, REFUSED
from reelwright.shop.orders.selectors import LineView, followers_of, lines_received
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.work.selectors import (
    PieceView,
    newest_bench_plan,
    newest_cut_plan,
    pieces_of_lines,
    travellers_of_lines,
)
from reelwright.web.widgets.access import page, person_of

MOST_ROWS = 200


@dataclass(frozen=True, kw_only=True)
class LineRow:
    """One line as a list shows it."""

    view: LineView
    traveller: str
    pieces: str
    followed_by: tuple[int, str] | None


@page()
@require_GET
def today_page(request: HttpRequest) -> HttpResponse:
    """Show the working day."""
    day = today(workshop())
    rows = _rows(lines_received(on=day))
    open_rows = [row for row in rows if row.followed_by is None]
    by_state = {
        state: [row for row in open_rows if row.view.state == state]
        for state in (HELD, REFUSED, ACCEPTED)
    }
    all_runs = runs(on=day)
    return render(
        request,
        "office/today.html",
        {
            "rows": rows,
            "held": by_state[HELD],
            "refused": by_state[REFUSED],
            "accepted": by_state[ACCEPTED][:MOST_ROWS],
            "accepted_more": max(0, len(by_state[ACCEPTED]) - MOST_ROWS),
            "followed": [row for row in rows if row.followed_by is not None],
            "headline": _headline(by_state, open_rows),
            "made": _made(day),
            "runs": all_runs,
            "newest": all_runs[-1] if all_runs else None,
            "files": list(FILES),
            "can_plan": newest_cut_plan(on=day) is not None,
        },
    )


def _rows(views: list[LineView]) -> list[LineRow]:
    ids = [view.id for view in views]
    travellers, pieces, followers = (
        travellers_of_lines(ids),
        pieces_of_lines(ids),
        followers_of(ids),
    )
    return [
        LineRow(
            view=view,
            traveller=travellers[view.id].number if view.id in travellers else "",
            pieces=pieces_told(pieces.get(view.id, [])),
            followed_by=followers.get(view.id),
        )
        for view in views
    ]


def pieces_told(pieces: list[PieceView]) -> str:
    """Return how far the pieces of a line are."""
    if not pieces:
        return ""
    cut = sum(1 for piece in pieces if piece.is_cut)
    if cut == len(pieces):
        return f"all {cut} cut" if cut > 1 else "cut"
    return f"{cut} of {len(pieces)} cut" if cut else f"{len(pieces)} to cut"


def _headline(by_state: dict[str, list[LineRow]], rows: list[LineRow]) -> str:
    return (
        f"{counted(len(rows), 'line')} in: {len(by_state[ACCEPTED])} accepted, "
        f"{len(by_state[HELD])} held, {len(by_state[REFUSED])} refused"
    )


def _made(day: dt.date) -> str:
    """What the plans of the day come to, in one sentence; empty where there is none."""
    cut, bench = newest_cut_plan(on=day), newest_bench_plan(on=day)
    if cut is None:
        return ""
    told = f"Cuts planned: {cut_sentence(cut.content)}."
    if bench is not None:
        minutes = round(bench.content["change_over_s"] / 60)
        late = sum(1 for times in bench.content["times"] if times["late_s"])
        told += (
            f" {minutes}{NARROW_SPACE}min of change-over at the benches; "
            f"{f'{late} late' if late else 'all in time'}."
        )
    return told


@page(Action.TAKE_ORDERS)
@require_POST
def upload(request: HttpRequest) -> HttpResponse:
    """Take in an order file."""
    file = request.FILES.get("orders")
    if file is None:
        messages.error(request, "Choose an order file first: CSV or XLSX.", extra_tags="bad")
        return redirect("today")
    name, content = str(file.name), file.read()
    here = workshop()
    try:
        result = day_run(
            by=person_of(request),
            name=name,
            content=content,
            on=today(here),
            now=benches_from(here),
        )
    except InputFaults as error:
        return render(request, "widgets/faults.html", {"faults": error.faults}, status=422)
    if not result.recorded_now:
        messages.info(request, "These orders were taken in before: nothing changed.")
    else:
        messages.success(request, f"{name}: {' '.join(run_summary(result.run_id).sentences)}")
    return redirect("today")


@page(Action.PLAN)
@require_POST
def plan(request: HttpRequest) -> HttpResponse:
    """Plan again whatever is not cut yet."""
    here = workshop()
    result = plan_again(by=person_of(request), on=today(here), now=benches_from(here))
    messages.success(request, f"Planned. {run_summary(result.run_id).cuts}.")
    return redirect("cut_list")
