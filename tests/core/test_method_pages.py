"""The worked examples on the pages of methods are run, so that no page promises an old answer."""

import doctest
from pathlib import Path

import pytest

PAGES = Path(__file__).parents[2] / "docs" / "methods"
WORKED = sorted(page.stem for page in PAGES.glob("*.md") if ">>>" in page.read_text("utf-8"))


@pytest.mark.parametrize("name", WORKED)
def test_the_worked_example_of_a_page_comes_out(name: str) -> None:
    """An example on a page gives what is printed under it."""
    result = doctest.testfile(str(PAGES / f"{name}.md"), module_relative=False)
    assert result.attempted > 0
    assert result.failed == 0
