"""A cut plan as it is recorded: plain lists and dicts, of which list, page and drawing are made."""

from collections.abc import Iterable, Mapping
from typing import Any

from reelwright.core.cutting.plan import CutPlan, ReelCuts, SegmentKind, Unserved
from reelwright.shop.day.cuts_planned import Cutting
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.work.services import CutWish


def cut_wishes(plan: CutPlan, codes: Mapping[str, str]) -> list[CutWish]:
    """Return the planned cuts; ``codes``: piece codes by the plan's names for them."""
    return [
        CutWish(
            piece_code=codes.get(cut.piece_id or "", cut.piece_id or ""),
            reel_code=reel.reel_id,
            sequence=sequence,
            start_mm=cut.start_mm,
        )
        for reel in plan.reels
        for sequence, cut in enumerate(reel.cuts, start=1)
    ]


def cut_plan_content(*, cutting: Cutting, codes: Mapping[str, str], shelf: Shelf) -> dict[str, Any]:
    """Return the plan in full."""
    plan = cutting.plan
    why = {place.piece_id: [reason.sentence for reason in place.why] for place in plan.placements}
    reels = {reel.code: reel for reel in shelf.reels}
    return {
        "reels": [
            {
                "reel": cuts.reel_id,
                "item": cuts.item,
                "cable": reels[cuts.reel_id].cable_code,
                "colour": reels[cuts.reel_id].colour,
                "lot": cuts.lot,
                "location": cuts.location or "",
                "length_mm": reels[cuts.reel_id].length_mm,
                "standard_uncertainty_mm": reels[cuts.reel_id].standard_uncertainty_mm,
                "chance_of_enough": cuts.chance_of_enough,
                "left_on_reel_mm": cuts.left_on_reel_mm,
                "scrap_mm": cuts.scrap_mm,
                "segments": _segments(cuts, codes),
                "why": _why(cuts, why),
            }
            for cuts in plan.reels
        ],
        "unserved": [_unserved(each, codes) for each in cutting.unserved],
        "given_up": [
            _unserved(each, codes) for missing in cutting.given_up.values() for each in missing
        ],
        "warnings": [_named(reason.sentence, codes) for reason in plan.warnings],
        "standings": [
            {"item": each.item, "sentence": each.sentence, "proven": each.proven_best}
            for each in plan.standings
        ],
    }


def _unserved(each: Unserved, codes: Mapping[str, str]) -> dict[str, Any]:
    """One piece that no reel gives; ``line``: what the plan calls the line it is for."""
    return {
        "piece": codes.get(each.piece_id, ""),
        "line": each.piece_id.rpartition(" #")[0],
        "item": each.item,
        "cut_length_mm": each.cut_length_mm,
        "reasons": [reason.sentence for reason in each.reasons],
        "would_serve": each.would_serve,
    }


def _segments(cuts: ReelCuts, codes: Mapping[str, str]) -> list[dict[str, Any]]:
    return [
        {
            "kind": str(part.kind),
            "start_mm": part.start_mm,
            "end_mm": part.end_mm,
            "piece": codes.get(part.piece_id, part.piece_id) if part.piece_id else "",
        }
        for part in cuts.segments
    ]


def _why(cuts: ReelCuts, why: Mapping[str, list[str]]) -> list[str]:
    """The reasons of all pieces of a reel, each said once."""
    told: dict[str, None] = {}
    for cut in cuts.cuts:
        for sentence in why.get(cut.piece_id or "", []):
            told[sentence] = None
    return list(told)


def _named(sentence: str, codes: Mapping[str, str]) -> str:
    """The engine names pieces as the plan calls them; people know their codes."""
    for name in sorted(codes, key=len, reverse=True):
        sentence = sentence.replace(name, codes[name])
    return sentence


def total_of(content: Mapping[str, Any], kinds: Iterable[SegmentKind]) -> int:
    """Return the millimetres of a recorded plan that became one of these kinds."""
    wanted = {str(kind) for kind in kinds}
    return sum(
        part["end_mm"] - part["start_mm"]
        for reel in content["reels"]
        for part in reel["segments"]
        if part["kind"] in wanted
    )
