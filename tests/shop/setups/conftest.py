"""One set-up of the small world, drafted complete or with gaps."""

from decimal import Decimal

import pytest

from reelwright.core.verdicts import Basis, Source
from reelwright.shop.setups import services
from reelwright.shop.setups.sheet import Numbers
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
