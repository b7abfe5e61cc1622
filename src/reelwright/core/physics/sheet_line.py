"""A line from its data sheet, right from direct current up, with the fit shown.

Series impedance: that of one round rod, Rdc·z/2·I0(z)/I1(z) with z = (1+j)·κ·√f, and the stated
outer inductance. It has the stated resistance at direct current, the inside inductance of real
wires at audio, k1·√f at high frequency, and is passive and causal in between: so nothing is wrong
below a few megahertz as it is with k1·√f + k2·f. Shunt: the stated capacitance in a causal
dielectric. κ and the loss tangent are fitted to the stated losses; the residuals stay with it.

What one rod cannot follow: copper on steel below 10 MHz and a thin foil without braid below
100 MHz, whose losses there are higher. Give stated losses there, or the geometry.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.materials.causal import CausalDielectric
from reelwright.core.materials.metals import COPPER
from reelwright.core.parts.cable import Cable, Family, LossPoint, Lot
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.bessel_ray import wire_over_direct
from reelwright.core.physics.line_parameters import LineParameters, from_series_and_shunt
from reelwright.core.physics.lot_values import Stated, known_value, require_lot_of
from reelwright.core.physics.skin_effect import HIGHEST_HZ, LOWEST_HZ, checked_frequency_hz
from reelwright.core.quantities.constants import (
    SPEED_OF_LIGHT_M_PER_S,
    VACUUM_PERMEABILITY_H_PER_M,
)
from reelwright.core.quantities.guard import require_not_negative, require_positive
from reelwright.core.verdicts import Reason

UNKNOWN_BELOW_HZ = 3e6
"""Lowest frequency [Hz] of a line whose direct-current resistance is not stated."""

AUDIO_ONLY_HZ = 1e5
"""Highest frequency [Hz] of a line whose losses are not stated: resistance and capacitance rule."""

_REFERENCE_HZ = 1e8


@dataclass(frozen=True, kw_only=True)
class SheetLine:
    """A line as its data sheet (or its lot) states it, all values at 20 °C.

    ``impedance_ohm`` [Ω] and ``delay_s_per_m`` [s/m] at high frequency; ``direct_ohm_per_m`` [Ω/m]
    out and back; ``skin_per_root_hz`` κ [1/√Hz], radius over skin depth of the rod at 1 Hz;
    ``loss_tangent`` [1]. It holds from ``lowest_hz`` to ``highest_hz`` [Hz]; the stated losses lie
    between ``fitted_low_hz`` and ``fitted_high_hz`` [Hz] (``None``: none were stated), and
    ``relative_residuals`` [1] are ours over each of them less 1.
    """

    impedance_ohm: float
    delay_s_per_m: float
    direct_ohm_per_m: float
    skin_per_root_hz: float
    loss_tangent: float
    lowest_hz: float
    highest_hz: float
    fitted_low_hz: float | None
    fitted_high_hz: float | None
    relative_residuals: tuple[float, ...]

    def __post_init__(self) -> None:
        require_positive(
            self,
            "impedance_ohm",
            "delay_s_per_m",
            "direct_ohm_per_m",
            "skin_per_root_hz",
            "lowest_hz",
            "highest_hz",
        )
        require_not_negative(self, "loss_tangent")
        if self.delay_s_per_m * SPEED_OF_LIGHT_M_PER_S < 1:
            raise BadValue(
                owner="SheetLine",
                field="delay_s_per_m",
                value=self.delay_s_per_m,
                accepted=f"{1 / SPEED_OF_LIGHT_M_PER_S:.4g} or more: nothing is faster than light",
            )

    @property
    def worst_residual(self) -> float:
        """Largest distance [1] of ours from a stated loss; 0 where none was stated."""
        return max((abs(one) for one in self.relative_residuals), default=0.0)

    def extrapolates(self, frequency_hz: float) -> bool:
        """Whether ``frequency_hz`` [Hz] lies above the stated losses: an answer to trust less.

        Below them the stated resistance takes over, and where that is not stated nothing is
        answered at all.
        """
        return self.fitted_high_hz is None or frequency_hz > self.fitted_high_hz * (1 + 1e-9)

    def parameters(
        self, frequency_hz: npt.ArrayLike, *, temperature_celsius: float
    ) -> LineParameters:
        """Return R, L, G, C at ``frequency_hz`` [Hz], shape (n_frequency,), copper at [°C].

        Raises BadValue outside the range the line holds for.
        """
        frequency = np.atleast_1d(checked_frequency_hz(frequency_hz))
        away = (frequency < self.lowest_hz * (1 - 1e-9)) | (
            frequency > self.highest_hz * (1 + 1e-9)
        )
        if away.any():
            raise BadValue(
                owner="SheetLine",
                field="frequency_hz",
                value=float(frequency[away][0]),
                accepted=f"{self.lowest_hz:g} to {self.highest_hz:g} with what the sheet states",
            )
        rise = COPPER.resistivity_at_ohm_m(temperature_celsius) / COPPER.resistivity_ohm_m
        depth_ratio = self.skin_per_root_hz * np.sqrt(frequency / rise)
        angular = 2 * np.pi * frequency
        series = self.direct_ohm_per_m * rise * wire_over_direct(depth_ratio)
        series.imag += angular * (self.impedance_ohm * self.delay_s_per_m)
        permittivity = (SPEED_OF_LIGHT_M_PER_S * self.delay_s_per_m) ** 2
        law = CausalDielectric(
            relative_permittivity=permittivity,
            loss_tangent=self.loss_tangent,
            reference_hz=_REFERENCE_HZ,
        )
        stated = self.delay_s_per_m / self.impedance_ohm / permittivity
        return from_series_and_shunt(
            frequency_hz=frequency,
            series_ohm_per_m=series,
            shunt_siemens_per_m=1j * angular * stated * law.permittivity(frequency),
        )


def line_of_sheet(cable: Cable, lot: Lot | None) -> SheetLine | Reason:
    """Return the line of a cable, what was measured on the lot before the book's, or why not.

    Two of impedance, delay and capacitance are needed, and either two stated losses of 1 kHz or
    more, or the resistance and area of the conductor (audio only). Raises BadValue where the lot is
    of another cable.
    """
    require_lot_of(cable, lot)
    return _line_in_hand(cable, lot)


@lru_cache(maxsize=4096)
def _line_in_hand(cable: Cable, lot: Lot | None) -> SheetLine | Reason:
    sheet = cable.sheet
    impedance, per_metre = _impedance_and_delay(cable, lot)
    if impedance is None or per_metre is None:
        return Reason(
            code="line-not-stated",
            sentence="of impedance, delay and capacitance the data sheet states fewer than two",
        )
    direct = loop_resistance_ohm_per_m(cable, lot)
    points = loss_points_in_hand(cable, lot)
    if len(points) >= 2:
        return fit_line(
            impedance_ohm=impedance,
            delay_s_per_m=per_metre,
            direct_ohm_per_m=direct,
            points=points,
        )
    if direct is None or sheet.conductor_area_m2 is None:
        return Reason(
            code="losses-not-stated",
            sentence=(
                "the data sheet states fewer than two losses, and not the resistance and area of "
                "the conductor either"
            ),
        )
    radius = math.sqrt(sheet.conductor_area_m2 / math.pi)
    return SheetLine(
        impedance_ohm=impedance,
        delay_s_per_m=per_metre,
        direct_ohm_per_m=direct,
        skin_per_root_hz=radius
        * math.sqrt(math.pi * VACUUM_PERMEABILITY_H_PER_M / COPPER.resistivity_ohm_m),
        loss_tangent=0.0,
        lowest_hz=LOWEST_HZ,
        highest_hz=AUDIO_ONLY_HZ,
        fitted_low_hz=None,
        fitted_high_hz=None,
        relative_residuals=(),
    )


def _impedance_and_delay(cable: Cable, lot: Lot | None) -> tuple[float | None, float | None]:
    """Impedance [Ω] and delay [s/m]; of the three that are bound together two give the third."""
    impedance, delay, capacitance = (
        None if known is None else known.value
        for known in (
            known_value(cable, lot, what)
            for what in (Stated.IMPEDANCE, Stated.DELAY, Stated.CAPACITANCE)
        )
    )
    if impedance is None and delay and capacitance:
        impedance = delay / capacitance
    if delay is None and impedance and capacitance:
        delay = impedance * capacitance
    return impedance, delay


def loss_points_in_hand(cable: Cable, lot: Lot | None) -> tuple[LossPoint, ...]:
    """Return the losses of the lot, with the book's outside the frequencies measured.

    Those are moved by the ratio of measured to book at the nearest frequency measured, so that the
    curve has no step where the one hands over to the other. Without a measured lot: the book's.
    """
    book = tuple(point for point in cable.sheet.loss_points if point.frequency_hz <= HIGHEST_HZ)
    own = () if lot is None else lot.loss_points
    if not own or len(book) < 2:
        return own or book
    log_frequency = [math.log(point.frequency_hz) for point in book]
    log_loss = [math.log(point.loss_db_per_m) for point in book]

    def ratio(point: LossPoint) -> float:
        stated = math.exp(np.interp(math.log(point.frequency_hz), log_frequency, log_loss))
        return point.loss_db_per_m / stated

    def moved(point: LossPoint, by: float) -> LossPoint:
        return LossPoint(frequency_hz=point.frequency_hz, loss_db_per_m=point.loss_db_per_m * by)

    first, last = own[0], own[-1]
    below = [moved(p, ratio(first)) for p in book if p.frequency_hz < first.frequency_hz]
    above = [moved(p, ratio(last)) for p in book if p.frequency_hz > last.frequency_hz]
    return (*below, *own, *above)


def loop_resistance_ohm_per_m(cable: Cable, lot: Lot | None) -> float | None:
    """Return the resistance out and back [Ω/m] at 20 °C; None where not all of it is stated."""
    conductor = known_value(cable, lot, Stated.CONDUCTOR_RESISTANCE)
    if conductor is None:
        return None
    if cable.family is not Family.COAX:
        return 2 * conductor.value
    screen = known_value(cable, lot, Stated.SCREEN_RESISTANCE)
    return None if screen is None else conductor.value + screen.value


def fit_line(
    *,
    impedance_ohm: float,
    delay_s_per_m: float,
    direct_ohm_per_m: float | None,
    points: tuple[LossPoint, ...],
) -> SheetLine | Reason:
    """Fit κ and the loss tangent to stated losses, least squares of the relative deviations.

    ``impedance_ohm`` [Ω], ``delay_s_per_m`` [s/m]; without ``direct_ohm_per_m`` [Ω/m] the line
    holds above 3 MHz only, and only losses stated there are used. A Reason where the losses fall
    with frequency or no skin effect explains them.
    """
    lowest = LOWEST_HZ if direct_ohm_per_m is not None else UNKNOWN_BELOW_HZ
    used = tuple(point for point in points if point.frequency_hz >= lowest)
    if len(used) < 2:
        return Reason(
            code="losses-not-stated",
            sentence="fewer than two losses are stated where the line can be known",
        )
    frequency = np.array([point.frequency_hz for point in used])
    stated = np.array([point.loss_db_per_m for point in used])
    if (np.diff(stated) <= 0).any():
        return Reason(
            code="losses-fall",
            sentence="a stated loss is not higher than the one at the next lower frequency",
        )
    neper = stated * math.log(10) / 20
    columns = np.stack([np.sqrt(frequency), np.pi * frequency * delay_s_per_m], axis=1)
    root, tangent = np.linalg.lstsq(columns / neper[:, None], np.ones_like(neper), rcond=None)[0]
    if root <= 0:
        return Reason(
            code="loss-points-do-not-fit",
            sentence="no skin effect explains the stated losses: they rise faster than frequency",
        )
    # Without a stated resistance the rod turns at 100 kHz, below all that is answered.
    direct = direct_ohm_per_m or float(4 * impedance_ohm * root * math.sqrt(1e5) / 2.0)
    start = np.array([math.log(4 * impedance_ohm * root / direct), max(tangent, 0.0)])

    def line(unknown: FloatArray) -> SheetLine:
        return SheetLine(
            impedance_ohm=impedance_ohm,
            delay_s_per_m=delay_s_per_m,
            direct_ohm_per_m=direct,
            skin_per_root_hz=math.exp(unknown[0]),
            loss_tangent=float(unknown[1]),
            lowest_hz=lowest,
            highest_hz=HIGHEST_HZ,
            fitted_low_hz=float(frequency[0]),
            fitted_high_hz=float(frequency[-1]),
            relative_residuals=(),
        )

    def away(unknown: FloatArray) -> FloatArray:
        ours = line(unknown).parameters(frequency, temperature_celsius=20.0).loss_db_per_m
        deviation: FloatArray = ours / stated - 1
        return deviation

    found = _least_squares(away, start)
    residuals = tuple(float(one) for one in away(found))
    return replace(line(found), relative_residuals=residuals)


_STEP = (1e-5, 1e-7)
_SCALE = np.array([1.0, 1e-4])


def _least_squares(away: Callable[[FloatArray], FloatArray], start: FloatArray) -> FloatArray:
    """Gauss and Newton with halving; the second unknown, the loss tangent, stays at zero or above.

    Returns the best found: how good it is, its residuals tell.
    """
    now, best = start, away(start)
    for _ in range(60):
        slopes = np.stack(
            [
                (away(now + np.array([_STEP[0], 0.0])) - best) / _STEP[0],
                (away(now + np.array([0.0, _STEP[1]])) - best) / _STEP[1],
            ],
            axis=1,
        )
        move = np.linalg.lstsq(slopes * _SCALE, -best, rcond=None)[0] * _SCALE
        if now[1] + move[1] < 0:
            slope, left = slopes[:, 0], best - slopes[:, 1] * now[1]
            move = np.array([-(slope @ left) / (slope @ slope), -now[1]])
        deviation = away(now + move)
        halvings = 0
        while deviation @ deviation > best @ best:
            halvings += 1
            if halvings > 30:
                return now
            move = move / 2
            deviation = away(now + move)
        now, best = now + move, deviation
        if abs(move[0]) < 1e-10 and abs(move[1]) < 1e-12:
            break
    return now
