"""One cavity: what it measures and has left, what it serves, its history, its forms."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from reelwright.core.ends.dies.cavities import Cavity
from reelwright.core.errors import UnknownCode
from reelwright.core.quantities.show import show_dimension, show_fine
from reelwright.core.quantities.show_office import show_date_short
from reelwright.core.quantities.words import sentence
from reelwright.shop.people.permissions import Action, may
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.shown.cavity_uses import cavity_uses
from reelwright.shop.tools.gauging import (
    GaugingNow,
    cavity_gauging_take_back,
    cavity_values,
    gaugings_of,
)
from reelwright.shop.tools.resting import cavity_moves, cavity_rest, cavity_return
from reelwright.shop.tools.selectors import cavities, instruments
from reelwright.shop.tools.typed import gauging_typed
from reelwright.web.office.dies import thousands, too_wide_for
from reelwright.web.office.tool_cells import ToolCell, filled, press_cautions, refusals
from reelwright.web.widgets.access import page, person_of
from reelwright.web.widgets.posted import row_number

_GAUGE_REFUSED = {
    "size_bad": "width",
    "not_this_cavity": "width",
    "too_coarse": "spread",
    "not_calibrated": "instrument",
    "instrument": "instrument",
    "before_service": "on",
}
_SERVICED = "serviced"
_RETURNS = (
    (_SERVICED, "serviced: its count begins again, its gaugings lapse"),
    ("as it was", "as it was: it counts on"),
)
_Sent = tuple[dict[str, str], dict[str, str]]


@page()
@require_GET
def cavity_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show one cavity."""
    return _show(request, code)


@page(Action.BOOK_WORK)
@require_POST
def gauge(request: HttpRequest, code: str) -> HttpResponse:
    """Record what the cavity was gauged at."""
    typed = _typed(request, "width", "spread", "instrument", "on")
    faults = refusals(
        lambda: gauging_typed(
            by=person_of(request), code=code, fields=typed, today=today(workshop())
        ),
        _GAUGE_REFUSED,
    )
    if faults:
        return _show(request, code, gauging=(typed, faults))
    messages.success(
        request, f"The gauging of {code} is recorded; it is reckoned with from now on."
    )
    return redirect("cavity", code)


@page(Action.KEEP_TOOLS)
@require_POST
def move(request: HttpRequest, code: str) -> HttpResponse:
    """Lay the cavity to rest, or put it back into service."""
    typed = _typed(request, "to", "how", "reason")
    person, on = person_of(request), today(workshop())
    back = typed["to"] == "service"
    if typed["to"] not in ("service", "rest"):
        raise UnknownCode(kind="move of a cavity", code=typed["to"], near=("rest", "service"))
    if back and typed["how"] not in dict(_RETURNS):
        return _show(request, code, moving=(typed, {"how": "Say whether it was serviced."}))

    def do() -> None:
        if back:
            cavity_return(
                by=person,
                code=code,
                reason=typed["reason"],
                on=on,
                serviced=typed["how"] == _SERVICED,
            )
        else:
            cavity_rest(by=person, code=code, reason=typed["reason"], on=on)

    faults = refusals(do, {"reason_missing": "reason"})
    if faults:
        return _show(request, code, moving=(typed, faults))
    messages.success(request, f"{code} {'is back in service' if back else 'rests now'}.")
    return redirect("cavity", code)


@page(Action.CORRECT)
@require_POST
def take_back(request: HttpRequest, code: str) -> HttpResponse:
    """Take a gauging back."""
    typed = _typed(request, "gauging", "reason")
    faults = refusals(lambda: _take_back(request, code, typed), {"reason_missing": "reason"})
    if faults:
        return _show(request, code, taking=(typed, faults))
    messages.success(request, "The gauging is taken back; what was gauged before it counts again.")
    return redirect("cavity", code)


def _take_back(request: HttpRequest, code: str, typed: dict[str, str]) -> None:
    cavity_gauging_take_back(
        by=person_of(request),
        code=code,
        number=row_number(typed["gauging"]),
        reason=typed["reason"],
        on=today(workshop()),
    )


def _typed(request: HttpRequest, *names: str) -> dict[str, str]:
    return {name: request.POST.get(name, "").strip() for name in names}


