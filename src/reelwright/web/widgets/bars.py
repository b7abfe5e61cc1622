"""Reels as bars: as they lie in the rack, and as a plan cuts them, shrinking cut by cut."""

import dataclasses
from collections.abc import Mapping
from typing import Any

from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.drawings.reel import (
    ReelCut,
    ReelFlaw,
    ReelGap,
    ReelView,
    draw_reel,
    reel_table,
)
from reelwright.shop.day.pack.cut_list import reel_view
from reelwright.shop.reels.selectors import ReelNow

Rows = tuple[tuple[str, str, str], ...]


def rack_view(reel: ReelNow) -> ReelView | None:
    """Return a reel as it lies in the rack, or None where nothing is left on it."""
    if reel.length_mm <= 0:
        return None
    items: list[ReelCut | ReelFlaw | ReelGap] = []
    at_mm = 0
    for flaw in reel.flaws:
        start_mm = max(flaw.start_mm, at_mm)
        if start_mm > at_mm:
            items.append(ReelGap(length_mm=start_mm - at_mm, note=""))
        if flaw.end_mm > start_mm:
            items.append(ReelFlaw(length_mm=flaw.end_mm - start_mm, name=flaw.note or "flaw"))
        at_mm = max(at_mm, flaw.end_mm)
    return ReelView(
        reel=reel.code,
        title=reel_title(reel),
        jacket=reel.colour,
        items=tuple(items),
        remnant_mm=max(0, reel.length_mm - at_mm),
        remnant_note="",
        standard_uncertainty_mm=reel.standard_uncertainty_mm,
        in_rack=True,
    )


def reel_title(reel: ReelNow) -> str:
    """Return what a reel is called in full."""
    place = f" · {reel.location}" if reel.location else ""
    colour = COLOUR_NAMES.get(reel.colour, reel.colour)
    return f"{reel.code} · {reel.cable_code} {colour} · lot {reel.lot_code}{place}"


def plan_view(reel: Mapping[str, Any], done: frozenset[str]) -> ReelView | None:
    """Return a planned reel without what is cut off already; None where nothing is left."""
    whole = reel_view(reel, done)
    last = max(
        (i for i, item in enumerate(whole.items) if isinstance(item, ReelCut) and item.done),
        default=-1,
    )
    left = tuple(
        # The pieces are listed under the bar by their place on the reel, so that is their number.
        dataclasses.replace(item, short="") if isinstance(item, ReelCut) else item
        for item in whole.items[last + 1 :]
    )
    if not left and whole.remnant_mm == 0:
        return None
    return dataclasses.replace(whole, items=left)


def plan_length_mm(reel: Mapping[str, Any]) -> int:
    """Return the length that a planned reel had when the plan was made: the scale of its bar."""
    return max((int(part["end_mm"]) for part in reel["segments"]), default=0)


def bar(view: ReelView, *, longest_mm: int, width_px: float = 1120.0) -> str:
    """Return the bar as SVG, on the scale of ``longest_mm``."""
    # The pages list the pieces under the bar, numbered alike.
    return draw_reel(view, width_px=width_px, longest_mm=longest_mm, key=False)


def rows(view: ReelView) -> Rows:
    """Return the bar's table twin."""
    return reel_table(view)
