"""One order line: everything that was read, judged, promised and made of it."""

import re
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from reelwright.core.errors import InputFaults, UnknownCode
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.measured import Measured
from reelwright.core.quantities.show import show_length_m, show_percent
from reelwright.core.quantities.show_office import show_date
from reelwright.core.quantities.show_scaled import show_measured, show_temperature_celsius
from reelwright.core.signals.read import read_signal
from reelwright.documents.answers import Answers, answers_text
from reelwright.documents.traveller import render_traveller
from reelwright.shop.day.desk import benches_from, offer_take_up, read_cells
from reelwright.shop.day.pack.answers import answer_of
from reelwright.shop.day.pack.gather import gather
from reelwright.shop.day.pack.travellers import one_traveller, tolerance_words
from reelwright.shop.day.selectors import run_of_line
from reelwright.shop.orders.answer import ExpectedRow
from reelwright.shop.orders.selectors import LineView, followers_of, line_by_id
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.work.selectors import pieces_of_lines, travellers_of_lines
from reelwright.web.office.packs import file_answer
from reelwright.web.widgets.access import page, person_of

_RULE = re.compile(r"\n-{20,}\n\n")
_NAMES = {
    "quantity": "how many",
    "cable": "cable",
    "signal": "signal",
    "end_a": "end A",
    "end_b": "end B",
    "length": "length",
    "colour": "colour",
    "space": "place",
    "adapters": "adapters in the run",
    "temperature": "warmest",
    "due": "due",
    "tolerance": "tolerance",
    "set": "set",
}


@dataclass(frozen=True, kw_only=True)
class CellRow:
    """One column: what was typed beside what it was read as."""

    name: str
    typed: str
    read_as: str


@page()
@require_GET
def line_page(request: HttpRequest, line_id: int) -> HttpResponse:
    """Show one order line."""
    view = line_by_id(line_id)
    answer = view.answer
    return render(
        request,
        "office/line.html",
        {
            "view": view,
            "answer": answer,
            "cells": _cells(view),
            "expected": [(row.name, _value(row), row.source) for row in answer.expected],
            "chance": chance_told(answer.chance_within_limit),
            "reach": reach_told(answer.length_at_95_m, answer.length_at_50_m),
            "pieces": pieces_of_lines([line_id]).get(line_id, []),
            "traveller": travellers_of_lines([line_id]).get(line_id),
            "followed_by": followers_of([line_id]).get(line_id),
            "answer_text": _answer_text(view),
            "tolerance": None if answer.make is None else tolerance_words(answer.make),
        },
    )


@page()
@require_GET
def traveller(request: HttpRequest, line_id: int) -> HttpResponse:
    """Print the traveller of a line."""
    del request
    run_id = run_of_line(line_id)
    paper = None if run_id is None else one_traveller(gather(run_id), line_id)
    if paper is None:
        raise UnknownCode(kind="traveller of order line", code=str(line_id))
    return file_answer("traveller.pdf", render_traveller(paper))


@page(Action.TAKE_ORDERS)
@require_POST
def take_up(request: HttpRequest, line_id: int, offer: int) -> HttpResponse:
    """Enter the line that an offer describes."""
    here = workshop()
    entered = offer_take_up(
        by=person_of(request),
        line_id=line_id,
        offer=offer,
        on=today(here),
        now=benches_from(here),
    )
    messages.success(request, f"The offer stands as line {line_by_id(entered).label} now.")
    return redirect("line", entered)


def chance_told(chance: float | None) -> str:
    """Return how sure it is that such runs stay within the limit."""
    if chance is None:
        return ""
    if chance > 0.999:
        told = "more than 999 of 1,000 such runs"
    elif chance < 0.001:
        told = "fewer than 1 of 1,000 such runs"
    else:
        told = f"{show_percent(chance, decimals=0 if 0.01 <= chance <= 0.99 else 1)} of such runs"
    return f"Within the limit in {told}."


def reach_told(at_95_m: float | None, at_50_m: float | None) -> str:
    """Return how far the cable would carry."""
    if not at_95_m or not at_50_m:
        return ""
    return (
        f"95{NARROW_SPACE}% stay within it up to {show_length_m(at_95_m, decimals=0)}, half up to "
        f"{show_length_m(at_50_m, decimals=0)}."
    )


def _cells(view: LineView) -> list[CellRow]:
    read = _read(view)
    return [
        CellRow(name=name, typed=view.cells.get(column, ""), read_as=read.get(column, ""))
        for column, name in _NAMES.items()
        if view.cells.get(column) or read.get(column)
    ]


def _read(view: LineView) -> dict[str, str]:
    """What the columns read as today; nothing where a word has left the catalogue since."""
    try:
        line = read_cells(view.cells, on=today(workshop()))
    except InputFaults:
        return {}
    signal = read_signal(line.signal_text).signal
    make = view.answer.make
    about = "about " if line.length_approximate else ""
    return {
        "quantity": str(line.quantity),
        "cable": line.cable_code or ("" if make is None else f"{make.cable}, our choice"),
        "signal": "a question" if signal is None else signal.name,
        "end_a": make.connector_a if make is not None else _connectors(line.ends[0]),
        "end_b": make.connector_b if make is not None else _connectors(line.ends[1]),
        "length": f"{about}{line.length_read_as} = {show_length_m(line.length_m)}",
        "colour": ", ".join(COLOUR_NAMES[each] for each in line.colours),
        "space": "" if line.space is None else str(line.space),
        "adapters": str(line.adapters) if line.adapters else "",
        "temperature": (
            "" if line.warmest_celsius is None else show_temperature_celsius(line.warmest_celsius)
        ),
        "due": "" if line.due is None else show_date(line.due),
        "tolerance": "" if make is None else tolerance_words(make),
    }


def _connectors(codes: tuple[str, ...]) -> str:
    """A customer's word may mean a dozen connectors: which one, the cable decides."""
    return " or ".join(codes) if len(codes) < 3 else f"one of {len(codes)}, as the cable asks"


def _value(row: ExpectedRow) -> str:
    return show_measured(
        Measured(value=row.value, standard_uncertainty=row.standard_uncertainty, unit=row.unit)
    )


def _answer_text(view: LineView) -> str:
    run_id = run_of_line(view.id)
    if run_id is None:
        return ""
    text = answers_text(
        Answers(
            mark=gather(run_id).mark("ANS"),
            sentence=view.answer.headline,
            lead="",
            answers=(answer_of(view, currency=workshop().currency),),
        )
    )
    # Only the customer's own part: what stands over the first rule is for a whole day.
    return _RULE.split(text, maxsplit=1)[-1]
