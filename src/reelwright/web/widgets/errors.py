"""Every "no" and every fault as a page in plain words, in the frame of all pages."""

from collections.abc import Callable, Iterable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from reelwright.core.errors import (
    Fault,
    InputFaults,
    ReelwrightError,
    ShopRuleBroken,
    UnknownCode,
    UnreadableQuantity,
)
from reelwright.core.quantities.words import sentence


def told(
    request: HttpRequest, *, status: int, headline: str, words: str, near: tuple[str, ...] = ()
) -> HttpResponse:
    """Return a page that says one thing."""
    return render(
        request,
        "widgets/told.html",
        {"headline": headline, "words": words, "near": near},
        status=status,
    )


def faults_by_field(faults: Iterable[Fault]) -> dict[str, str]:
    """Return, for each field of a form, what is wrong with it and what would be accepted."""
    words: dict[str, str] = {}
    for fault in faults:
        for field in (fault.field or "").split(", "):
            told = f"{sentence(fault.problem)} Accepted: {fault.accepted}"
            words[field] = f"{words[field]} {told}" if field in words else told
    return words


class TellErrors:
    """Turns the errors that Reelwright raises on purpose into pages."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass the request on."""
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """Return the page of an error of ours, None for any other."""
        if isinstance(error, InputFaults):
            return render(request, "widgets/faults.html", {"faults": error.faults}, status=422)
        if not isinstance(error, ReelwrightError):
            return None
        near: tuple[str, ...] = ()
        match error:
            case ShopRuleBroken(code="not_allowed"):
                status, headline = 403, "This is not yours to do"
                words = f"{error.sentence} Nothing was changed. Ask the lead, who may."
            case ShopRuleBroken():
                status, headline = 409, "Not done"
                words = f"{error.sentence} Nothing was changed."
            case UnknownCode():
                status, headline = 404, "Not in the records"
                words, near = f"There is no {error.kind} {error.code}.", error.near
            case UnreadableQuantity():
                status, headline = 422, "That could not be read"
                words = f"“{error.typed}” is not a {error.quantity}. Accepted: {error.accepted}."
            case _:
                return None
        return told(request, status=status, headline=headline, words=words, near=near)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Return the page for an address that leads nowhere."""
    del exception
    return told(
        request,
        status=404,
        headline="There is no such page",
        words="The address leads nowhere. Scan or type what you look for into the search box.",
    )


def not_allowed(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Return the page for what is refused without a reason of ours."""
    del exception
    return told(
        request,
        status=403,
        headline="This is not yours to do",
        words="Nothing was changed. Ask the lead, who may.",
    )


def stale_form(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Return the page for a form without its token: a tab left open over a sign-out, mostly."""
    del reason
    return told(
        request,
        status=403,
        headline="That form had grown old",
        words="Somebody signed out or in since it was opened. Nothing was changed; open the page "
        "again and send it once more.",
    )


def broken(request: HttpRequest) -> HttpResponse:
    """Return the page for a fault of ours; it asks the database nothing, which may be the fault."""
    del request
    return HttpResponse(_BROKEN, status=500)


_BROKEN = """<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>A fault of ours</title>
<link rel="icon" href="/static/widgets/reel.svg" type="image/svg+xml">
<link rel="stylesheet" href="/static/widgets/tokens.css">
<link rel="stylesheet" href="/static/widgets/type.css">
<link rel="stylesheet" href="/static/widgets/frame.css"></head>
<body><main class="page"><p class="what">Reelwright</p><h1>A fault of ours</h1>
<p class="sure">Something broke while this page was made. What was half done was undone; the
records stand as before. Try once more; if it breaks again, tell whoever keeps this machine: its
terminal says what happened.</p><p><a href="/">Back to today</a></p></main></body></html>
"""
