"""Tools to the values that engines take."""

import datetime as dt

from reelwright.core.ends.strip.cut_length import WheelCalibration as WheelValue
from reelwright.shop.tools.models import WheelCalibration
from reelwright.shop.tools.selectors import wheel_calibration


def wheel_value(row: WheelCalibration) -> WheelValue:
    """Return the core value of a wheel calibration."""
    return WheelValue(
        set_mm=row.set_mm,
        delivered_mm=row.delivered_mm,
        fixed_uncertainty_mm=row.fixed_uncertainty_mm,
        relative_uncertainty=row.relative_uncertainty,
    )


def wheel_on(day: dt.date) -> WheelValue:
    """Return the calibration that holds on a day. Raises as ``selectors.wheel_calibration``."""
    return wheel_value(wheel_calibration(on=day))
