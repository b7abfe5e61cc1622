"""The body of a stripped end: its parts in millimetres of cable, and how each material looks."""

from collections.abc import Callable
from dataclasses import dataclass

from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.layers import LayerRole
from reelwright.drawings.canvas import Canvas
from reelwright.drawings.end_dimensions import FINE_MM, THICK_MM
from reelwright.style import (
    BARE_COPPER,
    CLEAR_FIBRE,
    FOIL,
    GRAPHITE,
    INK,
    PLASTIC,
    PLATED,
    SHEET,
    JacketColour,
)

_JACKET_SHOWN_MM = 11.0
_FREE_CORES_MM = 22.0


@dataclass(frozen=True, kw_only=True)
class Part:
    """A length of one material, in mm from the cable's end and from its axis (down is positive).

    ``look`` is a fill colour, ``"braid"``, ``"foil"`` or ``"jacket"``; ``name`` is written once.
    """

    start_mm: float
    end_mm: float
    top_mm: float
    bottom_mm: float
    look: str
    name: str

    @property
    def half_height_mm(self) -> float:
        """The furthest that the part reaches from the axis."""
        return max(abs(self.top_mm), abs(self.bottom_mm))

    @property
    def name_at_mm(self) -> float:
        """Where its name points to, in mm from the end."""
        return (self.start_mm + self.end_mm) / 2


@dataclass(frozen=True, kw_only=True)
class Body:
    """All parts of an end, and what dimension lines need to know of it."""

    parts: tuple[Part, ...]
    jacket_starts_mm: float
    bare_name: str
    cover_name: str

    @property
    def length_mm(self) -> float:
        """How much of the cable is drawn."""
        return max(part.end_mm for part in self.parts)

    @property
    def height_mm(self) -> float:
        """Twice the furthest that a part reaches from the axis."""
        return 2 * max(part.half_height_mm for part in self.parts)

    @property
    def named(self) -> tuple[Part, ...]:
        """The uppermost part of each name, from the end inwards."""
        first: dict[str, Part] = {}
        for part in sorted(self.parts, key=lambda p: (p.start_mm, p.top_mm)):
            first.setdefault(part.name, part)
        return tuple(part for name, part in first.items() if name)

    def half_height_at(self, at_mm: float) -> float:
        """How far the lowest part touching this place reaches below the axis, in mm."""
        return max(
            (p.bottom_mm for p in self.parts if p.start_mm - 1e-9 <= at_mm <= p.end_mm + 1e-9),
            default=0.0,
        )


def coax_body(cable: Cable, plan: StripPlan) -> Body:
    """Return conductor, dielectric, braid and jacket as the plan leaves them."""
    conductor, dielectric = cable.layer(LayerRole.CONDUCTOR), cable.layer(LayerRole.DIELECTRIC)
    braid, foil = cable.layer(LayerRole.BRAID), cable.layer(LayerRole.FOIL)
    jacket_mm = cable.jacket.outside_diameter_m * 1e3
    cuts = plan.cuts_mm
    braid_mm = _diameter_mm(braid, jacket_mm * 0.85)
    dielectric_mm = _diameter_mm(dielectric, braid_mm * 0.85)
    over_mm = _diameter_mm(foil, dielectric_mm)
    end = cuts[2] + _JACKET_SHOWN_MM
    parts = [_round(0, cuts[0], _diameter_mm(conductor, 1.0), BARE_COPPER, "conductor")]
    if plan.folds_braid:
        look, name = ("foil", "foil") if foil is not None else (PLASTIC, "dielectric")
        parts.append(_round(cuts[0], cuts[2], over_mm, look, name))
        end = cuts[2] + plan.braid_mm + _JACKET_SHOWN_MM
        parts.append(_round(cuts[2], end, jacket_mm, "jacket", "jacket"))
        folded_mm = jacket_mm + max(braid_mm - over_mm, 0.2)
        parts.append(
            _round(cuts[2], cuts[2] + plan.braid_mm, folded_mm, "braid", "braid folded back")
        )
    else:
        if plan.dielectric_mm > 0:
            parts.append(_round(cuts[0], cuts[1], dielectric_mm, PLASTIC, "dielectric"))
        parts.append(_round(cuts[1], cuts[2], braid_mm, "braid", "braid"))
        parts.append(_round(cuts[2], end, jacket_mm, "jacket", "jacket"))
    return Body(
        parts=tuple(parts),
        jacket_starts_mm=cuts[2],
        bare_name="conductor",
        cover_name="dielectric",
    )


