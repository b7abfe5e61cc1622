"""Margin against length: where a run stands, where it stops working, and how sure that is."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.charts.plain import plain_svg, register_fonts
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_given, require_positive, require_text
from reelwright.core.quantities.show import show_length_m, show_plain_m, show_short


@dataclass(frozen=True, kw_only=True, eq=False)
class MarginCurve:
    """What there is to spare along the length.

    ``lengths_m``, ``margin``, ``low`` and ``high``: shape ``(n_length,)``, lengths rising, the
    other three in ``unit``, low ≤ margin ≤ high. ``run_m`` is the customer's length and
    ``run_margin`` what is to spare there; ``length_at_95_m`` and ``length_at_50_m`` are the
    lengths that stay within the limit with that chance, ``None`` where not computed.
    """

    title: str
    unit: str
    lengths_m: NDArray[np.float64]
    margin: NDArray[np.float64]
    low: NDArray[np.float64]
    high: NDArray[np.float64]
    run_m: float
    run_margin: float
    length_at_95_m: float | None
    length_at_50_m: float | None

    def __post_init__(self) -> None:
        require_text(self, "title", "unit")
        require_positive(self, "run_m")
        require_given(self, "length_at_95_m", "length_at_50_m")
        shape = self.lengths_m.shape
        if len(shape) != 1 or shape[0] < 2 or bool(np.any(np.diff(self.lengths_m) <= 0)):
            raise BadValue(
                owner="MarginCurve", field="lengths_m", value=shape, accepted="two or more, rising"
            )
        for field in ("margin", "low", "high"):
            values = getattr(self, field)
            if values.shape != shape or not bool(np.all(np.isfinite(values))):
                raise BadValue(
                    owner="MarginCurve",
                    field=field,
                    value=values.shape,
                    accepted=f"{shape}, finite",
                )
        if bool(np.any(self.low > self.margin)) or bool(np.any(self.margin > self.high)):
            raise BadValue(
                owner="MarginCurve", field="low", value="crossed", accepted="low ≤ margin ≤ high"
            )


@dataclass(frozen=True, kw_only=True)
class MarginRow:
    """One row of the chart's table twin."""

    what: str
    length_m: float
    margin: float


@dataclass(frozen=True, kw_only=True)
class MarginChart:
    """The drawing and the table that says the same."""

    svg: str
    table: tuple[MarginRow, ...]


def draw_margin(curve: MarginCurve, *, width_px: int = 680, height_px: int = 260) -> MarginChart:
    """Return chart and table. The plot is ``width_px`` × ``height_px`` without its axes."""
    import vl_convert

    from reelwright.charts.margin_plot import margin_spec

    register_fonts()
    spec = margin_spec(curve, domain=_domain(curve), width_px=width_px, height_px=height_px)
    svg = plain_svg(
        str(vl_convert.vegalite_to_svg(spec)), title=curve.title, description=_describe(curve)
    )
    return MarginChart(svg=svg, table=_table(curve))


def run_sentence(curve: MarginCurve) -> str:
    """Return the sentence at the customer's point."""
    told = show_short(abs(curve.run_margin), curve.unit)
    ending = "to spare" if curve.run_margin >= 0 else "short"
    return f"your {show_plain_m(curve.run_m)}: {told} {ending}"


def _describe(curve: MarginCurve) -> str:
    told = [run_sentence(curve)]
    for chance, length_m in (("95", curve.length_at_95_m), ("50", curve.length_at_50_m)):
        if length_m is not None:
            told.append(f"{chance} % stay within the limit at {told_length(length_m)}")
    return "; ".join(told) + "."


def told_length(length_m: float) -> str:
    """Return a length that was worked out as the chart writes it: no finer than it is known."""
    return show_length_m(length_m, decimals=1 if length_m < 10 else 0)


def _table(curve: MarginCurve) -> tuple[MarginRow, ...]:
    def at(length_m: float) -> float:
        return float(np.interp(length_m, curve.lengths_m, curve.margin))

    rows = [MarginRow(what="this run", length_m=curve.run_m, margin=curve.run_margin)]
    for what, length_m in (
        ("95 % stay within the limit", curve.length_at_95_m),
        ("50 % stay within the limit", curve.length_at_50_m),
    ):
        if length_m is not None:
            rows.append(MarginRow(what=what, length_m=length_m, margin=at(length_m)))
    first, last = float(curve.lengths_m[0]), float(curve.lengths_m[-1])
    step = _round_step((last - first) / 6)
    start = math.ceil(first / step) * step
    rows += [
        MarginRow(what="curve", length_m=float(length), margin=at(float(length)))
        for length in np.arange(start, last + step / 1e6, step)
    ]
    return tuple(rows)


def _round_step(wanted: float) -> float:
    power = 10.0 ** math.floor(math.log10(wanted))
    return next(power * step for step in (1, 2, 5, 10) if power * step >= wanted)


def _domain(curve: MarginCurve) -> tuple[float, float]:
    """Return the range of the margin axis: the run and the limit in view, the start cut off."""
    lowest = min(float(curve.low.min()), curve.run_margin, 0.0)
    reach = max(abs(curve.run_margin) * 1.6, abs(lowest), float(curve.margin.max()) / 3, 1e-6)
    highest = min(
        max(reach, curve.run_margin * 1.25), max(float(curve.high.max()), curve.run_margin)
    )
    lowest = max(lowest, -max(reach, abs(curve.run_margin) * 1.25))
    highest = max(highest, abs(lowest) / 3)
    step = _round_step((highest - lowest) / 6)
    return min(math.floor(lowest / step) * step, -step), math.ceil(highest / step) * step
