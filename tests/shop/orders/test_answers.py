"""Lines entered and answered again; what was told is never changed."""

import dataclasses
from typing import Any

import pytest
from django.db import DatabaseError, transaction

from reelwright.core.errors import BadValue, UnknownCode
from reelwright.shop.orders import selectors
from reelwright.shop.orders.answer import HELD, REFUSED, LineAnswer
from reelwright.shop.orders.columns import ReadLine, read_orders
from reelwright.shop.orders.models import Answer, OrderLine
from reelwright.shop.orders.services import answer_again, line_take
from tests.day_world import good_row, order_file, row_counts
from tests.shop.orders.test_files import WORDS
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld

ASKED = LineAnswer(
    state=HELD, headline="Held: which day?", reading="2 × 3 m", questions=("Which day?",)
)
REFUSING = LineAnswer(
    state=REFUSED, headline="No: too long.", reading="2 × 3 m", reasons=("Too long.",)
)


def line(**other: str) -> ReadLine:
    """One line as read."""
    (found,) = read_orders(name="o.csv", content=order_file(good_row(**other)), vocabulary=WORDS)
    return found


def test_a_line_is_entered_with_its_words_and_its_answer(world: SmallWorld) -> None:
    """What was typed stands beside what was told."""
    row = line_take(by=world.ada, line=line(), answer=ASKED, on=TODAY)
    view = selectors.line_by_id(row.pk)
    assert (view.label, view.customer_name, view.state) == ("W-1", "Nell Farrow", "held")
    assert view.cells["typed"] == "two leads of 3 m, black"
    assert view.answer == ASKED


def test_a_second_answer_stands_behind_the_first(world: SmallWorld) -> None:
    """The last one counts, both are kept."""
    row = line_take(by=world.ada, line=line(), answer=ASKED, on=TODAY)
    answer_again(by=world.ada, line_id=row.pk, old=HELD, answer=REFUSING, on=TODAY)
    assert selectors.line_by_id(row.pk).answer == REFUSING
    told = Answer.objects.filter(line=row).order_by("sequence")
    assert [(each.sequence, each.state) for each in told] == [(1, "held"), (2, "refused")]


def test_an_answer_is_not_given_over_another(world: SmallWorld) -> None:
    """Where the line was answered meanwhile the second is refused and nothing is written."""
    row = line_take(by=world.ada, line=line(), answer=ASKED, on=TODAY)
    answer_again(by=world.ada, line_id=row.pk, old=HELD, answer=REFUSING, on=TODAY)
    before = row_counts()
    with refused("answered_meanwhile") as caught:
        answer_again(by=world.ada, line_id=row.pk, old=HELD, answer=ASKED, on=TODAY)
    assert "refused" in caught.value.sentence
    assert row_counts() == before


@pytest.mark.parametrize("who", ["ben", "vic"])
def test_bench_and_viewer_answer_nothing(world: SmallWorld, who: str) -> None:
    """Neither enters a line nor answers one again."""
    row = line_take(by=world.ada, line=line(), answer=ASKED, on=TODAY)
    by = getattr(world, who)
    before = row_counts()
    with refused("not_allowed"):
        line_take(by=by, line=line(order="W-2"), answer=ASKED, on=TODAY)
    with refused("not_allowed"):
        answer_again(by=by, line_id=row.pk, old=HELD, answer=REFUSING, on=TODAY)
    assert row_counts() == before


@pytest.mark.parametrize(
    "sql", ["UPDATE orders_answer SET state='held'", "DELETE FROM orders_answer"]
)
def test_what_was_told_is_never_changed(world: SmallWorld, sql: str) -> None:
    """The model refuses it, and behind its back the database does."""
    from django.db import connection

    line_take(by=world.ada, line=line(), answer=REFUSING, on=TODAY)
    told = Answer.objects.get()
    told.state = "accepted"
    with refused("append_only"):
        told.save()
    with refused("append_only"):
        Answer.objects.all().delete()
    with (
        pytest.raises(DatabaseError, match="never changed"),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute(sql)
    assert Answer.objects.get().state == "refused"


def test_a_line_stands_once_in_the_books(world: SmallWorld) -> None:
    """The database itself refuses a second line of the same number."""
    line_take(by=world.ada, line=line(), answer=ASKED, on=TODAY)
    with pytest.raises(DatabaseError), transaction.atomic():
        line_take(by=world.ada, line=line(), answer=ASKED, on=TODAY)
    assert OrderLine.objects.count() == 1


@pytest.mark.parametrize(
    "change",
    [
        {"state": "perhaps"},
        {"state": HELD, "questions": ()},
        {"state": REFUSED, "reasons": ()},
        {"state": "accepted"},
    ],
)
def test_an_answer_without_its_substance_cannot_be_made(change: dict[str, Any]) -> None:
    """Held without a question, refused without a reason, accepted without price and make."""
    with pytest.raises(BadValue, match="LineAnswer"):
        dataclasses.replace(ASKED, **change)


def test_an_unknown_line_is_named(world: SmallWorld) -> None:
    """Asked for by a number that no line has."""
    with pytest.raises(UnknownCode, match="no order line"):
        selectors.line_by_id(4711)


def test_lines_are_found_by_what_people_remember(world: SmallWorld) -> None:
    """Order number, customer or words of the message, in any letters; nothing finds nothing."""
    line_take(by=world.ada, line=line(), answer=ASKED, on=TODAY)
    line_take(
        by=world.ada, line=line(order="W-2", customer="Orla Finch"), answer=REFUSING, on=TODAY
    )
    found = {
        text: [view.label for view in selectors.lines_matching(text)]
        for text in ("w-2", "farrow", "TWO LEADS", "nobody", " ")
    }
    assert found == {
        "w-2": ["W-2"],
        "farrow": ["W-1"],
        "TWO LEADS": ["W-1", "W-2"],
        "nobody": [],
        " ": [],
    }
