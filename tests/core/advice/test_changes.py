"""What is proposed for runs that fail or only just work, one kind of change after the other."""

from dataclasses import replace

import pytest

from reelwright.core.advice import Advice, Change, Kind, advise, carriers, farthest
from reelwright.core.parts.jacket import Space
from reelwright.core.verdicts import Outcome
from tests import signal_world as signals
from tests.core.advice import world

FT = 0.3048


def only(advice: Advice, kind: Kind) -> Change:
    """Return the one change of a kind."""
    (found,) = advice.of(kind)
    return found


def plain(change: Change) -> str:
    """Return a change's sentence with plain spaces."""
    return change.sentence.replace("\u202f", " ")


def test_the_cable_next_in_size_comes_first() -> None:
    """At 92 m and 1.485 Gb/s VID-60 is over; VID-70 is not, and beats the flexible one in all."""
    advice = advise(world.question("serial video 1.485 Gb/s", signals.VID_60, 92.0))
    first = advice.changes[0]
    assert first.kind is Kind.OTHER_CABLE
    assert first.run.cable.code == "VID-70"
    assert plain(first) == "With VID-70 instead of VID-60: 3.5 dB to spare."
    assert [change.run.cable.code for change in advice.of(Kind.OTHER_CABLE)] == ["VID-70"]


def test_450_ft_at_3g_are_split_in_two_or_sent_slower() -> None:
    """No coax reaches: two runs of 68.6 m have 2.1 dB each, and 270 Mb/s goes all the way."""
    advice = advise(world.question("3G", signals.VID_60, 450 * FT))
    assert {change.kind for change in advice.changes} == {Kind.SPLIT, Kind.OTHER_RATE}
    split = only(advice, Kind.SPLIT)
    assert (split.parts, split.run.cable.code) == (2, "VID-70")
    assert plain(split) == (
        "2 runs of 68.58 m (225 ft) of VID-70 with a re-clocker between them (each needs power "
        "there), 2.1 dB to spare on each."
    )
    rate = only(advice, Kind.OTHER_RATE)
    assert rate.run.cable.code == "VID-60"
    assert "270 Mb/s" in rate.signal.name


def test_the_cable_that_reaches_farthest_is_told_with_its_verdict() -> None:
    """VID-70 goes farther than every other at 2.97 Gb/s, and still not 450 ft."""
    best = farthest(world.question("3G", signals.VID_60, 450 * FT))
    assert best is not None
    assert best.run.cable.code == "VID-70"
    assert best.margin == pytest.approx(-15.6, abs=0.05)


def test_a_run_that_only_just_works_is_made_shorter_or_of_more() -> None:
    """90 m of VID-60 leave 0.13 dB; the run that keeps the guard with 99 % is a little shorter."""
    advice = advise(world.question("serial video 1.485 Gb/s", signals.VID_60, 90.0))
    assert advice.asked is not None
    assert advice.asked.judgement.verdict.outcome is Outcome.CAUTION
    shorter = only(advice, Kind.SHORTER)
    assert 84.0 < shorter.run.length.mean_m < 86.0
    assert shorter.tried.sure
    assert shorter.size == pytest.approx(1 - shorter.run.length.mean_m / 90.0)
    longer = world.question(
        "serial video 1.485 Gb/s", signals.VID_60, shorter.run.length.mean_m + 1
    )
    own = advise(longer).asked
    assert own is not None
    assert not own.sure


def test_a_run_that_works_surely_is_left_as_it_is() -> None:
    """Nothing is proposed to somebody whose cable is good."""
    assert advise(world.question("3G", signals.VID_60, 30.0)).changes == ()


def test_adapters_are_taken_out_and_the_attic_is_cooled() -> None:
    """58 m with eight adapters in a hot place: fewer adapters, or a cooler place, do it."""
    advice = advise(
        world.question("3G", signals.VID_60, 58.0, adapters=8, celsius=50.0),
        kinds={Kind.FEWER_ADAPTERS, Kind.COOLER},
    )
    fewer = only(advice, Kind.FEWER_ADAPTERS)
    assert fewer.run.adapters < 8
    assert fewer.judgement.verdict.works
    cooler = only(advice, Kind.COOLER)
    assert cooler.run.temperature_celsius == 20.0
    assert cooler.run.adapters == 8
    assert "20 °C instead of 50 °C" in plain(cooler)


def test_light_that_does_not_reach_goes_over_copper() -> None:
    """15 m of plastic fibre are a decibel short; the coaxial form has 7 dB and more to spare."""
    advice = advise(world.question("optical audio", signals.POF_22, 15.0, ends=("F05", "F05")))
    copper = only(advice, Kind.OTHER_MEDIUM)
    assert copper.signal.name.startswith("coaxial digital audio")
    assert {end.mating for end in copper.run.connectors} == {"phono"}
    assert copper.condition == "both devices have the coaxial jack as well"
    assert copper.tried.margin > 7


