"""The worked example on the page of advice is run, so that the page promises no old answer."""

import doctest
from pathlib import Path

from reelwright.core.advice import Kind

PAGE = Path(__file__).parents[3] / "docs" / "methods" / "advice.md"


def test_the_worked_example_of_the_page_comes_out() -> None:
    """Every line of the example gives what is printed under it."""
    result = doctest.testfile(str(PAGE), module_relative=False)
    assert result.attempted > 5
    assert result.failed == 0


def test_the_page_names_every_kind_of_change_in_its_order() -> None:
    """No kind is left out of the table, and they stand there as they are told."""
    table = PAGE.read_text(encoding="utf-8").split("|---|---|", maxsplit=1)[1]
    places = [table.find(str(kind)) for kind in Kind]
    assert all(place >= 0 for place in places)
    assert places == sorted(places)
