"""The cut list of the day: which piece comes off which reel, and why."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from reelwright.shop.day.pack.cut_list import cut_sentence
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.work.selectors import (
    PieceView,
    newest_cut_plan,
    pieces_not_cut,
    pieces_of_plan,
)
from reelwright.web.widgets.access import page
from reelwright.web.widgets.bars import bar, plan_length_mm, plan_view


@dataclass(frozen=True, kw_only=True)
class ReelCuts:
    """One reel of the plan as the page shows it."""

    content: Mapping[str, Any]
    svg: str
    pieces: tuple[PieceView, ...]
    left: int


@page()
@require_GET
def cut_list_page(request: HttpRequest) -> HttpResponse:
    """Show the plan in force."""
    plan = newest_cut_plan(on=today(workshop()))
    if plan is None:
        return render(
            request, "office/cut_list.html", {"plan": None, "waiting": len(pieces_not_cut())}
        )
    reels = plan_reels(plan.content, pieces_of_plan(plan.id))
    open_standings = [each for each in plan.content["standings"] if not each["proven"]]
    return render(
        request,
        "office/cut_list.html",
        {
            "plan": plan,
            "headline": cut_sentence(plan.content),
            "proven": not open_standings,
            "standings": open_standings,
            "reels": [reel for reel in reels if reel.left],
            "finished": [reel for reel in reels if not reel.left],
            "left": sum(reel.left for reel in reels),
            "pieces": sum(len(reel.pieces) for reel in reels),
            "warnings": plan.content["warnings"],
            "unserved": _unserved(plan.content["unserved"]),
        },
    )


def _unserved(rows: list[dict[str, Any]]) -> list[tuple[int, str, int, str]]:
    """Return what no reel gives, alike pieces once: how many, of what, how long, and why."""
    counts = Counter((row["item"], row["cut_length_mm"], " ".join(row["reasons"])) for row in rows)
    return [(count, item, length, why) for (item, length, why), count in counts.items()]


def plan_reels(content: Mapping[str, Any], pieces: list[PieceView]) -> list[ReelCuts]:
    """Return the reels of a recorded plan with the pieces as they stand, in cutting order."""
    found = []
    for reel in content["reels"]:
        own = sorted(
            (piece for piece in pieces if piece.reel == reel["reel"]),
            key=lambda piece: piece.sequence or 0,
        )
        view = plan_view(reel, frozenset(piece.code for piece in own if piece.is_cut))
        found.append(
            ReelCuts(
                content=reel,
                svg="" if view is None else bar(view, longest_mm=plan_length_mm(reel)),
                pieces=tuple(own),
                left=sum(1 for piece in own if not piece.is_cut),
            )
        )
    return found
