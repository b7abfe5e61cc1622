"""The specification of the charts of trials. Imported late: the plotting library takes a second."""

from collections.abc import Sequence
from typing import Any

import altair as alt
import numpy as np
from numpy.typing import NDArray

from reelwright.charts.contour import column_runs, zero_line
from reelwright.charts.label_places import place_labels
from reelwright.charts.plot_parts import TEXT_PX, rows
from reelwright.charts.trials import LineData, MapData
from reelwright.core.quantities.marks import MINUS
from reelwright.core.quantities.show import show_plain
from reelwright.style import (
    BAD,
    BAD_TINT,
    COPPER,
    FONT_FAMILY,
    GOOD,
    GOOD_TINT,
    GRAPHITE,
    HAIRLINE,
    INK,
    SEMIBOLD,
    SHEET,
)

_KEY_PX = 26


def _finish(layers: Sequence[alt.Chart], *, width_px: int, height_px: int) -> dict[str, Any]:
    spec: dict[str, Any] = (
        alt.layer(*layers)
        .properties(width=width_px, height=height_px, background=SHEET, padding=8)
        .configure(font=FONT_FAMILY)
        .configure_view(stroke=HAIRLINE)
        .configure_axis(
            labelFont=FONT_FAMILY,
            labelFontSize=TEXT_PX,
            labelColor=GRAPHITE,
            titleFont=FONT_FAMILY,
            titleFontSize=TEXT_PX,
            titleFontWeight=SEMIBOLD,
            titleColor=INK,
            tickColor=GRAPHITE,
            labelPadding=6,
            titlePadding=10,
            grid=False,
            domain=False,
        )
        .to_dict()
    )
    return spec


def _axis(title: str) -> alt.Axis:
    return alt.Axis(
        title=title,
        tickCount=6,
        labelExpr=f"replace(format(datum.value, '~f'), '-', '{MINUS}')",
    )


def map_spec(data: MapData, *, width_px: int, height_px: int, cell_px: int) -> dict[str, Any]:
    """Return the map of two settings as a Vega-Lite specification."""
    plot = _Map(data, width_px=width_px, height_px=height_px, cell_px=cell_px)
    layers = [*plot.regions(), *plot.centre(), *plot.points(), *plot.key()]
    return _finish(layers, width_px=width_px, height_px=height_px)


