"""Whether a line is accepted, held or refused, and what its headline claims."""

import datetime as dt

import pytest

from tests.shop.day.judging.conftest import Ask


def plain(text: str) -> str:
    """Text with plain spaces."""
    return text.replace("\u202f", " ")


@pytest.mark.parametrize(
    ("space", "enemies"), [("outdoors", "sun and water"), ("buried", "water and soil")]
)
@pytest.mark.parametrize("cable", ["VID-60", "you choose"])
def test_sun_and_soil_are_not_judged_so_the_line_is_held(
    ask: Ask, space: str, enemies: str, cable: str
) -> None:
    """A jacket that states nothing of them: held with the question, and no yes in between."""
    answer = ask(space=space, cable=cable)
    assert answer.state == "held"
    assert enemies in answer.questions[0]


def test_a_reaction_to_fire_class_is_held_against_the_class_on_the_jacket(ask: Ask) -> None:
    """Cca is asked for: one jacket reaches it, one does not, one is rated by the other system."""
    assert ask(cable="VID-70P", space="Cca-s2,d2,a2").state == "accepted"
    assert ask(cable="VID-60", space="Cca-s2,d2,a2").state == "held"
    other = ask(cable="VID-60P", space="Cca-s2,d2,a2")
    assert other.state == "held"
    assert "do not map onto each other" in other.questions[0]


def test_only_cable_of_the_class_asked_for_is_offered_or_chosen(ask: Ask) -> None:
    """VID-60P may burn as little, but states no European class: it is neither offered nor taken."""
    asked = ask(cable="VID-60", space="Cca-s2,d2,a2")
    assert asked.offers
    assert all("VID-70P" in offer.sentence for offer in asked.offers)
    assert any("set-up is one of its own" in note for note in asked.notes)
    chosen = ask(cable="you choose", space="Cca-s2,d2,a2")
    assert chosen.make is not None
    assert chosen.make.cable == "VID-70P"


def test_a_class_that_leaves_open_what_is_asked_is_a_question(ask: Ask) -> None:
    """Eca states no smoke, and where s1 is asked of Dca-s2 it is a no."""
    assert ask(cable="VID-70", space="Dca-s2").state == "accepted"
    assert "does not reach s1" in ask(cable="VID-70", space="Dca-s1").questions[0]
    assert ask(cable="VID-60", space="Eca").state == "accepted"


def test_an_escape_route_is_asked_about(ask: Ask) -> None:
    """Which class it needs is local rule, and nothing here knows it."""
    answer = ask(space="escape route")
    assert answer.state == "held"
    assert "Which class is required there?" in answer.questions[0]


def test_a_type_mark_in_the_place_column_is_judged_by_the_mark_on_the_jacket(ask: Ask) -> None:
    """CMR may take the place of CL3R and not of CMP."""
    assert ask(cable="VID-70", space="CMP rated").state == "held"
    assert ask(cable="VID-70P", space="CMP").state == "accepted"
    assert ask(cable="VID-70", space="CL3R").state == "accepted"


@pytest.mark.parametrize(
    ("typed", "space", "told"),
    [
        ("it has to be B2ca-s1,d1,a1 by the architect", "in the open", "B2ca-s1,d1,a1"),
        ("must be CMP", "riser", "CMP"),
        ("it runs along the escape route", "in the open", "escape route"),
    ],
)
def test_a_class_named_in_the_message_is_not_passed_over(
    ask: Ask, typed: str, space: str, told: str
) -> None:
    """What the sentence asks of the jacket beyond the column is asked back."""
    answer = ask(cable="VID-70P", space=space, typed=typed)
    assert any(f"message speaks of “{told}”" in question for question in answer.questions)


def test_a_class_named_in_the_message_and_met_by_the_column_is_no_question(ask: Ask) -> None:
    """A plenum asks for CMP anyway, and Cca-s1b,d1,a1 is more than Dca."""
    for typed, space in (("must be CMP", "plenum"), ("Dca at least", "Cca-s1b,d1,a1")):
        answer = ask(cable="VID-70P", space=space, typed=typed)
        assert not any("message speaks of" in question for question in answer.questions)


@pytest.mark.parametrize(("cable", "state"), [("VID-60", "accepted"), ("VID-40", "held")])
def test_a_riser_shaft_asks_for_riser_cable(ask: Ask, cable: str, state: str) -> None:
    """General cable may not lie there; riser cable is offered, not plenum at twice the price."""
    answer = ask(cable=cable, space="riser")
    assert answer.state == state
    if state == "held":
        assert "VID-60 black" in answer.offers[0].sentence
    else:
        assert any("authority having jurisdiction" in note for note in answer.notes)