def _show(
    request: HttpRequest,
    code: str,
    *,
    gauging: _Sent = ({}, {}),
    moving: _Sent = ({}, {}),
    taking: _Sent = ({}, {}),
) -> HttpResponse:
    known = {each.code: each for each in cavity_values()}
    if code not in known:
        raise UnknownCode(kind="cavity", code=code, near=known)
    cavity, person = known[code], person_of(request)
    note = next(each.note for each in cavities(in_service=None) if each.code == code)
    gaugings, uses = gaugings_of(code), cavity_uses((cavity,))[code]
    outcome, headline = _headline(cavity, too_wide_for(uses))
    faulty = bool(gauging[1] or moving[1] or taking[1])
    return render(
        request,
        "office/cavity.html",
        {
            "cavity": cavity,
            "headline": headline,
            "outcome": outcome,
            "width": _width(cavity, gaugings),
            "note": note,
            "set_ups": [(row, sentence(row.told)) for row in uses],
            "gaugings": [
                (
                    row,
                    show_dimension(float(row.across_flats_mm) / 1e3, decimals=3),
                    show_fine(float(row.uncertainty_mm) / 1e3),
                    thousands(row.closings_then),
                )
                for row in gaugings
            ],
            "moves": [(row, thousands(row.closings_then)) for row in cavity_moves(code)],
            "may_gauge": may(person, Action.BOOK_WORK),
            "may_move": may(person, Action.KEEP_TOOLS),
            "may_take_back": may(person, Action.CORRECT)
            and any(not row.taken_back for row in gaugings),
            "instruments": instruments(),
            "gauge_cells": filled("gauge", _gauge_cells(gaugings), *gauging),
            "gauge_faults": gauging[1],
            "move_cells": filled("move", _move_cells(back=not cavity.in_service), *moving),
            "taking": taking,
            "cautions": press_cautions(),
        },
        status=422 if faulty else 200,
    )


def _headline(cavity: Cavity, wide_for: str) -> tuple[str, str]:
    """Outcome and sentence that answer first; a cavity that rests has no outcome."""
    if not cavity.in_service:
        return "", f"{cavity.code} rests"
    if wide_for:
        return "bad", f"{cavity.code} is too wide for {wide_for}"
    if cavity.left_count < 0:
        past = thousands(-cavity.left_count)
        return "caution", f"{cavity.code} is {past} closings past its service"
    left = thousands(cavity.left_count)
    return "good", f"{cavity.code} is in service, {left} closings to its next"


def _width(cavity: Cavity, gaugings: tuple[GaugingNow, ...]) -> str:
    engraved = show_dimension(cavity.engraved_m)
    if cavity.reading is None:
        since = "since its last service" if gaugings else "yet"
        return f"It is reckoned with as engraved, {engraved} across flats: not gauged {since}."
    width = show_dimension(cavity.reading.across_flats_m, decimals=3)
    spread = show_fine(cavity.reading.standard_uncertainty_m)
    return (
        f"It is reckoned with as gauged, {width} ± {spread} across flats; {engraved} are engraved."
    )


def _gauge_cells(gaugings: tuple[GaugingNow, ...]) -> tuple[ToolCell, ...]:
    on = today(workshop())
    return (
        ToolCell(
            id="", key="width", label="Measured across flats", hint="6.503 or 0.256 in; bare: mm."
        ),
        ToolCell(
            id="",
            key="spread",
            label="Standard uncertainty",
            hint="0.003 or 3 µm; bare: mm.",
        ),
        ToolCell(
            id="",
            key="instrument",
            label="Read on",
            value=gaugings[0].instrument if gaugings else "",
            choices=(
                ("", "choose the instrument"),
                *(
                    (
                        each.code,
                        f"{each.code} {each.name}"
                        + (
                            ""
                            if each.calibration_due is not None and each.calibration_due >= on
                            else ", never calibrated"
                            if each.calibration_due is None
                            else f", calibration ended {show_date_short(each.calibration_due)}"
                        ),
                    )
                    for each in instruments()
                ),
            ),
        ),
        ToolCell(id="", key="on", label="Day", value=f"{on:%Y-%m-%d}", hint="Year, month, day."),
    )


def _move_cells(*, back: bool) -> tuple[ToolCell, ...]:
    why = ToolCell(
        id="",
        key="reason",
        label="Why",
        hint="Reground and gauged." if back else "Pulls drift down; sent to be reground.",
        wide=True,
    )
    if not back:
        return (why,)
    return (
        ToolCell(
            id="", key="how", label="It comes back", choices=(("", "choose"), *_RETURNS), wide=True
        ),
        why,
    )
