"""Instruments: how long each calibration holds, and how far a reading may be off."""

from collections.abc import Mapping

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from reelwright.core.errors import InputFaults, ShopRuleBroken, UnknownCode
from reelwright.shop.people.permissions import Action, may, require_may
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.tools.uncertainty import LONGEST_SOURCE, instruments_now
from reelwright.shop.tools.uncertainty_typed import instrument_uncertainty_typed
from reelwright.web.widgets.access import page, person_of

_FIELDS = ("instrument", "uncertainty", "source", "on")


@page()
@require_http_methods(["GET", "POST"])
def instruments_page(request: HttpRequest) -> HttpResponse:
    """Show every instrument; record the standard uncertainty of one."""
    if request.method != "POST":
        return _show(request, {}, {})
    person, day = person_of(request), today(workshop())
    require_may(person, Action.KEEP_TOOLS)
    typed = {name: request.POST.get(name, "") for name in _FIELDS}
    try:
        code, told = instrument_uncertainty_typed(by=person, fields=typed, today=day)
    except InputFaults as error:
        faults = {
            str(fault.field): f"{fault.problem}. Accepted: {fault.accepted}."
            for fault in error.faults
        }
        return _show(request, typed, faults)
    except UnknownCode as error:
        return _show(request, typed, {"instrument": str(error)})
    except ShopRuleBroken as error:
        return _show(request, typed, {str(error.data.get("field", "source")): error.sentence})
    messages.success(request, f"{code}: {told} is recorded.")
    return redirect("instruments")


def _show(
    request: HttpRequest, typed: Mapping[str, str], faults: Mapping[str, str]
) -> HttpResponse:
    rows = instruments_now(on=today(workshop()))
    late = sum(not row.holds for row in rows)
    return render(
        request,
        "office/instruments.html",
        {
            "instruments": rows,
            "late": late,
            "may_keep": may(person_of(request), Action.KEEP_TOOLS),
            "typed": typed,
            "faults": faults,
            "longest": LONGEST_SOURCE,
        },
        status=422 if faults else 200,
    )
