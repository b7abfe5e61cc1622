"""Loss of a run over frequency: the curve, what is stated, how far the fit lies off that."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.charts.plain import plain_svg, register_fonts
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_given, require_positive, require_text
from reelwright.core.quantities.show import show_db, show_number
from reelwright.core.quantities.show_scaled import show_megahertz


@dataclass(frozen=True, kw_only=True)
class StatedLoss:
    """A stated loss over the run's length [dB], and the fit over it less 1, ``residual`` [1]."""

    frequency_hz: float
    loss_db: float
    residual: float

    def __post_init__(self) -> None:
        require_positive(self, "frequency_hz", "loss_db")


@dataclass(frozen=True, kw_only=True, eq=False)
class LossCurve:
    """Loss [dB] over ``frequency_hz`` [Hz], rising, with its band of 95 %, all shape (n,).

    ``deciding_hz`` [Hz] is where the signal is judged and ``limit_db`` [dB] what it allows there
    to the cable, ``None`` where it has no such limit; ``carried_on_from_hz`` [Hz] is the highest
    stated frequency.
    """

    title: str
    frequency_hz: NDArray[np.float64]
    loss_db: NDArray[np.float64]
    low_db: NDArray[np.float64]
    high_db: NDArray[np.float64]
    stated: tuple[StatedLoss, ...]
    carried_on_from_hz: float
    deciding_hz: float
    limit_db: float | None

    def __post_init__(self) -> None:
        require_text(self, "title")
        require_positive(self, "carried_on_from_hz", "deciding_hz")
        require_given(self, "limit_db")
        shape = self.frequency_hz.shape
        if len(shape) != 1 or shape[0] < 2 or bool(np.any(np.diff(self.frequency_hz) <= 0)):
            raise BadValue(
                owner="LossCurve", field="frequency_hz", value=shape, accepted="two or more, rising"
            )
        for field in ("loss_db", "low_db", "high_db"):
            values = getattr(self, field)
            if values.shape != shape or not bool(np.all(np.isfinite(values))):
                raise BadValue(
                    owner="LossCurve", field=field, value=values.shape, accepted=f"{shape}, finite"
                )


@dataclass(frozen=True, kw_only=True)
class LossRow:
    """One row of the table twin; ``residual`` [1] is None where nothing is stated there."""

    what: str
    frequency_hz: float
    loss_db: float
    residual: float | None


@dataclass(frozen=True, kw_only=True)
class LossChart:
    """The drawing and the table that says the same."""

    svg: str
    table: tuple[LossRow, ...]


def draw_loss(curve: LossCurve, *, width_px: int = 680, height_px: int = 240) -> LossChart:
    """Return chart and table. The plot is ``width_px`` × ``height_px`` without its axes."""
    import vl_convert

    from reelwright.charts.loss_plot import loss_spec

    register_fonts()
    table = _table(curve)
    spec = loss_spec(curve, decides=table[0], width_px=width_px, height_px=height_px)
    described = [f"{row.what} {show_megahertz(row.frequency_hz)}: {show_db(row.loss_db)}"
                 for row in table]  # fmt: skip
    svg = plain_svg(
        str(vl_convert.vegalite_to_svg(spec)),
        title=curve.title,
        description="; ".join(described) + ".",
    )
    return LossChart(svg=svg, table=table)


def residual_label(residual: float) -> str:
    """Return how far the fit lies off a stated loss: "+0.4 %", "−0.1 %", "0.0 %"."""
    percent = show_number(100 * residual, decimals=1)
    sign = "+" if residual > 0 and percent.strip("0.") else ""
    return f"{sign}{percent}\u202f%"


def _table(curve: LossCurve) -> tuple[LossRow, ...]:
    decides = LossRow(
        what="decides",
        frequency_hz=curve.deciding_hz,
        loss_db=float(
            np.interp(np.log(curve.deciding_hz), np.log(curve.frequency_hz), curve.loss_db)
        ),
        residual=None,
    )
    return (
        decides,
        *(
            LossRow(
                what="stated",
                frequency_hz=point.frequency_hz,
                loss_db=point.loss_db,
                residual=point.residual,
            )
            for point in curve.stated
        ),
    )
