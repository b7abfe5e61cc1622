"""Simulated benches whose truth is known: two published functions and a weld of five settings.

Branin and Hartmann-3 are the usual test functions of global search (Dixon and Szegö, Towards Global
Optimisation 2, 1978); a stated upper limit makes a window of each. The equations of the weld stand
in docs/methods/trials.md.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.core.trials.guess import Level, Peak, Slope
from reelwright.core.trials.problem import Demand, TrialsProblem
from reelwright.core.trials.record import Readings, Trial
from reelwright.core.trials.response import Response
from reelwright.core.trials.settings import Setting
from reelwright.core.trials.weld_energy import KnownGauge, fit_energy_law

FloatArray = NDArray[np.float64]

DEMAND = Demand(
    coverage=0.95,
    confidence=0.9,
    unsafe_chance=0.1,
    expected_good_fraction=0.95,
    clear_drifts_ratio=2.0,
)


@dataclass(frozen=True, kw_only=True)
class Truth:
    """A bench that only the benchmark can look behind.

    ``means`` gives each response's true mean ``(n, n_response)`` at settings ``(n, n_setting)``,
    ``fails`` where a trial fails outright ``(n,)``; ``spreads`` are the standard deviations of one
    reading. ``repeats`` readings are taken at each trial.
    """

    name: str
    settings: tuple[Setting, ...]
    responses: tuple[Response, ...]
    spreads: tuple[float, ...]
    means: Callable[[FloatArray], FloatArray]
    fails: Callable[[FloatArray], NDArray[np.bool_]]
    repeats: int

    def problem(self, trials: Sequence[Trial]) -> TrialsProblem:
        """Return what the engine is told."""
        return TrialsProblem(
            settings=self.settings,
            responses=self.responses,
            looks=(),
            trials=tuple(trials),
            demand=DEMAND,
        )

    def unsafe(self, values: FloatArray) -> NDArray[np.bool_]:
        """Return where a trial harms: it fails outright, or its true mean is past a danger."""
        means = self.means(values)
        bad = self.fails(values)
        for place, response in enumerate(self.responses):
            for limit, sign in response.dangers:
                bad = bad | (sign * (means[:, place] - limit) < 0)
        return bad

    def inside(self, values: FloatArray) -> NDArray[np.bool_]:
        """Return where the stated share of parts truly lies within every limit."""
        from scipy.special import ndtri

        means = self.means(values)
        good = ~self.unsafe(values)
        for place, (response, spread) in enumerate(zip(self.responses, self.spreads, strict=True)):
            reach = float(ndtri(DEMAND.coverage)) * spread
            for limit, sign in response.limits:
                good = good & (sign * (means[:, place] - limit) >= reach)
        return good

    def make(self, number: int, values: Sequence[float], dice: np.random.Generator) -> Trial:
        """Return what the bench shows at ``values``."""
        at = np.array([values], dtype=np.float64)
        if bool(self.fails(at)[0]):
            return Trial(
                number=number,
                values=tuple(values),
                readings=(),
                seen=(),
                failure="nothing left to measure",
            )
        means = self.means(at)[0]
        return Trial(
            number=number,
            values=tuple(values),
            readings=tuple(
                Readings(
                    response=response.name,
                    values=tuple(mean + spread * dice.standard_normal(self.repeats)),
                )
                for response, mean, spread in zip(self.responses, means, self.spreads, strict=True)
            ),
            seen=(),
            failure=None,
        )


def never(values: FloatArray) -> NDArray[np.bool_]:
    """Return that no trial fails outright."""
    return np.zeros(len(values), dtype=bool)


def branin(values: FloatArray) -> FloatArray:
    """Return Branin's function at ``(n, 2)``; least 0.397887 at three places."""
    x, y = values.T
    valley = y - 5.1 / (4 * np.pi**2) * x**2 + 5 / np.pi * x - 6
    return np.asarray(valley**2 + 10 * (1 - 1 / (8 * np.pi)) * np.cos(x) + 10)


_H3_A = np.array([[3, 10, 30], [0.1, 10, 35], [3, 10, 30], [0.1, 10, 35]])
_H3_P = np.array(
    [
        [0.3689, 0.1170, 0.2673],
        [0.4699, 0.4387, 0.7470],
        [0.1091, 0.8732, 0.5547],
        [0.0381, 0.5743, 0.8828],
    ]
)
_H6_A = np.array(
    [
        [10, 3, 17, 3.5, 1.7, 8],
        [0.05, 10, 17, 0.1, 8, 14],
        [3, 3.5, 1.7, 10, 17, 8],
        [17, 8, 0.05, 10, 0.1, 14],
    ]
)
_H6_P = np.array(
    [
        [0.1312, 0.1696, 0.5569, 0.0124, 0.8283, 0.5886],
        [0.2329, 0.4135, 0.8307, 0.3736, 0.1004, 0.9991],
        [0.2348, 0.1451, 0.3522, 0.2883, 0.3047, 0.6650],
        [0.4047, 0.8828, 0.8732, 0.5743, 0.1091, 0.0381],
    ]
)
_H_WEIGHTS = np.array([1.0, 1.2, 3.0, 3.2])


def _hartmann(values: FloatArray, widths: FloatArray, places: FloatArray) -> FloatArray:
    off = ((values[:, None, :] - places[None, :, :]) ** 2 * widths[None, :, :]).sum(axis=2)
    return np.asarray(-np.exp(-off) @ _H_WEIGHTS)


def hartmann_3(values: FloatArray) -> FloatArray:
    """Return the three-dimensional function of Hartmann at ``(n, 3)``; least −3.86278."""
    return _hartmann(values, _H3_A, _H3_P)


