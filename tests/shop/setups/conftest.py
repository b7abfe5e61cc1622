"""One set-up of the small world, drafted complete or with gaps; its crimped twin on trial."""

import dataclasses
import datetime as dt
from decimal import Decimal

import pytest

from reelwright.core.verdicts import Basis, Source
from reelwright.shop.setups import services
from reelwright.shop.setups.sheet import Numbers
from reelwright.shop.tools import services as tools
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld

COMPLETE = Numbers(
    levels=2,
    jacket_back_mm=Decimal("20.00"),
    cores_bared_mm=Decimal("5.00"),
    cores_bared_tolerance_mm=Decimal("0.50"),
    test_adapter="audio",
    minimum_pull_n=90.0,
    minimum_pull_source=Source(text="the small world's own", basis=Basis.OWN_SHOP),
    press_min_per_end=Decimal("3.00"),
    steps=("Slide the boot on.", "Solder by the map."),
    cautions=("Fume extraction on.",),
)

# Mean 120 N, s = 4.03 N: k(10; 99 %/95 %) is 3.981, so 99 % hold 104 N.
GOOD_PULLS_N = (115.0, 118.0, 122.0, 125.0, 120.0, 117.0, 123.0, 126.0, 114.0, 120.0)


@pytest.fixture
def drafted(world: SmallWorld) -> int:
    """A complete revision A of S-1, drafted: its number."""
    services.set_up_add(
        by=world.ben, code="S-1", cable_code=CABLE.code, connector_code=CONNECTOR.code
    )
    return services.revision_draft(
        by=world.ben, set_up_code="S-1", letter="A", numbers=COMPLETE, on=TODAY
    ).pk


CRIMPED = dataclasses.replace(
    COMPLETE,
    strip_conductor_mm=Decimal("4.25"),
    strip_conductor_tolerance_mm=Decimal("0.10"),
    pin_die_mm=Decimal("1.60"),
    ferrule_die_mm=Decimal("6.48"),
    crimp_height_mm=Decimal("1.62"),
    crimp_height_tolerance_mm=Decimal("0.03"),
)


@pytest.fixture
def on_trial(world: SmallWorld, drafted: int) -> int:
    """Revision B of S-1 on trial, which lays down a crimp height; tools to measure it with.

    I-2's calibration ended yesterday. Cavity P-1 closed 1200 pins, F-1 3400 ferrules.
    """
    for code, use, flats, count in (("P-1", "pin", "1.60", 1200), ("F-1", "ferrule", "6.48", 3400)):
        tools.cavity_add(
            by=world.ada,
            code=code,
            use=use,
            across_flats_mm=Decimal(flats),
            closings=count,
            service_after=60_000,
        )
    for code, measures, due in (
        ("I-1", "force", TODAY),
        ("I-2", "crimp height", TODAY - dt.timedelta(days=1)),
    ):
        tools.instrument_add(
            by=world.ada, code=code, name=code, measures=measures, calibration_due=due
        )
    number: int = services.revision_draft(
        by=world.ben, set_up_code="S-1", letter="B", numbers=CRIMPED, on=TODAY
    ).pk
    services.revision_try(by=world.ben, revision_id=number, on=TODAY)
    return number
