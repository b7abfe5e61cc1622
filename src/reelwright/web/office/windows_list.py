"""The list of all searches, the gauges that the shop welds well, and the form of a new search."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from reelwright.core.errors import (
    BadValue,
    InputFaults,
    ShopRuleBroken,
    UnknownCode,
    UnreadableQuantity,
)
from reelwright.core.quantities.show import show_digits, show_number, with_unit
from reelwright.core.quantities.words import counted, sentence
from reelwright.core.trials.number_text import read_plain_number
from reelwright.core.trials.weld_energy import KnownGauge, fit_energy_law
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.people.permissions import Action, may
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.selectors import standing_set_ups
from reelwright.shop.trials import services
from reelwright.shop.trials.begin_with import begin_with
from reelwright.shop.trials.gauges import known_gauges, shop_gauges
from reelwright.shop.trials.selectors import searches, weld_gauges
from reelwright.shop.trials.states import Process
from reelwright.web.office.window_form import DEMAND, packed, read_form, rows_of
from reelwright.web.widgets.access import page, person_of

_DEMAND_LABELS = {
    "coverage": ("Parts within each limit, %", "such as 95"),
    "confidence": ("Claimed with confidence, %", "such as 90"),
    "unsafe_chance": ("Largest chance of harm, %", "no riskier trial is proposed"),
    "expected_good_fraction": ("Trials expected to come out, %", "your guess before any"),
    "clear_drifts_ratio": ("Room about the middle", "in standard deviations of the play"),
}


@page()
@require_GET
def windows_page(request: HttpRequest) -> HttpResponse:
    """Show every search with its window, and what the shop's own welds took."""
    return _show_list(request, {}, {})


def _show_list(request: HttpRequest, cells: dict[str, str], faults: dict[str, str]) -> HttpResponse:
    found = searches()
    proven = sum(1 for one in found if one.windows)
    opened = sum(1 for one in found if one.is_open)
    counting = shop_gauges()
    law = _law([one.gauge for one in counting])
    idle = len(weld_gauges()) - sum(1 for one in counting if one.known_on is not None)
    return render(
        request,
        "office/windows.html",
        {
            "searches": found,
            "headline": (
                f"{counted(proven, 'window')} proven, {counted(opened, 'search', 'searches')} open"
            ),
            "gauges": [
                (
                    with_unit(show_number(one.gauge.area_m2 * 1e6, decimals=2), "mm²"),
                    with_unit(show_digits(one.gauge.energy_j), "J"),
                    with_unit(show_digits(one.gauge.energy_j / one.gauge.area_m2 / 1e6), "J/mm²"),
                    one,
                )
                for one in counting
            ],
            "law": law,
            "idle": "" if not idle else counted(idle, "gauge"),
            "processes": list(Process),
            "cable_codes": list(cables()),
            "connector_codes": list(connectors()),
            "may_begin": may(person_of(request), Action.DRAFT_SETUPS),
            "cells": cells,
            "faults": faults,
        },
        status=422 if faults else 200,
    )


def _law(gauges: list[KnownGauge]) -> str:
    try:
        law = fit_energy_law(gauges)
    except BadValue:
        return ""
    return (
        f"E = {show_digits(law.coefficient_j)}\u202fJ · (A/mm²)^"
        f"{show_number(law.exponent_factor, decimals=2)}"
    )


@page(Action.DRAFT_SETUPS)
@require_POST
def gauge_add(request: HttpRequest) -> HttpResponse:
    """Write down a conductor that the shop welds well."""
    cells = {key: request.POST.get(key, "").strip() for key in ("area", "energy", "note")}
    faults: dict[str, str] = {}
    numbers = {}
    for key, unit in (("area", "mm²"), ("energy", "J")):
        try:
            numbers[key] = read_plain_number(cells[key], unit=unit)
        except UnreadableQuantity as error:
            faults[key] = f"This is not a {error.quantity}. Accepted: {error.accepted}."
    if not faults:
        try:
            services.weld_gauge_record(
                by=person_of(request),
                area_mm2=numbers["area"],
                energy_j=numbers["energy"],
                note=cells["note"],
                on=today(workshop()),
            )
        except ShopRuleBroken as error:
            if error.code == "not_allowed":
                raise
            faults["area"] = error.sentence
    if faults:
        return _show_list(request, cells, faults)
    messages.success(request, "The gauge is written down; first guesses use it from now on.")
    return redirect("windows")


@page(Action.DRAFT_SETUPS)
@require_http_methods(["GET", "POST"])
def window_new(request: HttpRequest) -> HttpResponse:
    """Show the form of a new search, filled in from what the shop knows; take it in."""
    asked = request.POST if request.method == "POST" else request.GET
    cable, connector = asked.get("cable", ""), asked.get("connector", "")
    for kind, code, there in (
        ("cable", cable, cables()),
        ("connector", connector, connectors()),
    ):
        if code not in there:
            raise UnknownCode(kind=kind, code=code, near=list(there))
    typed = asked.get("process", "")
    process = Process(typed) if typed in list(Process) else Process.OTHER
    sheet = standing_set_ups().get((cable, connector))
    about = (process, cable, connector)
    beginning = begin_with(process, cables()[cable], sheet, known_gauges())
    if request.method != "POST":
        return _form(request, about, beginning.cells, {}, beginning.notes)
    cells = packed({key: str(value) for key, value in request.POST.items()})
    try:
        code = services.search_begin(
            by=person_of(request),
            text=read_form(cells),
            process=process,
            cable_code=cable,
            connector_code=connector,
            on=today(workshop()),
        )
    except InputFaults as error:
        faults: dict[str, str] = {}
        for fault in error.faults:
            told = f"{sentence(fault.problem)} Accepted: {fault.accepted}."
            field = fault.field or "all"
            faults[field] = f"{faults[field]} {told}" if field in faults else told
        return _form(request, about, cells, faults, beginning.notes)
    messages.success(request, f"{code} is begun: the first trial is proposed below.")
    return redirect("window", code)


def _form(
    request: HttpRequest,
    about: tuple[Process, str, str],
    cells: dict[str, str],
    faults: dict[str, str],
    notes: tuple[str, ...],
) -> HttpResponse:
    rows = {kind: rows_of(kind, cells, faults) for kind in ("setting", "response", "looks")}
    shown = {cell.key for each in rows.values() for row in each for cell in row.cells}
    shown |= {"name", "question", "most_trials", *(f"demand-{key}" for key in DEMAND)}
    context: dict[str, Any] = {
        "process": about[0],
        "cable": about[1],
        "connector": about[2],
        "cells": cells,
        "faults": faults,
        # What belongs to no field of the form is told above it.
        "others": [f"{key}: {told}" for key, told in faults.items() if key not in shown],
        "notes": notes,
        "settings": rows["setting"],
        "responses": rows["response"],
        "looks": rows["looks"],
        "demand": [
            {
                "key": f"demand-{key}",
                "label": _DEMAND_LABELS[key][0],
                "hint": _DEMAND_LABELS[key][1],
                "value": cells.get(f"demand-{key}", ""),
                "fault": faults.get(f"demand-{key}", ""),
            }
            for key in DEMAND
        ],
    }
    return render(request, "office/window_new.html", context, status=422 if faults else 200)
