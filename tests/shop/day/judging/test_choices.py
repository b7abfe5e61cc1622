"""What is chosen where the customer leaves it to the workshop."""

import pytest

from reelwright.shop.day.judging.cable_chosen import choose_cable
from reelwright.shop.day.shelf import Shelf
from tests.shop.day.judging.conftest import Ask


@pytest.mark.parametrize(
    ("length", "cable"),
    [("190 ft", "VID-40"), ("59 m", "VID-40"), ("62 m", "VID-60"), ("84 m", "VID-60"),
     ("90 m", "VID-70")],
)  # fmt: skip
def test_the_cheapest_is_chosen_that_keeps_its_limit_with_99_per_cent(
    ask: Ask, length: str, cable: str
) -> None:
    """At 62 m VID-40 still has a decibel and at 90 m VID-60 0.13 dB; neither is promised."""
    answer = ask(cable="you choose", colour="", length=length)
    assert f"of {cable}" in answer.reading
    assert answer.state == "accepted"
    assert answer.chance_within_limit >= 0.99


def test_a_cable_that_the_rack_holds_goes_before_a_cheaper_one(ask: Ask) -> None:
    """Thirty of 5 m in blue are more than the VID-40 in the rack; VID-60 has them."""
    assert "of VID-40" in ask(cable="you choose", colour="blue", quantity="5", length="5 m").reading
    assert (
        "of VID-60" in ask(cable="you choose", colour="blue", quantity="30", length="5 m").reading
    )


def test_the_colour_taken_is_one_that_gives_the_whole_line(ask: Ask) -> None:
    """No colour named: one that is in the rack for all cables, and it is said."""
    answer = ask(colour="", quantity="4")
    assert answer.make.colours == ("BK",)
    assert "No colour was named; taken as black." in answer.notes


@pytest.mark.parametrize("signal", ["balanced line", "microphone", "balanced digital audio"])
def test_xlr_at_both_ends_is_one_of_each(ask: Ask, signal: str) -> None:
    """Two females join nothing; the female goes onto the output, the male into the input."""
    answer = ask(cable="AUD-BP", signal=signal, ends="XLR")
    assert answer.state == "accepted"
    assert (answer.make.connector_a, answer.make.connector_b) == ("XLR3F", "XLR3M")
    assert any("one of each" in note for note in answer.notes)


def test_xlr_beside_a_named_xlr_is_the_other_one(ask: Ask) -> None:
    """XLR to XLR-3F: the first must be the male."""
    answer = ask(cable="AUD-BP", signal="balanced line", end_a="XLR", end_b="XLR-3F")
    assert (answer.make.connector_a, answer.make.connector_b) == ("XLR3M", "XLR3F")


def test_xlr_beside_another_plug_has_to_be_asked(ask: Ask) -> None:
    """XLR to a 6.35 mm plug may be either way round."""
    answer = ask(cable="AUD-BP", signal="balanced line", end_a="XLR", end_b="6.35 mm plug")
    assert answer.state == "held"
    assert "onto an output or into an input" in answer.questions[0]


def test_no_plenum_cable_is_offered_that_nobody_needs(ask: Ask) -> None:
    """92 m on VID-60 is too long: VID-70 comes before plenum cable at nearly twice the price."""
    answer = ask(length="92 m")
    assert answer.state == "refused"
    assert "in VID-70 " in answer.offers[0].sentence


def test_another_kind_of_cable_is_offered_by_price(ask: Ask) -> None:
    """Video on a balanced pair: nothing is like it, so the cheapest video cable comes first."""
    answer = ask(cable="AUD-BP")
    assert answer.state == "refused"
    assert "in VID-40 " in answer.offers[0].sentence


def test_no_cable_is_chosen_for_a_signal_that_is_not_known(shelf: Shelf, read) -> None:
    """Neither the first of the catalogue nor a refusal: the question comes first."""
    line = read(cable="you choose")
    assert choose_cable(line, None, shelf) is None


def test_a_cable_that_comes_in_the_colour_is_chosen(ask: Ask) -> None:
    """Yellow is out of stock, but VID-60 comes in it and VID-40 never does."""
    assert "of VID-60 yellow" in ask(cable="you choose", colour="yellow").reading
