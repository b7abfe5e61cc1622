"""One press: its force, how that is known, what was known before, and the form that changes it."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from reelwright.core.ends.dies.press import COMMON_BENCH_PRESS_N
from reelwright.core.quantities.show import show_in, show_percent, show_plain
from reelwright.shop.people.permissions import Action, may, require_may
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.tools.machines import PressFacts, PressNow, press_changes, press_now
from reelwright.shop.tools.typed import press_change_typed
from reelwright.web.office.tool_cells import (
    ToolCell,
    filled,
    press_cautions,
    press_cells,
    refusals,
)
from reelwright.web.widgets.access import page, person_of

_REFUSED = {"nothing_changed": "known", "limit_bad": "known", "reason_missing": "reason"}


@page()
@require_http_methods(["GET", "POST"])
def press_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show one press; change what is known of it."""
    now = press_now(code)
    if request.method != "POST":
        return _show(request, now, _cells_of(now), {})
    require_may(person_of(request), Action.KEEP_TOOLS)
    typed = {cell.key: request.POST.get(cell.key, "").strip() for cell in _fields()}
    faults = refusals(
        lambda: press_change_typed(
            by=person_of(request), code=code, fields=typed, today=today(workshop())
        ),
        _REFUSED,
    )
    if faults:
        return _show(request, now, typed, faults)
    messages.success(request, f"{code} is changed; what was known before stands in its history.")
    return redirect("press", code)


def _fields() -> tuple[ToolCell, ...]:
    return (
        *press_cells(),
        ToolCell(
            id="",
            key="in_use",
            label="Is it in use",
            choices=(("yes", "yes"), ("no", "no: it is asked for no force")),
        ),
        ToolCell(
            id="",
            key="reason",
            label="Why it changes",
            hint="Load cell of the yearly check.",
            wide=True,
        ),
    )


def _cells_of(now: PressNow) -> dict[str, str]:
    facts = now.facts

    def told(value: float | None, unit: str) -> str:
        return "" if value is None else f"{value:.10g}{unit}"

    share = facts.efficiency
    return {
        "known": facts.known.value,
        "force": told(facts.force_n, " N"),
        "bore": told(facts.bore_mm, " mm"),
        "pressure": told(facts.pressure_kpa, " kPa"),
        "ratio": told(facts.ratio, ""),
        "efficiency": told(None if share is None else share * 100, ""),
        "in_use": "yes" if now.in_use else "no",
        "reason": "",
    }


def _show(
    request: HttpRequest, now: PressNow, typed: dict[str, str], faults: dict[str, str]
) -> HttpResponse:
    return render(
        request,
        "office/press.html",
        {
            "press": now,
            "force": _force(now.facts),
            "figures": _figures(now.facts),
            "usual": show_in(COMMON_BENCH_PRESS_N / 1e3, "kN", decimals=0),
            "changes": [
                (row, _force(row.facts), _figures(row.facts)) for row in press_changes(now.code)
            ],
            "may_keep": may(person_of(request), Action.KEEP_TOOLS),
            "cells": filled("press", _fields(), typed, faults),
            "faults": faults,
            "cautions": press_cautions(),
        },
        status=422 if faults else 200,
    )


def _force(facts: PressFacts) -> str:
    return show_in(facts.computed_n / 1e3, "kN", decimals=1)


def _figures(facts: PressFacts) -> tuple[tuple[str, str], ...]:
    """The cylinder as it was entered; empty where the force itself is known."""
    if facts.force_n is not None:
        return ()
    assert facts.bore_mm is not None
    assert facts.pressure_kpa is not None
    assert facts.ratio is not None
    assert facts.efficiency is not None
    return (
        ("Bore", show_plain(facts.bore_mm, "mm")),
        ("Pressure over the atmosphere", show_plain(facts.pressure_kpa, "kPa")),
        ("Ratio of toggle or intensifier", show_plain(facts.ratio, "")),
        ("Efficiency", show_percent(facts.efficiency)),
    )