def test_a_place_that_no_cable_may_lie_in_is_named_as_the_reason(ask: Ask) -> None:
    """Phono leads exist, only none for a plenum: the refusal must not say that there are none."""
    answer = ask(cable="you choose", signal="line audio", ends="RCA", space="plenum")
    assert answer.state == "refused"
    assert "is rated for that place" in answer.headline


def test_what_stays_in_a_plenum_must_be_rated_as_well(ask: Ask) -> None:
    """Rated cable alone does not make it: ties, labels and boots are told of."""
    answer = ask(cable="VID-60P", colour="white", space="plenum")
    assert answer.state == "accepted"
    assert any("Ties, labels, boots" in note for note in answer.notes)


def test_a_phono_plug_at_a_gigahertz_is_held(ask: Ask) -> None:
    """The plug is made to no impedance; customers say RCA where they mean BNC."""
    answer = ask(ends="RCA")
    assert answer.state == "held"
    assert "made to no impedance" in answer.questions[0]
    assert ask(ends="RCA", signal="coaxial digital audio 48 kHz").state == "accepted"


def test_a_margin_under_the_guard_is_the_customers_to_take(ask: Ask) -> None:
    """90 m at 1.485 Gb/s leaves 0.13 dB: held, with a thicker cable of the usual jacket offered."""
    answer = ask(length="90 m")
    assert answer.state == "held"
    assert "only 0.13 dB is to spare" in plain(answer.questions[0])
    assert "VID-70 " in answer.offers[0].sentence
    assert ask(length="86 m").state == "accepted"


def test_a_long_stranded_data_cord_asks_what_it_is_for(ask: Ask) -> None:
    """60 m stranded may only be a whole channel by itself."""
    answer = ask(cable="DAT-6", signal="category data", ends="8P8C", length="60 m", colour="yellow")
    assert answer.state == "held"
    assert "whole channel by itself" in answer.questions[0]


@pytest.mark.parametrize("length", ["1 cm", "20 mm", "5 cm", "12 cm"])
def test_what_no_machine_can_hold_is_asked_about(ask: Ask, length: str) -> None:
    """Shorter than 150 mm is a wrong unit or an adapter, not a cable."""
    answer = ask(length=length)
    assert answer.state == "held"
    assert "is the unit right" in answer.questions[0]
    assert answer.make is None


def test_a_colour_the_cable_does_not_come_in_is_asked_about(ask: Ask) -> None:
    """Pink VID-60 will never arrive on a next reel; colours in the rack are offered."""
    answer = ask(colour="pink")
    assert answer.state == "held"
    assert "does not come in pink, but in black" in answer.questions[0]
    assert [offer.cells["colour"] for offer in answer.offers if offer.cells] == ["black", "blue"]


@pytest.mark.parametrize(
    ("cells", "claim"),
    [
        ({}, "works, with 17.6 dB to spare"),
        (
            {"cable": "AUD-BP", "signal": "balanced line", "end_a": "XLR-3F", "end_b": "XLR-3M"},
            "works, and takes less than 0.01 dB off the treble",
        ),
        (
            {"cable": "SPK-14", "signal": "loudspeaker 8 ohm", "ends": "banana"},
            "works, and the loudspeaker gets 0.18 dB less",
        ),
        (
            {"cable": "VID-70", "signal": "cable television", "ends": "F"},
            "it can be made, but whether reception is good depends on the level at your outlet",
        ),
        (
            {"cable": "DAT-6", "signal": "category data", "ends": "8P8C", "colour": "yellow"},
            "its length is within the rule, which is all that was judged",
        ),
        ({"signal": "serial video 11.88 Gb/s"}, "is less sure than the others"),
    ],
    ids=["video", "audio", "loudspeaker", "television", "data", "12G"],
)
def test_a_headline_claims_what_was_judged_and_no_more(
    ask: Ask, cells: dict[str, str], claim: str
) -> None:
    """Read alone it must not mislead: half a decibel of treble is no reserve."""
    answer = ask(**cells)
    assert answer.state == "accepted", answer.headline
    assert claim in plain(answer.headline)