class _Map:
    """The layers of the map, on two shared scales; the key stands above, outside the data."""

    def __init__(self, data: MapData, *, width_px: int, height_px: int, cell_px: int) -> None:
        self._data = data
        self._half = (data.across[1] - data.across[0]) / 2
        self._per_px = (
            float(self._half * 2 / cell_px),
            float((data.ups[-1] - data.ups[0]) / height_px),
        )
        low = float(data.across[0] - self._half)
        self._x_scale = alt.Scale(domain=[low, low + width_px * self._per_px[0]], nice=False)
        self._y_scale = alt.Scale(domain=[float(data.ups[0]), float(data.ups[-1])], nice=False)
        self._left, self._top, self._width_px = low, float(data.ups[-1]), width_px

    def _x(self, field: str = "x") -> alt.X:
        return alt.X(f"{field}:Q", scale=self._x_scale, axis=_axis(self._data.across_title))

    def _y(self, field: str = "y") -> alt.Y:
        return alt.Y(f"{field}:Q", scale=self._y_scale, axis=_axis(self._data.up_title))

    def _fill(self, field: NDArray[np.float64], colour: str) -> list[alt.Chart]:
        runs = column_runs(field, self._data.ups)
        if not runs:
            return []
        lefts = [float(self._data.across[column] - self._half) for column, _, _ in runs]
        data = rows(
            x=lefts,
            # A pixel over the next column: enlarged, the seams between them would show.
            x2=[left + 2 * float(self._half) + self._per_px[0] for left in lefts],
            y=[low for _, low, _ in runs],
            y2=[high for _, _, high in runs],
        )
        return [
            alt.Chart(data)
            .mark_rect(color=colour)
            .encode(x=self._x(), x2="x2:Q", y=self._y(), y2="y2:Q")
        ]

    def _outline(
        self, field: NDArray[np.float64], colour: str, *, dash: list[int], width: float
    ) -> list[alt.Chart]:
        segments = zero_line(field, self._data.across, self._data.ups)
        if not segments:
            return []
        x, y, x2, y2 = zip(*segments, strict=True)
        return [
            alt.Chart(rows(x=x, y=y, x2=x2, y2=y2))
            .mark_rule(color=colour, strokeWidth=width, strokeDash=dash, strokeCap="round")
            .encode(x=self._x(), x2="x2:Q", y=self._y(), y2="y2:Q")
        ]

    def regions(self) -> list[alt.Chart]:
        """What is too risky, tinted; the window over it with its edge."""
        return [
            *self._fill(-self._data.safe, BAD_TINT),
            *self._fill(self._data.proven, GOOD_TINT),
            *self._outline(self._data.safe, BAD, dash=[1, 0], width=1.0),
            *self._outline(self._data.proven, GOOD, dash=[1, 0], width=2.0),
        ]

    def centre(self) -> list[alt.Chart]:
        """The recommended point as crossed lines, twice the machine's play to either side."""
        if self._data.centre is None:
            return []
        x, y, play_x, play_y = self._data.centre
        # Never shorter than can be seen: a steady machine's play is less than a line is wide.
        reach_x = max(2 * play_x, 9 * self._per_px[0])
        reach_y = max(2 * play_y, 9 * self._per_px[1])
        data = rows(
            x=[x - reach_x, x], y=[y, y - reach_y], x2=[x + reach_x, x], y2=[y, y + reach_y]
        )
        return [
            alt.Chart(data)
            .mark_rule(color=INK, strokeWidth=2.5)
            .encode(x=self._x(), x2="x2:Q", y=self._y(), y2="y2:Q")
        ]

    def points(self) -> list[alt.Chart]:
        """Every trial with its number; what comes next in copper."""
        kinds = ("good", "short", "failed", "next")
        return [
            *(layer for kind in kinds for layer in self._marks_of(kind)),
            *self._labels(),
        ]

    def _marks_of(self, kind: str) -> list[alt.Chart]:
        chosen = [point for point in self._data.points if point[3] == kind]
        if not chosen:
            return []
        x, y, _, _ = zip(*chosen, strict=True)
        return [_mark(alt.Chart(rows(x=x, y=y)), kind).encode(x=self._x(), y=self._y())]

    def _labels(self) -> list[alt.Chart]:
        points = self._data.points
        places = place_labels(
            [
                ((x - self._left) / self._per_px[0], (self._top - y) / self._per_px[1])
                for x, y, _, _ in points
            ],
            [told for _, _, told, _ in points],
            width_px=self._width_px,
        )
        layers = []
        for (x, y, told, kind), place in zip(points, places, strict=True):
            look: dict[str, Any] = {"color": INK}
            if kind == "next":
                look = {"color": COPPER, "fontWeight": SEMIBOLD}
            layers.append(
                alt.Chart(rows(x=[x], y=[y], told=[told]))
                .mark_text(
                    font=FONT_FAMILY,
                    fontSize=TEXT_PX,
                    align="left" if place.is_right else "right",
                    baseline="middle",
                    dx=place.dx,
                    dy=place.dy,
                    **look,
                )
                .encode(x=self._x(), y=self._y(), text="told:N")
            )
        return layers

    def key(self) -> list[alt.Chart]:
        """What the marks mean, one row above the plot."""
        entries = [("good", "within limits", 0), ("short", "not within", 118),
                   ("failed", "failed", 216), ("next", "next trial", 286)]  # fmt: skip
        y = self._top + _KEY_PX * self._per_px[1]
        layers = []
        for kind, told, px in entries:
            at = rows(x=[self._left + (px + 7) * self._per_px[0]], y=[y], told=[told])
            layers += [
                _mark(alt.Chart(at), kind).encode(x=self._x(), y=self._y()),
                _told(alt.Chart(at), dx=12, color=INK).encode(
                    x=self._x(), y=self._y(), text="told:N"
                ),
            ]
        swatches = [(GOOD_TINT, GOOD, "proven window", 378), (BAD_TINT, BAD, "too risky", 504)]
        for tint, edge, told, px in swatches:
            left = self._left + px * self._per_px[0]
            at = rows(
                x=[left],
                x2=[left + 14 * self._per_px[0]],
                y=[y - 6 * self._per_px[1]],
                y2=[y + 6 * self._per_px[1]],
                middle=[y],
                told=[told],
            )
            layers += [
                alt.Chart(at)
                .mark_rect(color=tint, stroke=edge, strokeWidth=1.2)
                .encode(x=self._x(), x2="x2:Q", y=self._y(), y2="y2:Q"),
                _told(alt.Chart(at), dx=20, color=INK).encode(
                    x=self._x(), y=self._y("middle"), text="told:N"
                ),
            ]
        return layers


def _told(chart: alt.Chart, *, dx: int, color: str, dy: int = 0) -> alt.Chart:
    told: alt.Chart = chart.mark_text(
        font=FONT_FAMILY,
        fontSize=TEXT_PX,
        align="left",
        baseline="middle",
        dx=dx,
        dy=dy,
        color=color,
    )
    return told


def _mark(chart: alt.Chart, kind: str) -> alt.Chart:
    """Return the mark of a kind of trial: told by its shape, not by its colour alone."""
    looks: dict[str, dict[str, Any]] = {
        "good": {"shape": "circle", "filled": True, "size": 90, "color": GOOD},
        "short": {"shape": "circle", "filled": False, "size": 80, "color": INK, "strokeWidth": 2},
        "failed": {"shape": "M-1,-1L1,1M-1,1L1,-1", "size": 90, "color": BAD, "strokeWidth": 2.5},
        "next": {"shape": "diamond", "filled": True, "size": 170, "color": COPPER},
    }
    marked: alt.Chart = chart.mark_point(opacity=1, **looks[kind])
    return marked


