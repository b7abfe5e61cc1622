"""What a form posts as the number of a row."""

import pytest
from django.test import Client

from reelwright.web.widgets.posted import row_number
from tests.web.conftest import Taken


@pytest.mark.parametrize(
    ("typed", "number"),
    [("7", 7), ("0012", 12), ("", 0), ("-3", 0), ("3.0", 0), ("²", 0), ("9" * 18, 10**18 - 1)],
)
def test_a_posted_number_is_a_whole_one_or_no_row(typed: str, number: int) -> None:
    """Digits are a number; anything else is 0, which no row has."""
    assert row_number(typed) == number


def test_a_number_past_all_counting_is_no_row() -> None:
    """Nineteen digits and more would pass what a database counts with."""
    assert row_number("9" * 19) == row_number("1" + "0" * 400) == 0


def test_a_window_named_by_nonsense_is_refused_and_breaks_nothing(
    lead: Client, taken: Taken
) -> None:
    """A form sent by hand with forty digits is answered on the page."""
    nonsense = {"window": "9" * 40, "revision": "1"}
    answer = lead.post(f"/windows/{taken.window}/cite", nonsense, follow=True)
    assert answer.status_code in (200, 404)
