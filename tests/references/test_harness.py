"""The reference checks themselves: they can fail, their ids are unique, their page is true."""

import math

import pytest

from tests.references.harness import (
    Basis,
    ReferenceCheck,
    absolute,
    at_least,
    at_most,
    exact,
    reference_test,
    relative,
)
from tests.references.page import PAGE, all_checks, all_left_out, page_text


def a_check(*, ours: float) -> ReferenceCheck:
    """Return a small check that expects 2 m."""
    return ReferenceCheck(
        id="small.length",
        module="core.quantities",
        quantity="a length",
        source="this file",
        basis=Basis.COMPUTED,
        expected=2.0,
        unit="m",
        within=relative(0.01, because="to try the harness"),
        ours=lambda: ours,
    )


def test_a_wrong_value_fails() -> None:
    """A value outside its tolerance makes the generated test fail and names the source."""
    with pytest.raises(AssertionError, match="this file says 2 m"):
        reference_test([a_check(ours=2.021)])(a_check(ours=2.021))


def test_a_right_value_passes() -> None:
    """A value inside its tolerance passes, right up to its edge."""
    reference_test([a_check(ours=2.0199)])(a_check(ours=2.0199))


@pytest.mark.parametrize(
    ("within", "good", "bad"),
    [
        (relative(0.01, because="x"), 99.0, 98.9),
        (absolute(0.5, because="x"), 100.5, 100.6),
        (exact(because="x"), 100.0, math.nextafter(100.0, 101.0)),
        (at_most(but_within=0.2, because="x"), 81.0, 100.1),
        (at_most(but_within=0.2, because="x"), 100.0, 79.0),
        (at_least(but_within=0.2, because="x"), 119.0, 99.9),
        (at_least(but_within=0.2, because="x"), 100.0, 121.0),
        (relative(0.01, because="x"), 100.0, math.nan),
    ],
)
def test_each_kind_of_tolerance_has_two_sides(within, good, bad) -> None:  # type: ignore[no-untyped-def]
    """Each kind of tolerance lets the good value through and stops the bad one."""
    assert within.holds(ours=good, expected=100.0)
    assert not within.holds(ours=bad, expected=100.0)


def test_a_tolerance_needs_a_reason_and_a_size() -> None:
    """No tolerance can be made without a reason, nor one that checks nothing."""
    with pytest.raises(ValueError, match="reason"):
        relative(0.01, because=" ")
    with pytest.raises(ValueError, match="checks nothing"):
        absolute(math.inf, because="too wide")


def test_ids_are_unique_over_all_topics() -> None:
    """No two checks of any topic files share an id."""
    ids = [check.id for check in all_checks()]
    assert sorted({name for name in ids if ids.count(name) > 1}) == []


def test_the_committed_page_is_up_to_date() -> None:
    """docs/references.md says what the checks say now; `python -m tests.references` writes it."""
    assert PAGE.read_text(encoding="utf-8") == page_text(all_checks(), all_left_out())
