"""A cut plan as one sheet: every reel as a bar, all on one scale, what stays and why below."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from reelwright.core.cutting.plan import CutPlan, ReelCuts, SegmentKind
from reelwright.core.cutting.problem import CutProblem, ItemRules
from reelwright.core.parts.colour import colours_in
from reelwright.core.quantities.show import show_chance, show_metres, show_percent
from reelwright.core.quantities.words import counted
from reelwright.drawings.canvas import Canvas, number
from reelwright.drawings.reel import ReelCut, ReelFlaw, ReelGap, ReelView, draw_reel
from reelwright.style import GRAPHITE, SEMIBOLD, SHEET

_WIDTH_PX = 1120.0
_MARGIN_PX = 24.0
_TITLE_PX = 17.0
_TEXT_PX = 14.0
_HEAD_PX = 74.0
_ABOVE_BAR_PX = 30.0
_BELOW_BAR_PX = 20.0
_NO_COLOUR = "GY"


@dataclass(frozen=True, kw_only=True)
class _Drawn:
    title: str
    bar: str
    height: float


def remnant_use(length_mm: int, rules: ItemRules) -> str:
    """Return what a clean length (mm) that is kept is good for, empty where nothing is known."""
    if not rules.remnant_uses or length_mm < rules.smallest_remnant_mm:
        return ""
    permille = rules.worth_permille(length_mm)
    return f"used again with {show_chance(permille / 1000)}" if permille else "hardly of use"


def reel_cuts_view(cuts: ReelCuts, *, rules: ItemRules, uncertainty_mm: float) -> ReelView:
    """Return a planned reel as it is drawn; ``uncertainty_mm`` (mm) is that of its length.

    The jacket's colour is read out of the item's name; where none stands there it is grey.
    """
    items: list[ReelCut | ReelFlaw | ReelGap] = []
    remnant_mm = 0
    for at, part in enumerate(cuts.segments):
        if part.kind is SegmentKind.CUT:
            items.append(ReelCut(name=str(part.piece_id), length_mm=part.length_mm))
        elif part.kind is SegmentKind.FLAW:
            items.append(ReelFlaw(length_mm=part.length_mm, name="flaw"))
        elif at < len(cuts.segments) - 1:
            keep = part.kind is not SegmentKind.SCRAP
            loose = part.kind is SegmentKind.KEPT_LOOSE
            note = "loose" if loose else "on the reel" if keep else ""
            items.append(ReelGap(length_mm=part.length_mm, note=note, keep=keep))
        else:
            remnant_mm = part.length_mm
    kept = cuts.segments[-1].kind is not SegmentKind.SCRAP
    use = remnant_use(remnant_mm, rules)
    length = show_metres(remnant_mm, decimals=2)
    told = f"{length} stays on the reel" if kept else f"{length} scrap, too short to keep"
    note = ", ".join(part for part in (told, use) if part)
    return ReelView(
        reel=cuts.reel_id,
        title=reel_title(cuts),
        jacket=(*colours_in(cuts.item), _NO_COLOUR)[0],
        items=tuple(items),
        remnant_mm=remnant_mm,
        remnant_note=note if remnant_mm else "",
        standard_uncertainty_mm=uncertainty_mm,
        remnant_kept=kept,
    )


def reel_title(cuts: ReelCuts) -> str:
    """Return what a reel is called in full."""
    place = f" · {cuts.location}" if cuts.location else ""
    return f"{cuts.reel_id} · {cuts.item} · lot {cuts.lot}{place}"


def draw_cut_plan(problem: CutProblem, plan: CutPlan) -> str:
    """Return all reels that are cut into as one SVG, in the plan's order and on one scale."""
    stock = {reel.id: reel for reel in problem.reels}
    longest_mm = max((cuts.segments[-1].end_mm for cuts in plan.reels), default=0)
    drawn = [
        _drawn(
            cuts,
            reel_cuts_view(
                cuts,
                rules=problem.rules_of(cuts.item),
                uncertainty_mm=max(
                    stretch.standard_uncertainty_mm for stretch in stock[cuts.reel_id].stretches
                ),
            ),
            longest_mm=longest_mm,
        )
        for cuts in plan.reels
    ]
    return _sheet(_head(problem, plan), drawn, plan)


def _drawn(cuts: ReelCuts, view: ReelView, *, longest_mm: int) -> _Drawn:
    bar = draw_reel(view, width_px=_WIDTH_PX - 2 * _MARGIN_PX, longest_mm=longest_mm)
    told = (
        f"{view.title}: {counted(len(cuts.cuts), 'piece')}, "
        f"enough with {show_chance(cuts.chance_of_enough)}"
    )
    for loose in cuts.loose_remnants:
        told += f"; {show_metres(loose.length_mm, decimals=2)} kept loose"
    return _Drawn(title=told, bar=bar, height=float(bar.split('height="', 1)[1].split('"', 1)[0]))


def _head(problem: CutProblem, plan: CutPlan) -> str:
    lost_mm = sum(cuts.scrap_mm for cuts in plan.reels)
    cut_mm = sum(part.length_mm for cuts in plan.reels for part in cuts.cuts)
    lost = show_percent(lost_mm / (lost_mm + cut_mm)) if cut_mm else show_percent(0.0)
    return (
        f"{len(plan.placements)} of {counted(len(problem.pieces), 'piece')} from "
        f"{counted(len(plan.reels), 'reel')}; {show_metres(lost_mm, decimals=2)} scrap ({lost})"
    )


def _sheet(head: str, drawn: Sequence[_Drawn], plan: CutPlan) -> str:
    canvas = Canvas(title="Cut plan", description=f"{head}.", unit="")
    height = _HEAD_PX + sum(_ABOVE_BAR_PX + one.height + _BELOW_BAR_PX for one in drawn)
    # A sheet that is opened by itself may lie on any ground.
    canvas.rect(x=0, y=0, width=_WIDTH_PX, height=height, fill=SHEET)
    canvas.text(head, x=_MARGIN_PX, y=34, size=_TITLE_PX, weight=SEMIBOLD)
    canvas.text(_below_head(plan), x=_MARGIN_PX, y=56, size=_TEXT_PX, fill=GRAPHITE)
    nested: list[str] = []
    y = _HEAD_PX
    for one in drawn:
        canvas.text(one.title, x=_MARGIN_PX, y=y + 18, size=_TEXT_PX, weight=SEMIBOLD)
        nested.append(_placed(one.bar, x=_MARGIN_PX, y=y + _ABOVE_BAR_PX))
        y += _ABOVE_BAR_PX + one.height + _BELOW_BAR_PX
    sheet = canvas.svg(width=_WIDTH_PX, height=height)
    return sheet.removesuffix("</svg>") + "".join(nested) + "</svg>"


def _below_head(plan: CutPlan) -> str:
    told = ["Cut each reel from its free end. All bars are on one scale."]
    if plan.unserved:
        told.append(f"{counted(len(plan.unserved), 'piece')} not served.")
    bare = sorted({cuts.item for cuts in plan.reels if not colours_in(cuts.item)})
    if bare:
        told.append(f"Drawn in grey, for want of a colour in the name: {_some(bare)}.")
    return " ".join(told)


def _some(names: Iterable[str]) -> str:
    found = list(names)
    return ", ".join(found) if len(found) <= 3 else f"{', '.join(found[:3])} and others"


def _placed(svg: str, *, x: float, y: float) -> str:
    """A drawing inside another: its own size and view box hold, moved to where it belongs."""
    return svg.replace("<svg ", f'<svg x="{number(x)}" y="{number(y)}" ', 1)
