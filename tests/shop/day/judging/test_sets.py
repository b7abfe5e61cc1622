"""Cables that belong together: one lot, one delay, a loom, a repeat."""

from tests.shop.day.judging.conftest import Ask
from tests.shop.day.judging.test_states import plain


def test_a_matched_set_of_one_colour_is_one_lot_and_not_trimmed(ask: Ask) -> None:
    """Red lies in the rack in two lots: its legs must come from one, and are then cut alike."""
    answer = ask(colour="red", quantity="3", set="matched")
    assert answer.state == "accepted"
    assert (answer.make.lot_group_size, answer.make.lot_group_hard) == (3, True)
    assert answer.make.cut_length_mm < 10_100
    assert not any("trimmed" in note for note in answer.notes)


def test_lots_that_were_not_measured_are_not_said_to_match(ask: Ask) -> None:
    """Two lots of audio pair without a measured delay: how far they differ is not computed."""
    answer = ask(
        cable="AUD-BP",
        signal="balanced line",
        end_a="XLR-3F",
        end_b="XLR-3M",
        colour="black, red",
        quantity="2",
        set="matched",
    )
    notes = plain(" ".join(answer.notes))
    assert "Not computed: how far the legs differ" in notes
    assert "0 ps" not in notes


def test_the_matching_fee_is_said(ask: Ask) -> None:
    """Twelve minutes at 38.00 an hour and 42 % margin are 13.10 for the set."""
    answer = ask(cable="VID-40", quantity="2", colour="red, green", set="matched")
    assert any("12 minutes for the set, 13.10" in note for note in answer.notes)


def test_colours_of_one_picture_are_held_against_its_pixel(ask: Ask) -> None:
    """Three colours are three lots, also where nobody asked for a matched set."""
    answer = ask(cable="VID-40", signal="RGBHV 154 MHz", quantity="3", colour="red, green, blue")
    assert any("of a pixel" in note for note in answer.notes)


def test_a_loom_of_coax_is_cut_with_its_twist_and_says_what_is_not_priced(ask: Ask) -> None:
    """4 × 10 m with 2 % for the twist are 40.8 m, and cut so; the sleeve is not in the price."""
    answer = ask(quantity="4", set="loom")
    note = plain(next(each for each in answer.notes if each.startswith("Loom of 4 legs")))
    assert "40.8 m" in note
    assert "not in the price" in note
    assert answer.make.cut_length_mm > 10_200


def test_a_last_group_that_is_smaller_is_said(ask: Ask) -> None:
    """Nine in racks of five make one group of five and one of four."""
    answer = ask(quantity="9", set="rack of 5")
    assert "9 make 1 group of 5 and one of 4." in answer.notes


def test_a_repeat_from_a_lot_that_is_still_there_is_not_called_used_up(ask: Ask) -> None:
    """The green lot L2405 lies in the rack alone: cut from it, nothing is asked."""
    answer = ask(colour="green", set="repeat of 0500, lot L2405")
    assert answer.state == "accepted"
    assert any("same lot as before (L2405)" in note for note in answer.notes)


def test_a_repeat_beside_other_lots_asks_for_the_lot(ask: Ask) -> None:
    """Of the two red lots a plan might take either."""
    answer = ask(colour="red", set="repeat of 0501, lot L2391")
    assert answer.state == "held"
    assert "must it be that lot" in answer.questions[0]


def test_a_repeat_of_another_cable_is_asked_about(ask: Ask) -> None:
    """Lot L2401 is VID-70, the line says VID-60."""
    answer = ask(set="repeat of 0502, lot L2401")
    assert "is VID-70, the order form says VID-60" in answer.questions[0]


def test_a_heavy_coil_is_said_to_be_heavy(ask: Ask) -> None:
    """5 × 26 m of VID-70P are 7.5 kg; ten metres are not worth a word."""
    heavy = ask(cable="VID-70P", colour="white", quantity="5", length="26 m", space="plenum")
    assert any("7.5 kg" in plain(note) for note in heavy.notes)
    assert not any(" kg" in plain(note) for note in ask().notes)
