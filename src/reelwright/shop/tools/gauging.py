"""What cavities were gauged at: written here, and read here with the cavities as core values."""

import datetime as dt
from decimal import Decimal

from reelwright.core.ends.dies.cavities import Cavity as CavityValue
from reelwright.core.ends.dies.cavities import CavityUse, WidthReading
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.tools.models import Cavity, CavityGauging, Instrument
from reelwright.shop.transactions import write_transaction

_FARTHEST = Decimal("0.1")
"""A reading further than this share from the engraving is of another cavity, or a slip."""


@write_transaction()
def cavity_gauge_record(
    *,
    by: Person,
    code: str,
    across_flats_mm: Decimal,
    uncertainty_mm: Decimal,
    instrument_code: str,
    on: dt.date,
) -> CavityGauging:
    """Record the width across flats of a closed cavity with its standard uncertainty, in mm.

    Raises ShopRuleBroken ``not_allowed``, ``size_bad``, ``not_this_cavity`` for a width a tenth off
    its engraving, ``not_calibrated``; UnknownCode of the cavity or the instrument.
    """
    require_may(by, Action.BOOK_WORK)
    for value in (across_flats_mm, uncertainty_mm):
        if not value.is_finite() or value <= 0:
            raise ShopRuleBroken("size_bad", f"{value}\u202fmm is no size: above zero.")
    cavity = Cavity.objects.filter(code=code).first()
    if cavity is None:
        raise UnknownCode(kind="cavity", code=code)
    if abs(across_flats_mm - cavity.across_flats_mm) > _FARTHEST * cavity.across_flats_mm:
        raise ShopRuleBroken(
            "not_this_cavity",
            f"{across_flats_mm}\u202fmm is a tenth or more off the "
            f"{cavity.across_flats_mm}\u202fmm engraved on {code}: "
            "look whether it is this cavity, and read again.",
            cavity=code,
        )
    instrument = Instrument.objects.filter(code=instrument_code).first()
    if instrument is None:
        raise UnknownCode(kind="instrument", code=instrument_code)
    if instrument.calibration_due is None or instrument.calibration_due < on:
        raise ShopRuleBroken(
            "not_calibrated",
            f"The calibration of {instrument_code} does not hold on {on:%Y-%m-%d}: measure with "
            "one that is calibrated.",
            instrument=instrument_code,
        )
    return CavityGauging.objects.create(
        cavity=cavity,
        across_flats_mm=across_flats_mm,
        uncertainty_mm=uncertainty_mm,
        instrument=instrument,
        closings_then=cavity.closings,
        services_then=cavity.services,
        by=by,
        on=on,
    )


def cavity_values() -> tuple[CavityValue, ...]:
    """Return every cavity, resting ones too, with its newest reading since its last service."""
    newest: dict[int, CavityGauging] = {}
    rows = CavityGauging.objects.select_related("cavity").order_by("on", "pk")
    for row in rows:
        # A regrind makes another cavity of it, of which nothing is gauged yet.
        if row.services_then == row.cavity.services:
            newest[row.cavity_id] = row
    return tuple(
        CavityValue(
            code=row.code,
            use=CavityUse(row.use),
            engraved_m=float(row.across_flats_mm) / 1e3,
            reading=_reading(newest.get(row.pk)),
            closings_count=row.closings,
            due_count=row.service_after,
            in_service=row.in_service,
        )
        for row in Cavity.objects.order_by("use", "across_flats_mm", "code")
    )


def _reading(row: CavityGauging | None) -> WidthReading | None:
    if row is None:
        return None
    return WidthReading(
        across_flats_m=float(row.across_flats_mm) / 1e3,
        standard_uncertainty_m=float(row.uncertainty_mm) / 1e3,
    )
