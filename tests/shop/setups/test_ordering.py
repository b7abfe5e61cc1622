"""The order of an end's operations with its revision: kept, told, refused; the rest as before."""

from dataclasses import replace

import pytest

from reelwright.documents.set_up_sheet import render_set_up_sheet
from reelwright.shop.setups import services
from reelwright.shop.setups.models import RevisionOperation
from reelwright.shop.setups.ordering import laid_down, order_minds, standing_order, usual_operations
from reelwright.shop.setups.paper import set_up_paper
from reelwright.shop.setups.rules import missing_for_trial
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.sheet import Numbers
from reelwright.shop.setups.states import State
from tests.documents import pdfs
from tests.shop.refusals import refused
from tests.shop.setups.conftest import COMPLETE
from tests.shop.setups.test_paper import proven_and_released
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld

USUAL = (
    "thread boot",
    "thread shell and clamp",
    "strip",
    "tin",
    "solder",
    "clamp",
    "boot home",
)
LATE = ("strip", "thread boot", "thread shell and clamp", *USUAL[3:])
"""Slid on over the bared braid: the worse way, and it can be done."""


def draft(world: SmallWorld, letter: str, **changes: object) -> int:
    """Draft a revision of S-1 with other numbers."""
    number: int = services.revision_draft(
        by=world.ben,
        set_up_code="S-1",
        letter=letter,
        numbers=replace(COMPLETE, **changes),  # type: ignore[arg-type]  # named by the tests
        on=TODAY,
    ).pk
    return number


def printed(letter: str) -> tuple[tuple[str, ...], tuple[str, ...], str]:
    """Return steps, operations and whose order it is, as the sheet prints them."""
    content = set_up_paper("S-1", letter=letter, on=TODAY, gauges=())
    return content.steps, content.operations, content.order_told


def test_without_an_order_of_its_own_a_revision_keeps_none(world: SmallWorld, drafted: int) -> None:
    """The worked-out order stands, and paper says nothing of another."""
    assert [each.code for each in usual_operations(CABLE, CONNECTOR)] == list(USUAL)
    assert laid_down(CABLE, CONNECTOR, USUAL) == ()
    assert laid_down(CABLE, CONNECTOR, LATE) == LATE
    assert RevisionOperation.objects.count() == 0
    steps, operations, told = printed("A")
    assert (steps, operations, told) == (COMPLETE.steps, (), "")


def test_an_order_is_kept_with_its_revision_and_told_on_paper(
    world: SmallWorld, drafted: int
) -> None:
    """Beside the shop's own words the operations stand in that order, with what to mind."""
    number = draft(world, "B", order=LATE)
    assert revision_sheet(number).numbers.order == LATE
    steps, operations, told = printed("B")
    assert steps == COMPLETE.steps
    assert operations[0].startswith("Take the jacket back and bare the cores as drawn")
    assert operations[1].startswith("Boot, then shell and clamp, onto the cable")
    assert told.startswith("This order is laid down by rev B")
    assert "frays" in told
    text = " ".join(pdfs.texts(render_set_up_sheet(set_up_paper("S-1", on=TODAY, gauges=()))))
    assert "The operations" in text
    assert "laid down by rev B" in " ".join(text.split())


def test_without_own_words_the_steps_follow_the_order_laid_down(
    world: SmallWorld, drafted: int
) -> None:
    """The sheet tells the operations itself, and no trial waits for words."""
    draft(world, "B", order=LATE, steps=())
    steps, operations, _ = printed("B")
    assert operations == ()
    firsts = [step.split()[0] for step in steps]
    assert firsts == ["Take", "Boot,", "Tin", "Solder", "Close", "Slide"]
    sheet_numbers = replace(COMPLETE, order=LATE, steps=())
    assert missing_for_trial(CONNECTOR.method, sheet_numbers) == ()
    assert missing_for_trial(CONNECTOR.method, replace(COMPLETE, steps=())) != ()


def test_what_goes_on_first_is_not_told_where_the_order_begins_otherwise(
    world: SmallWorld, drafted: int
) -> None:
    """With the strip first, nothing stands before anything else."""
    draft(world, "B", steps=())
    assert set_up_paper("S-1", on=TODAY, gauges=()).threaded_first.startswith("Boot, then shell")
    draft(world, "C", order=LATE, steps=())
    assert set_up_paper("S-1", on=TODAY, gauges=()).threaded_first == ""


@pytest.mark.parametrize(
    ("order", "words"),
    [
        (
            (
                "thread shell and clamp",
                "strip",
                "tin",
                "solder",
                "clamp",
                "thread boot",
                "boot home",
            ),
            "no drawing says that the boot passes the fitted end",
        ),
        (("thread boot", "thread shell and clamp", "tin", "strip", *USUAL[4:]), "bare metal only"),
        (USUAL[:-1], "it is left out"),
        ((*USUAL, "polish"), "no such step"),
        ((*USUAL, "tin"), "done already"),
    ],
)
def test_an_order_that_cannot_be_carried_out_is_refused_whole(
    world: SmallWorld, drafted: int, order: tuple[str, ...], words: str
) -> None:
    """The reasons are told, and neither revision nor order is kept."""
    with refused("order_impossible") as caught:
        draft(world, "B", order=order)
    assert words in caught.value.sentence
    assert RevisionOperation.objects.count() == 0
    assert set_up_paper("S-1", on=TODAY, gauges=()).mark.revision == "A"


def test_a_released_revision_keeps_its_order_whatever_comes_after(
    world: SmallWorld, drafted: int
) -> None:
    """Rev B is released with an order; rev C goes back to the worked-out one."""
    number = proven_and_released(world, replace(COMPLETE, order=LATE), "B")
    draft(world, "C")
    sheet = revision_sheet(number)
    assert (sheet.state, sheet.numbers.order) == (State.RELEASED, LATE)
    assert printed("B")[2].startswith("This order is laid down by rev B")
    assert printed("C")[2] == ""


def test_an_order_of_before_is_filled_up_with_what_came_since() -> None:
    """An operation that an older order does not name is put in; one that is gone is left out."""
    older = (*LATE[:3], "polish", "solder", "clamp")
    assert standing_order(CABLE, CONNECTOR, older) == LATE
    assert standing_order(CABLE, CONNECTOR, ("polish",)) == ()
    numbers: Numbers = replace(COMPLETE, order=older)
    told = order_minds(CABLE, CONNECTOR, numbers)
    assert any("no such step" in each for each in told)
    assert any("left out" in each for each in told)