def wire_body(cable: Cable, strip: WireStrip) -> Body:
    """Return the cores side by side, each bared, as they are laid out for the connector."""
    fibre = cable.family is Family.FIBRE
    jacket_mm = cable.jacket.outside_diameter_m * 1e3
    core_layer = cable.layer(LayerRole.CORE)
    if strip.jacket_back_mm is not None:
        starts = max(strip.jacket_back_mm, strip.bared_mm)
    else:
        # Without a core of its own (a fibre) the jacket itself is what bares it.
        starts = strip.bared_mm if core_layer is None else _FREE_CORES_MM
    end = starts + _JACKET_SHOWN_MM
    core_mm = _diameter_mm(core_layer, min(jacket_mm * 0.4, jacket_mm / cable.conductors))
    bare_mm = min(_diameter_mm(cable.layer(LayerRole.CONDUCTOR), core_mm * 0.55), core_mm)
    bare_look = CLEAR_FIBRE if fibre else BARE_COPPER
    bare_name = "fibre" if fibre else "bared conductor"
    leads = cable.conductors + (1 if cable.screened and cable.family is Family.PAIR else 0)
    pitch = core_mm if leads > 3 else max(core_mm * 1.25, (jacket_mm - core_mm) / max(leads - 1, 1))
    parts = []
    for place in range(leads):
        middle = (place - (leads - 1) / 2) * pitch
        if place == cable.conductors:
            parts.append(_lead((0, starts), middle, core_mm * 0.7, "braid", "screen, twisted"))
            continue
        if strip.bared_mm > 0:
            parts.append(_lead((0, strip.bared_mm), middle, bare_mm, bare_look, bare_name))
        if starts > strip.bared_mm:
            parts.append(_lead((strip.bared_mm, starts), middle, core_mm, PLASTIC, "core"))
    parts.append(_round(starts, end, jacket_mm, "jacket", "jacket"))
    return Body(parts=tuple(parts), jacket_starts_mm=starts, bare_name=bare_name, cover_name="core")


def _diameter_mm(layer: object, otherwise: float) -> float:
    outside = getattr(layer, "outside_diameter_m", None)
    return otherwise if outside is None else float(outside) * 1e3


def _round(start: float, end: float, diameter: float, look: str, name: str) -> Part:
    return _lead((start, end), 0.0, diameter, look, name)


def _lead(span: tuple[float, float], middle: float, diameter: float, look: str, name: str) -> Part:
    return Part(
        start_mm=span[0],
        end_mm=span[1],
        top_mm=middle - diameter / 2,
        bottom_mm=middle + diameter / 2,
        look=look,
        name=name,
    )


def draw_body(
    canvas: Canvas,
    body: Body,
    *,
    colour: JacketColour,
    x_of: Callable[[float], float],
    axis: float,
    scale: float,
) -> None:
    """Draw every part with the look of its material, the jacket's far side as a break line."""
    for part in body.parts:
        x, y = x_of(part.start_mm), axis + part.top_mm * scale
        width = (part.end_mm - part.start_mm) * scale
        height = (part.bottom_mm - part.top_mm) * scale
        if part.look == "jacket":
            _draw_jacket(canvas, x=x, y=y, width=width, height=height, colour=colour)
            continue
        fill = {"braid": PLATED, "foil": FOIL}.get(part.look, part.look)
        canvas.rect(x=x, y=y, width=width, height=height, fill=fill)
        for angle in {"braid": (35, 145), "foil": (100,)}.get(part.look, ()):
            canvas.hatch(
                x=x,
                y=y,
                width=width,
                height=height,
                angle_deg=angle,
                spacing=0.75 if part.look == "braid" else 2.2,
                stroke=GRAPHITE,
                line_width=FINE_MM,
                opacity=0.55,
            )
        canvas.rect(x=x, y=y, width=width, height=height, stroke=INK, stroke_width=THICK_MM)


def _draw_jacket(
    canvas: Canvas, *, x: float, y: float, width: float, height: float, colour: JacketColour
) -> None:
    canvas.rect(x=x, y=y, width=width, height=height, fill=colour.fill)
    for angle in colour.stripes:
        canvas.hatch(
            x=x,
            y=y,
            width=width,
            height=height,
            angle_deg=angle,
            spacing=1.6,
            stroke=colour.ink,
            line_width=FINE_MM,
            opacity=0.28,
        )
    canvas.polyline(
        [(x + width, y), (x, y), (x, y + height), (x + width, y + height)],
        stroke=INK,
        width=THICK_MM,
    )
    # The cable goes on: a torn edge, and the sheet's white beyond it.
    bite, steps = min(1.2, height / 4), 6
    torn = [
        (x + width - (bite if step % 2 else 0), y + height * step / steps)
        for step in range(steps + 1)
    ]
    canvas.polygon([*torn, (x + width + 0.3, y + height), (x + width + 0.3, y)], fill=SHEET)
    canvas.polyline(torn, stroke=INK, width=FINE_MM)
