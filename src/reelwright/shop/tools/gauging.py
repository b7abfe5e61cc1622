"""What cavities were gauged at: written here, and read here with the cavities as core values."""

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import QuerySet

from reelwright.core.ends.dies.cavities import Cavity as CavityValue
from reelwright.core.ends.dies.cavities import CavityUse, WidthReading
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.tools.models import (
    Cavity,
    CavityGauging,
    CavityGaugingTakenBack,
    CavityMove,
    Instrument,
)
from reelwright.shop.tools.services import require_reason
from reelwright.shop.transactions import write_transaction

_FARTHEST = Decimal("0.1")
"""A reading further than this share from the engraving is of another cavity, or a slip."""
_COARSEST = Decimal("0.01")
"""A standard uncertainty above this share of the engraving is a slip of the unit."""

_DECIMALS = 4
_WIDEST_MM = Decimal(1000)


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
    its engraving, ``too_coarse``, ``not_calibrated``, ``before_service`` for a day before its last
    service; UnknownCode of the cavity or the instrument.
    """
    require_may(by, Action.BOOK_WORK)
    for value in (across_flats_mm, uncertainty_mm):
        if not value.is_finite() or value <= 0:
            raise ShopRuleBroken("size_bad", f"{value}\u202fmm is no size: above zero.")
    _require_fine(across_flats_mm, uncertainty_mm)
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
    coarsest_mm = _COARSEST * cavity.across_flats_mm
    if uncertainty_mm > coarsest_mm:
        raise ShopRuleBroken(
            "too_coarse",
            f"± {uncertainty_mm}\u202fmm says less of {code} than its engraving does: at most "
            f"{coarsest_mm.normalize():f}\u202fmm, a hundredth of it.",
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
    served = CavityMove.objects.filter(cavity=cavity, serviced=True).order_by("-on").first()
    if served is not None and on < served.on:
        raise ShopRuleBroken(
            "before_service",
            f"{code} was serviced on {served.on:%Y-%m-%d}: what it was gauged at before that says "
            "nothing of it now.",
            cavity=code,
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


@write_transaction()
def cavity_gauging_take_back(
    *, by: Person, code: str, number: int, reason: str, on: dt.date
) -> CavityGaugingTakenBack:
    """Take a gauging of a cavity back; ``number`` is its own. What was gauged before it counts.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``already_taken_back``; UnknownCode
    where this cavity has no such gauging.
    """
    require_may(by, Action.CORRECT)
    told = require_reason(reason)
    found = CavityGauging.objects.filter(pk=number, cavity__code=code).first()
    if found is None:
        raise UnknownCode(kind=f"gauging of {code}", code=str(number))
    if CavityGaugingTakenBack.objects.filter(gauging=found).exists():
        raise ShopRuleBroken("already_taken_back", "This gauging was taken back already.")
    return CavityGaugingTakenBack.objects.create(gauging=found, reason=told, by=by, on=on)


@dataclass(frozen=True, kw_only=True)
class GaugingNow:
    """One gauging as it was entered. ``counts``: it is what the cavity is reckoned with.

    ``why_not`` says why an other one is not; ``taken_back``: by whom and why, empty where it was
    not.
    """

    number: int
    on: dt.date
    across_flats_mm: Decimal
    uncertainty_mm: Decimal
    instrument: str
    closings_then: int
    by: str
    counts: bool
    why_not: str
    taken_back: str


def gaugings_of(code: str) -> tuple[GaugingNow, ...]:
    """Return what a cavity was gauged at, newest first."""
    found, counted = [], False
    for row in _gaugings().filter(cavity__code=code).order_by("-on", "-pk"):
        back: CavityGaugingTakenBack | None = getattr(row, "taken_back", None)
        why_not = ""
        if back is not None:
            why_not = "taken back"
        elif row.services_then != row.cavity.services:
            why_not = "before its last service"
        elif counted:
            why_not = "gauged again since"
        found.append(
            GaugingNow(
                number=row.pk,
                on=row.on,
                across_flats_mm=row.across_flats_mm,
                uncertainty_mm=row.uncertainty_mm,
                instrument=row.instrument.code,
                closings_then=row.closings_then,
                by=row.by.display_name,
                counts=not why_not,
                why_not=why_not,
                taken_back="" if back is None else f"{back.by.display_name}: {back.reason}",
            )
        )
        counted = counted or not why_not
    return tuple(found)


def _gaugings() -> QuerySet[CavityGauging]:
    return CavityGauging.objects.select_related("cavity", "instrument", "by", "taken_back__by")


def cavity_values() -> tuple[CavityValue, ...]:
    """Return every cavity, resting ones too, with its newest reading since its last service."""
    newest: dict[int, CavityGauging] = {}
    rows = _gaugings().filter(taken_back__isnull=True).order_by("on", "pk")
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


def _require_fine(*sizes_mm: Decimal) -> None:
    """No finer than a tenth of a micrometre, which is what the table keeps."""
    for size_mm in sizes_mm:
        exponent = size_mm.normalize().as_tuple().exponent
        if not isinstance(exponent, int) or exponent < -_DECIMALS or size_mm >= _WIDEST_MM:
            raise ShopRuleBroken(
                "size_bad",
                f"{size_mm}\u202fmm is no size of a cavity: below {_WIDEST_MM}\u202fmm, with up "
                f"to {_DECIMALS} decimals.",
            )
