"""The cuts by reel: drawing, order of cuts, what stays and what to do with it."""

from collections.abc import Mapping
from typing import Any

from reelwright.core.cutting.plan import SegmentKind
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.show import show_feet_inches
from reelwright.documents.cut_list import CutList, CutReel, CutRow
from reelwright.drawings.reel import ReelCut, ReelFlaw, ReelGap, ReelView, draw_reel
from reelwright.shop.day.cut_content import total_of
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.words import SPACE, counted, metres
from reelwright.shop.work.selectors import PieceView, pieces_of_plan


def cut_list_paper(data: PackData) -> CutList | None:
    """Return the paper, or None where nothing is to be cut."""
    plan = data.cut_plan
    if plan is None:
        return None
    pieces = _pieces(data)
    reels = data.cut_reels
    standings = [each["sentence"] for each in plan.content["standings"] if not each["proven"]]
    proven = "Proven: no plan does better." if not standings else " ".join(standings)
    return CutList(
        mark=data.mark("CUT"),
        sentence=cut_sentence(plan.content),
        lead=(
            f"{proven} Every stretch holds its cuts with at least 98{SPACE}% certainty. Cut in "
            "the order given: the free end first."
        ),
        warnings=tuple(plan.content["warnings"]),
        reels=tuple(_reel(reel, pieces) for reel in reels),
    )


def cut_sentence(content: Mapping[str, Any]) -> str:
    """Return the totals of a recorded plan in one sentence."""
    cut = total_of(content, [SegmentKind.CUT])
    lost = sum(reel["scrap_mm"] for reel in content["reels"])
    count = sum(1 for reel in content["reels"] for part in reel["segments"] if part["piece"])
    share = 100 * lost / (cut + lost) if cut + lost else 0.0
    return (
        f"{counted(len(content['reels']), 'reel')}, {counted(count, 'piece')}, "
        f"{share:.1f}{SPACE}% lost"
    )


def _pieces(data: PackData) -> dict[str, PieceView]:
    assert data.cut_plan is not None
    return {piece.code: piece for piece in pieces_of_plan(data.cut_plan.id)}


def reel_view(reel: Mapping[str, Any], done: frozenset[str] = frozenset()) -> ReelView:
    """Return a recorded reel as it is drawn; ``done`` are codes of pieces cut already."""
    items: list[ReelCut | ReelFlaw | ReelGap] = []
    remnant_mm = 0
    segments = reel["segments"]
    last_cut = max((i for i, part in enumerate(segments) if part["piece"]), default=-1)
    for place, part in enumerate(segments):
        length = part["end_mm"] - part["start_mm"]
        kind = SegmentKind(part["kind"])
        if kind is SegmentKind.CUT:
            items.append(ReelCut(name=part["piece"], length_mm=length, done=part["piece"] in done))
        elif place > last_cut:
            # What lies behind the last cut stays as it is, flaws and all.
            remnant_mm += length
        elif kind is SegmentKind.FLAW:
            items.append(ReelFlaw(length_mm=length, name="flaw"))
        else:
            kept = kind is SegmentKind.KEPT_LOOSE
            note = "keep, loose" if kept else "scrap"
            items.append(ReelGap(length_mm=length, note=note, keep=kept))
    kept = not segments or segments[-1]["kind"] != str(SegmentKind.SCRAP)
    return ReelView(
        reel=reel["reel"],
        title=_title(reel),
        jacket=reel["colour"],
        items=tuple(items),
        remnant_mm=remnant_mm,
        remnant_note=("back to the rack" if kept else "too short to keep") if remnant_mm else "",
        standard_uncertainty_mm=reel["standard_uncertainty_mm"],
        remnant_kept=kept,
    )


def _title(reel: Mapping[str, Any]) -> str:
    place = f" · {reel['location']}" if reel["location"] else ""
    colour = COLOUR_NAMES.get(reel["colour"], reel["colour"])
    return f"{reel['reel']} · {reel['cable']} {colour} · lot {reel['lot']}{place}"


def _reel(reel: Mapping[str, Any], pieces: Mapping[str, PieceView]) -> CutReel:
    cuts = [part for part in reel["segments"] if part["piece"]]
    view = reel_view(reel)
    return CutReel(
        reel=reel["reel"],
        location=reel["location"],
        lot=reel["lot"],
        cable=reel["cable"],
        colour=COLOUR_NAMES.get(reel["colour"], reel["colour"]),
        colour_letters=reel["colour"],
        remaining=(
            f"{metres(reel['length_mm'], digits=2)} ± "
            f"{metres(round(reel['standard_uncertainty_mm']), digits=2)}"
        ),
        reel_svg=draw_reel(view),
        cuts=tuple(_row(number, part, pieces) for number, part in enumerate(cuts, start=1)),
        flaws=tuple(
            f"flaw from {metres(part['start_mm'], digits=2)} to "
            f"{metres(part['end_mm'], digits=2)}: skip it"
            for part in reel["segments"]
            if part["kind"] == str(SegmentKind.FLAW)
        ),
        remnant=_remnant(reel),
        remnant_action=_action(reel),
        why=" ".join(reel["why"]),
    )


def _row(number: int, part: Mapping[str, Any], pieces: Mapping[str, PieceView]) -> CutRow:
    piece = pieces[part["piece"]]
    return CutRow(
        sequence=number,
        piece=piece.code,
        cut_length=metres(piece.cut_length_mm),
        cut_feet=show_feet_inches(piece.cut_length_mm / 1000),
        wheel_setting=metres(piece.wheel_setting_mm),
    )


def _remnant(reel: Mapping[str, Any]) -> str:
    left = reel["left_on_reel_mm"]
    return f"{metres(left, digits=2)} stays" if left else "nothing stays"


def _action(reel: Mapping[str, Any]) -> str:
    loose = [part for part in reel["segments"] if part["kind"] == str(SegmentKind.KEPT_LOOSE)]
    told = [
        f"coil {metres(part['end_mm'] - part['start_mm'], digits=2)} as a loose remnant, tag it "
        f"with lot {reel['lot']}"
        for part in loose
    ]
    if reel["left_on_reel_mm"]:
        place = f" to {reel['location']}" if reel["location"] else ""
        told.append(f"reel back{place}")
    else:
        told.append("take the empty reel off the stand")
    return "; ".join(told)
