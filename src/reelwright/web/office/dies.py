"""Dies and presses: every cavity with what it measures and has left, every press with its force."""

from dataclasses import dataclass
from decimal import Decimal

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from reelwright.core.bench.problem import Station
from reelwright.core.ends.dies.cavities import Cavity, CavityUse
from reelwright.core.quantities.show import show_dimension, show_fine, show_in
from reelwright.core.quantities.words import counted, listed
from reelwright.core.verdicts import Outcome
from reelwright.shop.people.permissions import Action, may
from reelwright.shop.setups.shown.cavity_uses import CavityUseRow, cavity_uses
from reelwright.shop.tools.gauging import cavity_values
from reelwright.shop.tools.machines import presses_now
from reelwright.shop.tools.selectors import stations
from reelwright.shop.tools.typed import cavity_typed, press_typed
from reelwright.web.office.tool_cells import (
    ToolCell,
    filled,
    press_cautions,
    press_cells,
    refusals,
)
from reelwright.web.widgets.access import page, person_of

_CAVITY = (
    ToolCell(id="", key="code", label="Code", hint="As it is marked: F-6.48."),
    ToolCell(
        id="",
        key="use",
        label="Closes on",
        choices=tuple((use.value, use.value) for use in CavityUse),
    ),
    ToolCell(
        id="", key="width", label="Engraved across flats", hint="6.48 or 0.255 in.", mode="decimal"
    ),
    ToolCell(
        id="",
        key="closings",
        label="Closings so far",
        hint="Since it was new or serviced.",
        value="0",
        mode="numeric",
    ),
    ToolCell(
        id="",
        key="service",
        label="Service due after",
        hint="Closings from one service to the next.",
        mode="numeric",
    ),
    ToolCell(id="", key="note", label="Note"),
)
_CAVITY_REFUSED = {
    "cavity_exists": "code",
    "code_bad": "code",
    "size_bad": "width",
    "count_bad": "closings",
    "kind_unknown": "use",
}
_PRESS_REFUSED = {
    "press_exists": "code",
    "code_bad": "code",
    "station_kind": "station",
    "station": "station",
    "limit_bad": "known",
}


@dataclass(frozen=True, kw_only=True)
class CavityLine:
    """One cavity in the list."""

    code: str
    engraved: str
    gauged: str
    left: str
    outcome: str
    state: str
    set_ups: int


@page()
@require_GET
def dies_page(request: HttpRequest) -> HttpResponse:
    """Show every cavity and every press."""
    return _show(request)


@page(Action.KEEP_TOOLS)
@require_POST
def cavity_enter(request: HttpRequest) -> HttpResponse:
    """Enter a cavity."""
    typed = {cell.key: request.POST.get(cell.key, "").strip() for cell in _CAVITY}
    faults = refusals(lambda: cavity_typed(by=person_of(request), fields=typed), _CAVITY_REFUSED)
    if faults:
        return _show(request, cavity=(typed, faults))
    messages.success(request, f"{typed['code']} is entered and in service.")
    return redirect("cavity", typed["code"])


@page(Action.KEEP_TOOLS)
@require_POST
def press_enter(request: HttpRequest) -> HttpResponse:
    """Enter a press."""
    typed = {cell.key: request.POST.get(cell.key, "").strip() for cell in _press_fields()}
    faults = refusals(lambda: press_typed(by=person_of(request), fields=typed), _PRESS_REFUSED)
    if faults:
        return _show(request, press=(typed, faults))
    messages.success(request, f"{typed['code']} is entered; forces are judged by it from now on.")
    return redirect("press", typed["code"])


def _press_fields() -> tuple[ToolCell, ...]:
    where = tuple((each.code, each.name) for each in stations(kind=Station.PRESS.value))
    return (
        ToolCell(id="", key="code", label="Code", hint="As it is marked: PR-2."),
        ToolCell(id="", key="station", label="Stands at", choices=where),
        *press_cells(),
    )


_Sent = tuple[dict[str, str], dict[str, str]]


def _show(
    request: HttpRequest, *, cavity: _Sent = ({}, {}), press: _Sent = ({}, {})
) -> HttpResponse:
    cavities, machines = cavity_values(), presses_now()
    resting = [each.code for each in cavities if not each.in_service]
    overdue = [each.code for each in cavities if each.in_service and each.left_count < 0]
    uses = cavity_uses(cavities)
    lines = {
        use: tuple(_line(each, uses[each.code]) for each in cavities if each.use is use)
        for use in CavityUse
    }
    faulty = bool(cavity[1] or press[1])
    return render(
        request,
        "office/dies.html",
        {
            "groups": [(use.value, lines[use]) for use in CavityUse],
            "cavities": len(cavities),
            "in_service": len(cavities) - len(resting),
            "resting": listed(resting),
            "overdue": listed(overdue),
            "worn": listed(
                each.code for each in cavities if each.in_service and too_wide_for(uses[each.code])
            ),
            "overdue_are": "is" if len(overdue) == 1 else "are",
            "gauged": counted(
                sum(1 for each in cavities if each.reading is not None),
                "of them was",
                "of them were",
            ),
            "presses": [
                (
                    each.code,
                    each.station,
                    show_in(each.facts.computed_n / 1e3, "kN", decimals=1),
                    each.facts.known.value,
                    each.in_use,
                )
                for each in machines
            ],
            "cautions": press_cautions(),
            "may_keep": may(person_of(request), Action.KEEP_TOOLS),
            "cavity_cells": filled("cavity", _CAVITY, *cavity),
            "press_cells": filled("press", _press_fields(), *press),
            "stations": stations(kind=Station.PRESS.value),
            "cavity_faults": cavity[1],
            "press_faults": press[1],
        },
        status=422 if faulty else 200,
    )


def _line(cavity: Cavity, uses: tuple[CavityUseRow, ...]) -> CavityLine:
    gauged = ""
    if cavity.reading is not None:
        spread = show_fine(cavity.reading.standard_uncertainty_m)
        gauged = f"{show_dimension(cavity.reading.across_flats_m, decimals=3)} ± {spread}"
    if not cavity.in_service:
        outcome, state = "unknown", "rests"
    elif wide_for := too_wide_for(uses):
        outcome, state = "bad", f"too wide for {wide_for}"
    elif cavity.left_count < 0:
        outcome, state = "caution", "service overdue"
    else:
        outcome, state = "good", "in service"
    return CavityLine(
        code=cavity.code,
        engraved=show_dimension(cavity.engraved_m, decimals=_decimals(cavity.engraved_m)),
        gauged=gauged,
        left=thousands(cavity.left_count),
        outcome=outcome,
        state=state,
        set_ups=len(uses),
    )


def too_wide_for(uses: tuple[CavityUseRow, ...]) -> str:
    """Return the set-ups whose ends a cavity no longer grips at their loosest, as a list."""
    return listed(row.name for row in uses if row.outcome is Outcome.BAD)


def thousands(count: int) -> str:
    """Return a count with its thousands apart, and a real minus."""
    told = f"{abs(count):,}".replace(",", "\u202f")
    return f"−{told}" if count < 0 else told


def _decimals(size_m: float) -> int:
    exponent = Decimal(repr(round(size_m * 1e3, 3))).normalize().as_tuple().exponent
    return 3 if isinstance(exponent, int) and exponent < -2 else 2
