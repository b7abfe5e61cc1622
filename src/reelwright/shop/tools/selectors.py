"""Every read of stations and tools."""

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.errors import ShopRuleBroken
from reelwright.shop.tools.models import (
    BladeSet,
    Cavity,
    Instrument,
    Station,
    WheelCalibration,
)


@dataclass(frozen=True, kw_only=True)
class CavityNow:
    """A die cavity and what is left of its service interval (below zero: overdue)."""

    code: str
    use: str
    across_flats_mm: Decimal
    closings: int
    service_after: int
    in_service: bool
    note: str

    @property
    def closings_left(self) -> int:
        """Closings until its service is due."""
        return self.service_after - self.closings


def stations(*, kind: str | None = None) -> list[Station]:
    """Return the stations by code."""
    rows = Station.objects.order_by("code")
    return list(rows if kind is None else rows.filter(kind=kind))


def cavities(*, use: str | None = None, in_service: bool | None = True) -> list[CavityNow]:
    """Return the cavities by use and size; ``in_service=None`` returns resting ones as well."""
    rows = Cavity.objects.order_by("use", "across_flats_mm", "code")
    if use is not None:
        rows = rows.filter(use=use)
    if in_service is not None:
        rows = rows.filter(in_service=in_service)
    return [
        CavityNow(
            code=row.code,
            use=row.use,
            across_flats_mm=row.across_flats_mm,
            closings=row.closings,
            service_after=row.service_after,
            in_service=row.in_service,
            note=row.note,
        )
        for row in rows
    ]


def blade_sets(*, in_service: bool | None = True) -> list[BladeSet]:
    """Return the blade sets by code; ``in_service=None`` returns resting ones as well."""
    rows = BladeSet.objects.order_by("code")
    return list(rows if in_service is None else rows.filter(in_service=in_service))


def instruments() -> list[Instrument]:
    """Return the instruments by code."""
    return list(Instrument.objects.order_by("code"))


def instruments_out_of_calibration(*, on: dt.date) -> list[Instrument]:
    """Return the instruments whose calibration ended before that day, or was never entered."""
    return [row for row in instruments() if row.calibration_due is None or row.calibration_due < on]


def wheel_calibration(*, on: dt.date, station_code: str | None = None) -> WheelCalibration:
    """Return the newest calibration of the length wheel that was made by that day.

    Raises:
        ShopRuleBroken: ``wheel_not_calibrated`` where there is none.
    """
    rows = WheelCalibration.objects.filter(on__lte=on)
    if station_code is not None:
        rows = rows.filter(station__code=station_code)
    found: WheelCalibration | None = rows.select_related("station").order_by("-on", "-id").first()
    if found is None:
        raise ShopRuleBroken(
            "wheel_not_calibrated",
            f"No length wheel was calibrated by {on:%Y-%m-%d}. Set it to 10\u202fm, measure what "
            "it delivers against a steel tape, and record that.",
            on=on,
        )
    return found
