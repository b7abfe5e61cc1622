"""The addresses of the pages."""

from django.http import HttpRequest, HttpResponse
from django.urls import URLPattern, URLResolver, include, path


def alive(_request: HttpRequest) -> HttpResponse:
    """Say that the server answers, for the set-up and for a proxy."""
    return HttpResponse("Reelwright is here.\n", content_type="text/plain; charset=utf-8")


urlpatterns: list[URLPattern | URLResolver] = [
    path("alive", alive, name="alive"),
    path("", include("reelwright.web.widgets.urls")),
    path("", include("reelwright.web.office.urls")),
    path("", include("reelwright.web.bench.urls")),
]

handler404 = "reelwright.web.widgets.errors.not_found"
handler403 = "reelwright.web.widgets.errors.not_allowed"
handler500 = "reelwright.web.widgets.errors.broken"
