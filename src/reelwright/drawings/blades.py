"""How far the blades of a strip close: half a section of the cable beside each cut, to scale.

The axis lies at the left; a blade comes in from the jacket's side. What it must spare is drawn with
how far it may reach, the blade with how far it strays.
"""

from collections.abc import Sequence

from reelwright.core.ends.strip.blades import Blade
from reelwright.core.ends.strip.spread import (
    TOLERANCE_DEVIATIONS_RATIO,
    StripSpread,
    deviation_m,
    offset_spread_m,
)
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.quantities.show import show_length_mm
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.end_dimensions import FINE_MM, THICK_MM
from reelwright.drawings.text_size import text_width
from reelwright.style import (
    BAD_TINT,
    BARE_COPPER,
    CLEAR_FIBRE,
    COPPER,
    FOIL,
    GRAPHITE,
    INK,
    PLASTIC,
    PLATED,
    SEMIBOLD,
    SHEET,
    jacket_colour,
)

TEXT_MM = 3.2
_MARGIN_MM = 2.0
_BAND_MM = 7.0
_ROW_MM = 17.5
_SCALES = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100)


def draw_blades(
    cable: Cable,
    blades: Sequence[Blade],
    spread: StripSpread,
    *,
    jacket: str,
    title: str,
    width_mm: float = 120.0,
) -> str:
    """Return the drawing as SVG text, ``width_mm`` wide in mm of paper.

    All radii are to one scale, which the drawing states. The hatched reach of what is spared and
    the tinted reach of the blade are three standard deviations. Raises BadValue for no blades or a
    width that leaves no room.
    """
    if not blades or width_mm < 60:
        raise BadValue(
            owner="draw_blades",
            field="width_mm" if blades else "blades",
            value=width_mm if blades else (),
            accepted="60 or more" if blades else "one blade or more",
        )
    radius_mm = cable.jacket.outside_diameter_m * 1e3 / 2
    room_mm = width_mm - 2 * _MARGIN_MM - 8.0
    scale = _round_scale(room_mm / radius_mm)
    canvas = Canvas(title=f"{title}, {scale:g} : 1", description=_describe(blades), unit="mm")
    left = _MARGIN_MM
    for place, blade in enumerate(blades):
        top = _MARGIN_MM + place * _ROW_MM + 1.6 * TEXT_MM
        _draw_row(canvas, cable, blade, spread, left=left, top=top, scale=scale, jacket=jacket)
    bottom = _MARGIN_MM + len(blades) * _ROW_MM + 1.2 * TEXT_MM
    foot = f"from the axis outwards · {scale:g} : 1 · Ø in mm"
    canvas.text(foot, x=left, y=bottom, size=TEXT_MM, fill=GRAPHITE)
    return canvas.svg(width=width_mm, height=bottom + _MARGIN_MM)


def _round_scale(most: float) -> float:
    """The largest scale people would choose that still fits."""
    return max(scale for scale in _SCALES if scale <= most)


def _draw_row(
    canvas: Canvas,
    cable: Cable,
    blade: Blade,
    spread: StripSpread,
    *,
    left: float,
    top: float,
    scale: float,
    jacket: str,
) -> None:
    cut = blade.cut
    inside = 0.0
    # From the axis outwards: what lies within the spared layer is drawn as it, the rest as cut.
    for layer in (cut.spares, *reversed(cut.through)):
        outside = layer.outside_diameter_m * 1e3 / 2 * scale
        canvas.rect(
            x=left + inside,
            y=top,
            width=outside - inside,
            height=_BAND_MM,
            fill=_look(cable, layer, jacket),
            stroke=INK,
            stroke_width=FINE_MM,
        )
        inside = outside
    spared = cut.spares.outside_diameter_m * 1e3 / 2 * scale
    reach_m = TOLERANCE_DEVIATIONS_RATIO * (
        deviation_m(cut.spares.tolerance_m) / 2 + offset_spread_m(cable, cut.spares.role, spread)
    )
    reach = reach_m * 1e3 * scale
    canvas.hatch(
        x=left + spared,
        y=top,
        width=reach,
        height=_BAND_MM,
        angle_deg=45,
        spacing=0.7,
        stroke=INK,
        line_width=FINE_MM,
        opacity=0.8,
    )
    edge = blade.best_mm / 2 * scale
    strays = TOLERANCE_DEVIATIONS_RATIO * spread.blade_m * 1e3 / 2 * scale
    canvas.rect(
        x=left + edge - strays,
        y=top - 0.8,
        width=2 * strays,
        height=_BAND_MM + 1.6,
        fill=BAD_TINT,
        opacity=0.75,
    )
    outer = cable.jacket.outside_diameter_m * 1e3 / 2 * scale + 6.0
    middle = top + _BAND_MM / 2
    canvas.polygon(
        [
            (left + edge, middle),
            (left + edge + 3.0, middle - 1.0),
            (left + outer, middle - 1.0),
            (left + outer, middle + 1.0),
            (left + edge + 3.0, middle + 1.0),
        ],
        fill=GRAPHITE,
        stroke=SHEET,
        stroke_width=THICK_MM,
    )
    canvas.line(
        (left + edge, top - 1.2), (left + edge, top + _BAND_MM + 1.2), width=THICK_MM, stroke=COPPER
    )
    canvas.centre_line((left, top - 1.6), (left, top + _BAND_MM + 1.6), width=FINE_MM)
    where = "" if cut.position_mm is None else f" at {cut.position_mm:.2f}"
    name = f"through the {cut.name}{where}"
    canvas.text(name, x=left, y=top - 0.55 * TEXT_MM, size=TEXT_MM, weight=SEMIBOLD)
    told = f"closes to Ø {blade.best_mm:.2f}"
    canvas.text(
        told,
        x=left + text_width(name, size=TEXT_MM, weight=SEMIBOLD) + 1.2 * TEXT_MM,
        y=top - 0.55 * TEXT_MM,
        size=TEXT_MM,
        fill=COPPER,
    )


def _look(cable: Cable, layer: Layer, jacket: str) -> str:
    if layer.role is LayerRole.JACKET:
        return jacket_colour(jacket).fill
    if cable.family is Family.FIBRE:
        return CLEAR_FIBRE
    return {
        LayerRole.CONDUCTOR: BARE_COPPER,
        LayerRole.FOIL: FOIL,
        LayerRole.BRAID: PLATED,
    }.get(layer.role, PLASTIC)


def _describe(blades: Sequence[Blade]) -> str:
    told = []
    for blade in blades:
        cut = blade.cut
        at_mm = cut.position_mm
        where = "" if at_mm is None else f" at {show_length_mm(at_mm, decimals=2)}"
        told.append(
            f"through the {cut.name}{where}: closes to "
            f"{show_length_mm(blade.best_mm, decimals=2)} and spares the {cut.spares.role}"
        )
    return "; ".join(told) + "."
