"""The one search box: a scanned code jumps straight there, anything else gives a list."""

import re
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET

from reelwright.core.errors import UnknownCode
from reelwright.shop.catalogue.selectors import cables
from reelwright.shop.orders.selectors import LineView, lines_matching
from reelwright.shop.people.permissions import Action, may
from reelwright.shop.reels.selectors import ReelNow, reels_now
from reelwright.shop.setups.selectors import newest_set_ups, set_up_code, set_up_sheets
from reelwright.shop.tools.machines import presses_now
from reelwright.shop.tools.selectors import cavities
from reelwright.shop.trials.selectors import searches
from reelwright.shop.work.selectors import piece, traveller
from reelwright.web.widgets.access import page, person_of

MOST = 50


@page()
@require_GET
def search_page(request: HttpRequest) -> HttpResponse:
    """Jump to what a code names exactly, or list what holds the text."""
    wanted = " ".join(request.GET.get("q", "").split())
    if not wanted:
        return render(request, "office/search.html", {"searched": "", "found": 0})
    lines = lines_matching(wanted, at_most=MOST)
    exact = _exact(request, wanted, lines)
    if exact is not None:
        return redirect(exact)
    folded = wanted.casefold()
    reels = [reel for reel in reels_now() if _holds(folded, reel.code, reel.lot_code)]
    sheets = [
        sheet
        for sheet in newest_set_ups().values()
        if _holds(folded, sheet.code, sheet.cable_code, sheet.connector_code)
    ]
    windows = [
        each
        for each in searches()
        if _holds(folded, each.code, each.name, each.cable_code, each.connector_code)
    ]
    kinds = [cable for cable in cables().values() if _holds(folded, cable.code, cable.name)]
    return render(
        request,
        "office/search.html",
        {
            "searched": wanted,
            "lines": lines,
            "reels": reels[:MOST],
            "sheets": sorted(sheets, key=lambda sheet: sheet.code)[:MOST],
            "windows": windows[:MOST],
            "cables": kinds[:MOST],
            "found": len(lines) + len(reels) + len(sheets) + len(windows) + len(kinds),
            "most": MOST,
        },
    )


def _holds(folded: str, *texts: str) -> bool:
    return any(folded in text.casefold() for text in texts)


def _exact(request: HttpRequest, wanted: str, lines: list[LineView]) -> str | None:
    """Return the address of what the text names exactly: as a scanner types it."""
    return (
        _or_none(lambda: _piece_address(request, wanted))
        or _or_none(lambda: reverse("line", args=[traveller(wanted).line_id]))
        or _reel_address(wanted, reels_now())
        or _set_up_address(wanted)
        or _line_address(wanted, lines or lines_matching(wanted.partition("/")[0], at_most=MOST))
        or _cable_address(wanted)
        or _window_address(wanted)
        or _tool_address(wanted)
    )


def _or_none(address: Callable[[], str]) -> str | None:
    try:
        return address()
    except UnknownCode:
        return None


def _piece_address(request: HttpRequest, wanted: str) -> str:
    found = piece(wanted)
    may_cut = may(person_of(request), Action.BOOK_WORK)
    if may_cut and found.reel is not None and not found.is_cut:
        return reverse("cut", args=[found.reel])
    return reverse("line", args=[found.line_id])


def _reel_address(wanted: str, reels: list[ReelNow]) -> str | None:
    for reel in reels:
        if reel.code.casefold() == wanted.casefold():
            return reverse("reel", args=[reel.code])
    return None


_REVISION = re.compile(r"(?P<code>.+?) rev (?P<letter>[a-z]{1,2})", re.IGNORECASE)
"""How a set-up's sheet names itself, in words and in its code: ``T-02 rev C``."""


def _set_up_address(wanted: str) -> str | None:
    """Return the page of a set-up, or of the very revision that was named."""
    named = _REVISION.fullmatch(wanted)
    typed, letter = (named["code"], named["letter"].upper()) if named else (wanted, "")
    code = set_up_code(typed)
    if code is None or (letter and letter not in {each.letter for each in set_up_sheets(code)}):
        return None
    return reverse("set_up", args=[code]) + (f"?rev={letter}" if letter else "")


def _window_address(wanted: str) -> str | None:
    for each in searches():
        if each.code.casefold() == wanted.casefold():
            return reverse("window", args=[each.code])
    return None


def _line_address(wanted: str, lines: list[LineView]) -> str | None:
    own = [
        view
        for view in lines
        if wanted.casefold() in (view.label.casefold(), f"{view.order}/{view.number}".casefold())
    ]
    same_order = [view for view in lines if view.order.casefold() == wanted.casefold()]
    if len(own) == 1 and len(same_order) <= 1:
        return reverse("line", args=[own[0].id])
    return None


def _cable_address(wanted: str) -> str | None:
    for code in cables():
        if code.casefold() == wanted.casefold():
            return reverse("cable", args=[code])
    return None


def _tool_address(wanted: str) -> str | None:
    folded = wanted.casefold()
    for address, codes in (
        ("cavity", [each.code for each in cavities(in_service=None)]),
        ("press", [each.code for each in presses_now()]),
    ):
        for code in codes:
            if code.casefold() == folded:
                return reverse(address, args=[code])
    return None
