"""The small world ready for a whole day: a set-up that may be sold, rates, minutes, a wheel.

Its plug is soldered by Ben alone; a light plug stands in the catalogue, for orders that no cable
can meet.
"""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from reelwright.core.bench.problem import Station
from reelwright.core.parts.cable import Family
from reelwright.core.parts.connector import Band, Connector, Method
from reelwright.core.verdicts import Basis, Source
from tests.small_world import (
    CABLE,
    CONNECTOR,
    LAST_WEEK,
    SHEET,
    TODAY,
    SmallWorld,
    build_small_world,
)

if TYPE_CHECKING:
    from reelwright.shop.people.models import Person

COLUMNS = (
    "order",
    "line",
    "customer",
    "typed",
    "quantity",
    "cable",
    "signal",
    "end_a",
    "end_b",
    "length",
    "colour",
    "space",
    "due",
    "tolerance",
    "set",
    "adapters",
    "temperature",
)

LIGHT_PLUG = Connector(
    code="SW-LIGHT",
    name="Light plug of the small world",
    mating="light plug of the small world",
    method=Method.POLISH,
    contacts=1,
    shell_contact=False,
    carries_balanced=False,
    impedance_ohm=None,
    body=None,
    solid_conductor_only=None,
    accepts_conductor=Band(low_m=0.9e-3, high_m=1.1e-3),
    accepts_jacket=Band(low_m=2.0e-3, high_m=2.4e-3),
    conductor_setback_m=0.0,
    trim_m=0.02,
    drawing=None,
)

_STATIONS = (
    Station.CUT,
    Station.STRIP,
    Station.SOLDER,
    Station.INSPECT,
    Station.TEST,
    Station.PACK,
)
_PULLS_N = (115.0, 118.0, 122.0, 125.0, 120.0, 117.0, 123.0, 126.0, 114.0, 120.0)


@dataclass(frozen=True, kw_only=True)
class DayWorld(SmallWorld):
    """The small world with Olga of the office."""

    olga: "Person"


def build_day_world() -> DayWorld:
    """Build it in the database at hand, which must be empty."""
    from reelwright.shop.catalogue import services as catalogue
    from reelwright.shop.people import services as people
    from reelwright.shop.people.permissions import Role

    small = build_small_world()
    ada = small.ada
    olga = people.person_add(
        by=ada, user_name="olga", display_name="Olga", role=Role.OFFICE, password=None
    )
    catalogue.connector_add(
        by=ada, connector=LIGHT_PLUG, price=Decimal("3.00"), loss_db=1.0, loss_source=SHEET
    )
    catalogue.price_rules_add(
        by=ada,
        valid_from=LAST_WEEK,
        labour_per_hour=Decimal("40.00"),
        order_handling=Decimal("4.00"),
        rush_floor=Decimal("20.00"),
        first_pass_yield=Decimal("0.98"),
        gross_margin=Decimal("0.40"),
    )
    _benches(small)
    _set_up(small)
    return DayWorld(ada=ada, ben=small.ben, vic=small.vic, olga=olga)


def _benches(world: SmallWorld) -> None:
    from reelwright.shop.people import services as people
    from reelwright.shop.setups import services as setups
    from reelwright.shop.tools import services as tools

    for station in _STATIONS:
        tools.station_add(
            by=world.ada,
            code=station.value,
            name=station.value,
            kind=station,
            cost_per_hour=Decimal("40.00"),
        )
        setups.work_time_set(
            by=world.ada,
            family=Family.COAX,
            station=station,
            set_up_min=Decimal("1.00"),
            per_cable_min=Decimal("0.50"),
            per_metre_min=Decimal("0.02"),
        )
        people.qualification_record(
            by=world.ada, person=world.ben, station_code=station.value, since=LAST_WEEK, until=None
        )
    people.qualification_record(
        by=world.ada, person=world.ben, method=Method.SOLDER.value, since=LAST_WEEK, until=None
    )
    setups.change_over_times_add(
        by=world.ada,
        valid_from=LAST_WEEK,
        first_article_min=Decimal("3.0"),
        program_min=Decimal("2.0"),
        blade_set_min=Decimal("5.0"),
        die_min=Decimal("1.5"),
        test_adapters_min=Decimal("4.0"),
        weld_horn_min=Decimal("8.0"),
    )
    tools.wheel_calibration_record(
        by=world.ada,
        station_code="cut",
        set_mm=10_000.0,
        delivered_mm=9_990.0,
        fixed_uncertainty_mm=2.0,
        relative_uncertainty=0.0005,
        on=LAST_WEEK,
    )


def _set_up(world: SmallWorld) -> None:
    from reelwright.shop.setups import services
    from reelwright.shop.setups.sheet import Numbers
    from reelwright.shop.setups.states import FailureMode

    services.set_up_add(
        by=world.ben, code="S-1", cable_code=CABLE.code, connector_code=CONNECTOR.code
    )
    numbers = Numbers(
        levels=2,
        jacket_back_mm=Decimal("20.00"),
        cores_bared_mm=Decimal("5.00"),
        cores_bared_tolerance_mm=Decimal("0.50"),
        test_adapter="video",
        minimum_pull_n=90.0,
        minimum_pull_source=Source(text="the small world's own", basis=Basis.OWN_SHOP),
        press_min_per_end=Decimal("3.00"),
        steps=("Slide the boot on.", "Solder by the map."),
        cautions=("Fume extraction on.",),
    )
    revision = services.revision_draft(
        by=world.ben, set_up_code="S-1", letter="A", numbers=numbers, on=LAST_WEEK
    ).pk
    services.revision_try(by=world.ben, revision_id=revision, on=LAST_WEEK)
    services.pulls_record(
        by=world.ben,
        revision_id=revision,
        pulls_n=[(force_n, FailureMode.CONDUCTOR_BROKE) for force_n in _PULLS_N],
        on=LAST_WEEK,
    )
    services.revision_prove(by=world.ada, revision_id=revision, on=LAST_WEEK)
    services.revision_release(by=world.ada, revision_id=revision, on=LAST_WEEK)


def good_row(**other: str) -> dict[str, str]:
    """One line that the day world accepts, unless ``other`` says otherwise."""
    row = dict.fromkeys(COLUMNS, "") | {
        "order": "W-1",
        "customer": "Nell Farrow",
        "typed": "two leads of 3 m, black",
        "quantity": "2",
        "cable": CABLE.code,
        "signal": "serial video 1.485 Gb/s",
        "end_a": CONNECTOR.code,
        "end_b": CONNECTOR.code,
        "length": "3 m",
        "colour": "black",
        "space": "room",
        "due": (TODAY + dt.timedelta(days=2)).isoformat(),
    }
    if other.get("quantity", "2") != "2":
        row["typed"] = "leads of 3 m, black"
    return row | other


def order_file(*rows: dict[str, str], delimiter: str = ",") -> bytes:
    """The rows as a text file with a header."""
    import csv
    import io

    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS, delimiter=delimiter, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue().encode()


def row_counts() -> dict[str, int]:
    """How many rows each table of the shop holds."""
    from django.apps import apps

    return {
        model._meta.db_table: model._default_manager.count()
        for model in all_models(apps.get_app_configs())
    }


def all_models(configs: Iterable[object]) -> list[type]:
    """Every model of the shop, with the tables that join two of them."""
    return [
        model
        for config in configs
        if config.name.startswith("reelwright.")  # type: ignore[attr-defined]
        for model in config.get_models(include_auto_created=True)  # type: ignore[attr-defined]
    ]
