"""Lines that want the same reel: who gets it, who does not, and what both are told."""

import datetime as dt
from collections.abc import Callable

from reelwright.shop.day.cuts_planned import Cutting, WantedPiece, plan_cuts
from reelwright.shop.day.judging.stock_answer import answer_for_stock
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import LineAnswer
from tests.shop.day.judging.conftest import Ask
from tests.shop.day.judging.test_states import plain

EARLY, LATE = dt.date(2026, 11, 25), dt.date(2026, 11, 27)


def pieces(
    key: str, count: int, cut_m: float, colour: str, *, due: dt.date = EARLY, one_lot: bool = False
) -> list[WantedPiece]:
    """The pieces of one line of VID-60."""
    return [
        WantedPiece(
            id=f"{key} #{number:04d}",
            key=key,
            cable="VID-60",
            colour=colour,
            cut_length_mm=round(cut_m * 1000),
            due=due,
            spare=False,
            group=f"{key} group 1" if one_lot else None,
            group_hard=one_lot,
        )
        for number in range(1, count + 1)
    ]


def cut(shelf: Shelf, *lines: list[WantedPiece]) -> Cutting:
    """All lines planned together, nothing promised before."""
    wanted = [piece for line in lines for piece in line]
    return plan_cuts(wanted=wanted, fixed=frozenset(), shelf=shelf)


def test_the_reel_goes_to_the_line_that_is_due_first(shelf: Shelf) -> None:
    """18.6 m of orange are two of 8 m: the earlier due date has them, whatever the order."""
    early, late = pieces("B", 2, 8.024, "OG"), pieces("A", 2, 8.024, "OG", due=LATE)
    assert set(cut(shelf, late, early).given_up) == {"A"}
    assert set(cut(shelf, early, late).given_up) == {"A"}


def test_a_line_that_cannot_be_had_takes_nothing_from_others(shelf: Shelf) -> None:
    """Five of 20 m from one red lot cannot be, due first or not; four of 13 m can, and are cut."""
    made = cut(
        shelf,
        pieces("impossible", 5, 20.059, "RD", one_lot=True),
        pieces("possible", 4, 13.039, "RD", due=LATE, one_lot=True),
    )
    assert set(made.given_up) == {"impossible"}
    assert len(made.plan.placements) == 4


def test_what_was_given_up_comes_back_where_there_is_room(shelf: Shelf) -> None:
    """Two lines fill the orange reel between them; a third, due last, still fits what is left."""
    made = cut(
        shelf,
        pieces("first", 2, 6.0, "OG"),
        pieces("too much", 2, 6.0, "OG", due=LATE),
        pieces("small", 1, 3.0, "OG", due=LATE),
    )
    assert set(made.given_up) == {"too much"}


def told(answer: LineAnswer) -> str:
    """What the customer reads."""
    return plain(
        "\n".join([answer.headline, *answer.notes, *(offer.sentence for offer in answer.offers)])
    )


def short(shelf: Shelf, ask: Ask, read: Callable, others: list[WantedPiece], **cells: str) -> str:
    """The answer to a line that the rack does not give beside others."""
    answer = ask(**cells)
    assert answer.make is not None
    own = pieces(
        "Q-1",
        answer.make.quantity,
        answer.make.cut_length_mm / 1000,
        answer.make.colours[0],
        due=LATE,
        one_lot=answer.make.lot_group_hard,
    )
    missing = cut(shelf, others, own).given_up["Q-1"]
    held = answer_for_stock(line=read(**cells), answer=answer, missing=missing, shelf=shelf)
    assert held.state == "held"
    return told(held)


def test_cable_that_went_to_others_is_not_said_to_be_there(shelf: Shelf, ask: Ask, read) -> None:
    """The reel holds two, but not for this line: never "2 of 2", and never "0 in black"."""
    text = short(
        shelf, ask, read, pieces("B", 2, 8.024, "OG"), length="8 m", colour="orange", quantity="2"
    )
    assert "more urgent orders take VID-60 orange first, and leave none of 2 cables" in text
    assert "2 of 2" not in text
    assert "0 in" not in text
    assert "All 2 in black with orange boots" in text


def test_a_shade_is_no_date_of_arrival(shelf: Shelf, ask: Ask, read) -> None:
    """The note on the red lot is about its shade; no date of a next reel is known."""
    text = short(shelf, ask, read, [], length="20 m", colour="red", quantity="5", set="same lot")
    assert "5 cables of 20 m (65 ft 7 in) from one lot" in text
    assert "once the next reel is here." in text
    assert "(shade" not in text


def test_two_lots_are_offered_where_one_is_not_enough(shelf: Shelf, ask: Ask, read) -> None:
    """Four of 15 m in red are there in two lots together."""
    text = short(shelf, ask, read, [], length="15 m", colour="red", quantity="4", set="same lot")
    assert "from more than one lot" in text


def test_what_the_rack_gives_is_offered_now(shelf: Shelf, ask: Ask, read) -> None:
    """Of two of 200 m of black one is there today: one now, one later."""
    text = short(shelf, ask, read, [], length="200 m", quantity="2", signal="serial video 270 Mb/s")
    assert "the rack gives 1 of 2 cables" in text
    assert "1 in black now, and 1 once the next reel is here" in text


def test_codes_of_colours_are_put_into_words(shelf: Shelf, ask: Ask, read) -> None:
    """A customer reads yellow, not YE."""
    text = short(shelf, ask, read, [], colour="yellow")
    assert "There is no VID-60 yellow" in text
    assert "does not give 1 cable" in text