def test_a_microphone_on_coax_is_put_on_a_balanced_cable() -> None:
    """The cable asked for cannot be made at all, so the balanced one is all that is proposed."""
    advice = advise(
        world.question(
            "microphone with phantom power", signals.VID_60, 10.0, ends=("XLR3F", "phono-60")
        )
    )
    assert advice.asked is None
    (balanced,) = advice.changes
    assert balanced.kind is Kind.BALANCED
    assert [end.code for end in balanced.run.connectors] == ["XLR3F", "XLR3M"]


def test_long_unbalanced_lines_are_balanced_or_fed_by_a_stronger_output() -> None:
    """30 m from 10 kΩ are dull: from 600 Ω they are not, and a balanced line hums less too."""
    advice = advise(
        world.question("line audio 10 kohm", signals.PHO_61, 30.0, ends=("phono-60", "phono-60"))
    )
    assert only(advice, Kind.BALANCED).run.cable.code == "AUD-BP"
    assert "600 Ω" in plain(only(advice, Kind.OTHER_SOURCE))


def test_a_loudspeaker_gets_a_thicker_conductor_or_its_amplifier_beside_it() -> None:
    """20 m at 8 ohm ask for more copper, the surer one first; 80 m are beyond any cable here."""
    ends = ("banana", "banana")
    advice = advise(world.question("loudspeaker 8 ohm", signals.SPK_16, 20.0, ends=ends))
    thicker = advice.of(Kind.THICKER_CONDUCTOR)
    assert [change.run.cable.code for change in thicker] == ["SPK-12", "SPK-14"]
    assert "a conductor of 5.2 Ω/km" in plain(thicker[0])
    assert thicker[1].judgement.verdict.outcome is Outcome.CAUTION
    far = advise(world.question("loudspeaker 8 ohm", signals.SPK_16, 80.0, ends=ends))
    assert [change.kind for change in far.changes] == [Kind.OTHER_MEDIUM]
    assert "amplifier can stand beside the loudspeaker" in plain(far.changes[0])


def test_a_loudspeaker_line_is_raised_to_100_v_or_set_to_fewer_watts() -> None:
    """400 m of thin cable: the voltage halves the current, so do half the watts."""
    ends = ("banana", "banana")
    advice = advise(
        world.question("loudspeaker line 70 V, 6 x 15 W, 20 ft apart", signals.SPK_16, 300.0,
                       ends=ends)
    )  # fmt: skip
    voltage, watts = only(advice, Kind.HIGHER_VOLTAGE), only(advice, Kind.FEWER_WATTS)
    assert "100 V instead of 70.7 V" in plain(voltage)
    assert "7.5 W instead of 15 W (45 W together, 3.0 dB quieter)" in plain(watts)
    assert voltage.tried.sure
    assert watts.tried.sure


def test_a_weak_outlet_gets_an_amplifier_there_or_on_the_way() -> None:
    """120 m of cable television at 66 dBµV: more level at the outlet, or line amplifiers."""
    advice = advise(
        world.question("cable television 66 dBuV", signals.VID_70, 120.0, ends=("F-60", "F-60"))
    )
    stronger = only(advice, Kind.OTHER_SOURCE)
    assert stronger.tried.sure
    split = only(advice, Kind.SPLIT)
    assert (split.parts, "2 line amplifiers" in split.sentence) == (3, True)


def test_more_gain_than_is_to_be_had_is_not_proposed() -> None:
    """300 m would take 46 dB more at the outlet, and no amplifier of 20 dB gives that."""
    advice = advise(
        world.question("cable television 66 dBuV", signals.VID_70, 300.0, ends=("F-60", "F-60"))
    )
    assert not advice.of(Kind.OTHER_SOURCE)


def test_too_much_level_is_taken_back_by_an_attenuator() -> None:
    """92 dBµV over 20 m overdrive a tuner: less is proposed, and no amplifier."""
    advice = advise(
        world.question("cable television 92 dBuV", signals.VID_70, 20.0, ends=("F-60", "F-60"))
    )
    less = only(advice, Kind.OTHER_SOURCE)
    assert "an attenuator at your outlet takes 20 dB from 92 dBµV" in plain(less)
    assert less.judgement.verdict.outcome is Outcome.GOOD


def test_plugs_of_no_impedance_are_exchanged_at_a_gigahertz() -> None:
    """A phono plug at 1.5 GHz is not computed; the same coax with 75 Ω plugs is good."""
    asked = world.question("3G", signals.VID_60, 10.0, ends=("phono-60", "phono-60"))
    ends = only(advise(asked), Kind.OTHER_ENDS)
    assert ends.run.cable.code == "VID-60"
    assert ends.run.connectors[0].impedance_ohm == 75.0
    assert ends.size == 2.0


