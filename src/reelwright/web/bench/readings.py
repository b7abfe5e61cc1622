"""One end after the other: type what the tester shows, touch where it gave way, and it is kept."""

import datetime as dt
import re
from collections.abc import Sequence
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from reelwright.core.errors import InputFaults, ShopRuleBroken, UnknownCode
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.readings.given import LONGEST_END
from reelwright.shop.setups.readings.services import reading_take_back
from reelwright.shop.setups.readings.typed import reading_typed
from reelwright.shop.setups.selectors import set_up_sheets
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import State
from reelwright.web.bench.kinds import Kind
from reelwright.web.bench.readings_view import ReadingsBench, bench_of, kept, taken_back
from reelwright.web.widgets.access import is_part, page, person_of
from reelwright.web.widgets.posted import row_number

_FIELDS = ("value", "before", "end", "instrument")
_SERIAL = re.compile(r"(?=.*\d)(?:[A-Za-z][\w-]*|\d{7,}|\d+-[\w-]+)", re.ASCII)
"""What a scanner sends for an end: W-1-2, or more digits than any force or length has."""


@page(Action.BOOK_WORK)
@require_http_methods(["GET", "POST"])
def readings_page(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Show the next end to be read; take in what was read of it."""
    usable, day = chosen(code, request.GET.get("rev", "")), today(workshop())
    bench = bench_of(Kind(kind), code, usable, day)
    if request.method != "POST":
        return _show(request, bench, {})
    if not usable:
        raise UnknownCode(kind="revision in use of set-up", code=code)
    return _take_in(request, bench, usable, day)


def _take_in(
    request: HttpRequest, bench: ReadingsBench, usable: Sequence[SetUpSheet], day: dt.date
) -> HttpResponse:
    sheet = usable[0]
    fields = {name: request.POST.get(name, "").strip() for name in _FIELDS}
    choice, _, number = request.POST.get("choice", "").partition("|")
    if not choice:
        return _show(request, bench, _without_choice(fields, bench))
    pull = bench.kind is Kind.PULLS
    try:
        given = reading_typed(
            by=person_of(request),
            sheet=sheet,
            fields={
                **fields,
                "end": fields["end"] or number,
                "what": "pull" if pull else choice,
                "gave_way": choice if pull else "",
            },
            on=day,
        )
    except InputFaults as error:
        return _show(request, bench, {**fields, "faults": error.faults})
    if not is_part(request):
        return redirect(request.get_full_path())
    after = bench_of(bench.kind, sheet.code, usable, day)
    # Several parts of one scanned end are measured one after the other.
    left = {**fields, "value": "", "before": "", "end": "" if pull else fields["end"]}
    return _show(request, after, {**left, **kept(sheet, given)})


def _without_choice(fields: dict[str, str], bench: ReadingsBench) -> dict[str, Any]:
    """Enter alone: an end that was scanned, or a value without where the end gave way."""
    for name in ("value", "before"):
        typed = fields[name]
        if len(typed) <= LONGEST_END and _SERIAL.fullmatch(typed):
            return {**fields, name: "", "end": typed, "told": f"End {typed}: now its turn."}
    return {**fields, "ask": bench.ask}


@page(Action.BOOK_WORK)
@require_POST
def take_back(request: HttpRequest, code: str, kind: str) -> HttpResponse:
    """Take back one reading."""
    usable, day = chosen(code, request.GET.get("rev", "")), today(workshop())
    what, _, typed = request.POST.get("reading", "").partition("-")
    number = row_number(typed)
    if not number:
        raise UnknownCode(kind="reading", code=typed)
    told: dict[str, Any]
    try:
        reading_take_back(
            by=person_of(request),
            kind=what,
            number=number,
            on=day,
            reason="taken back at the bench",
        )
        told = taken_back()
    except ShopRuleBroken as error:
        told = {"refused": error.sentence}
    if not is_part(request) and "refused" not in told:
        return redirect(_address(kind, code, request.GET.get("rev", "")))
    return _show(request, bench_of(Kind(kind), code, usable, day), told)


def _address(kind: str, code: str, letter: str) -> str:
    return reverse(f"bench_{kind}", args=[code]) + (f"?rev={letter}" if letter else "")


def chosen(code: str, letter: str) -> list[SetUpSheet]:
    """Return the revisions on trial or in use, first the one that the bench works to.

    That is the one named, else the released one, else the newest. Raises UnknownCode.
    """
    usable = [
        sheet
        for sheet in set_up_sheets(code)
        if sheet.state not in (State.DRAFTED, State.WITHDRAWN)
    ]
    if letter and letter not in {sheet.letter for sheet in usable}:
        raise UnknownCode(
            kind=f"revision in use of {code}",
            code=letter,
            near=[sheet.letter for sheet in usable],
        )
    # Sorting is stable: the newest stays in front of what is alike.
    return sorted(
        usable,
        key=lambda sheet: sheet.letter != letter if letter else sheet.state is not State.RELEASED,
    )


def _show(request: HttpRequest, bench: ReadingsBench, told: dict[str, Any]) -> HttpResponse:
    refused = "refused" in told or "faults" in told
    context = {
        "bench": bench,
        "instrument": bench.instrument,
        "value": "",
        "before": "",
        "end": "",
        **told,
    }
    if is_part(request):
        return render(request, "bench/readings_part.html", context)
    return render(request, "bench/readings.html", context, status=422 if refused else 200)