def hartmann_6(values: FloatArray) -> FloatArray:
    """Return the six-dimensional function of Hartmann at ``(n, 6)``; least −3.32237."""
    return _hartmann(values, _H6_A, _H6_P)


def camel(values: FloatArray) -> FloatArray:
    """Return the six-hump camel at ``(n, 2)``; least −1.0316 at two places."""
    x, y = values.T
    return np.asarray((4 - 2.1 * x**2 + x**4 / 3) * x**2 + x * y + (4 * y**2 - 4) * y**2)


def _setting(name: str, low: float, high: float, step: float, drift: float) -> Setting:
    return Setting(name=name, unit="1", low=low, high=high, step=step, drift=drift)


def _least(name: str, limit: float, danger: float) -> Response:
    return Response(
        name=name,
        unit="1",
        lower_limit=None,
        upper_limit=limit,
        unsafe_below=None,
        unsafe_above=danger,
        guess=Level(),
    )


def function_truth(
    name: str,
    function: Callable[[FloatArray], FloatArray],
    settings: tuple[Setting, ...],
    *,
    limit: float,
    danger: float,
    spread: float,
) -> Truth:
    """Return a bench that shows ``function`` and wants it below ``limit``."""
    return Truth(
        name=name,
        settings=settings,
        responses=(_least(name, limit, danger),),
        spreads=(spread,),
        means=lambda values: function(values)[:, None],
        fails=never,
        repeats=3,
    )


def branin_truth() -> Truth:
    """Return Branin: below 2 is good, above 120 harms."""
    return function_truth(
        "Branin",
        branin,
        (_setting("x", -5, 10, 0.05, 0.05), _setting("y", 0, 15, 0.05, 0.05)),
        limit=2.0,
        danger=120.0,
        spread=0.5,
    )


def hartmann_truth() -> Truth:
    """Return Hartmann-3: below −3.4 is good, above −0.05 (where nothing holds at all) harms."""
    return function_truth(
        "Hartmann-3",
        hartmann_3,
        tuple(_setting(name, 0, 1, 0.01, 0.005) for name in "xyz"),
        limit=-3.4,
        danger=-0.05,
        spread=0.06,
    )


# The weld: centres of the windows of four gauges, and the conductor that is new.
KNOWN = tuple(
    KnownGauge(area_m2=area, energy_j=energy)
    for area, energy in ((1.31e-6, 96.0), (2.08e-6, 149.0), (3.31e-6, 243.0), (5.26e-6, 378.0))
)
NEW_AREA_M2 = 4.17e-6
_BEST = np.array([275.0, 2.5, 31.0, 0.30, 50.0])


def _weld_parts(values: FloatArray) -> tuple[FloatArray, ...]:
    energy, pressure, amplitude, hold, trigger = values.T / _BEST[:, None]
    pressed = np.log(pressure)
    work = np.log(energy) + 0.5 * np.log(amplitude) + 0.3 * pressed
    return work, pressed, np.log(amplitude), hold - 1, np.log(trigger)


def weld_means(values: FloatArray) -> FloatArray:
    """Return pull [N], peel [N] and height [mm] of the weld at ``(n, 5)``; see the method page."""
    work, pressed, amplitude, hold, trigger = _weld_parts(values)
    pull = 320 * np.exp(
        -0.5 * (work / 0.30) ** 2 - 0.5 * (pressed / 0.45) ** 2 - 0.5 * (trigger / 0.8) ** 2
    )
    bonded = 1 / (1 + np.exp(-(work + 0.20) / 0.10))
    brittle = np.exp(-((np.maximum(work - 0.10, 0) / 0.25) ** 2))
    peel = 70 * bonded * brittle * (1 - 0.25 * hold**2) * np.exp(-0.5 * (amplitude / 0.5) ** 2)
    height = 2.00 - 0.55 * work - 0.25 * pressed - 0.05 * hold
    return np.stack([pull, peel, height], axis=1)


def weld_fails(values: FloatArray) -> NDArray[np.bool_]:
    """Return where the weld is cut through (too much work) or does not hold at all (too little)."""
    work, pressed, *_ = _weld_parts(values)
    return np.asarray((work + 0.3 * pressed > 0.6) | (work < -0.9))


def weld_truth(*, guided: bool) -> Truth:
    """Return the weld; ``guided``: the engine is told the energy law of the known gauges."""
    law = fit_energy_law(KNOWN)
    energy = law.energy_j(area_m2=NEW_AREA_M2)
    pull = Peak(setting="energy", best_at=energy, ratio_factor=1.5) if guided else Level()
    return Truth(
        name="weld, first guess told" if guided else "weld, nothing told",
        settings=(
            Setting(name="energy", unit="J", low=120, high=560, step=5, drift=4),
            Setting(name="pressure", unit="bar", low=1.5, high=4.5, step=0.05, drift=0.04),
            Setting(name="amplitude", unit="µm", low=20, high=50, step=1, drift=0.4),
            Setting(name="hold", unit="s", low=0.05, high=0.6, step=0.05, drift=0.005),
            Setting(name="trigger", unit="N", low=20, high=120, step=5, drift=2),
        ),
        responses=(
            Response(
                name="pull",
                unit="N",
                lower_limit=240.0,
                upper_limit=None,
                unsafe_below=None,
                unsafe_above=None,
                guess=pull,
            ),
            Response(
                name="peel",
                unit="N",
                lower_limit=48.0,
                upper_limit=None,
                unsafe_below=None,
                unsafe_above=None,
                guess=Level(),
            ),
            Response(
                name="height",
                unit="mm",
                lower_limit=1.85,
                upper_limit=2.15,
                unsafe_below=1.62,
                unsafe_above=None,
                guess=Slope(),
            ),
        ),
        spreads=(9.0, 2.0, 0.015),
        means=weld_means,
        fails=weld_fails,
        repeats=3,
    )
