"""Making trials: what to set the machine to, what came out, and taking back."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from reelwright.core.errors import InputFaults, ShopRuleBroken
from reelwright.shop.catalogue.selectors import cables
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.trials import services
from reelwright.shop.trials.selectors import search, search_frame, trials_of
from reelwright.shop.trials.typed import read_typed
from reelwright.web.widgets.access import is_part, page, person_of
from reelwright.web.widgets.posted import row_number
from reelwright.web.widgets.standings import (
    caution_sentences,
    faults_at_fields,
    field_cells,
    search_now,
)


@page(Action.BOOK_WORK)
@require_http_methods(["GET", "POST"])
def trial_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show what to set the machine to next; take in what came out."""
    if request.method != "POST":
        # Whoever comes without script waits for the answer, as ``?now=yes`` asks.
        wait = is_part(request) or bool(request.GET.get("now"))
        return _show(request, code, {}, {}, wait=wait)
    cells = {key: value for key, value in request.POST.items() if isinstance(value, str)}
    if request.POST.get("failed") and not cells.get("failure", "").strip():
        cells["failure"] = "failed outright"
    if not request.POST.get("failed"):
        cells["failure"] = ""
    frame = search_frame(code)
    try:
        number = services.trial_record(
            by=person_of(request),
            search_code=code,
            trial=read_typed(frame, cells),
            note=cells.get("note", ""),
            on=today(workshop()),
        )
    except InputFaults as error:
        return _show(request, code, cells, faults_at_fields(error, frame), wait=True)
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        return _show(request, code, cells, {"all": error.sentence}, wait=True)
    messages.success(request, f"Trial {number} is written down.")
    return redirect("bench_trial", code)


@page(Action.BOOK_WORK)
@require_POST
def trial_back(request: HttpRequest, code: str) -> HttpResponse:
    """Take back the last trial of this search."""
    number = row_number(request.POST.get("number", ""))
    try:
        services.trial_take_back(
            by=person_of(request),
            search_code=code,
            number=number,
            reason="taken back at the bench",
            on=today(workshop()),
        )
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        return _show(request, code, {}, {"all": error.sentence}, wait=True)
    messages.success(request, f"Trial {number} counts no more.")
    return redirect("bench_trial", code)


def _show(
    request: HttpRequest, code: str, cells: dict[str, str], faults: dict[str, str], *, wait: bool
) -> HttpResponse:
    frame, trials = search_frame(code), trials_of(code)
    now = search_now(search(code), frame, trials, wait=wait)
    words = now.words
    chosen = words.next[0] if words is not None and words.next else None
    if chosen is not None and not cells:
        cells = {one.key: one.typed for one in chosen.settings}
    fields = field_cells(frame, cells, faults)
    counting = [one for one in trials if not one.taken_back]
    context: dict[str, Any] = {
        "now": now,
        "search": now.search,
        "words": words,
        "chosen": chosen,
        "settings": [one for one in fields if one.field.kind == "setting"],
        "results": [one for one in fields if one.field.kind != "setting"],
        "other_settings": any(one.fault for one in fields if one.field.kind == "setting"),
        "failure": cells.get("failure", ""),
        "faults": faults,
        "last": counting[-1].trial.number if counting else None,
        "cautions": caution_sentences(now.search, cables()[now.search.cable_code]),
    }
    template = "bench/trial_part.html" if is_part(request) else "bench/trial.html"
    return render(request, template, context, status=422 if faults else 200)
