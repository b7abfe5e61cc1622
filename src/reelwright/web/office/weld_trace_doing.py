"""What is done with power traces on the page of a set-up: one read in, one taken back."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST

from reelwright.core.errors import InputFaults, ShopRuleBroken, UnreadableQuantity
from reelwright.core.trials.number_text import read_plain_number
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.selectors import chosen_sheet
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.welds.services import weld_trace_record, weld_trace_take_back
from reelwright.web.office.set_ups import show_set_up
from reelwright.web.widgets.access import page, person_of
from reelwright.web.widgets.posted import row_number


@page(Action.BOOK_WORK)
@require_POST
def read(request: HttpRequest, code: str) -> HttpResponse:
    """Take in the trace of one weld."""
    _, sheet = chosen_sheet(code, request.POST.get("rev", ""))
    fields = {key: request.POST.get(key, "").strip() for key in ("width", "called", "reason")}
    file = request.FILES.get("trace")
    faults: dict[str, str] = {}
    width_m = None
    if file is None:
        faults["trace"] = "Choose the file of one weld first."
    if fields["called"] not in ("good", "doubtful"):
        faults["called"] = "Say whether the weld was good or doubtful."
    if fields["width"]:
        try:
            width_m = read_plain_number(fields["width"], unit="mm") / 1e3
        except UnreadableQuantity as error:
            faults["width"] = f"This is not a {error.quantity}. Accepted: {error.accepted}."
    if faults or file is None:
        return _refused(request, sheet, faults, fields)
    try:
        found = weld_trace_record(
            by=person_of(request),
            revision_id=sheet.revision_id,
            name=str(file.name),
            content=file.read(),
            joint_width_m=width_m,
            good=fields["called"] == "good",
            reason=fields["reason"],
            on=today(workshop()),
        )
    except InputFaults as error:
        back = f"{reverse('set_up', args=[code])}?rev={sheet.letter}#traces"
        told = {"faults": error.faults, "back": back, "back_to": sheet.code}
        return render(request, "widgets/faults.html", told, status=422)
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        return _refused(request, sheet, {str(error.data.get("field", "trace")): str(error)}, fields)
    if found.new:
        messages.success(request, f"The trace {file.name} is kept.")
    else:
        messages.info(request, "This trace was read before: nothing changed.")
    return redirect(_address(sheet))


@page(Action.CORRECT)
@require_POST
def take_back(request: HttpRequest, code: str) -> HttpResponse:
    """Let a trace count no more."""
    _, sheet = chosen_sheet(code, request.POST.get("rev", ""))
    try:
        weld_trace_take_back(
            by=person_of(request),
            number=row_number(request.POST.get("number", "")),
            reason=request.POST.get("reason", ""),
            on=today(workshop()),
        )
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        return _refused(request, sheet, {"trace_back": str(error)}, {})
    messages.success(request, "The trace counts no more; it is kept with the reason.")
    return redirect(_address(sheet))


def _refused(
    request: HttpRequest, sheet: SetUpSheet, faults: dict[str, str], fields: dict[str, str]
) -> HttpResponse:
    # The page has other forms with a reason: each field of this one has a name of its own there.
    named = {key if key.startswith("trace") else f"trace_{key}": v for key, v in faults.items()}
    typed = {f"trace_{key}": value for key, value in fields.items()}
    return show_set_up(request, sheet.code, sheet.letter, faults=named, fields=typed, status=422)


def _address(sheet: SetUpSheet) -> str:
    return f"{reverse('set_up', args=[sheet.code])}?rev={sheet.letter}#traces"
