"""The specification of the weld law's chart. Imported late: the plotting library takes a second."""

from typing import Any

import altair as alt

from reelwright.charts.plot_parts import house_spec, known_points, label, rows
from reelwright.charts.weld_law import WeldLaw
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import show_in
from reelwright.style import COPPER, GRAPHITE, INK, SEMIBOLD


def weld_law_spec(law: WeldLaw, *, width_px: int, height_px: int) -> dict[str, Any]:
    """Return the chart as a Vega-Lite specification: both axes logarithmic, so the law is a line.

    The band is drawn where the spread is known; it is cut at the edges of the plot.
    """
    areas = [point.area_m2 * 1e6 for point in law.curve]
    energies = [point.energy_j for point in law.curve] + [each.energy_j for each in law.known]
    low, high = min(energies) / 1.25, max(energies) * 1.25
    x = alt.X(
        "area:Q",
        scale=alt.Scale(type="log", domain=[areas[0], areas[-1]], nice=False),
        axis=alt.Axis(
            title=None,
            grid=False,
            domain=False,
            values=[each for each in (0.5, 1, 2, 3, 4, 6, 8, 10) if areas[0] <= each <= areas[-1]],
            labelExpr=f"format(datum.value, '~f') + '{NARROW_SPACE}mm²'",
        ),
    )

    def y(field: str) -> alt.Y:
        return alt.Y(
            f"{field}:Q",
            scale=alt.Scale(type="log", domain=[low, high], nice=False),
            axis=alt.Axis(
                title=None,
                ticks=False,
                domain=False,
                values=[e for e in (20, 50, 100, 200, 300, 500, 1000) if low <= e <= high],
                labelExpr=f"format(datum.value, '~f') + '{NARROW_SPACE}J'",
            ),
        )

    layers: list[alt.Chart] = []
    banded = [p for p in law.curve if p.low_j is not None and p.high_j is not None]
    if banded:
        layers.append(
            alt.Chart(
                rows(
                    area=[p.area_m2 * 1e6 for p in banded],
                    low=[max(low, p.low_j or low) for p in banded],
                    high=[min(high, p.high_j or high) for p in banded],
                )
            )
            .mark_area(color=COPPER, opacity=0.18)
            .encode(x=x, y=y("low"), y2="high:Q")
        )
    layers.append(
        alt.Chart(rows(area=areas, j=[p.energy_j for p in law.curve]))
        .mark_line(color=COPPER, strokeWidth=2.5)
        .encode(x=x, y=y("j"))
    )
    known = rows(
        area=[p.area_m2 * 1e6 for p in law.known],
        j=[p.energy_j for p in law.known],
        told=[p.name for p in law.known],
    )
    layers += [
        known_points(known, x=x, y=y("j")),
        label(known, x=x, y=y("j"), align="left", color=GRAPHITE, dx=10, dy=10),
    ]
    if law.asked is not None:
        asked = rows(
            area=[law.asked.area_m2 * 1e6],
            j=[law.asked.energy_j],
            foot=[low],
            told=[show_in(law.asked.energy_j, "J", decimals=0)],
        )
        layers += [
            alt.Chart(asked)
            .mark_rule(color=INK, strokeWidth=1.4, strokeDash=[5, 4])
            .encode(x=x, y=y("j"), y2="foot:Q"),
            label(
                asked, x=x, y=y("j"), align="right", color=INK, dx=-8, dy=-12, fontWeight=SEMIBOLD
            ),
        ]
    return house_spec(layers, width_px=width_px, height_px=height_px)
