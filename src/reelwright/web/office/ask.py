"""Ask: will this run work, and with what to spare?"""

import contextlib
from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.http import urlencode
from django.views.decorators.http import require_GET, require_POST

from reelwright.charts.margin import MarginChart, draw_margin
from reelwright.core.errors import Fault, InputFaults, UnreadableQuantity
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.parts.jacket import Space
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.core.quantities.show import show_length_m
from reelwright.core.signals.choices import SIGNAL_CHOICES
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.read import read_signal
from reelwright.shop.catalogue.selectors import cables, connector_words
from reelwright.shop.day.ask import Asked, ask
from reelwright.shop.day.desk import Alternative, alternatives, benches_from, order_take
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.web.office.lines import chance_told, reach_told
from reelwright.web.widgets.access import page, person_of

_RUN = ("length", "signal", "cable", "end_a", "end_b", "colour", "space", "adapters", "temperature")
_ORDER = ("order", "customer", "quantity", "due", "typed")
_NEEDED = ("length", "signal", "end_a")
# From here on the deciding margin is comfortable enough to be called long-lived.
_CARDS = ("Cheapest that works", "Recommended", "Most to spare")


@dataclass(frozen=True, kw_only=True)
class Card:
    """One way to make the run, why it stands here, and the address that asks about it."""

    why: str
    address: str
    choice: Alternative
    chosen: bool


@page(Action.ASK)
@require_GET
def ask_page(request: HttpRequest) -> HttpResponse:
    """Show the form and, once it is filled, the verdict. A link to an answer can be sent on."""
    cells = run_cells(request.GET)
    shown = _form(cells)
    if not any(cells.values()):
        return render(request, "office/ask.html", shown)
    missing = [name for name in _NEEDED if not cells[name]]
    if missing:
        words = {"length": "a length", "signal": "a signal", "end_a": "the connectors"}
        faults = {name: f"Give {words[name]}." for name in missing}
        return render(request, "office/ask.html", {**shown, "faults": faults}, status=422)
    try:
        found = ask(cells=cells, on=today(workshop()))
    except InputFaults as error:
        return render(
            request, "office/ask.html", {**shown, "faults": _by_field(error.faults)}, status=422
        )
    return render(request, "office/ask.html", {**shown, **_verdict(found, cells)})


def run_cells(data: QueryDict) -> dict[str, str]:
    """Return the columns of a run as an address holds them, with what may be left out filled in."""
    cells = {name: " ".join(data.get(name, "").split()) for name in _RUN}
    if any(cells.values()):
        cells["cable"] = cells["cable"] or "you choose"
        cells["end_b"] = cells["end_b"] or cells["end_a"]
    return cells


def _form(cells: dict[str, str]) -> dict[str, Any]:
    return {
        "cells": cells,
        "reading": length_told(cells["length"]) if cells["length"] else "",
        "signals": [choice.typed for choice in SIGNAL_CHOICES],
        "cable_codes": sorted(cables()),
        "end_words": sorted(word.upper() if len(word) < 5 else word for word in connector_words()),
        "colours": list(COLOUR_NAMES.values()),
        "spaces": [*(str(space) for space in Space), "CMP", "CMR", "Cca-s1b,d1,a1", "Eca"],
    }


def _by_field(faults: tuple[Fault, ...]) -> dict[str, str]:
    told: dict[str, str] = {}
    for fault in faults:
        field = fault.field or "length"
        words = f"{fault.problem[:1].upper()}{fault.problem[1:]}. Accepted: {fault.accepted}."
        told.setdefault(field, words)
    # One word for both ends is one field to mend.
    if told.get("end_a") == told.get("end_b"):
        told.pop("end_b", None)
    return told


