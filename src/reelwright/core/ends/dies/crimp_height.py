"""The height of a crimp to aim at, and whether measured ones keep to it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from reelwright.core.ends.dies.cavity_choice import Window
from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.marks import MINUS
from reelwright.core.quantities.show import (
    show_dimension,
    show_number,
    show_percent,
    with_unit,
)
from reelwright.core.statistics.capability import CAPABLE_RATIO, Capability, capability
from reelwright.core.statistics.tolerance_interval import two_sided_tolerance_factor
from reelwright.core.verdicts import Basis, Check, Outcome, Source

SPRING_BACK_M = (0.01e-3, 0.02e-3)
"""How much wider [m] than its closed cavity a crimp measures: common practice, no published
source."""

GAUGE_COVERAGE_FACTOR = 2.0
"""Standard uncertainties [1] on either side within which a reading is trusted: k = 2, about 95 %
(JCGM 100:2008, 6.3.3)."""

GAUGE_SHARE = 0.25
"""What share [1] of the tolerance a gauge may take: it is wanted four times finer; common practice,
no published source."""

_GAUGE = Source(text="a gauge four times finer than the tolerance", basis=Basis.COMMON_PRACTICE)
_SPRING = Source(
    text="width of the cavity plus 0.01 to 0.02 mm of spring-back", basis=Basis.COMMON_PRACTICE
)
_SHOP = Source(text="the height of the set-up", basis=Basis.OWN_SHOP)


@dataclass(frozen=True, kw_only=True)
class HeightTarget:
    """The width across flats [m] to measure on a finished crimp: ``target_m``, and the smallest
    and the largest that pass, ``low_m`` and ``high_m`` [m]."""

    target_m: float
    low_m: float
    high_m: float
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "target_m", "low_m", "high_m")
        if not self.low_m < self.target_m < self.high_m:
            raise BadValue(
                owner="HeightTarget",
                field="target_m",
                value=self.target_m,
                accepted=f"between {self.low_m} and {self.high_m}",
            )

    @property
    def half_width_m(self) -> float:
        """Half of the band that passes [m]."""
        return (self.high_m - self.low_m) / 2

    @property
    def told(self) -> str:
        """The target with what may be missing and what may be too much, in plain millimetres."""
        below, above = self.target_m - self.low_m, self.high_m - self.target_m
        target = show_dimension(self.target_m, decimals=3)
        if math.isclose(below, above, abs_tol=0.5e-6):
            return f"{target} ±{show_dimension(above, decimals=3)}"
        least, most = (show_number(each * 1e3, decimals=3) for each in (below, above))
        return f"{target} {MINUS}{least}/+{with_unit(most, 'mm')}"


def height_target(*, across_flats_m: float, window: Window) -> HeightTarget | None:
    """Return the height that a cavity of ``across_flats_m`` [m] should leave, with its tolerance.

    The cavity's width plus the middle of ``SPRING_BACK_M``; what passes is what keeps the closed
    hexagon inside its window. ``None`` where the cavity does not lie inside the window.
    """
    if not (math.isfinite(across_flats_m) and across_flats_m > 0):
        raise BadValue(
            owner="height_target",
            field="across_flats_m",
            value=across_flats_m,
            accepted="above zero",
        )
    if not window.smallest_m < across_flats_m < window.largest_m:
        return None
    springs_m = fmean(SPRING_BACK_M)
    return HeightTarget(
        target_m=across_flats_m + springs_m,
        low_m=window.smallest_m + springs_m,
        high_m=window.largest_m + springs_m,
        source=_SPRING,
    )


def judge_laid_down(laid_down: HeightTarget, window: Window) -> Check:
    """Return whether every height that a set-up passes is one that the crimp stands.

    ``window`` is of closed hexagons; a crimp measures wider by the middle of ``SPRING_BACK_M``. A
    caution says how much of the tolerance [mm] is left about this height, and where that is
    nothing, which heights are.
    """
    springs_m = fmean(SPRING_BACK_M)
    low_m, high_m = window.smallest_m + springs_m, window.largest_m + springs_m
    room_m = min(laid_down.target_m - low_m, high_m - laid_down.target_m)
    beyond_m = max(low_m - laid_down.low_m, laid_down.high_m - high_m)
    # To the micrometre, as heights are kept.
    outcome = Outcome.GOOD if beyond_m < 0.5e-6 else Outcome.CAUTION
    allowed = f"{show_dimension(low_m, decimals=3)} to {show_dimension(high_m, decimals=3)}"
    told = f"the height laid down, {laid_down.told}, "
    if outcome is Outcome.GOOD:
        told += f"stays within the {allowed} that grip and spare"
    else:
        told += (
            f"passes crimps {show_dimension(beyond_m, decimals=3)} beyond the {allowed} that grip "
            "and spare"
        )
        told += (
            f": ±{show_dimension(math.floor(room_m * 1e6) / 1e6, decimals=3)} is all that fits "
            "about it"
            if room_m >= 1e-6
            else ", and lies outside itself"
        )
    upper = laid_down.high_m - high_m >= low_m - laid_down.low_m
    return Check(
        name="tolerance of the crimp height",
        outcome=outcome,
        sentence=told,
        source=_SPRING,
        value=(laid_down.high_m if upper else laid_down.low_m) * 1e3,
        limit=(high_m if upper else low_m) * 1e3,
        margin=-beyond_m * 1e3,
        unit="mm",
    )


def measured_target(*, target_m: float, tolerance_m: float) -> HeightTarget:
    """Return the target that a set-up lays down from what was measured, both in metres [m]."""
    if not (math.isfinite(tolerance_m) and tolerance_m > 0):
        raise BadValue(
            owner="measured_target", field="tolerance_m", value=tolerance_m, accepted="above zero"
        )
    return HeightTarget(
        target_m=target_m,
        low_m=target_m - tolerance_m,
        high_m=target_m + tolerance_m,
        source=_SHOP,
    )


@dataclass(frozen=True, kw_only=True)
class HeightsJudged:
    """What measured heights say: their capability in metres, and the exact interval ``low_m`` to
    ``high_m`` [m] that holds the share asked for with the confidence asked for; ``None`` where
    nothing was computed."""

    capability: Capability | None
    low_m: float | None
    high_m: float | None
    checks: tuple[Check, ...]


def judge_heights(
    heights_m: Sequence[float],
    target: HeightTarget,
    *,
    gauge_uncertainty_m: float | None,
    coverage: float,
    confidence: float,
) -> HeightsJudged:
    """Return whether measured heights [m] keep to the target.

    ``gauge_uncertainty_m`` [m] is the standard uncertainty of one reading, None where it is not
    known. Three checks: Cpk; the two-sided tolerance interval of a normal population, exact
    (ISO 16269-6:2014), that holds the share ``coverage`` [1] with ``confidence`` [1]; and what the
    gauge itself adds, where it is known. Fewer than two heights, heights all alike, and a tolerance
    under the gauge's own uncertainty are not computed. Raises BadValue for a height or an
    uncertainty that is not above zero.
    """
    if any(not math.isfinite(each) or each <= 0 for each in heights_m):
        raise BadValue(
            owner="judge_heights", field="heights_m", value=tuple(heights_m), accepted="above zero"
        )
    if gauge_uncertainty_m is not None and not (
        math.isfinite(gauge_uncertainty_m) and gauge_uncertainty_m > 0
    ):
        raise BadValue(
            owner="judge_heights",
            field="gauge_uncertainty_m",
            value=gauge_uncertainty_m,
            accepted="above zero",
        )
    if gauge_uncertainty_m is not None and target.half_width_m <= (
        trusted_m := GAUGE_COVERAGE_FACTOR * gauge_uncertainty_m
    ):
        return _nothing(
            target,
            f"a tolerance of ±{show_dimension(target.half_width_m, decimals=3)} lies under the "
            f"noise: the gauge itself is only good to ±{show_dimension(trusted_m, decimals=3)}",
        )
    if len(heights_m) < 2:
        some = "one height tells" if heights_m else "no heights tell"
        return _nothing(target, f"{some} nothing of the spread: measure two or more")
    if len(set(heights_m)) == 1:
        return _nothing(
            target,
            f"{len(heights_m)} heights all alike tell nothing of the spread: read the gauge finer",
        )
    found = capability(heights_m, low=target.low_m, high=target.high_m, unit="m")
    factor = two_sided_tolerance_factor(
        sample_size=len(heights_m), coverage=coverage, confidence=confidence
    )
    low_m, high_m = found.mean - factor * found.deviation, found.mean + factor * found.deviation
    return HeightsJudged(
        capability=found,
        low_m=low_m,
        high_m=high_m,
        checks=(
            _judge_capability(found, target),
            _judge_interval(low_m, high_m, target, coverage, confidence),
            *_judge_gauge(target, gauge_uncertainty_m),
        ),
    )


def _nothing(target: HeightTarget, why: str) -> HeightsJudged:
    return HeightsJudged(
        capability=None,
        low_m=None,
        high_m=None,
        checks=(
            Check(
                name="crimp height",
                outcome=Outcome.NOT_COMPUTED,
                sentence=why,
                source=target.source,
                value=None,
                limit=None,
                margin=None,
                unit="mm",
            ),
        ),
    )


def _judge_capability(found: Capability, target: HeightTarget) -> Check:
    cpk = found.cpk
    if cpk < 0:
        outcome, told = Outcome.BAD, "their mean lies outside the tolerance"
    else:
        outcome = Outcome.GOOD if cpk >= CAPABLE_RATIO else Outcome.CAUTION
        told = f"{CAPABLE_RATIO} is aimed at"
    return Check(
        name="capability of the crimp height",
        outcome=outcome,
        sentence=(
            f"{found.sample_size} heights of {show_dimension(found.mean, decimals=3)}, s "
            f"{show_dimension(found.deviation, decimals=3)}, against {target.told}: Cpk "
            f"{show_number(cpk, decimals=2)}, {told}"
        ),
        source=Source(
            text=f"a capable process has a Cpk of {CAPABLE_RATIO}", basis=Basis.COMMON_PRACTICE
        ),
        value=cpk,
        limit=CAPABLE_RATIO,
        margin=cpk - CAPABLE_RATIO,
        unit="1",
    )


def _judge_gauge(target: HeightTarget, gauge_uncertainty_m: float | None) -> tuple[Check, ...]:
    """How much of the tolerance the gauge itself takes; nothing where it is not known."""
    if gauge_uncertainty_m is None:
        return ()
    trusted_m = GAUGE_COVERAGE_FACTOR * gauge_uncertainty_m
    share = trusted_m / target.half_width_m
    fine = share <= GAUGE_SHARE
    told = (
        f"the gauge is good to ±{show_dimension(trusted_m, decimals=4)}, {show_percent(share)} of "
        f"the ±{show_dimension(target.half_width_m, decimals=3)} that pass"
    )
    if not fine:
        least, most = target.low_m + trusted_m, target.high_m - trusted_m
        told += (
            f", above the {show_percent(GAUGE_SHARE)} wanted: only readings from "
            f"{show_dimension(least, decimals=3)} to {show_dimension(most, decimals=3)} surely pass"
        )
    return (
        Check(
            name="noise of the height gauge",
            outcome=Outcome.GOOD if fine else Outcome.CAUTION,
            sentence=told,
            source=_GAUGE,
            value=share * 100,
            limit=GAUGE_SHARE * 100,
            margin=(GAUGE_SHARE - share) * 100,
            unit="%",
        ),
    )


def _judge_interval(
    low_m: float, high_m: float, target: HeightTarget, coverage: float, confidence: float
) -> Check:
    spare_m = min(low_m - target.low_m, target.high_m - high_m)
    upper = target.high_m - high_m <= low_m - target.low_m
    sure = f"{show_percent(coverage)} of all with {show_percent(confidence)} confidence"
    return Check(
        name="spread of the crimp height",
        outcome=Outcome.GOOD if spare_m >= 0 else Outcome.CAUTION,
        sentence=(
            f"{sure} lie between {show_dimension(low_m, decimals=3)} and "
            f"{show_dimension(high_m, decimals=3)}: "
            + (
                "inside the tolerance"
                if spare_m >= 0
                else f"{show_dimension(-spare_m, decimals=3)} outside it; more may narrow it"
            )
        ),
        source=target.source,
        value=(high_m if upper else low_m) * 1e3,
        limit=(target.high_m if upper else target.low_m) * 1e3,
        margin=spare_m * 1e3,
        unit="mm",
    )
