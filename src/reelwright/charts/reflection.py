"""The reflection trace of a finished run: impedance along its length, both ends in it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.charts.plain import plain_svg, register_fonts
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.quantities.show import show_in, show_length_m, show_plain_m

_DRAWN_POINTS = 700


@dataclass(frozen=True, kw_only=True, eq=False)
class ReflectionCurve:
    """A trace along ``distance_m`` [m], shape (n,), rising.

    ``seen_ohm`` [Ω], shape (n,), is what is shown; ``own_ohm`` [Ω], shape (n,), the slope of the
    cable without ends. ``length_m`` [m] is that of the run, ``resolution_m`` [m] what two steps
    must lie apart.
    """

    title: str
    distance_m: NDArray[np.float64]
    seen_ohm: NDArray[np.float64]
    own_ohm: NDArray[np.float64]
    length_m: float
    resolution_m: float

    def __post_init__(self) -> None:
        require_text(self, "title")
        require_positive(self, "length_m", "resolution_m")
        shape = self.distance_m.shape
        if len(shape) != 1 or shape[0] < 2 or bool(np.any(np.diff(self.distance_m) <= 0)):
            raise BadValue(
                owner="ReflectionCurve",
                field="distance_m",
                value=shape,
                accepted="two or more, rising",
            )
        for field in ("seen_ohm", "own_ohm"):
            values = getattr(self, field)
            if values.shape != shape or not bool(np.all(np.isfinite(values))):
                raise BadValue(
                    owner="ReflectionCurve",
                    field=field,
                    value=values.shape,
                    accepted=f"{shape}, finite",
                )


@dataclass(frozen=True, kw_only=True)
class ReflectionRow:
    """One row of the table twin."""

    what: str
    distance_m: float
    seen_ohm: float


@dataclass(frozen=True, kw_only=True)
class ReflectionChart:
    """The drawing and the table that says the same."""

    svg: str
    table: tuple[ReflectionRow, ...]


def draw_reflection(
    curve: ReflectionCurve, *, width_px: int = 680, height_px: int = 220
) -> ReflectionChart:
    """Return chart and table. The plot is ``width_px`` × ``height_px`` without its axes."""
    import vl_convert

    from reelwright.charts.reflection_plot import reflection_spec

    register_fonts()
    table = _table(curve)
    spec = reflection_spec(
        _thinned(curve), near=table[0], far=table[-1], width_px=width_px, height_px=height_px
    )
    svg = plain_svg(
        str(vl_convert.vegalite_to_svg(spec)), title=curve.title, description=_describe(table)
    )
    return ReflectionChart(svg=svg, table=table)


def end_label(row: ReflectionRow) -> str:
    """Return what stands at an end: "near end, 77.9 Ω"."""
    return f"{row.what}, {show_in(row.seen_ohm, 'Ω', decimals=1)}"


def _describe(table: tuple[ReflectionRow, ...]) -> str:
    told = [f"{end_label(row)} at {show_length_m(row.distance_m, decimals=1)}" for row in table]
    return "; ".join(told) + "."


def _peak(curve: ReflectionCurve, what: str, low_m: float, high_m: float) -> ReflectionRow:
    inside = np.flatnonzero((curve.distance_m >= low_m) & (curve.distance_m <= high_m))
    away = np.abs(curve.seen_ohm - curve.own_ohm)[inside]
    place = int(inside[int(np.argmax(away))]) if inside.size else 0
    return ReflectionRow(
        what=what,
        distance_m=float(curve.distance_m[place]),
        seen_ohm=float(curve.seen_ohm[place]),
    )


def _table(curve: ReflectionCurve) -> tuple[ReflectionRow, ...]:
    """Both ends where they stand out most, and the cable at quarters between them."""
    reach = min(3 * curve.resolution_m + 0.1, curve.length_m / 4)
    quarters = tuple(
        ReflectionRow(
            what=f"cable at {show_plain_m(float(round(at, 1)))}",
            distance_m=float(at),
            seen_ohm=float(np.interp(at, curve.distance_m, curve.seen_ohm)),
        )
        for at in curve.length_m * np.array([0.25, 0.5, 0.75])
    )
    near = _peak(curve, "near end", 0.0, reach)
    far = _peak(curve, "far end", curve.length_m - reach, curve.length_m + reach)
    return (near, *quarters, far)


def _thinned(curve: ReflectionCurve) -> ReflectionCurve:
    """As many points as a drawing can show, the extremes of each stretch among them."""
    size = curve.distance_m.size
    if size <= 2 * _DRAWN_POINTS:
        return curve
    kept = {0, size - 1}
    for stretch in np.array_split(np.arange(size), _DRAWN_POINTS // 2):
        values = curve.seen_ohm[stretch]
        kept |= {int(stretch[int(np.argmin(values))]), int(stretch[int(np.argmax(values))])}
    places = np.array(sorted(kept))
    return ReflectionCurve(
        title=curve.title,
        distance_m=curve.distance_m[places],
        seen_ohm=curve.seen_ohm[places],
        own_ohm=curve.own_ohm[places],
        length_m=curve.length_m,
        resolution_m=curve.resolution_m,
    )
