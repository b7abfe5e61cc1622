"""The cuts by reel: drawing, order of cuts, what stays and what to do with it."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from reelwright.core.cutting.plan import SegmentKind
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import show_feet_inches, show_metres
from reelwright.core.quantities.words import counted, listed
from reelwright.documents.cut_list import CutList, CutReel, CutRow
from reelwright.drawings.reel import ReelCut, ReelFlaw, ReelGap, ReelView, draw_reel
from reelwright.shop.day.cut_content import total_of
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.work.selectors import PieceView, pieces_of_plan

# Wide enough for the bar, narrow enough that its text prints 3 mm high on 170 mm.
_DRAWING_PX = 800.0


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
            f"{proven} Every stretch holds its cuts with at least 98{NARROW_SPACE}% certainty. "
            "Reels stand in the order in which the benches need them; cut each from its free end."
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
        f"{share:.1f}{NARROW_SPACE}% lost"
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
            items.append(
                ReelCut(
                    name=part["piece"],
                    length_mm=length,
                    done=part["piece"] in done,
                    short=part["piece"].rpartition("-")[2],
                )
            )
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
    view = reel_view(reel)
    return CutReel(
        reel=reel["reel"],
        location=reel["location"],
        lot=reel["lot"],
        cable=reel["cable"],
        colour=COLOUR_NAMES.get(reel["colour"], reel["colour"]),
        colour_letters=reel["colour"],
        remaining=(
            f"{show_metres(reel['length_mm'], decimals=2)} ± "
            f"{show_metres(round(reel['standard_uncertainty_mm']), decimals=2)}"
        ),
        reel_svg=draw_reel(view, width_px=_DRAWING_PX, key=False),
        cuts=_rows(reel, pieces),
        flaws=tuple(
            f"from {show_metres(part['start_mm'], decimals=2)} to "
            f"{show_metres(part['end_mm'], decimals=2)}: skip it"
            for part in reel["segments"]
            if part["kind"] == str(SegmentKind.FLAW)
        ),
        remnant=_remnant(reel),
        remnant_action=_action(reel),
        why=_why(reel),
    )


def _rows(reel: Mapping[str, Any], pieces: Mapping[str, PieceView]) -> tuple[CutRow, ...]:
    """The cuts in order; those of one line and one length that follow each other share a row."""
    rows: list[CutRow] = []
    alike: list[PieceView] = []
    between: list[str] = []
    count = 0

    def close() -> None:
        nonlocal count
        if alike:
            rows.append(_row(count + 1, _came_off(between), alike))
            count += len(alike)
            alike.clear()
            between.clear()

    for part in reel["segments"]:
        if not part["piece"]:
            close()
            between.append(_skipped(part, reel["lot"]))
            continue
        piece = pieces[part["piece"]]
        if alike and _alike(piece) != _alike(alike[0]):
            close()
        alike.append(piece)
    close()
    return tuple(rows)


def _alike(piece: PieceView) -> tuple[str, int, int]:
    return (_order(piece), piece.cut_length_mm, piece.wheel_setting_mm)


def _skipped(part: Mapping[str, Any], lot: str) -> str:
    """What is done with a stretch that lies in front of a piece."""
    length = show_metres(part["end_mm"] - part["start_mm"], decimals=2)
    match SegmentKind(part["kind"]):
        case SegmentKind.FLAW:
            return f"cut out {length} with the flaw"
        case SegmentKind.SCRAP:
            return f"scrap {length}"
        case _:
            return f"coil {length} as a loose remnant, tagged with lot {lot}"


def _came_off(between: Sequence[str]) -> str:
    return f"Now {listed(between)}." if between else ""


def _order(piece: PieceView) -> str:
    """What the codes of a line's pieces begin with."""
    return piece.code.rpartition("-")[0]


def _row(first: int, before: str, alike: Sequence[PieceView]) -> CutRow:
    piece = alike[0]
    one = len(alike) == 1
    numbers = tuple(each.code.rpartition("-")[2] for each in alike)
    return CutRow(
        before=before,
        first=first,
        pieces=piece.code if one else f"{_order(piece)}-{_span(numbers)}",
        ticks=("",) if one else numbers,
        cut_length=show_metres(piece.cut_length_mm),
        cut_feet=show_feet_inches(piece.cut_length_mm / 1000),
        wheel_setting=show_metres(piece.wheel_setting_mm),
    )


def _span(numbers: Sequence[str]) -> str:
    """ "1 to 14" where none is left out, else "…": the ticks name each."""
    first, last = numbers[0], numbers[-1]
    running = [str(n) for n in range(int(first), int(first) + len(numbers))]
    return f"{first} to {last}" if list(numbers) == running else "…"


_ONLY_REEL = re.compile(r"^\S+ is the only reel of .+ that can give [\d.,]+\s?m\.$")


def _why(reel: Mapping[str, Any]) -> str:
    """The reasons of a reel's pieces; that no other reel can give them is said once for all."""
    reasons = list(reel["why"])
    only = [each for each in reasons if _ONLY_REEL.match(each)]
    if len(only) > 1:
        lengths = listed(each.rpartition("can give ")[2].rstrip(".") for each in only)
        told = f"{only[0].rpartition('can give ')[0]}can give {lengths}."
        reasons = [each for each in reasons if each not in only]
        reasons.append(told)
    return " ".join(reasons)


def _remnant(reel: Mapping[str, Any]) -> str:
    left = reel["left_on_reel_mm"]
    return f"{show_metres(left, decimals=2)}" if left else "nothing"


def _action(reel: Mapping[str, Any]) -> str:
    loose = [part for part in reel["segments"] if part["kind"] == str(SegmentKind.KEPT_LOOSE)]
    told = [
        f"coil {show_metres(part['end_mm'] - part['start_mm'], decimals=2)} as a loose remnant, "
        f"tag it with lot {reel['lot']}"
        for part in loose
    ]
    if reel["left_on_reel_mm"]:
        place = f" to {reel['location']}" if reel["location"] else ""
        told.append(f"reel back{place}")
    else:
        told.append("take the empty reel off the stand")
    return "; ".join(told)
