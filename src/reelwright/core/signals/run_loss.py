"""The loss of one run over frequency, with the stated losses and how far the fit lies off them."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.known_loss import known_loss
from reelwright.core.quantities.guard import require_positive
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Reason, Source

_POINTS = 160
_BAND_95 = 1.96


@dataclass(frozen=True, kw_only=True)
class StatedPoint:
    """A stated loss carried to the length of the run, and the fit against it.

    ``residual`` [1] is the fitted curve over what is stated, less 1, before it is bent to it.
    """

    frequency_hz: float
    loss_db: float
    residual: float

    def __post_init__(self) -> None:
        require_positive(self, "frequency_hz", "loss_db")


@dataclass(frozen=True, kw_only=True, eq=False)
class RunLoss:
    """Loss of the cable of a run, joints left out: ``loss_db`` with a band of 95 % [dB].

    ``frequency_hz`` [Hz], ``loss_db``, ``low_db`` and ``high_db`` [dB], all of shape
    (n_frequency,). ``stated`` are the points at 20 °C; ``fitted_high_hz`` [Hz] is the highest of
    them, beyond which the curve is carried on; ``source`` says whose losses they are.
    """

    frequency_hz: FloatArray
    loss_db: FloatArray
    low_db: FloatArray
    high_db: FloatArray
    stated: tuple[StatedPoint, ...]
    fitted_high_hz: float
    worst_residual: float
    source: Source


def loss_of_run(run: Run, *, lowest_hz: float, highest_hz: float) -> RunLoss | Reason:
    """Return the loss of a run between two frequencies [Hz], or the reason why it is not known.

    Starts higher where the cable is known from there only. Raises BadValue for a band that is
    none.
    """
    if not 0 < lowest_hz < highest_hz:
        raise BadValue(
            owner="loss_of_run",
            field="highest_hz",
            value=(lowest_hz, highest_hz),
            accepted="two rising frequencies above zero",
        )
    known = known_loss(run.cable, run.lot)
    if isinstance(known, Reason):
        return known
    start = max(lowest_hz, known.line.lowest_hz)
    stop = min(highest_hz, known.line.highest_hz)
    if start >= stop:
        return Reason(
            code="loss-below-what-is-known",
            sentence=f"the loss of {run.cable.code} is not known at frequencies so low",
        )
    frequency = np.geomspace(start, stop, _POINTS)
    length_m = run.length.mean_m
    loss = length_m * known.loss_db_per_m(frequency, temperature_celsius=run.temperature_celsius)
    spread = np.array([known.spread_at(float(each)) for each in frequency])
    half = _BAND_95 * loss * np.hypot(spread, run.length_relative_uncertainty)
    used = [point for point in known.points if point.frequency_hz >= known.line.lowest_hz]
    return RunLoss(
        frequency_hz=frequency,
        loss_db=loss,
        low_db=loss - half,
        high_db=loss + half,
        stated=tuple(
            StatedPoint(
                frequency_hz=point.frequency_hz,
                loss_db=point.loss_db_per_m * length_m,
                residual=residual,
            )
            for point, residual in zip(used, known.line.relative_residuals, strict=True)
        ),
        fitted_high_hz=known.line.fitted_high_hz or stop,
        worst_residual=known.line.worst_residual,
        source=known.source,
    )
