"""What the power trace of one weld tells, and whether it looks like the good ones.

A weld whose wire was tinned, or whose strands lay outside the horn, takes its power otherwise: the
trace shows it before a pull does.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

import numpy as np
from numpy.typing import NDArray

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_given, require_not_negative, require_positive
from reelwright.core.quantities.show import show_digits, with_unit
from reelwright.core.verdicts import Basis, Check, Outcome, Source

SPREADS_FACTOR = 3.0
"""Standard deviations on either side of the good welds: common practice, no published source."""

LEAST_GOOD_COUNT = 5
"""Good welds below which their spread is not trusted; our own choice."""

POINTS_LEAST = 5
"""Moments below which a trace has no shape."""

_GOOD = Source(text="the shop's own good welds of this kind, mean ± 3 s", basis=Basis.OWN_SHOP)


@dataclass(frozen=True, kw_only=True, eq=False)
class PowerTrace:
    """Power over time of one weld, sampled: ``time_s`` [s] rising and ``power_w`` [W], shape (n,).

    ``height_before_m`` and ``height_after_m`` [m] of the joint, ``None`` where not measured.
    """

    time_s: NDArray[np.float64]
    power_w: NDArray[np.float64]
    height_before_m: float | None
    height_after_m: float | None

    def __post_init__(self) -> None:
        require_given(self, "height_before_m", "height_after_m")
        shape = self.time_s.shape
        if (
            len(shape) != 1
            or shape[0] < POINTS_LEAST
            or not bool(np.all(np.isfinite(self.time_s)))
            or bool(np.any(np.diff(self.time_s) <= 0))
        ):
            raise BadValue(
                owner="PowerTrace",
                field="time_s",
                value=shape,
                accepted=f"{POINTS_LEAST} or more times, rising",
            )
        if self.power_w.shape != shape or not bool(
            np.all(np.isfinite(self.power_w)) and np.all(self.power_w >= 0)
        ):
            raise BadValue(
                owner="PowerTrace",
                field="power_w",
                value=self.power_w.shape,
                accepted=f"{shape} powers of zero or more",
            )
        if not bool(np.any(self.power_w > 0)):
            raise BadValue(
                owner="PowerTrace", field="power_w", value=0.0, accepted="a weld that took power"
            )


@dataclass(frozen=True, kw_only=True)
class WeldFeatures:
    """What a trace comes down to.

    ``energy_j`` [J] is ∫P dt by trapezoids, ``peak_w`` [W] at ``peak_s`` [s] after the start,
    ``weld_s`` [s] from first to last power above a tenth of the peak; ``knee_s`` [s] is where the
    rise to the peak turns from steep to slow (the best pair of straight lines), ``rise_w_per_s``
    [W/s] the slope before it; ``collapse_m`` [m] by how much the joint got lower, ``None`` where
    not measured. ``step_s`` [s] is the widest step between two samples: no moment is known better.
    """

    energy_j: float
    peak_w: float
    peak_s: float
    weld_s: float
    knee_s: float
    rise_w_per_s: float
    collapse_m: float | None
    step_s: float

    def __post_init__(self) -> None:
        require_positive(self, "energy_j", "peak_w", "weld_s")
        require_not_negative(self, "step_s")


def weld_features(trace: PowerTrace) -> WeldFeatures:
    """Return the features of one trace."""
    time_s, power_w = trace.time_s - trace.time_s[0], trace.power_w
    peak = int(np.argmax(power_w))
    on = np.flatnonzero(power_w > 0.1 * power_w[peak])
    knee_s, rise_w_per_s = _knee(time_s[: peak + 1], power_w[: peak + 1])
    before, after = trace.height_before_m, trace.height_after_m
    return WeldFeatures(
        energy_j=float(np.trapezoid(power_w, time_s)),
        peak_w=float(power_w[peak]),
        peak_s=float(time_s[peak]),
        # A weld of one sample lasts as long as the way to its neighbours.
        weld_s=float(time_s[min(on[-1] + 1, len(time_s) - 1)] - time_s[max(on[0] - 1, 0)]),
        knee_s=knee_s,
        rise_w_per_s=rise_w_per_s,
        collapse_m=None if before is None or after is None else before - after,
        step_s=float(np.max(np.diff(time_s))),
    )


def _knee(time_s: NDArray[np.float64], power_w: NDArray[np.float64]) -> tuple[float, float]:
    """Where two straight lines that meet fit the rise best, and the slope of the first."""
    if len(time_s) < 4:
        rise = (power_w[-1] - power_w[0]) / (time_s[-1] - time_s[0]) if len(time_s) > 1 else 0.0
        return float(time_s[-1]), float(rise)
    best = (np.inf, 0.0, 0.0)
    for at in time_s[1:-1]:
        columns = np.column_stack(
            [np.ones_like(time_s), np.minimum(time_s - at, 0.0), np.maximum(time_s - at, 0.0)]
        )
        found, *_ = np.linalg.lstsq(columns, power_w, rcond=None)
        left = float(np.sum((power_w - columns @ found) ** 2))
        if left < best[0]:
            best = (left, float(at), float(found[1]))
    return best[1], best[2]


def compare_weld(features: WeldFeatures, good: Sequence[WeldFeatures]) -> tuple[Check, ...]:
    """Return one check for each feature: inside mean ± 3 s of good welds of the same kind, or not.

    Fewer than ``LEAST_GOOD_COUNT`` good welds: not computed. A feature that not all of them have is
    left out. Of a moment read off samples the step counts too, its width over √12 (JCGM 100:2008,
    4.3.7) once for the weld and once for the good ones, so that good welds which agree to the
    sample do not refuse one that lies on the next.
    """
    told = (
        ("weld energy", "energy_j", "J"),
        ("peak power", "peak_w", "W"),
        ("weld time", "weld_s", "s"),
        ("time of the knee", "knee_s", "s"),
        ("rise of power", "rise_w_per_s", "W/s"),
        ("collapse of the joint", "collapse_m", "m"),
    )
    checks = []
    for name, field, unit in told:
        value = getattr(features, field)
        values = [getattr(each, field) for each in good]
        if value is None or None in values:
            continue
        steps = [features.step_s, *(each.step_s for each in good)] if unit == "s" else [0.0]
        checks.append(_compare(name, value, values, unit, step=max(steps)))
    return tuple(checks)


def _compare(name: str, value: float, values: list[float], unit: str, *, step: float) -> Check:
    if unit == "m":
        value, values, unit = value * 1e3, [each * 1e3 for each in values], "mm"
    shown = with_unit(show_digits(value), unit)
    if len(values) < LEAST_GOOD_COUNT:
        return Check(
            name=name,
            outcome=Outcome.NOT_COMPUTED,
            sentence=(
                f"{name} {shown}: {len(values)} good welds are too few to compare with, "
                f"{LEAST_GOOD_COUNT} are needed"
            ),
            source=_GOOD,
            value=value,
            limit=None,
            margin=None,
            unit=unit,
        )
    mean, reach = fmean(values), SPREADS_FACTOR * math.hypot(stdev(values), step / math.sqrt(6))
    margin = reach - abs(value - mean)
    between = f"{show_digits(mean - reach)} to {with_unit(show_digits(mean + reach), unit)}"
    return Check(
        name=name,
        outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
        sentence=f"{name} {shown}, "
        + ("as good welds have it" if margin >= 0 else "not as good welds have it")
        + f", {between}",
        source=_GOOD,
        value=value,
        limit=mean + (reach if value >= mean else -reach),
        margin=margin,
        unit=unit,
    )
