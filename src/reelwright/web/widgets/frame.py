"""What the strip on top of every page shows."""

from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest
from django.urls import reverse

from reelwright.shop.people.permissions import Action, may
from reelwright.shop.people.selectors import today, workshop_or_none

# Page, the name of its address, and the addresses that belong under it.
_PAGES = (
    ("Today", "today", ("today", "line", "search")),
    ("Ask", "ask", ("ask",)),
    ("Cables", "cables", ("cables", "cable")),
    ("Reels", "reels", ("reels", "reel", "lot")),
    ("Cut list", "cut_list", ("cut_list", "cut", "flaw", "count")),
    (
        "Set-ups",
        "set_ups",
        (
            *("set_ups", "set_up", "strip", "grid", "pair", "bench", "bench_files"),
            *("windows", "window_new", "window", "window_stands", "window_plot", "window_designs"),
            *("set_up_draft", "set_up_open"),
            *("dies", "cavity_enter", "cavity", "cavity_gauge", "cavity_move", "cavity_take_back"),
            *("press_enter", "press", "instruments"),
        ),
    ),
)


@dataclass(frozen=True, kw_only=True)
class PageLink:
    """One page in the strip."""

    name: str
    url: str
    current: bool


def frame(request: HttpRequest) -> dict[str, Any]:
    """Give every template the workshop, its day, the pages, and what the person may do."""
    workshop = workshop_or_none()
    user = getattr(request, "user", None)
    signed_in = user is not None and user.is_authenticated
    match = request.resolver_match
    here = match.url_name if match is not None else ""
    pages = [
        PageLink(name=name, url=reverse(address), current=here in under)
        for name, address, under in _PAGES
    ]
    return {
        "workshop": workshop,
        "day": None if workshop is None else today(workshop),
        "pages": pages if signed_in else [],
        "here_name": next((page.name for page in pages if page.current), "Pages"),
        "may": _permissions(user) if signed_in else {},
    }


def _permissions(person: Any) -> dict[str, bool]:
    """The actions by name, for templates: a button that may not be pressed is not shown."""
    return {action.name.lower(): may(person, action) for action in Action}
