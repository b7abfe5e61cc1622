"""Every write of stations and tools."""

import datetime as dt
import math
from decimal import Decimal

from django.db import models
from django.db.models import F

from reelwright.core.bench.problem import Station as StationKind
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.tools.models import (
    BladeSet,
    Cavity,
    CavityUse,
    Instrument,
    Station,
    WheelCalibration,
)
from reelwright.shop.transactions import write_transaction


def station_add(
    *, by: Person, code: str, name: str, kind: StationKind | str, cost_per_hour: Decimal
) -> Station:
    """Enter a station.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``code_bad``, ``kind_unknown``, ``price_bad``,
            ``station_exists``.
    """
    require_may(by, Action.KEEP_TOOLS)
    kinds = [each.value for each in StationKind]
    if kind not in kinds:
        raise ShopRuleBroken(
            "kind_unknown", f"{kind!r} is no kind of station. Accepted: {', '.join(kinds)}."
        )
    if not cost_per_hour.is_finite() or cost_per_hour < 0:
        raise ShopRuleBroken("price_bad", f"{cost_per_hour} an hour is no cost.")
    with write_transaction():
        require_new(Station, code, "station")
        return Station.objects.create(
            code=code, name=name.strip() or code, kind=str(kind), cost_per_hour=cost_per_hour
        )


def cavity_add(
    *,
    by: Person,
    code: str,
    use: CavityUse | str,
    across_flats_mm: Decimal,
    closings: int,
    service_after: int,
    note: str = "",
) -> Cavity:
    """Enter a die cavity and put it into service.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``code_bad``, ``kind_unknown``, ``size_bad``,
            ``count_bad``, ``cavity_exists``.
    """
    require_may(by, Action.KEEP_TOOLS)
    if use not in CavityUse.values:
        raise ShopRuleBroken("kind_unknown", f"{use!r} is no use of a die. Accepted: pin, ferrule.")
    if not across_flats_mm.is_finite() or across_flats_mm <= 0:
        raise ShopRuleBroken("size_bad", f"{across_flats_mm}\u202fmm across flats is no size.")
    _require_counts(closings, service_after)
    with write_transaction():
        require_new(Cavity, code, "cavity")
        return Cavity.objects.create(
            code=code,
            use=use,
            across_flats_mm=across_flats_mm,
            closings=closings,
            service_after=service_after,
            in_service=True,
            note=note,
        )


def cavity_use_book(*, by: Person, code: str, closings: int) -> None:
    """Add closings to a cavity's count.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``count_bad``, ``not_in_service``.
        UnknownCode: of the cavity.
    """
    require_may(by, Action.BOOK_WORK)
    _require_counts(closings, 1)
    with write_transaction():
        changed = Cavity.objects.filter(code=code, in_service=True).update(
            closings=F("closings") + closings
        )
        if changed == 1:
            return
        if not Cavity.objects.filter(code=code).exists():
            raise UnknownCode(kind="cavity", code=code)
        raise ShopRuleBroken(
            "not_in_service", f"Cavity {code} is not in service.", cavity_code=code
        )


def blade_set_add(
    *, by: Person, code: str, ends: int, service_after: int, note: str = ""
) -> BladeSet:
    """Enter a blade set and put it into service.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``code_bad``, ``count_bad``, ``blade_set_exists``.
    """
    require_may(by, Action.KEEP_TOOLS)
    _require_counts(ends, service_after)
    with write_transaction():
        require_new(BladeSet, code, "blade set")
        return BladeSet.objects.create(
            code=code, ends=ends, service_after=service_after, in_service=True, note=note
        )


def instrument_add(
    *, by: Person, code: str, name: str, measures: str, calibration_due: dt.date | None
) -> Instrument:
    """Enter an instrument; no due day means: never calibrated.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``code_bad``, ``instrument_exists``.
    """
    require_may(by, Action.KEEP_TOOLS)
    with write_transaction():
        require_new(Instrument, code, "instrument")
        return Instrument.objects.create(
            code=code,
            name=name.strip() or code,
            measures=measures,
            calibration_due=calibration_due,
        )


def wheel_calibration_record(
    *,
    by: Person,
    station_code: str,
    set_mm: float,
    delivered_mm: float,
    fixed_uncertainty_mm: float,
    relative_uncertainty: float,
    on: dt.date,
) -> WheelCalibration:
    """Record what the wheel of a station delivered against a steel tape.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``calibration_bad``. UnknownCode: of the station.
    """
    require_may(by, Action.KEEP_TOOLS)
    lengths = (set_mm, delivered_mm)
    spreads = (fixed_uncertainty_mm, relative_uncertainty)
    if not all(map(math.isfinite, lengths + spreads)) or min(lengths) <= 0 or min(spreads) < 0:
        raise ShopRuleBroken(
            "calibration_bad",
            "Accepted: lengths above zero and uncertainties of zero or more.",
            set_mm=set_mm,
            delivered_mm=delivered_mm,
        )
    with write_transaction():
        station = Station.objects.filter(code=station_code).first()
        if station is None:
            raise UnknownCode(kind="station", code=station_code)
        return WheelCalibration.objects.create(
            station=station,
            set_mm=set_mm,
            delivered_mm=delivered_mm,
            fixed_uncertainty_mm=fixed_uncertainty_mm,
            relative_uncertainty=relative_uncertainty,
            by=by,
            on=on,
        )


def require_new(table: type[models.Model], code: str, what: str) -> None:
    """Raise unless the code can stand and is free; a write transaction must be open."""
    # A code stands in addresses: a slash would part it, and dots alone would lead elsewhere.
    clean = code.isprintable() and code == code.strip() and "/" not in code and code.strip(".")
    if not clean or len(code) > 40:
        raise ShopRuleBroken(
            "code_bad",
            f"{code!r} cannot be the code of a {what}. Accepted: 1 to 40 characters, no slash.",
        )
    if table._default_manager.filter(code=code).exists():
        raise ShopRuleBroken(
            f"{what.replace(' ', '_')}_exists", f"There is a {what} {code} already.", taken=code
        )


def _require_counts(used: int, service_after: int) -> None:
    for value, least in ((used, 0), (service_after, 1)):
        if not isinstance(value, int) or isinstance(value, bool) or value < least:
            raise ShopRuleBroken(
                "count_bad", f"{value!r} is no count. Accepted: a whole number, {least} or more."
            )


def require_reason(reason: str) -> str:
    """Return the reason without spaces round it; raise ``reason_missing`` for none, or too much."""
    told = reason.strip()
    if not told or len(told) > 200 or not told.isprintable():
        raise ShopRuleBroken(
            "reason_missing", "Say why, in 1 to 200 characters.", field="reason", reason=reason
        )
    return told
