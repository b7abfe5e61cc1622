"""Reels: what lies in the rack, and one reel with its ledger."""

from dataclasses import dataclass
from itertools import groupby
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.show_scaled import show_time_s
from reelwright.drawings.reel import ReelView
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.reels.selectors import ReelNow, reel_ledger, reel_now, reels_now
from reelwright.shop.reels.to_core import lot_values
from reelwright.shop.work.selectors import newest_cut_plan, pieces_of_plan
from reelwright.web.widgets.access import page
from reelwright.web.widgets.bars import bar, plan_length_mm, plan_view, rack_view, rows

MOST_REELS = 120


@dataclass(frozen=True, kw_only=True)
class ReelRow:
    """One reel in the list; ``svg`` is empty where nothing is left on it."""

    reel: ReelNow
    svg: str
    planned: int


@dataclass(frozen=True, kw_only=True)
class CableGroup:
    """The reels of one cable."""

    cable: str
    length_mm: int
    rows: tuple[ReelRow, ...]


@page()
@require_GET
def reels_page(request: HttpRequest) -> HttpResponse:
    """Show the rack, by cable; empty reels only where they are asked for."""
    cable, colour = request.GET.get("cable", ""), request.GET.get("colour", "")
    with_empty = request.GET.get("empty") == "yes"
    everything = reels_now()
    found = [
        reel
        for reel in everything
        if (not cable or reel.cable_code == cable)
        and (not colour or reel.colour == colour)
        and (with_empty or reel.length_mm > 0)
    ]
    shown = sorted(found, key=lambda reel: (reel.cable_code, reel.colour, reel.code))[:MOST_REELS]
    longest_mm = max((reel.length_mm for reel in shown), default=1)
    planned = _planned()
    groups = [
        _group(code, list(members), longest_mm, planned)
        for code, members in groupby(shown, key=lambda reel: reel.cable_code)
    ]
    return render(
        request,
        "office/reels.html",
        {
            "groups": groups,
            "count": len(found),
            "length_mm": sum(max(0, reel.length_mm) for reel in found),
            "flawed": sum(1 for reel in found if reel.flaws),
            "more": len(found) - len(shown),
            "cables": sorted({reel.cable_code for reel in everything}),
            "colours": [
                (letters, COLOUR_NAMES[letters])
                for letters in sorted({reel.colour for reel in everything})
            ],
            "cable": cable,
            "colour": colour,
            "with_empty": with_empty,
            "rack_empty": not everything,
        },
    )


def _planned() -> dict[str, int]:
    """How many pieces still come off each reel by the plan of the day."""
    plan = newest_cut_plan(on=today(workshop()))
    counts: dict[str, int] = {}
    for piece in [] if plan is None else pieces_of_plan(plan.id):
        if piece.reel is not None and not piece.is_cut:
            counts[piece.reel] = counts.get(piece.reel, 0) + 1
    return counts


def _group(
    cable: str, reels: list[ReelNow], longest_mm: int, planned: dict[str, int]
) -> CableGroup:
    return CableGroup(
        cable=cable,
        length_mm=sum(max(0, reel.length_mm) for reel in reels),
        rows=tuple(
            ReelRow(
                reel=reel,
                svg=""
                if (view := rack_view(reel)) is None
                else bar(view, longest_mm=longest_mm, width_px=880),
                planned=planned.get(reel.code, 0),
            )
            for reel in reels
        ),
    )


@page()
@require_GET
def reel_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show one reel: what is left, what is planned on it, and every entry of its ledger."""
    reel = reel_now(code)
    view = rack_view(reel)
    planned = _plan_of(code)
    lot = lot_values().get(reel.lot_code)
    delay = ""
    if lot is not None and lot.delay_s_per_m is not None:
        own = lot.delay_s_per_m
        delay = f"{show_time_s(own.value)} per metre ± {own.relative_uncertainty * 100:.2f}\u202f%"
    ledger = reel_ledger(code)
    return render(
        request,
        "office/reel.html",
        {
            "reel": reel,
            "svg": "" if view is None else bar(view, longest_mm=reel.length_mm),
            "twin": () if view is None else rows(view),
            "planned": planned,
            "ledger": ledger,
            "delay": delay,
            "colour_name": COLOUR_NAMES.get(reel.colour, reel.colour),
        },
    )


def _plan_of(code: str) -> dict[str, Any] | None:
    plan = newest_cut_plan(on=today(workshop()))
    if plan is None:
        return None
    content = next((each for each in plan.content["reels"] if each["reel"] == code), None)
    if content is None:
        return None
    pieces = sorted(
        (piece for piece in pieces_of_plan(plan.id) if piece.reel == code),
        key=lambda piece: piece.sequence or 0,
    )
    view: ReelView | None = plan_view(
        content, frozenset(piece.code for piece in pieces if piece.is_cut)
    )
    return {
        "pieces": pieces,
        "left": sum(1 for piece in pieces if not piece.is_cut),
        "svg": "" if view is None else bar(view, longest_mm=plan_length_mm(content)),
        "why": content["why"],
    }
