"""Where the benches begin: scan a set-up or a reel, or touch one."""

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET

from reelwright.core.errors import UnknownCode
from reelwright.shop.people.permissions import Action
from reelwright.shop.reels.selectors import reel_now
from reelwright.shop.setups.selectors import newest_set_ups, next_state, set_up_sheets
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import State
from reelwright.web.bench.kinds import Kind, kinds_of
from reelwright.web.widgets.access import page


@dataclass(frozen=True, kw_only=True)
class AtBench:
    """A set-up, what can be read of its ends, and what is still missing to prove it."""

    sheet: SetUpSheet
    kinds: tuple[Kind, ...]
    missing: str


@page(Action.BOOK_WORK)
@require_GET
def bench_page(request: HttpRequest) -> HttpResponse:
    """Lead to the bench of what was scanned; show what waits to be measured."""
    scanned = request.GET.get("scan", "").strip()
    if scanned:
        found = _found(scanned)
        if found is not None:
            return redirect(*found)
    sheets = sorted(newest_set_ups().values(), key=lambda sheet: sheet.code)
    return render(
        request,
        "bench/start.html",
        {
            "scanned": scanned,
            "waiting": [_at_bench(sheet) for sheet in sheets if sheet.state is State.ON_TRIAL],
            "others": [
                _at_bench(sheet)
                for sheet in sheets
                if sheet.state in (State.PROVEN, State.RELEASED)
            ],
        },
        status=404 if scanned else 200,
    )


def _at_bench(sheet: SetUpSheet) -> AtBench:
    # What is missing is asked of the few on trial alone: it reads all pulls of each.
    missing = next_state(sheet).missing if sheet.state is State.ON_TRIAL else ()
    return AtBench(
        sheet=sheet,
        kinds=kinds_of(sheet),
        missing=" ".join(reason.sentence for reason in missing),
    )


def _found(scanned: str) -> tuple[str, str] | None:
    for code in dict.fromkeys((scanned, scanned.upper())):
        try:
            return "bench_pulls", set_up_sheets(code)[0].code
        except UnknownCode:
            pass
        try:
            return "cut", reel_now(code).code
        except UnknownCode:
            pass
    return None
