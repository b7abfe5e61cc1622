"""The day world with its people signed in, and one order taken in and planned."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

import pytest
from django.test import Client

from reelwright.core.ends.dies.press import ForceKnown
from reelwright.shop.day.services import day_run
from reelwright.shop.tools import machines
from reelwright.shop.tools import services as tools
from reelwright.shop.trials.services import search_begin
from reelwright.shop.trials.states import Process
from reelwright.shop.work.models import PlannedCut
from tests.day_world import DayWorld, build_day_world, good_row, order_file
from tests.shop.trials.conftest import text
from tests.small_world import CABLE, CONNECTOR, LAST_WEEK, TODAY

BACKEND = "django.contrib.auth.backends.ModelBackend"


@dataclass(frozen=True, kw_only=True)
class Taken:
    """One accepted line of two pieces, its run, the reel they come off, and an open search for a
    process window."""

    line_id: int
    run_id: int
    reel: str
    pieces: tuple[str, ...]
    window: str


@pytest.fixture
def day_world(db: None) -> DayWorld:
    """The day world, rolled back afterwards."""
    return build_day_world()


@pytest.fixture
def dies(day_world: DayWorld) -> DayWorld:
    """A cavity for a ferrule, a press, and two height gauges, one of them out of calibration."""
    tools.station_add(
        by=day_world.ada, code="press", name="Press", kind="press", cost_per_hour=Decimal(40)
    )
    tools.cavity_add(
        by=day_world.ada,
        code="F-6.48",
        use="ferrule",
        across_flats_mm=Decimal("6.48"),
        closings=41_000,
        service_after=60_000,
    )
    machines.press_add(
        by=day_world.ada,
        code="PR-1",
        station_code="press",
        known=ForceKnown.STATED,
        force_n=29_000.0,
    )
    for code, due in (("I-6", TODAY), ("I-9", LAST_WEEK)):
        tools.instrument_add(
            by=day_world.ada,
            code=code,
            name="Height gauge",
            measures="height",
            calibration_due=due,
        )
    return day_world


@pytest.fixture
def taken(day_world: DayWorld, dies: DayWorld) -> Taken:
    """One order of two leads, accepted and planned."""
    del dies
    run = day_run(by=day_world.olga, name="o.csv", content=order_file(good_row()), on=TODAY)
    cuts = list(PlannedCut.objects.select_related("piece", "reel").order_by("sequence"))
    return Taken(
        line_id=cuts[0].piece.line_id,
        run_id=run.run_id,
        reel=cuts[0].reel.code,
        pieces=tuple(cut.piece.code for cut in cuts),
        window=search_begin(
            by=day_world.ben,
            text=text(),
            process=Process.WELD,
            cable_code=CABLE.code,
            connector_code=CONNECTOR.code,
            on=TODAY,
        ),
    )


@pytest.fixture
def signed_in(day_world: DayWorld) -> Callable[[str], Client]:
    """Sign somebody in: ada leads, olga is office, ben bench, vic viewer."""

    def sign_in(name: str) -> Client:
        client = Client()
        client.force_login(getattr(day_world, name), backend=BACKEND)
        return client

    return sign_in


@pytest.fixture
def lead(signed_in: Callable[[str], Client]) -> Client:
    """Ada, who may do everything."""
    return signed_in("ada")
