"""The section of a crimp before and after its hexagon closes, to scale."""

import math
from dataclasses import dataclass

from reelwright.core.ends.dies.ferrule_crimp import FerruleJoint, FerruleOutcome
from reelwright.core.ends.dies.pin_crimp import PinJoint, PinOutcome
from reelwright.core.errors import BadValue
from reelwright.core.quantities.show import show_dimension, show_number, show_percent
from reelwright.drawings.canvas import Canvas, Point
from reelwright.drawings.end_dimensions import FINE_MM, THICK_MM
from reelwright.style import BARE_COPPER, FOIL, GRAPHITE, INK, PLATED, SEMIBOLD, SHEET

_TEXT_MM = 3.2
_MARGIN_MM = 2.0
_GAP_MM = 14.0
_BRASS = "#E3CF94"


@dataclass(frozen=True, kw_only=True)
class CrimpRow:
    """One row of the drawing's table twin."""

    what: str
    before: str
    after: str


def draw_pin_section(joint: PinJoint, outcome: PinOutcome, *, scale: float) -> str:
    """Return barrel and conductor before, and the closed hexagon after, ``scale`` : 1, as SVG.

    After: the conductor is drawn round with its share of the metal; what the hexagon does not take
    goes lengthwise, which a section cannot show. Raises BadValue for a scale that is not above
    zero.
    """
    rows = pin_rows(joint, outcome)
    outside_mm, bore_mm = joint.barrel_outside_m * 1e3, joint.barrel_bore_m * 1e3
    width_mm = outcome.across_flats_m * 1e3
    sheet = _Pair(
        title=f"Section of the pin, {scale:g} : 1",
        rows=rows,
        scale=scale,
        size_mm=max(outside_mm, _corners(width_mm)),
    )
    sheet.ring(sheet.left, outside_mm, fill=_BRASS)
    sheet.ring(sheet.left, bore_mm, fill=SHEET)
    sheet.ring(sheet.left, joint.conductor.outside_diameter_m * 1e3, fill=BARE_COPPER)
    sheet.hexagon(sheet.right, width_mm, 0.0, fill=_BRASS)
    # Of a filled hexagon each metal keeps its share; else the conductor keeps its size.
    taken = min(1.0, outcome.hexagon_m2 / outcome.metal_m2)
    conductor_mm = math.sqrt(4 * joint.conductor_m2 * taken / math.pi) * 1e3
    if outcome.free_m2 > 0:
        free_mm = math.sqrt(4 * (joint.conductor_m2 + outcome.free_m2) / math.pi) * 1e3
        sheet.ring(sheet.right, free_mm, fill=SHEET)
    sheet.ring(sheet.right, conductor_mm, fill=BARE_COPPER)
    return sheet.svg(f"Ø {outside_mm:.2f}", f"{width_mm:.2f} across flats")


def pin_rows(joint: PinJoint, outcome: PinOutcome) -> tuple[CrimpRow, ...]:
    """Return what the drawing of the pin shows, in figures."""
    grows = outcome.elongation_most_m
    return (
        CrimpRow(
            what="Width",
            before=show_dimension(joint.barrel_outside_m),
            after=show_dimension(outcome.across_flats_m),
        ),
        CrimpRow(
            what="Metal in the section",
            before=_area(outcome.metal_m2),
            after=_area(min(outcome.metal_m2, outcome.hexagon_m2)),
        ),
        CrimpRow(
            what="Empty inside",
            before=_area(math.pi / 4 * joint.barrel_bore_m**2 - joint.conductor_m2),
            after=_area(outcome.free_m2),
        ),
        CrimpRow(
            what="Longer, at most",
            before="",
            after="not known" if grows is None else show_dimension(grows),
        ),
    )


def draw_ferrule_section(joint: FerruleJoint, outcome: FerruleOutcome, *, scale: float) -> str:
    """Return ferrule, braid and stem before, and in the closed hexagon after, as SVG.

    After: the ferrule's outline with its corners as round as they stay, the braid in between.
    Raises BadValue for a scale that is not above zero.
    """
    rows = ferrule_rows(joint, outcome)
    width_mm, stem_mm = outcome.across_flats_m * 1e3, joint.stem_outside_m * 1e3
    sheet = _Pair(
        title=f"Section of the ferrule, {scale:g} : 1",
        rows=rows,
        scale=scale,
        size_mm=max(joint.ferrule_outside_m * 1e3, _corners(width_mm)),
    )
    sheet.ring(sheet.left, joint.ferrule_outside_m * 1e3, fill=_BRASS)
    sheet.ring(sheet.left, joint.ferrule_bore_m * 1e3, fill=SHEET)
    sheet.ring(sheet.left, (joint.stem_outside_m + joint.braid_stack_m) * 1e3, fill=PLATED)
    sheet.ring(sheet.left, stem_mm, fill=FOIL)
    radius_mm, wall_mm = outcome.corner_radius_m * 1e3, joint.wall_m * 1e3
    sheet.hexagon(sheet.right, width_mm, radius_mm, fill=_BRASS)
    inside_mm = outcome.inside_m * 1e3
    if inside_mm > 0:
        sheet.hexagon(sheet.right, inside_mm, max(0.0, radius_mm - wall_mm), fill=PLATED)
    sheet.ring(sheet.right, stem_mm, fill=FOIL)
    return sheet.svg(f"Ø {joint.ferrule_outside_m * 1e3:.2f}", f"{width_mm:.2f} across flats")