def test_a_hot_place_is_judged_hot(ask: Ask) -> None:
    """At 60 °C the copper loses more: 0.3 dB more over 20 m, and the answer says so."""
    cool = ask(length="20 m")
    hot = ask(length="20 m", typed="20 m across the roof at 60 °C")
    assert "15.4 dB" in plain(cool.headline)
    assert "15.1 dB" in plain(hot.headline)
    assert any("judged at 60 °C" in plain(note) for note in hot.notes)


def test_a_day_that_has_passed_is_asked_about_and_a_sunday_told(ask: Ask) -> None:
    """The demo's day is 24 November 2026; 29 November is no working day."""
    assert "has passed" in ask(due=dt.date(2026, 11, 20).isoformat()).headline
    assert any("no working day" in note for note in ask(due="2026-11-29").notes)


@pytest.mark.parametrize(
    ("signal", "word"),
    [
        ("50 ohm radio", "how much loss in dB may its cable have"),
        ("timecode", "balanced (three contacts) or unbalanced"),
        ("antenna", "What comes from the antenna"),
        ("turntable", "capacitance"),
        ("subwoofer", "line level"),
        ("12 V DC trigger", "volts"),
        ("HDMI", "bought finished"),
        ("telepathy", "We do not know the signal “telepathy”"),
    ],
)
def test_what_is_not_judged_is_held_with_what_is_missing(ask: Ask, signal: str, word: str) -> None:
    """Signals that nothing here judges are asked about in their own words, and nothing is cut."""
    answer = ask(signal=signal)
    assert answer.state == "held"
    assert word in answer.questions[0]


def test_nothing_is_priced_while_cable_and_signal_are_both_open(ask: Ask) -> None:
    """Any cable with such plugs would be a guess while the signal is not known."""
    answer = ask(cable="you choose", signal="telepathy", colour="")
    assert answer.state == "held"
    assert answer.price is None
    assert answer.make is None


def test_the_most_valuable_question_comes_first(ask: Ask) -> None:
    """What it carries, then where it lies, then what was meant, then colours and dates."""
    answer = ask(
        signal="telepathy",
        space="outdoors",
        colour="pink",
        due="2026-11-20",
        typed="four leads of 12 m, green",
    )
    told = [
        "telepathy",
        "sun and water",
        "12 m",
        "speaks of 4",
        "says green",
        "come in pink",
        "has passed",
    ]
    assert len(answer.questions) == len(told)
    for word, question in zip(told, answer.questions, strict=True):
        assert word in plain(question)


def test_a_wrong_kind_of_cable_is_offered_the_right_one(ask: Ask) -> None:
    """A loudspeaker on coax with BNC: refused, and the kind that would do is named."""
    answer = ask(signal="loudspeaker 8 ohm")
    assert answer.state == "refused"
    assert "SPK-16 with banana at both ends" in answer.offers[0].sentence


def test_wishes_in_the_text_are_not_passed_over(ask: Ask) -> None:
    """Certificate, adapters and boots are said to be taken in or not judged."""
    answer = ask(typed="10 m through two barrels, red boots, with certificate")
    notes = " ".join(answer.notes)
    for word in ("Adapters, barrels", "A certificate is written", "Boots"):
        assert word in notes


def test_an_outlet_too_weak_for_any_cable_is_said_to_be(ask: Ask) -> None:
    """50 dBµV are less than the 54 needed before a metre of cable: no allowance of minus 4 dB."""
    answer = ask(cable="VID-70", ends="F", signal="cable television 50 dBuV")
    assert answer.state == "refused"
    assert "no cable would do" in answer.headline
    assert "\N{MINUS SIGN}" not in answer.headline


def test_five_decibels_of_treble_are_not_slight(ask: Ask) -> None:
    """30 m from 10 kΩ lose 5.4 dB: dull, and only below 3 dB slightly so."""
    answer = ask(cable="PHO-61", ends="RCA", signal="line audio 10 kohm", length="30 m")
    assert "usually allowed: dull." in plain(answer.headline)


def test_a_class_of_picture_is_asked_for_its_rate(ask: Ask) -> None:
    """HD alone names no rate; a list of every signal there is would be no help."""
    assert ask(signal="HD").questions[0].startswith("Which rate does the serial video run at")


def test_phantom_power_into_a_jack_is_asked_about(ask: Ask) -> None:
    """Three contacts carry it, but few such inputs give it."""
    cells = {"cable": "AUD-BP", "end_a": "XLR-3F", "end_b": "6.35 mm plug"}
    assert ask(signal="microphone with phantom", **cells).state == "held"
    assert ask(signal="microphone", **cells).state == "accepted"
