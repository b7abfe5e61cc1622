"""The cross-section of a cable: rings to scale, each with its leader, material and diameter."""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.end_dimensions import FINE_MM, THICK_MM
from reelwright.drawings.text_size import text_width
from reelwright.style import (
    BARE_COPPER,
    CLEAR_FIBRE,
    FOIL,
    GRAPHITE,
    INK,
    PLASTIC,
    PLATED,
    SEMIBOLD,
    jacket_colour,
)

_TEXT_MM = 3.2
_MARGIN_MM = 2.0


@dataclass(frozen=True, kw_only=True)
class SectionRow:
    """One row of the drawing's table twin."""

    layer: str
    material: str
    diameter: str


def section_table(cable: Cable) -> tuple[SectionRow, ...]:
    """Return the layers from the outside inwards, as the leaders name them."""
    return tuple(
        SectionRow(
            layer=_called(cable, layer), material=layer.material, diameter=_told_diameter(layer)
        )
        for layer in reversed(cable.layers)
    )


def draw_section(cable: Cable, *, jacket: str, scale: float = 5.0) -> str:
    """Return the section as SVG text, ``scale`` : 1, in mm of paper.

    Cables with several cores show them side by side inside the jacket: where each lies in the lay
    is not known and not claimed. Raises BadValue for a scale that is not above zero, UnknownCode
    for an unknown jacket colour.
    """
    if scale <= 0:
        raise BadValue(
            owner="draw_section", field="scale", value=scale, accepted="a number above zero"
        )
    colour = jacket_colour(jacket)
    radius = cable.jacket.outside_diameter_m * 1e3 / 2 * scale
    rows = section_table(cable)
    table_height = len(rows) * 2.7 * _TEXT_MM
    middle = max(radius, table_height / 2)
    centre = (_MARGIN_MM + radius, _MARGIN_MM + middle)
    canvas = Canvas(
        title=f"{cable.code}, section, {scale:g} : 1",
        description="; ".join(f"{r.layer}, {r.material}, {r.diameter}" for r in rows) + ".",
        unit="mm",
    )
    leaders = _draw_rings(canvas, cable, centre, scale, colour.fill)
    text_x = centre[0] + radius + 3 * _TEXT_MM
    right = text_x
    for place, (row, (x, y)) in enumerate(zip(rows, leaders, strict=True)):
        baseline = centre[1] - table_height / 2 + (place + 0.55) * 2.7 * _TEXT_MM
        told = f"{row.layer}, {row.material}"
        canvas.polyline(
            [
                (x, y),
                (text_x - 1.4 * _TEXT_MM, baseline - 0.35 * _TEXT_MM),
                (text_x - 0.4 * _TEXT_MM, baseline - 0.35 * _TEXT_MM),
            ],
            stroke=GRAPHITE,
            width=FINE_MM,
        )
        canvas.circle((x, y), 0.35, fill=GRAPHITE)
        canvas.text(row.diameter, x=text_x, y=baseline, size=_TEXT_MM, weight=SEMIBOLD)
        canvas.text(
            told, x=text_x, y=baseline + 1.15 * _TEXT_MM, size=_TEXT_MM * 0.9, fill=GRAPHITE
        )
        right = max(
            right,
            text_x + text_width(told, size=_TEXT_MM * 0.9),
            text_x + text_width(row.diameter, size=_TEXT_MM, weight=SEMIBOLD),
        )
    foot = centre[1] + middle + 1.6 * _TEXT_MM
    told = f"{colour.letters} {colour.name} · {scale:g} : 1 · mm"
    canvas.text(told, x=_MARGIN_MM, y=foot, size=_TEXT_MM, fill=GRAPHITE)
    right = max(right, _MARGIN_MM + text_width(told, size=_TEXT_MM))
    return canvas.svg(width=right + _MARGIN_MM, height=foot + _MARGIN_MM)


def _draw_rings(
    canvas: Canvas, cable: Cable, centre: tuple[float, float], scale: float, jacket_fill: str
) -> list[tuple[float, float]]:
    """Draw the layers outside in; return, in the same order, a point that lies in each."""
    points = []
    layers = list(reversed(cable.layers))
    cores = _core_centres(cable, centre, scale)
    for place, layer in enumerate(layers):
        radius = layer.outside_diameter_m * 1e3 / 2 * scale
        inner = 0.0
        if place + 1 < len(layers):
            inner = layers[place + 1].outside_diameter_m * 1e3 / 2 * scale
        several = len(cores) > 1 and layer.role in (LayerRole.CORE, LayerRole.CONDUCTOR)
        for at in cores if several else [centre]:
            canvas.circle(
                at,
                radius,
                fill=_fill(cable, layer, jacket_fill),
                stroke=INK,
                stroke_width=FINE_MM if layer.role is LayerRole.FOIL else THICK_MM,
            )
            if layer.role is LayerRole.JACKET and len(cores) > 1:
                canvas.circle(
                    at, radius - 0.5 * scale, fill=PLASTIC, stroke=INK, stroke_width=FINE_MM
                )
        at = cores[-1] if several else centre
        if layer.role is LayerRole.JACKET and len(cores) > 1:
            inner = radius - 0.5 * scale
        depth = (radius + inner) / 2
        # Leaders start on the right, fanned a little so that they do not run over each other.
        lift = depth * (0.75 - 0.5 * place)
        lift = max(-0.8 * depth, min(0.8 * depth, lift))
        points.append((at[0] + (depth**2 - lift**2) ** 0.5, at[1] - lift))
    return points


def _core_centres(
    cable: Cable, centre: tuple[float, float], scale: float
) -> list[tuple[float, float]]:
    core = cable.layer(LayerRole.CORE)
    if core is None or cable.conductors == 1:
        return [centre]
    radius = core.outside_diameter_m * 1e3 / 2 * scale
    count = cable.conductors
    ring = radius / math.sin(math.pi / count)
    return [
        (
            centre[0] + ring * math.cos(2 * math.pi * place / count + math.pi),
            centre[1] + ring * math.sin(2 * math.pi * place / count + math.pi),
        )
        for place in range(count // 2 + 1, count + count // 2 + 1)
    ]


def _fill(cable: Cable, layer: Layer, jacket_fill: str) -> str:
    if layer.role is LayerRole.CONDUCTOR and cable.layer(LayerRole.CORE) is None:
        return CLEAR_FIBRE if cable.family is Family.FIBRE else BARE_COPPER
    return {
        LayerRole.CONDUCTOR: BARE_COPPER,
        LayerRole.DIELECTRIC: PLASTIC,
        LayerRole.FOIL: FOIL,
        LayerRole.BRAID: PLATED,
        LayerRole.CORE: PLASTIC,
        LayerRole.JACKET: jacket_fill,
    }[layer.role]


def _called(cable: Cable, layer: Layer) -> str:
    if cable.family is Family.FIBRE and layer.role is LayerRole.CONDUCTOR:
        return "fibre"
    return str(layer.role)


def _told_diameter(layer: Layer) -> str:
    told = f"Ø {layer.outside_diameter_m * 1e3:.2f}"
    if layer.tolerance_m > 0:
        told += f" ±{layer.tolerance_m * 1e3:.2f}"
    return told
