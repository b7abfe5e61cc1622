"""The stripped end of a cable, side view to scale.

The unit of the drawing is the millimetre of paper: at scale 1 it prints so that a stripped end can
be laid on it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.guard import require_text
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.end_body import Body, coax_body, draw_body, wire_body
from reelwright.drawings.end_dimensions import (
    FINE_MM,
    Callout,
    Stretch,
    callouts_right,
    draw_bands,
    draw_callouts,
    draw_inline,
    draw_key,
    draw_lettered,
    fits_inline,
    key_width,
)
from reelwright.drawings.text_size import text_width
from reelwright.style import GRAPHITE, JacketColour, jacket_colour

TEXT_MM = 3.2
_MARGIN_MM = 2.0


@dataclass(frozen=True, kw_only=True)
class EndView:
    """What is drawn: a cable, what is stripped off it, the jacket's colour, and whose end it is."""

    title: str
    cable: Cable
    strip: StripPlan | WireStrip
    jacket: str

    def __post_init__(self) -> None:
        require_text(self, "title")

    @property
    def colour(self) -> JacketColour:
        """The jacket's colour; UnknownCode where the letters are none of IEC 60757."""
        return jacket_colour(self.jacket)


def end_table(view: EndView) -> tuple[Stretch, ...]:
    """Return the figures of the drawing as rows: its table twin."""
    if isinstance(view.strip, StripPlan):
        return _coax_stretches(view.strip)
    return _wire_stretches(view.strip, _body(view))


def draw_end(
    view: EndView, *, scale: float = 5.0, key: bool = True, text_mm: float = TEXT_MM
) -> str:
    """Return the drawing as SVG text, ``scale`` : 1, its width and height in mm.

    Lengths and diameters are both to scale. Figures stand at the dimension lines where they have
    room; on small scales letters do, and the figures in a key beside; ``key`` off leaves it out,
    for a narrow place that gives the figures itself. ``text_mm`` is the size of its text. Raises
    BadValue for a scale or a size that is not above zero.
    """
    for name, value in (("scale", scale), ("text_mm", text_mm)):
        if value <= 0:
            raise BadValue(
                owner="draw_end", field=name, value=value, accepted="a number above zero"
            )
    body, stretches = _body(view), end_table(view)
    size = text_mm
    canvas = Canvas(
        title=f"{view.title}, stripped end, {_told_scale(scale)}",
        description=_describe(view, stretches),
        unit="mm",
    )
    left = _MARGIN_MM + 1.6 * size
    axis = _MARGIN_MM + 2.6 * size + body.height_mm * scale / 2

    def x_of(at_mm: float) -> float:
        return left + at_mm * scale

    def underside(at_mm: float) -> float:
        return axis + body.half_height_at(at_mm) * scale

    callouts = [
        Callout(
            x=x_of(part.name_at_mm),
            y=axis + (part.top_mm + 0.2 * (part.bottom_mm - part.top_mm)) * scale,
            text=part.name,
        )
        for part in body.named
    ]
    draw_body(canvas, body, colour=view.colour, x_of=x_of, axis=axis, scale=scale)
    draw_bands(canvas, stretches, x_of=x_of, tops=underside, axis=axis)
    draw_callouts(canvas, callouts, baseline=_MARGIN_MM + size, size=size, left=_MARGIN_MM)
    right = max(
        x_of(body.length_mm) + 1.6 * size, callouts_right(callouts, size=size, left=_MARGIN_MM)
    )
    canvas.centre_line(
        (left - 1.4 * size, axis), (x_of(body.length_mm) + 1.4 * size, axis), width=FINE_MM
    )
    below = axis + body.height_mm * scale / 2
    if fits_inline(stretches, scale=scale, size=size):
        bottom = draw_inline(canvas, stretches, x_of=x_of, tops=underside, below=below, size=size)
    else:
        bottom = draw_lettered(
            canvas, stretches, x_of=x_of, tops=underside, below=below, size=size, scale=scale
        )
        if key:
            foot_of_key = draw_key(canvas, stretches, x=right + size, y=_MARGIN_MM, size=size)
            bottom = max(bottom, foot_of_key)
            right += size + key_width(stretches, size=size)
    outside_mm = view.cable.jacket.outside_diameter_m * 1e3
    foot = (
        f"{view.colour.letters} {view.colour.name} · Ø {outside_mm:.2f} · {_told_scale(scale)} · mm"
    )
    bottom += 1.2 * size
    right = max(right, _MARGIN_MM + text_width(foot, size=size))
    canvas.text(foot, x=_MARGIN_MM, y=bottom, size=size, fill=GRAPHITE)
    return canvas.svg(width=right + _MARGIN_MM, height=bottom + _MARGIN_MM)


def _body(view: EndView) -> Body:
    if isinstance(view.strip, StripPlan):
        return coax_body(view.cable, view.strip)
    return wire_body(view.cable, view.strip)


def _coax_stretches(plan: StripPlan) -> tuple[Stretch, ...]:
    starts = (0.0, *plan.cuts_mm)
    under = "dielectric" if not plan.folds_braid else "braid folded back"
    rows = (
        ("a", "conductor", plan.conductor_mm, plan.tolerances.conductor_mm),
        ("b", "dielectric", plan.dielectric_mm, plan.tolerances.dielectric_mm),
        ("c", under if plan.folds_braid else "braid", plan.braid_mm, plan.tolerances.braid_mm),
    )
    return tuple(
        Stretch(
            start_mm=start,
            end_mm=start + length,
            spread_mm=tolerance,
            letter=letter,
            name=name,
            told=f"{length:.2f} ±{tolerance:.2f}",
            position=f"{start + length:.2f}",
        )
        for start, (letter, name, length, tolerance) in zip(starts, rows, strict=False)
        if length > 0
    )


def _wire_stretches(strip: WireStrip, body: Body) -> tuple[Stretch, ...]:
    rows = []
    if strip.bared_mm > 0:
        rows.append(
            Stretch(
                start_mm=0.0,
                end_mm=strip.bared_mm,
                spread_mm=strip.tolerance_mm,
                letter="a",
                name=body.bare_name,
                told=f"{strip.bared_mm:.1f} ±{strip.tolerance_mm:.1f}",
                position=f"{strip.bared_mm:.1f}",
            )
        )
    if body.jacket_starts_mm > strip.bared_mm:
        known = strip.jacket_back_mm is not None
        length = body.jacket_starts_mm - strip.bared_mm
        rows.append(
            Stretch(
                start_mm=strip.bared_mm,
                end_mm=body.jacket_starts_mm,
                spread_mm=strip.tolerance_mm if known else 0.0,
                letter="b",
                name=body.cover_name,
                told=f"{length:.1f} ±{strip.tolerance_mm:.1f}" if known else "as the job asks",
                position=f"{body.jacket_starts_mm:.1f}" if known else "",
            )
        )
    return tuple(rows)


def _told_scale(scale: float) -> str:
    return f"{scale:g} : 1" if scale >= 1 else f"1 : {1 / scale:g}"


def _describe(view: EndView, stretches: Sequence[Stretch]) -> str:
    told = "; ".join(
        f"{s.name} {s.told} mm" + (f", cut at {s.position} mm" if s.position else "")
        for s in stretches
    )
    return (
        f"{view.cable.code}, jacket {view.colour.name}, "
        f"Ø {view.cable.jacket.outside_diameter_m * 1e3:.2f} mm. From the end: {told}."
    )