def _verdict(found: Asked, cells: dict[str, str]) -> dict[str, Any]:
    answer = found.answer
    chart: MarginChart | None = None if found.curve is None else draw_margin(found.curve)
    head, _, rest = answer.headline.partition(": ")
    return {
        "found": found,
        "answer": answer,
        "verdict": {"Accepted": "Yes", "Held": "Not yet", "No": "No"}.get(head, head),
        "rest": rest[:1].lower() + rest[1:] if head == "Accepted" else rest,
        "chart": chart,
        "rows": () if chart is None else _rows(chart, found),
        "chance": chance_told(answer.chance_within_limit),
        "reach": reach_told(answer.length_at_95_m, answer.length_at_50_m),
        "cards": _cards(found, cells),
        "drawn": _drawn(found),
        "asked_again": urlencode(cells),
        "order": dict.fromkeys(_ORDER, "") | {"quantity": "1"},
    }


def _drawn(found: Asked) -> bool:
    """Whether there are pictures of how the signal arrives: on coax, over a run that is judged."""
    signal = read_signal(found.line.signal_text).signal
    return found.curve is not None and isinstance(signal, CoaxSignal)


def _rows(chart: MarginChart, found: Asked) -> list[tuple[str, str, str]]:
    unit = "" if found.curve is None else found.curve.unit
    return [
        (row.what, show_length_m(row.length_m, decimals=1), f"{row.margin:+.1f}\u202f{unit}")
        for row in chart.table
    ]


def _cards(found: Asked, cells: dict[str, str]) -> list[Card]:
    """At most three ways to make it: none of them is both dearer and worse than another."""
    choices = [
        each for each in alternatives(found.line, on=today(workshop())) if each.margin is not None
    ]
    best: list[Alternative] = []
    for each in choices:
        # By rising price, so that only what has more to spare than all the cheaper ones is kept.
        if not best or (each.margin or 0.0) > (best[-1].margin or 0.0):
            best.append(each)
    if len(best) > len(_CARDS):
        best = [best[0], best[len(best) // 2], best[-1]]
    names = _CARDS if len(best) == len(_CARDS) else (_CARDS[0], _CARDS[2])
    own = None if found.cable is None else found.cable.code
    return [
        Card(
            why=why,
            address="?" + urlencode({**cells, "cable": each.cable.code}),
            choice=each,
            chosen=each.cable.code == own,
        )
        for why, each in zip(names, best, strict=False)
    ]


@page(Action.ASK)
@require_GET
def length_reading(request: HttpRequest) -> HttpResponse:
    """Return how a length that is being typed reads, for the place beside its field."""
    typed = request.GET.get("length", "")
    return render(request, "office/reading.html", {"reading": length_told(typed) if typed else ""})


def length_told(typed: str) -> str:
    """Return what a typed length reads as, or what must be asked about it."""
    try:
        reading = read_length(typed, context=LengthContext())
    except UnreadableQuantity as error:
        return f"Not a length yet. Accepted: {error.accepted}."
    if reading.length_m is None:
        return reading.question or ""
    about = "about " if reading.approximate else ""
    return f"Reads as {about}{reading.read_as} = {show_length_m(reading.length_m)}"


@page(Action.TAKE_ORDERS)
@require_POST
def take(request: HttpRequest) -> HttpResponse:
    """Enter the run as an order line, answer and plan it."""
    cells = {name: " ".join(request.POST.get(name, "").split()) for name in (*_RUN, *_ORDER)}
    try:
        here = workshop()
        entered = order_take(
            by=person_of(request), cells=cells, on=today(here), now=benches_from(here)
        )
    except InputFaults as error:
        run = {name: cells[name] for name in _RUN}
        context: dict[str, Any] = {**_form(run), "faults": _by_field(error.faults)}
        # Where the run itself no longer reads, its own fields tell why.
        with contextlib.suppress(InputFaults):
            context |= _verdict(ask(cells=run, on=today(workshop())), run)
        context["order"] = {name: cells[name] for name in _ORDER}
        return render(request, "office/ask.html", context, status=422)
    messages.success(request, "The order is taken in and answered.")
    return redirect("line", entered)
