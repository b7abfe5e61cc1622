"""The specification of the margin chart. Imported late: the plotting library takes a second."""

from typing import Any

import altair as alt
import numpy as np
from numpy.typing import NDArray

from reelwright.charts.margin import MarginCurve, run_sentence, told_length
from reelwright.charts.plot_parts import house_spec, label, rows
from reelwright.core.quantities.marks import MINUS, NARROW_SPACE
from reelwright.style import BAD_TINT, COPPER, GRAPHITE, INK, SEMIBOLD

_ROW_PX = 20


def margin_spec(
    curve: MarginCurve, *, domain: tuple[float, float], width_px: int, height_px: int
) -> dict[str, Any]:
    """Return the chart as a Vega-Lite specification; ``domain`` is that of the margin axis."""
    plot = _Plot(curve, domain, height_px)
    layers = [*plot.grounds(), *plot.curve(), *plot.chances(), *plot.run()]
    return house_spec(layers, width_px=width_px, height_px=height_px)


class _Plot:
    """The layers of one chart, all on the same two scales."""

    def __init__(self, curve: MarginCurve, domain: tuple[float, float], height_px: int) -> None:
        self._curve = curve
        self._low, self._high = domain
        self._per_px = (self._high - self._low) / height_px
        self._longest = float(curve.lengths_m[-1])
        self._x = alt.X(
            "length_m:Q",
            scale=alt.Scale(domain=[0, self._longest], nice=False),
            axis=alt.Axis(
                title=None,
                grid=False,
                domain=False,
                tickCount=7,
                labelExpr=f"format(datum.value, '~f') + '{NARROW_SPACE}m'",
            ),
        )

    def _y(self, field: str) -> alt.Y:
        return alt.Y(
            f"{field}:Q",
            scale=alt.Scale(domain=[self._low, self._high], nice=False),
            axis=alt.Axis(
                title=None,
                ticks=False,
                domain=False,
                tickCount=6,
                labelExpr=(
                    "(datum.value > 0 ? '+' : '') + replace(format(datum.value, '~f'), "
                    f"'-', '{MINUS}') + '{NARROW_SPACE}{self._curve.unit}'"
                ),
            ),
        )

    def grounds(self) -> list[alt.Chart]:
        """The failing half, tinted."""
        data = rows(length_m=[0.0], end_m=[self._longest], margin=[self._low], zero=[0.0])
        return [
            alt.Chart(data)
            .mark_rect(color=BAD_TINT)
            .encode(x=self._x, x2="end_m:Q", y=self._y("margin"), y2="zero:Q")
        ]

    def curve(self) -> list[alt.Chart]:
        """Band, limit and curve, ended at the plot's edges: a clip path would need an id."""
        c = self._curve
        lengths = np.union1d(c.lengths_m, np.linspace(c.lengths_m[0], self._longest, 601))
        margin, low, high = (
            np.interp(lengths, c.lengths_m, values) for values in (c.margin, c.low, c.high)
        )
        seen = (low <= self._high) & (high >= self._low)
        band = rows(length_m=lengths[seen], low=self._cut(low[seen]), high=self._cut(high[seen]))
        drawn = (margin <= self._high) & (margin >= self._low)
        line = rows(length_m=lengths[drawn], margin=margin[drawn])
        limit = rows(length_m=[0.0], end_m=[self._longest], margin=[0.0])
        return [
            alt.Chart(band)
            .mark_area(color=COPPER, opacity=0.18)
            .encode(x=self._x, y=self._y("low"), y2="high:Q"),
            alt.Chart(limit)
            .mark_rule(color=INK, strokeWidth=2)
            .encode(x=self._x, x2="end_m:Q", y=self._y("margin")),
            alt.Chart(line)
            .mark_line(color=COPPER, strokeWidth=2.5)
            .encode(x=self._x, y=self._y("margin")),
        ]

    def _cut(self, values: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.clip(values, self._low, self._high)

    def chances(self) -> list[alt.Chart]:
        """Dashed lines at the 95 % and 50 % lengths.

        The label nearer to the middle of the plot stands a row lower and its line ends there, so
        that neither label is crossed by the other's line.
        """
        c = self._curve
        marks = [
            (chance, length_m)
            for chance, length_m in (("95", c.length_at_95_m), ("50", c.length_at_50_m))
            if length_m is not None and length_m <= self._longest
        ]
        if not marks:
            return []
        left = marks[0][1] > 0.35 * self._longest
        layers = []
        for place, (chance, length_m) in enumerate(marks):
            row = (len(marks) - 1 - place) if left else place
            data = rows(
                length_m=[length_m],
                margin=[self._low],
                top=[self._high - row * _ROW_PX * self._per_px],
                told=[f"{chance}{NARROW_SPACE}% at {told_length(length_m)}"],
            )
            layers += [
                alt.Chart(data)
                .mark_rule(color=GRAPHITE, strokeDash=[4, 4], strokeWidth=1.2)
                .encode(x=self._x, y=self._y("margin"), y2="top:Q"),
                self._label(data, "top", left=left, dy=10, color=GRAPHITE),
            ]
        return layers

    def run(self) -> list[alt.Chart]:
        """The customer's point, its drop line to the limit, its sentence clear of the curve."""
        c = self._curve
        at_m = min(c.run_m, self._longest)
        shown = float(np.clip(c.run_margin, self._low, self._high))
        near = c.length_at_95_m is not None and c.run_m > 0.8 * c.length_at_95_m
        # Left of the 95 % length and under the limit nothing else is ever drawn.
        under = near or c.run_margin < 0
        told_at_m = min(at_m, c.length_at_95_m or at_m) if under else at_m
        left = under or at_m > 0.45 * self._longest
        data = rows(length_m=[at_m], margin=[shown], zero=[0.0])
        told = rows(length_m=[told_at_m], zero=[0.0], told=[run_sentence(c)])
        return [
            alt.Chart(data)
            .mark_rule(color=INK, strokeWidth=1.6)
            .encode(x=self._x, y=self._y("margin"), y2="zero:Q"),
            alt.Chart(data)
            .mark_point(shape="circle", filled=True, size=120, color=INK, opacity=1)
            .encode(x=self._x, y=self._y("margin")),
            self._label(
                told, "zero", left=left, dy=16 if under else -14, color=INK, fontWeight=SEMIBOLD
            ),
        ]

    def _label(
        self, data: alt.InlineData, field: str, *, left: bool, dy: int, color: str, **look: Any
    ) -> alt.Chart:
        return label(
            data,
            x=self._x,
            y=self._y(field),
            align="right" if left else "left",
            dx=-8 if left else 8,
            dy=dy,
            color=color,
            **look,
        )
