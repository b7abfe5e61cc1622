"""Something wrong at the bench: a flaw found, another length than the ledger says."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from reelwright.core.errors import ShopRuleBroken, UnreadableQuantity
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.core.quantities.show import show_length_m
from reelwright.shop.people.permissions import Action, may
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.reels.selectors import reel_now
from reelwright.shop.reels.services import flaw_record, reel_count_book
from reelwright.web.widgets.access import page, person_of

# How well a reel is counted by weighing it or by its marks (common practice, no published
# source); a person who knows better says so in the note.
_COUNTED_TO = 0.01
_COUNTED_TO_LEAST_MM = 20.0


@page(Action.BOOK_WORK)
@require_http_methods(["GET", "POST"])
def flaw_page(request: HttpRequest, code: str) -> HttpResponse:
    """Record a flaw: how far from the free end it begins, how long it is, what it is."""
    reel = reel_now(code)
    fields = {name: request.POST.get(name, "").strip() for name in ("start", "length", "note")}
    faults: dict[str, str] = {}
    if request.method == "POST":
        start_mm = _millimetres("start", fields, faults, zero=True)
        length_mm = _millimetres("length", fields, faults)
        if not faults:
            try:
                flaw_record(
                    by=person_of(request),
                    reel_code=code,
                    from_outer_mm=start_mm,
                    length_mm=length_mm,
                    note=fields["note"],
                    on=today(workshop()),
                )
            except ShopRuleBroken as error:
                if error.code == "not_allowed":
                    raise
                faults["all"] = error.sentence
        if not faults:
            messages.success(
                request,
                f"The flaw is recorded. {code} must be planned again before more is cut off it.",
            )
            return redirect("cut", code)
    return _form(request, "bench/flaw.html", reel, fields, faults)


@page(Action.COUNT)
@require_http_methods(["GET", "POST"])
def count_page(request: HttpRequest, code: str) -> HttpResponse:
    """Set the ledger to what was found on the reel."""
    reel = reel_now(code)
    fields = {name: request.POST.get(name, "").strip() for name in ("length", "note")}
    faults: dict[str, str] = {}
    if request.method == "POST":
        counted_mm = _millimetres("length", fields, faults, zero=True)
        if not faults:
            try:
                reel_count_book(
                    by=person_of(request),
                    reel_code=code,
                    counted_mm=counted_mm,
                    standard_uncertainty_mm=max(_COUNTED_TO_LEAST_MM, _COUNTED_TO * counted_mm),
                    on=today(workshop()),
                    reason=fields["note"],
                )
            except ShopRuleBroken as error:
                if error.code == "not_allowed":
                    raise
                faults["all"] = error.sentence
        if not faults:
            told = show_length_m(counted_mm / 1000, decimals=2)
            messages.success(
                request, f"{code} holds {told} by the ledger now. Plan the cuts again."
            )
            cuts = may(person_of(request), Action.BOOK_WORK)
            return redirect("cut" if cuts else "reel", code)
    return _form(request, "bench/count.html", reel, fields, faults)


def _form(
    request: HttpRequest, template: str, reel: object, fields: object, faults: dict[str, str]
) -> HttpResponse:
    context = {"reel": reel, "fields": fields, "faults": faults}
    return render(request, template, context, status=422 if faults else 200)


def _millimetres(
    name: str, fields: dict[str, str], faults: dict[str, str], *, zero: bool = False
) -> int:
    """Read a length typed with its unit; write what is wrong with it beside the field."""
    typed = fields[name]
    if zero and typed in ("0", "0 m", "0 mm"):
        return 0
    try:
        reading = read_length(typed, context=LengthContext())
    except UnreadableQuantity as error:
        faults[name] = f"This is not a length. Accepted: {error.accepted}."
        return 0
    if reading.length_m is None:
        faults[name] = reading.question or "Which length is that?"
        return 0
    return round(reading.length_m * 1000)
