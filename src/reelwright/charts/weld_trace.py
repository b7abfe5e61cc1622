"""Power over time of one weld, over the band in which the good ones before it lie."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from reelwright.charts.plain import plain_svg, register_fonts
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_text
from reelwright.core.quantities.show import show_digits, with_unit

BAND_COUNT = 5
"""Good welds from which on a band is drawn: as few as they are compared with."""

SPREADS_FACTOR = 3.0
_MOMENTS = 81

Curve = Sequence[tuple[float, float]]


@dataclass(frozen=True, kw_only=True)
class TraceDrawn:
    """One weld's ``curve`` and the curves of ``good`` ones: pairs of time [s] and power [W]."""

    title: str
    curve: Curve
    good: tuple[Curve, ...]

    def __post_init__(self) -> None:
        require_text(self, "title")
        for curve in (self.curve, *self.good):
            times = [at for at, _ in curve]
            if len(times) < 2 or times != sorted(set(times)):
                raise BadValue(
                    owner="TraceDrawn", field="curve", value=times, accepted="two times or more, "
                    "rising"
                )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Band:
    """Mean ± 3 s of good welds at each of ``time_s`` [s]: ``low_w`` to ``high_w`` [W]."""

    time_s: tuple[float, ...]
    low_w: tuple[float, ...]
    high_w: tuple[float, ...]


def band_of(good: Sequence[Curve]) -> Band | None:
    """Return the band of good welds, moment by moment; ``None`` under ``BAND_COUNT`` of them.

    It ends with the shortest of them, where its power falls under a tenth of its peak: beyond, some
    are at full power and others at none, which is a matter of time and no spread of power.
    """
    if len(good) < BAND_COUNT:
        return None
    times = np.linspace(0.0, min(_end_of(curve) for curve in good), _MOMENTS)
    powers = np.array(
        [np.interp(times, [at for at, _ in curve], [power for _, power in curve]) for curve in good]
    )
    mean, reach = powers.mean(axis=0), SPREADS_FACTOR * powers.std(axis=0, ddof=1)
    return Band(
        time_s=tuple(times.tolist()),
        low_w=tuple(np.maximum(0.0, mean - reach).tolist()),
        high_w=tuple((mean + reach).tolist()),
    )


def _end_of(curve: Curve) -> float:
    peak = max(power for _, power in curve)
    return max(at for at, power in curve if power > 0.1 * peak)


def draw_weld_trace(drawn: TraceDrawn, *, width_px: int = 560, height_px: int = 200) -> str:
    """Return the drawing as SVG. The plot is ``width_px`` × ``height_px`` without axes."""
    import vl_convert

    from reelwright.charts.weld_trace_plot import weld_trace_spec

    register_fonts()
    band = band_of(drawn.good)
    spec = weld_trace_spec(drawn, band, width_px=width_px, height_px=height_px)
    peak_at, peak = max(drawn.curve, key=lambda each: each[1])
    told = (
        f"Power rises to {with_unit(show_digits(peak), 'W')} at "
        f"{with_unit(show_digits(peak_at), 's')} and ends at "
        f"{with_unit(show_digits(drawn.curve[-1][0]), 's')}"
    )
    told += "; the band is that of the good welds." if band else "; no band of good welds yet."
    return plain_svg(str(vl_convert.vegalite_to_svg(spec)), title=drawn.title, description=told)
