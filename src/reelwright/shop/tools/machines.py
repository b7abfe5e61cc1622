"""Presses and welders: entered here, and read here as values of the core."""

import math

from reelwright.core.bench.problem import Station as StationKind
from reelwright.core.ends.dies.press import ForceKnown, cylinder_force_n
from reelwright.core.ends.dies.press import Press as PressValue
from reelwright.core.ends.weld.energy import Welder as WelderValue
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.tools.models import Press, Station, Welder
from reelwright.shop.tools.services import require_new
from reelwright.shop.transactions import write_transaction


@write_transaction()
def press_add(
    *, by: Person, code: str, station_code: str, known: ForceKnown | str, force_n: float
) -> Press:
    """Enter a press whose force at the die [N] is stated or measured.

    Raises ShopRuleBroken ``not_allowed``, ``code_bad``, ``press_exists``, ``kind_unknown``,
    ``limit_bad``, ``station_kind``; UnknownCode of the station.
    """
    require_may(by, Action.KEEP_TOOLS)
    given = (ForceKnown.STATED, ForceKnown.MEASURED)
    if known not in given:
        raise ShopRuleBroken(
            "kind_unknown", f"{known!r} is no way to know it. Accepted: {', '.join(given)}."
        )
    _require_above_zero(force_n=force_n)
    require_new(Press, code, "press")
    return Press.objects.create(
        code=code,
        station=_station(station_code, StationKind.PRESS),
        known=str(known),
        force_n=force_n,
    )


@write_transaction()
def press_add_cylinder(
    *,
    by: Person,
    code: str,
    station_code: str,
    bore_mm: float,
    pressure_kpa: float,
    ratio: float,
    efficiency: float,
) -> Press:
    """Enter a press by its cylinder: bore, pressure over the atmosphere, ratio of its toggle or
    intensifier (1: none) and efficiency.

    Raises as ``press_add``.
    """
    require_may(by, Action.KEEP_TOOLS)
    _require_above_zero(
        bore_mm=bore_mm, pressure_kpa=pressure_kpa, ratio=ratio, efficiency=efficiency
    )
    if efficiency > 1:
        raise ShopRuleBroken("limit_bad", "An efficiency is at most 1.", field="efficiency")
    require_new(Press, code, "press")
    return Press.objects.create(
        code=code,
        station=_station(station_code, StationKind.PRESS),
        known=ForceKnown.COMPUTED.value,
        bore_mm=bore_mm,
        pressure_kpa=pressure_kpa,
        ratio=ratio,
        efficiency=efficiency,
    )


@write_transaction()
def welder_add(
    *,
    by: Person,
    code: str,
    station_code: str,
    most_energy_j: float,
    most_power_w: float,
    longest_s: float,
) -> Welder:
    """Enter a welder with its limits: energy of one weld, power, longest weld.

    Raises ShopRuleBroken ``not_allowed``, ``code_bad``, ``welder_exists``, ``limit_bad``,
    ``station_kind``; UnknownCode of the station.
    """
    require_may(by, Action.KEEP_TOOLS)
    _require_above_zero(most_energy_j=most_energy_j, most_power_w=most_power_w, longest_s=longest_s)
    require_new(Welder, code, "welder")
    return Welder.objects.create(
        code=code,
        station=_station(station_code, StationKind.WELD),
        most_energy_j=most_energy_j,
        most_power_w=most_power_w,
        longest_s=longest_s,
    )


def presses() -> tuple[PressValue, ...]:
    """Return the presses by code."""
    return tuple(
        PressValue(code=row.code, force_n=_force_n(row), known=ForceKnown(row.known))
        for row in Press.objects.order_by("code")
    )


def welders() -> tuple[WelderValue, ...]:
    """Return the welders by code."""
    return tuple(
        WelderValue(
            code=row.code,
            most_energy_j=row.most_energy_j,
            most_power_w=row.most_power_w,
            longest_s=row.longest_s,
        )
        for row in Welder.objects.order_by("code")
    )


def _force_n(row: Press) -> float:
    if row.force_n is not None:
        return row.force_n
    # The table holds all four of a cylinder wherever it holds no force.
    assert row.bore_mm is not None
    assert row.pressure_kpa is not None
    assert row.ratio is not None
    assert row.efficiency is not None
    return cylinder_force_n(
        bore_m=row.bore_mm / 1e3,
        pressure_pa=row.pressure_kpa * 1e3,
        ratio=row.ratio,
        efficiency=row.efficiency,
    )


def _require_above_zero(**values: float) -> None:
    for field, value in values.items():
        if not (math.isfinite(value) and value > 0):
            raise ShopRuleBroken(
                "limit_bad", f"{value} is no {field.replace('_', ' ')}: above zero.", field=field
            )


def _station(code: str, kind: StationKind) -> Station:
    station = Station.objects.filter(code=code).first()
    if station is None:
        raise UnknownCode(kind="station", code=code)
    if station.kind != kind.value:
        raise ShopRuleBroken(
            "station_kind",
            f"Station {code} is for {station.kind}: the machine stands at one for {kind.value}.",
            station=code,
        )
    return station
