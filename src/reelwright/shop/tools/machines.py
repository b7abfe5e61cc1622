"""Presses and welders: entered here, and read here as values of the core."""

import datetime as dt
import math
from dataclasses import asdict, dataclass

from reelwright.core.bench.problem import Station as StationKind
from reelwright.core.ends.dies.press import ForceKnown, cylinder_force_n
from reelwright.core.ends.dies.press import Press as PressValue
from reelwright.core.ends.weld.energy import Welder as WelderValue
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.tools.models import Press, PressChange, Station, Welder
from reelwright.shop.tools.services import require_new, require_reason
from reelwright.shop.transactions import write_transaction


@dataclass(frozen=True, kw_only=True)
class PressFacts:
    """What is known of a press's force: the force [N] itself, or the cylinder it follows from.

    ``ratio`` [1] of its toggle or intensifier (1: none), ``efficiency`` [1].
    """

    known: ForceKnown
    force_n: float | None = None
    bore_mm: float | None = None
    pressure_kpa: float | None = None
    ratio: float | None = None
    efficiency: float | None = None

    @property
    def computed_n(self) -> float:
        """The force at the die [N]."""
        if self.force_n is not None:
            return self.force_n
        # The table holds all four of a cylinder wherever it holds no force.
        assert self.bore_mm is not None
        assert self.pressure_kpa is not None
        assert self.ratio is not None
        assert self.efficiency is not None
        return cylinder_force_n(
            bore_m=self.bore_mm / 1e3,
            pressure_pa=self.pressure_kpa * 1e3,
            ratio=self.ratio,
            efficiency=self.efficiency,
        )


@dataclass(frozen=True, kw_only=True)
class PressNow:
    """One press as it stands."""

    code: str
    station: str
    facts: PressFacts
    in_use: bool


@dataclass(frozen=True, kw_only=True)
class PressUntil:
    """What was known of a press until a day, and who changed it for which reason."""

    on: dt.date
    facts: PressFacts
    in_use: bool
    reason: str
    by: str


@write_transaction()
def press_enter(*, by: Person, code: str, station_code: str, facts: PressFacts) -> Press:
    """Enter a press at its station with what is known of its force.

    Raises ShopRuleBroken ``not_allowed``, ``code_bad``, ``press_exists``, ``limit_bad``,
    ``station_kind``; UnknownCode of the station.
    """
    require_may(by, Action.KEEP_TOOLS)
    _require_facts(facts)
    require_new(Press, code, "press")
    station = _station(station_code, StationKind.PRESS)
    return Press.objects.create(code=code, station=station, **asdict(facts))


def press_add(
    *, by: Person, code: str, station_code: str, known: ForceKnown | str, force_n: float
) -> Press:
    """Enter a press whose force at the die [N] is stated or measured.

    Raises ShopRuleBroken ``kind_unknown``, and as ``press_enter``.
    """
    given = (ForceKnown.STATED, ForceKnown.MEASURED)
    if known not in given:
        raise ShopRuleBroken(
            "kind_unknown", f"{known!r} is no way to know it. Accepted: {', '.join(given)}."
        )
    facts = PressFacts(known=ForceKnown(known), force_n=force_n)
    return press_enter(by=by, code=code, station_code=station_code, facts=facts)


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

    Raises as ``press_enter``.
    """
    facts = PressFacts(
        known=ForceKnown.COMPUTED,
        bore_mm=bore_mm,
        pressure_kpa=pressure_kpa,
        ratio=ratio,
        efficiency=efficiency,
    )
    return press_enter(by=by, code=code, station_code=station_code, facts=facts)


@write_transaction()
def press_change(
    *, by: Person, code: str, facts: PressFacts, in_use: bool, reason: str, on: dt.date
) -> None:
    """Reckon with other facts of a press from now on; what was known until now is kept.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``limit_bad``, ``nothing_changed``;
    UnknownCode of the press.
    """
    require_may(by, Action.KEEP_TOOLS)
    told = require_reason(reason)
    _require_facts(facts)
    row = Press.objects.select_for_update().filter(code=code).first()
    if row is None:
        raise UnknownCode(kind="press", code=code)
    if (_facts(row), row.in_use) == (facts, in_use):
        raise ShopRuleBroken("nothing_changed", f"{code} stands there with just that already.")
    PressChange.objects.create(
        press=row, **asdict(_facts(row)), in_use=row.in_use, reason=told, by=by, on=on
    )
    Press.objects.filter(pk=row.pk).update(**asdict(facts), in_use=in_use)


def _require_facts(facts: PressFacts) -> None:
    """Either a force, or all four of a cylinder, each above zero and no efficiency above one."""
    cylinder = {
        "bore_mm": facts.bore_mm,
        "pressure_kpa": facts.pressure_kpa,
        "ratio": facts.ratio,
        "efficiency": facts.efficiency,
    }
    needed = cylinder if facts.known is ForceKnown.COMPUTED else {"force_n": facts.force_n}
    given = {
        name: value
        for name, value in ({"force_n": facts.force_n} | cylinder).items()
        if value is not None
    }
    if given.keys() != needed.keys():
        raise ShopRuleBroken(
            "limit_bad",
            f"A force {facts.known} is known by {' and '.join(needed)}, and by nothing else.",
            field=next(iter(needed)),
        )
    _require_above_zero(**given)
    if facts.efficiency is not None and facts.efficiency > 1:
        raise ShopRuleBroken("limit_bad", "An efficiency is at most 1.", field="efficiency")


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
    """Return the presses in use by code."""
    return tuple(
        PressValue(code=row.code, force_n=_facts(row).computed_n, known=ForceKnown(row.known))
        for row in Press.objects.filter(in_use=True).order_by("code")
    )


def presses_now() -> tuple[PressNow, ...]:
    """Return every press by code, out of use too."""
    rows = Press.objects.select_related("station").order_by("code")
    return tuple(
        PressNow(code=row.code, station=row.station.name, facts=_facts(row), in_use=row.in_use)
        for row in rows
    )


def press_now(code: str) -> PressNow:
    """Return one press. Raises UnknownCode."""
    found = {each.code: each for each in presses_now()}
    if code not in found:
        raise UnknownCode(kind="press", code=code, near=found)
    return found[code]


def press_changes(code: str) -> tuple[PressUntil, ...]:
    """Return what a press was known by before, newest first."""
    rows = PressChange.objects.filter(press__code=code).select_related("by").order_by("-pk")
    return tuple(
        PressUntil(
            on=row.on,
            facts=_facts(row),
            in_use=row.in_use,
            reason=row.reason,
            by=row.by.display_name,
        )
        for row in rows
    )


def _facts(row: Press | PressChange) -> PressFacts:
    return PressFacts(
        known=ForceKnown(row.known),
        force_n=row.force_n,
        bore_mm=row.bore_mm,
        pressure_kpa=row.pressure_kpa,
        ratio=row.ratio,
        efficiency=row.efficiency,
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
