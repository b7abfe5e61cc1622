"""What happens to every request besides Django's own."""

from collections.abc import Callable
from zoneinfo import ZoneInfo

from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from reelwright.shop.people.selectors import workshop_or_none


def workshop_time_zone(
    get_response: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Show times in the zone of the workshop, wherever the machine believes itself to be."""

    def answer(request: HttpRequest) -> HttpResponse:
        workshop = workshop_or_none()
        if workshop is None:
            return get_response(request)
        with timezone.override(ZoneInfo(workshop.time_zone)):
            return get_response(request)

    return answer
