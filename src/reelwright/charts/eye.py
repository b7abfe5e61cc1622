"""The eye of a data run: what its receiver sees, and what is left open at one error in 10¹²."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.charts.plain import plain_svg, register_fonts
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_text
from reelwright.core.quantities.show import show_number, show_percent

_TRACES = 48


@dataclass(frozen=True, kw_only=True, eq=False)
class EyeCurve:
    """One eye, a bit sent as ±1.

    ``phase_ratio``, shape (n_phase,), in bits from the middle, rising; ``opening_ratio`` [1],
    shape (n_phase,), what is left open, below zero where closed; ``level_ratio`` [1], shape
    (n_phase, n_bit), the levels of a bit sequence.
    """

    title: str
    phase_ratio: NDArray[np.float64]
    opening_ratio: NDArray[np.float64]
    level_ratio: NDArray[np.float64]

    def __post_init__(self) -> None:
        require_text(self, "title")
        size = self.phase_ratio.size
        if size < 4 or bool(np.any(np.diff(self.phase_ratio) <= 0)):
            raise BadValue(
                owner="EyeCurve", field="phase_ratio", value=size, accepted="four or more, rising"
            )
        for field in ("opening_ratio", "level_ratio"):
            values = getattr(self, field)
            if values.shape[:1] != (size,) or not bool(np.all(np.isfinite(values))):
                raise BadValue(
                    owner="EyeCurve", field=field, value=values.shape, accepted=f"({size}, ...)"
                )


@dataclass(frozen=True, kw_only=True)
class EyeRow:
    """One row of the table twin."""

    phase_ratio: float
    opening_ratio: float


@dataclass(frozen=True, kw_only=True)
class EyeChart:
    """The drawing and the table that says the same."""

    svg: str
    table: tuple[EyeRow, ...]


def draw_eye(curve: EyeCurve, *, width_px: int = 320, height_px: int = 240) -> EyeChart:
    """Return chart and table. The plot is ``width_px`` × ``height_px`` without its axes."""
    import vl_convert

    from reelwright.charts.eye_plot import eye_spec

    register_fonts()
    spec = eye_spec(curve, traces=_TRACES, width_px=width_px, height_px=height_px)
    svg = plain_svg(
        str(vl_convert.vegalite_to_svg(spec)), title=curve.title, description=_describe(curve)
    )
    return EyeChart(svg=svg, table=_table(curve))


def open_sentence(curve: EyeCurve) -> str:
    """Return what the eye comes to: "open by 0.65, over 63 % of the bit", or "closed"."""
    height = float(curve.opening_ratio.max())
    if height <= 0:
        return "closed"
    width = float((curve.opening_ratio > 0).mean())
    return f"open by {show_number(height, decimals=2)}, over {show_percent(width)} of the bit"


def _describe(curve: EyeCurve) -> str:
    return f"Eye at one error in a million million bits: {open_sentence(curve)}."


def _table(curve: EyeCurve) -> tuple[EyeRow, ...]:
    return tuple(
        EyeRow(
            phase_ratio=float(phase),
            opening_ratio=float(np.interp(phase, curve.phase_ratio, curve.opening_ratio)),
        )
        for phase in np.linspace(-0.4, 0.4, 9)
    )
