"""One search of the small world: a weld with two settings, and ways to add trials to it."""

from collections.abc import Callable

import pytest

from reelwright.core.trials.record import Readings, Trial
from reelwright.core.trials.search_text import SearchText, read_search
from reelwright.shop.trials import services
from reelwright.shop.trials.states import Process
from tests.docs.test_trials_guide import SEARCH
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld

WEB_PULL_ONLY = SEARCH.replace('[[looks]]\nname = "unburnt"\nleast_share = 0.6\n', "")
MADE = (
    ((300.0, 2.8), (266.0, 271.0, 259.0, 268.0, 262.0)),
    ((300.0, 2.2), (242.0, 251.0, 247.0)),
    ((340.0, 2.8), (235.0, 244.0, 240.0)),
    ((260.0, 2.8), (239.0, 232.0, 243.0)),
    ((300.0, 3.4), (246.0, 240.0, 251.0)),
    ((400.0, 3.6), ()),
)


def text() -> SearchText:
    """The search of the guide, by its pulls alone."""
    return read_search(WEB_PULL_ONLY, file="search.toml")


def trial(values: tuple[float, ...], pulls: tuple[float, ...]) -> Trial:
    """One trial; without pulls it failed outright."""
    return Trial(
        number=1,
        values=values,
        readings=(Readings(response="pull", values=pulls),) if pulls else (),
        seen=(),
        failure=None if pulls else "cut through",
    )


def begin(world: SmallWorld) -> str:
    """Begin the search for the one pair of the small world."""
    return services.search_begin(
        by=world.ben,
        text=text(),
        process=Process.WELD,
        cable_code=CABLE.code,
        connector_code=CONNECTOR.code,
        on=TODAY,
    )


@pytest.fixture
def begun(world: SmallWorld) -> str:
    """An open search without trials: its code."""
    return begin(world)


@pytest.fixture
def record(world: SmallWorld, begun: str) -> Callable[..., int]:
    """Write down one trial of it."""

    def write(values: tuple[float, ...], pulls: tuple[float, ...], note: str = "") -> int:
        return services.trial_record(
            by=world.ben, search_code=begun, trial=trial(values, pulls), note=note, on=TODAY
        )

    return write


@pytest.fixture
def tried(begun: str, record: Callable[..., int]) -> str:
    """The search with the six trials of the method page, which prove a window."""
    for values, pulls in MADE:
        record(values, pulls)
    return begun
