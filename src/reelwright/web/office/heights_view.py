"""Taking back one reading on a set-up's page."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.readings.services import reading_take_back
from reelwright.web.widgets.access import page, person_of
from reelwright.web.widgets.posted import row_number


@page(Action.CORRECT)
@require_POST
def take_back(request: HttpRequest, code: str) -> HttpResponse:
    """Take back one reading with its reason."""
    kind, _, typed = request.POST.get("reading", "").partition("-")
    number = row_number(typed)
    if not number:
        raise UnknownCode(kind="reading", code=typed)
    try:
        reading_take_back(
            by=person_of(request),
            kind=kind,
            number=number,
            on=today(workshop()),
            reason=request.POST.get("reason", ""),
        )
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        messages.error(request, f"{error.sentence} Nothing was changed.", extra_tags="bad")
    else:
        messages.success(request, "The reading is taken back: it stays, and no longer counts.")
    return redirect(f"{reverse('set_up', args=[code])}?rev={request.POST.get('rev', '')[:2]}")
