"""How the signal arrives: pictures under an answer, fetched when the answer already stands."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.http import urlencode
from django.views.decorators.http import require_GET

from reelwright.charts.eye import EyeChart, draw_eye
from reelwright.charts.loss import LossChart, draw_loss, residual_label
from reelwright.charts.reflection import ReflectionChart, draw_reflection
from reelwright.core.errors import InputFaults
from reelwright.core.quantities.show import show_db, show_in, show_length_m, show_number
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.shop.day.arrives import Arrives, arrives
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.web.office.ask import run_cells
from reelwright.web.widgets.access import page


@page(Action.ASK)
@require_GET
def arrives_page(request: HttpRequest) -> HttpResponse:
    """Show the pictures of a run: a part of the answer's page, or a page of its own without it."""
    cells = run_cells(request.GET)
    try:
        found = arrives(cells=cells, on=today(workshop())) if any(cells.values()) else None
    except InputFaults:
        # The answer beside it tells what cannot be read, each at its field.
        found = None
    part = bool(getattr(request, "htmx", False))
    return render(
        request,
        "office/arrives_part.html" if part else "office/arrives.html",
        {"back": urlencode(cells), **({} if found is None else _shown(found))},
    )


def _shown(found: Arrives) -> dict[str, Any]:
    eyes = tuple((curve.title, draw_eye(curve)) for curve in found.eyes)
    trace = None if found.reflection is None else draw_reflection(found.reflection)
    loss = None if found.loss is None else draw_loss(found.loss)
    return {
        "found": found,
        "eyes": eyes,
        "eye_rows": _eye_rows([chart for _, chart in eyes]),
        "trace": trace,
        "trace_rows": () if trace is None else _trace_rows(trace),
        "loss": loss,
        "loss_rows": () if loss is None else _loss_rows(loss),
    }


def _eye_rows(charts: list[EyeChart]) -> list[tuple[str, list[str]]]:
    if not charts:
        return []
    return [
        (
            show_number(rows[0].phase_ratio, decimals=1),
            [
                show_number(row.opening_ratio, decimals=2) if row.opening_ratio > 0 else "closed"
                for row in rows
            ],
        )
        for rows in zip(*(chart.table for chart in charts), strict=True)
    ]


def _trace_rows(chart: ReflectionChart) -> list[tuple[str, str, str]]:
    return [
        (
            row.what,
            show_length_m(row.distance_m, decimals=2),
            show_in(row.seen_ohm, "Ω", decimals=1),
        )
        for row in chart.table
    ]


def _loss_rows(chart: LossChart) -> list[tuple[str, str, str, str]]:
    return [
        (
            row.what,
            show_megahertz(row.frequency_hz),
            show_db(row.loss_db),
            "" if row.residual is None else residual_label(row.residual),
        )
        for row in chart.table
    ]
