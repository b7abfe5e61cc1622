"""The worked examples on the pages of methods are run, so that no page promises an old answer."""

import doctest
from pathlib import Path

import pytest

PAGES = Path(__file__).parents[2] / "docs" / "methods"
PHYSICS = (
    "audio-lines", "clock-and-control", "coax", "data-sheet-consistency", "design-limit",
    "expected-values", "loss",
    "loudspeaker", "loudspeaker-line", "matched-sets", "optical-ledger", "other-signals",
    "resistance", "serial-video",
    "two-ports", "structural-return-loss", "step-and-trace", "eye",
)  # fmt: skip


@pytest.mark.parametrize("name", PHYSICS)
def test_the_worked_example_of_a_page_comes_out(name: str) -> None:
    """Each page of physics and signals has an example, and it gives what is printed under it."""
    result = doctest.testfile(str(PAGES / f"{name}.md"), module_relative=False)
    assert result.attempted > 0
    assert result.failed == 0