def ferrule_rows(joint: FerruleJoint, outcome: FerruleOutcome) -> tuple[CrimpRow, ...]:
    """Return what the drawing of the ferrule shows, in figures."""
    fill = outcome.ring_fill_share
    return (
        CrimpRow(
            what="Width",
            before=show_dimension(joint.ferrule_outside_m),
            after=show_dimension(outcome.across_flats_m),
        ),
        CrimpRow(
            what="Inside, between flats",
            before=show_dimension(joint.ferrule_bore_m),
            after=show_dimension(outcome.inside_m),
        ),
        CrimpRow(
            what="Braid stack, both sides",
            before=show_dimension(joint.braid_stack_m),
            after=show_dimension(max(0.0, outcome.inside_m - joint.stem_outside_m)),
        ),
        CrimpRow(
            what="Ring filled with metal",
            before="",
            after="not known" if fill is None or math.isinf(fill) else show_percent(fill),
        ),
    )


def _area(area_m2: float) -> str:
    return f"{show_number(max(0.0, area_m2) * 1e6, decimals=2)}\u202fmm²"


def _corners(across_flats_mm: float) -> float:
    return across_flats_mm * 2 / math.sqrt(3)


class _Pair:
    """Two round pictures beside each other, before and after, with what they are under them."""

    def __init__(
        self, *, title: str, rows: tuple[CrimpRow, ...], scale: float, size_mm: float
    ) -> None:
        if not scale > 0:
            raise BadValue(
                owner="crimp_section", field="scale", value=scale, accepted="a number above zero"
            )
        told = "; ".join(
            f"{row.what}: {row.before + ' before, ' if row.before else ''}{row.after} after"
            for row in rows
        )
        self._canvas = Canvas(title=title, description=f"{told}.", unit="mm")
        self._scale, self._half = scale, size_mm * scale / 2
        top = _MARGIN_MM + self._half
        self.left: Point = (_MARGIN_MM + self._half, top)
        self.right: Point = (_MARGIN_MM + 3 * self._half + _GAP_MM, top)

    def ring(self, centre: Point, diameter_mm: float, *, fill: str) -> None:
        self._canvas.circle(
            centre, diameter_mm * self._scale / 2, fill=fill, stroke=INK, stroke_width=THICK_MM
        )

    def hexagon(
        self, centre: Point, across_flats_mm: float, radius_mm: float, *, fill: str
    ) -> None:
        """A hexagon with a corner to either side, where its halves part, rounded by short steps."""
        flat, radius = across_flats_mm / 2 * self._scale, radius_mm * self._scale
        radius = min(radius, flat)
        points = []
        for corner in range(6):
            angle = corner * math.pi / 3
            reach = (flat - radius) * 2 / math.sqrt(3)
            middle = (centre[0] + reach * math.cos(angle), centre[1] + reach * math.sin(angle))
            if radius == 0:
                points.append(middle)
                continue
            for step in range(9):
                turn = angle - math.pi / 6 + step / 8 * math.pi / 3
                points.append(
                    (middle[0] + radius * math.cos(turn), middle[1] + radius * math.sin(turn))
                )
        self._canvas.polygon(points, fill=fill, stroke=INK, stroke_width=THICK_MM)

    def svg(self, before: str, after: str) -> str:
        canvas = self._canvas
        middle = self.left[1]
        start, end = self.left[0] + self._half + 2, self.right[0] - self._half - 2
        canvas.line((start, middle), (end - 2, middle), stroke=GRAPHITE, width=FINE_MM * 2)
        canvas.polygon(
            [(end, middle), (end - 3, middle - 1.2), (end - 3, middle + 1.2)], fill=GRAPHITE
        )
        foot = middle + self._half + 1.6 * _TEXT_MM
        for centre, told, what in (
            (self.left, before, "before"),
            (self.right, after, "after"),
        ):
            canvas.text(told, x=centre[0], y=foot, size=_TEXT_MM, weight=SEMIBOLD, anchor="middle")
            canvas.text(
                what,
                x=centre[0],
                y=foot + 1.3 * _TEXT_MM,
                size=_TEXT_MM,
                fill=GRAPHITE,
                anchor="middle",
            )
        scale = f"{self._scale:g} : 1 · mm"
        canvas.text(scale, x=_MARGIN_MM, y=foot + 2.8 * _TEXT_MM, size=_TEXT_MM, fill=GRAPHITE)
        return canvas.svg(
            width=max(self.right[0] + self._half + _MARGIN_MM, 60.0),
            height=foot + 3.2 * _TEXT_MM + _MARGIN_MM,
        )