def test_a_cable_of_the_wrong_kind_is_answered_by_the_right_one() -> None:
    """A loudspeaker between BNC plugs on coax: the pair that would do, with its own plugs."""
    advice = advise(world.question("loudspeaker 8 ohm", signals.VID_60, 5.0))
    ends = only(advice, Kind.OTHER_ENDS)
    assert (ends.run.cable.code, ends.run.connectors[0].mating) == ("SPK-16", "banana")


def test_what_may_not_lie_there_is_answered_by_what_may() -> None:
    """In an air-handling space only plenum cable is proposed, and as asked it is no run at all."""
    advice = advise(world.question("3G", signals.VID_60, 30.0, space=Space.AIR_HANDLING))
    assert advice.asked is None
    assert {change.run.cable.code for change in advice.of(Kind.OTHER_CABLE)} == {
        "VID-60P", "VID-70P",
    }  # fmt: skip


def test_plenum_cable_that_nobody_asked_for_is_proposed_only_where_nothing_else_would_do() -> None:
    """It costs twice as much for a jacket that nobody needs."""
    asked = world.question("3G", signals.VID_28, 40.0)
    usual = advise(asked).of(Kind.OTHER_CABLE)
    assert usual
    assert not any(change.run.cable.code.endswith("P") for change in usual)
    only_plenum = tuple(
        entry for entry in world.CATALOGUE if entry.cable.code in ("VID-28", "VID-60P", "VID-70P")
    )
    left = advise(replace(asked, catalogue=only_plenum)).of(Kind.OTHER_CABLE)
    assert {change.run.cable.code for change in left} == {"VID-60P", "VID-70P"}


def test_without_a_cable_named_all_that_carry_it_are_carriers() -> None:
    """At 3G and 50 m VID-40 and VID-28 are out by their budget, pairs and fibres by their kind."""
    found = carriers(world.question("3G", None, 50.0))
    assert {each.run.cable.code for each in found} == {
        "VID-70", "VID-60", "VID-70P", "VID-60P", "VID-70F",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("word clock 48 kHz not terminated", "the last input is terminated with 75 Ω"),
        ("black burst terminated twice", "one of the two terminations is taken off"),
    ],
)
def test_a_line_of_clocks_is_ended_once(typed: str, words: str) -> None:
    """Neither a thicker cable nor an amplifier mends an ending: the ending does."""
    advice = advise(world.question(typed, signals.VID_60, 50.0))
    (ended,) = advice.changes
    assert ended.kind is Kind.TERMINATED
    assert words in plain(ended)
    assert ended.judgement.verdict.outcome is Outcome.GOOD


def test_a_control_bus_is_terminated_or_repeated() -> None:
    """100 m without a termination fail by the echo; 1.5 km with one fail by their length."""
    ends = ("XLR3F", "XLR3M")
    open_end = advise(world.question("DMX512 not terminated", signals.AUD_BP, 100.0, ends=ends))
    assert open_end.changes[0].kind is Kind.TERMINATED
    long = advise(world.question("RS-485 115.2 kb/s", signals.AUD_BP, 1500.0, ends=ends))
    split = only(long, Kind.SPLIT)
    assert (split.parts, "a repeater" in split.sentence) == (2, True)


def test_a_supply_is_raised_to_24_v_for_the_same_watts() -> None:
    """2 A at 12 V over 40 m lose 18 %; at 24 V a quarter of that."""
    asked = world.question(
        "supply 12 V DC, 2 A, 5 % fall", signals.SPK_16, 40.0, ends=("banana", "banana")
    )
    higher = only(advise(asked), Kind.HIGHER_VOLTAGE)
    assert "24 V instead of 12 V, for the same 24 W" in plain(higher)
    # 24 W at the far end of 2 × 13.17 mΩ/m × 40 m from 24 V, solved by hand: 22.90 V arrive.
    assert higher.tried.margin == pytest.approx(0.05 * 24 - (24 - 22.90), abs=0.01)


def test_professional_audio_goes_slower_or_through_a_repeater() -> None:
    """300 m at 192 kHz are 14 dB over; the two next lower rates are told, and no more."""
    advice = advise(
        world.question("professional coaxial digital audio 192 kHz", signals.VID_28, 300.0)
    )
    names = [change.signal.name for change in advice.of(Kind.OTHER_RATE)]
    assert [name.split()[-2] for name in names] == ["96", "48"]
    assert only(advice, Kind.SPLIT).parts == 2


def test_a_long_balanced_digital_line_goes_over_coax_between_converters() -> None:
    """150 m are beyond the pair's 100 m, and well within what 75 Ω coax carries."""
    advice = advise(
        world.question("balanced digital audio 48 kHz", signals.AUD_BP, 150.0,
                       ends=("XLR3F", "XLR3M"))
    )  # fmt: skip
    coax = only(advice, Kind.OTHER_MEDIUM)
    assert "professional coaxial digital audio 48 kHz" in coax.sentence
    assert {end.mating for end in coax.run.connectors} == {"BNC"}
