"""Cutting one reel: the next piece, the wheel, one action, and taking back."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from reelwright.core.cutting.plan import SegmentKind
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.core.quantities.show import show_length_m
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.reels.selectors import ReelNow, reel_now
from reelwright.shop.work.cutting import cut_confirm, cut_take_back
from reelwright.shop.work.selectors import PieceView, newest_cut_plan, pieces_of_plan
from reelwright.web.widgets.access import is_part, page, person_of
from reelwright.web.widgets.bars import bar, plan_length_mm, plan_view


@dataclass(frozen=True, kw_only=True)
class Bench:
    """What the bench shows of one reel. ``first``: what to cut away before the next piece."""

    reel: ReelNow
    pieces: tuple[PieceView, ...]
    svg: str
    first: str
    next_reel: str | None

    @property
    def next(self) -> PieceView | None:
        """The piece to cut now; None when all are cut."""
        return next((piece for piece in self.pieces if not piece.is_cut), None)

    @property
    def last(self) -> PieceView | None:
        """The piece that was cut last, which may still be taken back."""
        return next((piece for piece in reversed(self.pieces) if piece.is_cut), None)

    @property
    def after(self) -> PieceView | None:
        """The piece that follows the next one."""
        left = [piece for piece in self.pieces if not piece.is_cut]
        return left[1] if len(left) > 1 else None

    @property
    def place(self) -> int:
        """Which piece of the reel the next one is, counted from 1."""
        return min(sum(piece.is_cut for piece in self.pieces) + 1, len(self.pieces))


@page(Action.BOOK_WORK)
@require_GET
def cut_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show what to cut next off a reel."""
    return render(request, "bench/cut.html", {"bench": bench_of(code, today(workshop()))})


@page(Action.BOOK_WORK)
@require_POST
def confirm(request: HttpRequest, code: str) -> HttpResponse:
    """Book the piece that was scanned; without a scan the one the page named."""
    scanned = request.POST.get("scan", "").strip() or request.POST.get("expected", "").strip()
    day = today(workshop())
    try:
        if not scanned:
            raise ShopRuleBroken("nothing_scanned", "Nothing was scanned.")
        done = cut_confirm(by=person_of(request), code=scanned, reel_code=code, on=day).piece.code
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        return _again(request, code, day, refused=error.sentence, other=error.data.get("planned"))
    except UnknownCode:
        return _again(request, code, day, refused=f"No piece is called {scanned}. Scan it again.")
    return _again(request, code, day, done=f"{done} is booked as cut.")


@page(Action.BOOK_WORK)
@require_POST
def take_back(request: HttpRequest, code: str) -> HttpResponse:
    """Take back the last cut of this reel."""
    piece, day = request.POST.get("piece", "").strip(), today(workshop())
    try:
        cut_take_back(by=person_of(request), code=piece, on=day, reason="taken back at the bench")
    except ShopRuleBroken as error:
        return _again(request, code, day, refused=error.sentence)
    return _again(request, code, day, done=f"{piece} is taken back: it is still to be cut.")


def _again(
    request: HttpRequest,
    code: str,
    day: dt.date,
    *,
    refused: str = "",
    done: str = "",
    other: str | None = None,
) -> HttpResponse:
    """Show the bench with what happened; a page without script is sent on, so that it reloads."""
    if not is_part(request) and not refused:
        return redirect("cut", code)
    context = {"bench": bench_of(code, day), "refused": refused, "done": done, "other": other}
    if is_part(request):
        return render(request, "bench/cut_part.html", context)
    return render(request, "bench/cut.html", context, status=409)


def bench_of(code: str, day: dt.date) -> Bench:
    """Return what the bench shows of a reel. Raises UnknownCode."""
    reel = reel_now(code)
    plan = newest_cut_plan(on=day)
    content = None
    pieces: list[PieceView] = []
    next_reel = None
    if plan is not None:
        content = next((each for each in plan.content["reels"] if each["reel"] == code), None)
        planned = pieces_of_plan(plan.id)
        pieces = sorted(
            (piece for piece in planned if piece.reel == code),
            key=lambda piece: piece.sequence or 0,
        )
        open_reels = {piece.reel for piece in planned if not piece.is_cut}
        next_reel = next(
            (
                each["reel"]
                for each in plan.content["reels"]
                if each["reel"] in open_reels and each["reel"] != code
            ),
            None,
        )
    if content is None:
        return Bench(reel=reel, pieces=(), svg="", first="", next_reel=next_reel)
    done = frozenset(piece.code for piece in pieces if piece.is_cut)
    view = plan_view(content, done)
    return Bench(
        reel=reel,
        pieces=tuple(pieces),
        svg="" if view is None else bar(view, longest_mm=plan_length_mm(content), width_px=960),
        first=_cut_away_first(content, done),
        next_reel=next_reel,
    )


def _cut_away_first(reel: Mapping[str, Any], done: frozenset[str]) -> str:
    """What lies in front of the next piece, to be cut away before it is measured."""
    gone: list[Mapping[str, Any]] = []
    for part in reel["segments"]:
        if part["piece"] and part["piece"] not in done:
            break
        gone = [] if part["piece"] else [*gone, part]
    else:
        return ""
    if not gone:
        return ""
    length_mm = gone[-1]["end_mm"] - gone[0]["start_mm"]
    told = f"Before it, cut away {show_length_m(length_mm / 1000, decimals=2)}"
    if any(part["kind"] == str(SegmentKind.FLAW) for part in gone):
        told += ", the flaw in it"
    loose = [part for part in gone if part["kind"] == str(SegmentKind.KEPT_LOOSE)]
    if loose:
        kept = show_length_m((loose[0]["end_mm"] - loose[0]["start_mm"]) / 1000, decimals=2)
        told += f"; coil the first {kept} and tag it as a loose remnant"
    return f"{told}."
