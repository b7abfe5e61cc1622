"""What every test of the shop may ask for."""

import pytest

from tests.day_world import DayWorld, build_day_world
from tests.small_world import SmallWorld, build_small_world


@pytest.fixture
def world(db: None) -> SmallWorld:
    """The small world, rolled back afterwards."""
    return build_small_world()


@pytest.fixture
def day_world(db: None) -> DayWorld:
    """The day world, rolled back afterwards."""
    return build_day_world()
