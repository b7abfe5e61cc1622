"""From the length a customer asked for to the number set on the measuring wheel."""

import math
from dataclasses import dataclass

from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.guard import require_count, require_not_negative, require_positive
from reelwright.core.quantities.show import show_length_mm, show_metres
from reelwright.core.quantities.show_office import show_minus_plus
from reelwright.core.verdicts import Reason

COMMON_FIXED_UNCERTAINTY_MM = 3.0
"""Of one cut, by hand at a stop; common practice, no published source."""

COMMON_RELATIVE_UNCERTAINTY = 0.001
"""Of a corrected wheel, over the length; common practice, no published source."""

COVERAGE_FACTOR = 3.0
"""Standard uncertainties held back, so that a cut is too short less than twice in a thousand."""


@dataclass(frozen=True, kw_only=True)
class WheelCalibration:
    """What a measuring wheel delivers against a steel tape when it is set to ``set_mm``.

    ``fixed_uncertainty_mm`` and ``relative_uncertainty`` are the two independent parts of the
    standard uncertainty of one cut after that correction.
    """

    set_mm: float
    delivered_mm: float
    fixed_uncertainty_mm: float
    relative_uncertainty: float

    def __post_init__(self) -> None:
        require_positive(self, "set_mm", "delivered_mm")
        require_not_negative(self, "fixed_uncertainty_mm", "relative_uncertainty")

    def setting_mm(self, length_mm: float) -> float:
        """Return what to set so that ``length_mm`` is delivered."""
        return length_mm * self.set_mm / self.delivered_mm

    def standard_uncertainty_mm(self, length_mm: float) -> float:
        """Return √(fixed² + (relative · length)²)."""
        return math.hypot(self.fixed_uncertainty_mm, self.relative_uncertainty * length_mm)


@dataclass(frozen=True, kw_only=True)
class CutLength:
    """What to aim at, to cut and to set on the wheel, in whole mm; the uncertainty as computed."""

    finished_mm: int
    shortest_mm: int
    longest_mm: int
    target_mm: int
    cut_mm: int
    wheel_setting_mm: int
    standard_uncertainty_mm: float


def plan_cut(
    *,
    finished_mm: int,
    tolerance_minus_mm: int,
    tolerance_plus_mm: int,
    ends: tuple[Connector, Connector],
    wheel: WheelCalibration,
) -> CutLength | Reason:
    """Return what to cut, or the reason why the tolerance cannot be kept by cutting.

    Target: nominal + 3·u for a tolerance that allows nothing shorter, else the middle of the
    tolerance. Cut = target − setback of both ends + the fresh trim of both ends; wheel setting =
    cut × set / delivered. Refused where the tolerance is narrower than ±3·u. Raises BadValue for
    lengths that are no whole millimetres.
    """
    asked = _Asked(
        finished_mm=finished_mm,
        tolerance_minus_mm=tolerance_minus_mm,
        tolerance_plus_mm=tolerance_plus_mm,
    )
    u_mm = wheel.standard_uncertainty_mm(finished_mm)
    held_mm = COVERAGE_FACTOR * u_mm
    if asked.width_mm < 2 * held_mm:
        kept = show_minus_plus(math.ceil(held_mm), math.ceil(held_mm))
        return Reason(
            code="tolerance_narrower_than_cut",
            sentence=(
                f"{show_minus_plus(tolerance_minus_mm, tolerance_plus_mm)} asked for on "
                f"{show_metres(finished_mm)}; one cut keeps {kept}. Measure and trim each, or "
                f"agree {show_minus_plus(0, math.ceil(2 * held_mm))} or {kept}"
            ),
        )
    if tolerance_minus_mm == 0:
        target_mm = finished_mm + held_mm
    else:
        target_mm = finished_mm + (tolerance_plus_mm - tolerance_minus_mm) / 2
    between_mm = target_mm - sum(end.conductor_setback_m * 1e3 for end in ends)
    cut_mm = between_mm + sum(end.trim_m * 1e3 for end in ends)
    # The trim is cut away again, so that it holds nothing.
    if between_mm <= 0:
        return Reason(
            code="shorter_than_its_ends",
            sentence=f"{show_length_mm(finished_mm)} is shorter than the two connectors themselves",
        )
    return CutLength(
        finished_mm=finished_mm,
        shortest_mm=finished_mm - tolerance_minus_mm,
        longest_mm=finished_mm + tolerance_plus_mm,
        target_mm=round(target_mm),
        cut_mm=round(cut_mm),
        wheel_setting_mm=round(wheel.setting_mm(cut_mm)),
        standard_uncertainty_mm=u_mm,
    )


@dataclass(frozen=True, kw_only=True)
class _Asked:
    finished_mm: int
    tolerance_minus_mm: int
    tolerance_plus_mm: int

    def __post_init__(self) -> None:
        require_count(self, "finished_mm", at_least=1)
        require_count(self, "tolerance_minus_mm", "tolerance_plus_mm")

    @property
    def width_mm(self) -> int:
        return self.tolerance_minus_mm + self.tolerance_plus_mm