def line_spec(data: LineData, *, width_px: int, height_px: int) -> dict[str, Any]:
    """Return one response along one setting as a Vega-Lite specification."""
    plot = _Line(data)
    layers = [*plot.grounds(), *plot.curve(), *plot.marks()]
    return _finish(layers, width_px=width_px, height_px=height_px)


class _Line:
    """The layers of the curve, on two shared scales."""

    def __init__(self, data: LineData) -> None:
        self._data = data
        readings = [value for _, value, _ in data.readings]
        seen = [*readings, *data.limits, *data.mean.tolist()]
        room = (max(seen) - min(seen)) * 0.12 or 1.0
        self._low, self._high = min(seen) - room, max(seen) + room
        self._x_scale = alt.Scale(
            domain=[float(data.across[0]), float(data.across[-1])], nice=False
        )
        self._y_scale = alt.Scale(domain=[self._low, self._high], nice=False)

    def _x(self, field: str = "x") -> alt.X:
        return alt.X(f"{field}:Q", scale=self._x_scale, axis=_axis(self._data.across_title))

    def _y(self, field: str = "y") -> alt.Y:
        return alt.Y(f"{field}:Q", scale=self._y_scale, axis=_axis(self._data.up_title))

    def _band(self, low: float, high: float, colour: str) -> alt.Chart:
        data = rows(x=[low], x2=[high], y=[self._low], y2=[self._high])
        band: alt.Chart = (
            alt.Chart(data)
            .mark_rect(color=colour)
            .encode(x=self._x(), x2="x2:Q", y=self._y(), y2="y2:Q")
        )
        return band

    def grounds(self) -> list[alt.Chart]:
        """Too risky, tinted; the proven span; the limits in ink."""
        d = self._data
        runs = column_runs(-d.safe[:, None], d.across)
        layers = [self._band(low, high, BAD_TINT) for _, low, high in runs]
        if d.span is not None:
            layers.append(self._band(*d.span, GOOD_TINT))
        limits = rows(
            x=[float(d.across[0])] * len(d.limits),
            x2=[float(d.across[-1])] * len(d.limits),
            y=list(d.limits),
        )
        told = rows(
            x=[float(d.across[0])] * len(d.limits),
            y=list(d.limits),
            told=[f"limit {show_plain(limit, d.unit)}" for limit in d.limits],
        )
        layers += [
            alt.Chart(limits)
            .mark_rule(color=INK, strokeWidth=2)
            .encode(x=self._x(), x2="x2:Q", y=self._y()),
            _told(alt.Chart(told), dx=8, dy=-10, color=INK).encode(
                x=self._x(), y=self._y(), text="told:N"
            ),
        ]
        return layers

    def curve(self) -> list[alt.Chart]:
        """The expected mean with its tolerance bounds."""
        d = self._data
        band = rows(
            x=d.across.tolist(),
            y=np.clip(d.low, self._low, self._high).tolist(),
            y2=np.clip(d.high, self._low, self._high).tolist(),
        )
        line = rows(x=d.across.tolist(), y=d.mean.tolist())
        return [
            alt.Chart(band)
            .mark_area(color=COPPER, opacity=0.18)
            .encode(x=self._x(), y=self._y(), y2="y2:Q"),
            alt.Chart(line)
            .mark_line(color=COPPER, strokeWidth=2.5)
            .encode(x=self._x(), y=self._y()),
        ]

    def marks(self) -> list[alt.Chart]:
        """Readings, failures at the foot, the next trial and the centre as named lines."""
        d = self._data
        layers = []
        if d.readings:
            at = rows(x=[x for x, _, _ in d.readings], y=[y for _, y, _ in d.readings])
            layers.append(_mark(alt.Chart(at), "short").encode(x=self._x(), y=self._y()))
        if d.failures:
            foot = self._low + 0.04 * (self._high - self._low)
            at = rows(x=[x for x, _ in d.failures], y=[foot] * len(d.failures))
            layers.append(_mark(alt.Chart(at), "failed").encode(x=self._x(), y=self._y()))
        named = [(x, told, COPPER, [5, 4]) for x, told in d.nexts]
        if d.centre is not None:
            named.append((d.centre, "centre", INK, [1, 0]))
        for row, (x, told, colour, dash) in enumerate(named):
            top = self._high - (0.03 + 0.06 * row) * (self._high - self._low)
            left = x > (d.across[0] + d.across[-1]) / 2
            data = rows(x=[x], y=[self._low], y2=[top], told=[told])
            look: dict[str, Any] = {"color": colour, "fontWeight": SEMIBOLD}
            layers += [
                alt.Chart(data)
                .mark_rule(color=colour, strokeDash=dash, strokeWidth=1.6)
                .encode(x=self._x(), y=self._y(), y2="y2:Q"),
                alt.Chart(data)
                .mark_text(
                    font=FONT_FAMILY,
                    fontSize=TEXT_PX,
                    align="right" if left else "left",
                    baseline="middle",
                    dx=-6 if left else 6,
                    **look,
                )
                .encode(x=self._x(), y=self._y("y2"), text="told:N"),
            ]
        return layers
