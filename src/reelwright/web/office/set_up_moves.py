"""What is done to one revision of a set-up on its page: its state moved, photographs kept."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.photo_files import ACCEPTED, LARGEST_BYTES
from reelwright.shop.setups.photographs import (
    photograph_attach,
    photograph_file,
    photograph_take_back,
)
from reelwright.shop.setups.selectors import chosen_sheet
from reelwright.shop.setups.services import (
    revision_prove,
    revision_release,
    revision_try,
    revision_withdraw,
)
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import State
from reelwright.web.office.set_ups import show_set_up
from reelwright.web.widgets.access import page, person_of
from reelwright.web.widgets.posted import row_number

_FORWARD: dict[State, Callable[..., None]] = {
    State.ON_TRIAL: revision_try,
    State.PROVEN: revision_prove,
    State.RELEASED: revision_release,
}


@page()
@require_POST
def move(request: HttpRequest, code: str) -> HttpResponse:
    """Move a revision to its next state, or withdraw it."""
    _, sheet = chosen_sheet(code, request.POST.get("rev", ""))
    wanted, person, on = request.POST.get("to", ""), person_of(request), today(workshop())
    seen = request.POST.get("seen", "")
    try:
        if seen != sheet.state:
            raise ShopRuleBroken(
                "state_moved",
                f"{sheet.name} is {sheet.state} now, and was {seen or 'in no state'} on the page "
                "you sent this from. Look at it again.",
            )
        if wanted == State.WITHDRAWN:
            reason = request.POST.get("reason", "")
            revision_withdraw(by=person, revision_id=sheet.revision_id, on=on, reason=reason)
        elif wanted in _FORWARD:
            _FORWARD[State(wanted)](by=person, revision_id=sheet.revision_id, on=on)
        else:
            raise UnknownCode(kind="state", code=wanted, near=[str(state) for state in State])
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        if error.code == "reason_missing":
            return show_set_up(
                request, code, sheet.letter, faults={"withdraw": str(error)}, status=422
            )
        return show_set_up(request, code, sheet.letter, told=str(error), status=409)
    messages.success(request, f"{sheet.name} is {wanted} now.")
    return redirect(_address(sheet))


@page()
@require_POST
def attach(request: HttpRequest, code: str) -> HttpResponse:
    """Take in a photograph, or take one back."""
    _, sheet = chosen_sheet(code, request.POST.get("rev", ""))
    fields = {name: request.POST.get(name, "").strip() for name in ("shows", "caption")}
    try:
        if "take_back" in request.POST:
            _take_back(request)
            told = "The photograph is taken back; its file and its entry are kept."
        else:
            photograph_attach(
                by=person_of(request),
                revision_id=sheet.revision_id,
                content=_uploaded(request),
                on=today(workshop()),
                **fields,
            )
            told = "The photograph is on the sheet; place, time and device were left out of it."
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        field = "taken_back" if "take_back" in request.POST else error.data.get("field", "file")
        return show_set_up(
            request, code, sheet.letter, faults={str(field): str(error)}, fields=fields, status=422
        )
    messages.success(request, told)
    return redirect(f"{_address(sheet)}#photographs")


@page()
@require_GET
def photograph(request: HttpRequest, name: str) -> HttpResponse:
    """Send a photograph that stands on some sheet."""
    del request
    kind, content = photograph_file(name)
    return HttpResponse(
        content,
        content_type=f"image/{kind}",
        headers={
            "Content-Disposition": f'inline; filename="{name[:12]}.{name.rpartition(".")[2]}"',
            # Its name is its digest: it never changes, but who is signed out sees it no more.
            "Cache-Control": "private, no-store",
        },
    )


def _take_back(request: HttpRequest) -> None:
    number = row_number(request.POST["take_back"])
    if not number:
        raise UnknownCode(kind="photograph", code=request.POST["take_back"])
    photograph_take_back(
        by=person_of(request),
        number=number,
        reason=request.POST.get("reason", ""),
        on=today(workshop()),
    )


def _uploaded(request: HttpRequest) -> bytes:
    upload = request.FILES.get("file")
    if upload is None:
        raise ShopRuleBroken(
            "photograph_missing", f"Choose a file. Accepted: {ACCEPTED}.", field="file"
        )
    # One byte more than is allowed is enough to know.
    content: bytes = upload.read(LARGEST_BYTES + 1)
    return content


def _address(sheet: SetUpSheet) -> str:
    return f"{reverse('set_up', args=[sheet.code])}?rev={sheet.letter}"
