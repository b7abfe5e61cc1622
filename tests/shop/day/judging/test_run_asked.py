"""What lies in the run and how warm it gets are columns of their own, and count."""

from collections.abc import Callable

import pytest

from reelwright.core.errors import InputFaults
from reelwright.shop.orders.columns import ReadLine
from reelwright.shop.orders.services import line_digest
from tests.shop.day.judging.conftest import Ask

LONG = {"signal": "serial video 2.97 Gb/s", "length": "58 m"}


def margin_db(ask: Ask, **cells: str) -> float:
    """Return what the loss leaves, as shown."""
    answer = ask(**(LONG | cells))
    return float(answer.checks[0].margin.split("\u202f")[0].replace("−", "-"))


def test_each_adapter_takes_a_tenth_of_a_decibel(ask: Ask) -> None:
    """Four barrels and patch points in the run cost 0.4 dB at half the clock."""
    assert margin_db(ask) - margin_db(ask, adapters="4") == pytest.approx(0.4, abs=0.011)


def test_a_warm_run_loses_more_and_the_answer_says_at_which_warmth(ask: Ask) -> None:
    """40 °C, or 104 °F, take 0.6 dB of 18 dB, as a kelvin takes 0.2 % of what copper loses."""
    warm = margin_db(ask, temperature="40 °C")
    assert 0.5 < margin_db(ask) - warm < 0.8
    assert margin_db(ask, temperature="104 °F") == pytest.approx(warm)
    assert any("40\u202f°C" in note for note in ask(**LONG, temperature="40 °C").notes)


def test_the_column_stands_before_the_words(ask: Ask) -> None:
    """A loft is taken as hot; a stated temperature is taken instead of it."""
    loft = "two runs through the loft"
    assert margin_db(ask, typed=loft) < margin_db(ask)
    assert margin_db(ask, typed=loft, temperature="20 °C") == margin_db(ask)


@pytest.mark.parametrize(
    ("column", "typed"),
    [
        ("adapters", "several"),
        ("adapters", "21"),
        ("adapters", "-1"),
        ("temperature", "warm"),
        ("temperature", "40"),
        ("temperature", "40 °"),
        ("temperature", "300 °C"),
    ],
)
def test_what_cannot_be_read_is_a_fault_of_its_column(
    read: Callable[..., ReadLine], column: str, typed: str
) -> None:
    """The fault names the column and what would be accepted."""
    with pytest.raises(InputFaults) as caught:
        read(**{column: typed})
    (fault,) = caught.value.faults
    assert fault.field == column
    assert fault.accepted


def test_a_line_that_leaves_the_new_columns_empty_is_the_line_it_was(
    read: Callable[..., ReadLine],
) -> None:
    """Its digest is that of a file without these columns; with them filled it is another."""
    cells = dict(read().cells)
    old = {name: cell for name, cell in cells.items() if name not in ("adapters", "temperature")}
    assert line_digest(cells) == line_digest(old)
    assert line_digest(cells | {"adapters": "2"}) != line_digest(old)
