"""Antenna, satellite and television feeds: both levels, slope, supply, and 50 Ω on 75 Ω cable."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.signals import read_signal
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.cable_television import CableTelevision, Channels
from reelwright.core.signals.level_signal import OUTLET_SOURCE, LevelSignal, Window
from reelwright.core.signals.radio_feed_50 import RadioFeed50
from reelwright.core.signals.run import Run
from reelwright.core.signals.satellite_if import HEAD_STEPS, SatelliteIf
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.supply_drop import Supply, SupplyStep, supply_checks
from reelwright.core.signals.terrestrial_antenna import Service, TerrestrialAntenna
from reelwright.core.verdicts import Basis, Check, Outcome, Source
from tests import signal_world as world
from tests.core.signals.radio_world import (
    F_PLUG,
    FIFTY,
    MIDDLE,
    RF_50,
    STEEL,
    THICK,
    THIN,
    known_to,
    run,
)

CUSTOMER = Source(text="as stated", basis=Basis.CUSTOMER)
SERIAL_VIDEO_COAXES = (
    THICK, MIDDLE, world.VID_40, THIN, world.VID_70P, world.VID_60P, world.VID_70F,
)  # fmt: skip


def signal(typed: str) -> Signal:
    """Return the signal of a text that needs no question."""
    reading = read_signal(typed)
    assert reading.signal is not None, reading.question
    return reading.signal


def check(typed: str, of: Run, name: str) -> Check:
    """Return the check of that name."""
    return next(each for each in signal(typed).judge(of).verdict.checks if each.name == name)


def supply(
    *, current_a: float | None, needed_v: float | None = 11.5, most_a: float | None = None
) -> Supply:
    """Return a supply of 13 V."""
    return Supply(
        load="head",
        steps=(SupplyStep(source_v=13.0, needed_v=needed_v),),
        current_a=current_a,
        most_current_a=most_a,
        source=CUSTOMER,
    )


# --- levels


def test_what_arrives_is_what_was_given_less_the_loss() -> None:
    """60 dBµV over 20 m at 862 MHz: the level that arrives is in the sentence and in the check."""
    of = run(THICK, 20.0)
    main = check("digital cable TV 60 dBuV", of, "loss at 862 MHz")
    known = known_loss(THICK, None)
    assert isinstance(known, KnownLoss)
    lost = 20 * float(known.loss_db_per_m(862e6, temperature_celsius=20.0)) + 2 * 0.10
    assert main.value == pytest.approx(lost)
    assert main.margin == pytest.approx(60 - 54 - lost)
    assert main.outcome is Outcome.GOOD
    assert f"of 60\u202fdBµV {60 - lost:.1f}\u202fdBµV arrive" in main.sentence


@pytest.mark.parametrize(
    "typed",
    [
        "cable tv {} dBuV",
        "analogue cable tv {} dBuV",
        "FM antenna {} dBuV",
        "DAB antenna {} dBuV",
        "DVB-T antenna {} dBuV",
        "DVB-T2 antenna {} dBuV to 790 MHz",
        "satellite, head {} dBuV",
    ],
)
@given(
    length_m=st.floats(min_value=1, max_value=60),
    level_dbuv=st.integers(min_value=30, max_value=95),
)
def test_verdict_margin_and_chance_agree(typed: str, length_m: float, level_dbuv: int) -> None:
    """Above the guard it is good, above nothing a caution, below a no, with the chance to match."""
    judged = signal(typed.format(level_dbuv)).judge(run(MIDDLE, length_m))
    main, of = judged.verdict.checks[0], signal(typed.format(level_dbuv))
    assert isinstance(of, LevelSignal)
    assert main.margin is not None
    assert isinstance(main.value, float)
    assert main.margin == pytest.approx(level_dbuv - of.window.least_dbuv - main.value)
    wanted = (
        Outcome.BAD
        if main.margin < 0
        else Outcome.GOOD
        if main.margin >= of.window.guard_db
        else Outcome.CAUTION
    )
    assert main.outcome is wanted
    assert judged.chance_within_limit is not None
    if judged.verdict.works:
        assert judged.chance_within_limit >= 0.5


@pytest.mark.parametrize("typed", ["cable tv", "DVB-T antenna", "FM antenna", "satellite"])
def test_the_level_asked_for_is_the_one_that_is_enough(typed: str) -> None:
    """Told without a level which one is wanted, the same run with it keeps exactly the guard."""
    of, length = signal(typed), run(THICK, 25.0)
    assert isinstance(of, LevelSignal)
    asking = of.judge(length).verdict.checks[0]
    assert asking.outcome is Outcome.CAUTION
    assert asking.margin is None
    assert isinstance(asking.value, float)
    wanted = of.window.least_dbuv + asking.value + of.window.guard_db
    assert f"must give {wanted:.1f}\u202fdBµV or more" in asking.sentence
    assert "tell us the figure" in asking.sentence
    field = {
        "cable tv": "outlet_level_dbuv",
        "satellite": "head_level_dbuv",
    }.get(typed, "level_dbuv")
    told = replace(of, **{field: wanted + 1e-9})  # type: ignore[type-var]
    assert told.judge(length).verdict.checks[0].margin == pytest.approx(of.window.guard_db)
    assert told.judge(length).verdict.checks[0].outcome is Outcome.GOOD
    assert of.margin_at(length, world.LENGTHS_M) is None


@pytest.mark.parametrize("typed", ["cable tv", "DVB-T from the wall outlet", "satellite"])
def test_a_level_that_nothing_gives_is_no_question(typed: str) -> None:
    """Where the run would need more than an outlet or a head may give, the answer is no."""
    main = signal(typed).judge(run(THIN, 150.0)).verdict.checks[0]
    assert main.outcome is Outcome.BAD
    assert "and it may give" in main.sentence


def test_too_much_level_asks_for_an_attenuator_and_not_for_another_cable() -> None:
    """90 dBµV at the outlet are 16 dB too many behind 10 m, at the lowest channel; it works."""
    judged = signal("digital cable tv 90 dBuV").judge(run(THICK, 10.0))
    strong = next(each for each in judged.verdict.checks if each.name == "level not to exceed")
    assert strong.outcome is Outcome.CAUTION
    assert isinstance(strong.value, float)
    assert 74 < strong.value < 90
    assert "attenuator of 16\u202fdB" in strong.sentence
    assert judged.verdict.outcome is Outcome.CAUTION
    assert check("digital cable tv 74 dBuV", run(THICK, 10.0), "level not to exceed").outcome is (
        Outcome.GOOD
    )


def test_the_lowest_channel_is_the_strongest() -> None:
    """What arrives at the lowest channel less what arrives at the highest is the slope."""
    of = run(MIDDLE, 40.0)
    low = check("cable tv 80 dBuV", of, "level not to exceed").value
    slope = check("cable tv 80 dBuV", of, "slope over the band").value
    lost = check("cable tv 80 dBuV", of, "loss at 862 MHz").value
    assert isinstance(low, float)
    assert isinstance(slope, float)
    assert isinstance(lost, float)
    assert low - slope == pytest.approx(80 - lost)


def test_a_steep_slope_is_a_caution_with_and_without_a_level() -> None:
    """100 m of thin coax lose 36 dB more at the top of cable television than at the bottom."""
    for typed in ("cable tv", "cable tv 120 dBuV"):
        slope = check(typed, run(THIN, 100.0), "slope over the band")
        assert slope.outcome is Outcome.CAUTION
        assert "equaliser" in slope.sentence
        assert check(typed, run(THIN, 30.0), "slope over the band").outcome is Outcome.GOOD


@given(length_m=st.floats(min_value=1, max_value=200))
def test_a_higher_channel_never_loses_less(length_m: float) -> None:
    """The highest channel decides: moving it up never leaves more."""
    margins = []
    for top in (480, 600, 694, 790, 862):
        judged = signal(f"DVB-T antenna 70 dBuV to {top} MHz").judge(run(MIDDLE, length_m))
        margins.append(judged.verdict.checks[0].margin or 0.0)
    assert margins == sorted(margins, reverse=True)


def test_an_outlet_below_what_is_needed_is_told_so() -> None:
    """No cable turns 30 dBµV into 45; an amplifier is the word."""
    judged = signal("DVB-T at the wall outlet 30 dBuV").judge(run(THICK, 5.0))
    assert judged.verdict.outcome is Outcome.BAD
    assert judged.sentence.startswith("Your outlet gives 30\u202fdBµV")
    assert "an amplifier at your outlet might" in judged.sentence


def test_the_rule_of_the_united_states() -> None:
    """0 dBmV at the terminal is the least, 3 dBmV is owed at a drop, no figure for the most."""
    of = signal("cable tv 2 dBmV")
    assert isinstance(of, CableTelevision)
    assert of.outlet_level_dbuv == pytest.approx(62.0)
    assert of.window.most_dbuv is None
    owed = check("cable tv 2 dBmV", run(THICK, 3.0), "level the operator owes")
    assert owed.outcome is Outcome.CAUTION
    names = [each.name for each in signal("cable tv 4 dBmV").judge(run(THICK, 3.0)).verdict.checks]
    assert "level the operator owes" not in names
    assert "level not to exceed" not in names


def test_every_far_end_says_its_window() -> None:
    """What the far end needs is a sentence with both levels and the band."""
    assert signal("satellite").far_end == (
        "A tuner that gets 47 to 77\u202fdBµV from 950 to 2150\u202fMHz, 75\u202fΩ."
    )
    assert "60\u202fdBµV or more" in signal("cable tv 1 dBmV").far_end


# --- satellite and supplies


def test_satellite_holds_back_what_is_advised_for_rain() -> None:
    """Between 47 and 53 dBµV at the receiver it is a caution: six decibels are kept for rain."""
    at = run(THICK, 30.0)
    lost = signal("satellite").judge(at).verdict.checks[0].value
    assert isinstance(lost, float)
    for arrives, wanted in ((46.9, Outcome.BAD), (50.0, Outcome.CAUTION), (53.1, Outcome.GOOD)):
        of = SatelliteIf(head_level_dbuv=arrives + lost, head_current_a=0.1)
        assert of.judge(at).verdict.checks[0].outcome is wanted


def test_the_head_gets_what_the_loop_leaves() -> None:
    """30 m of 20.93 and 7.5 Ω/km at 200 mA lose 0.171 V: of 13 V 12.83 V reach the head."""
    fall = check("satellite 75 dBuV 200 mA", run(THICK, 30.0), "supply of the head")
    assert fall.value == pytest.approx((20.93e-3 + 7.5e-3) * 30 * 0.2)
    assert fall.limit == pytest.approx(1.5)
    assert "12.83\u202fV reach the head" in fall.sentence
    warm = check("satellite 75 dBuV 200 mA", run(THICK, 30.0, celsius=60.0), "supply of the head")
    assert isinstance(fall.value, float)
    assert warm.value == pytest.approx(fall.value * (1 + 0.00393 * 40), rel=1e-3)


def test_a_head_that_starves_is_refused_though_the_level_is_fine() -> None:
    """60 m of thin coax at 300 mA lose 2.84 V where 1.5 V may be lost; 31.7 m are the end."""
    of = SatelliteIf(head_level_dbuv=95.0, head_current_a=0.3)
    judged = of.judge(run(THIN, 60.0))
    assert judged.verdict.checks[0].outcome is Outcome.CAUTION
    assert judged.deciding == "supply of the head"
    assert judged.verdict.outcome is Outcome.BAD
    assert "2.84\u202fV are lost" in judged.sentence
    assert "goes as far as 31\u202fm (102\u202fft)" in judged.sentence
    assert of.judge(run(THIN, 30.0)).verdict.works


def test_the_voltage_with_least_to_lose_decides() -> None:
    """Of 13 V for 11.5 V and 18 V for 16 V the first may lose less, so it decides."""
    of = SatelliteIf(head_level_dbuv=None, head_current_a=None)
    assert of.supply.deciding == HEAD_STEPS[0]


def test_without_a_current_the_question_comes_only_where_it_matters() -> None:
    """Over 30 m of thick coax no head could starve; over 60 m of thin coax it could."""
    name = "supply of the head"
    short, long = (check("satellite", run(*of), name) for of in ((THICK, 30.0), (THIN, 60.0)))
    assert short.outcome is Outcome.GOOD
    assert "even at 500\u202fmA" in short.sentence
    assert long.outcome is Outcome.CAUTION
    assert "Each 100\u202fmA that the head takes loses 947\u202fmV" in long.sentence
    assert "How many does it take?" in long.sentence


@given(
    length_m=st.floats(min_value=1, max_value=300),
    celsius=st.floats(min_value=-40, max_value=80),
)
def test_the_current_that_is_allowed_is_then_accepted(length_m: float, celsius: float) -> None:
    """The milliamperes told as the most that may be taken are good, and a tenth more is not."""
    of = run(THIN, length_m, celsius=celsius)
    told = supply_checks(of, supply(current_a=None))[0]
    assert told.outcome is Outcome.CAUTION
    allowed_a = float(told.sentence.split("up to ")[1].split("\u202f")[0]) / 1e3
    if allowed_a >= 0.002:
        assert supply_checks(of, supply(current_a=allowed_a))[0].outcome is Outcome.GOOD
    assert supply_checks(of, supply(current_a=1.1 * allowed_a + 0.002))[0].outcome in (
        Outcome.CAUTION,
        Outcome.BAD,
    )


def test_a_supply_near_its_end_is_a_caution() -> None:
    """One percent above what is needed lies within the spread of reels: 2 % each resistance."""
    of = run(THIN, 60.0)
    loop = 60 * (133.8e-3 + 24e-3)
    near = supply_checks(of, supply(current_a=1.5 / loop * 0.99))[0]
    assert near.outcome is Outcome.CAUTION
    assert "another reel" in near.sentence


def test_a_current_that_the_loop_cannot_carry_is_told_so() -> None:
    """13 V through 16 Ω drive 0.8 A at most: 1 A is refused without a voltage below zero."""
    fall = supply_checks(run(THIN, 100.0), supply(current_a=1.0))[0]
    assert fall.outcome is Outcome.BAD
    assert "cannot drive that" in fall.sentence
    assert "\N{MINUS SIGN}" not in fall.sentence


def test_a_load_of_unknown_needs_is_asked_about() -> None:
    """Without the least voltage what arrives is told, and asked about from 5 % of fall on."""
    told = supply_checks(run(THICK, 30.0), supply(current_a=0.8, needed_v=None))[0]
    assert told.outcome is Outcome.CAUTION
    assert told.sentence.endswith("Which is the least voltage it works at?")
    assert told.margin is None
    little = supply_checks(run(THICK, 30.0), supply(current_a=0.7, needed_v=None))[0]
    assert little.outcome is Outcome.GOOD
    both = supply_checks(run(THICK, 30.0), supply(current_a=None, needed_v=None))[0]
    assert "How many milliamperes does it take" in both.sentence


def test_a_supply_below_what_is_needed_leaves_nothing_for_the_cable() -> None:
    """11.5 V wanted of 11.5 V sent: no cable has no resistance."""
    step = SupplyStep(source_v=11.5, needed_v=11.5)
    none = supply_checks(run(THICK, 1.0), replace(supply(current_a=None), steps=(step,)))[0]
    assert none.outcome is Outcome.BAD
    some = supply_checks(run(THICK, 1.0), replace(supply(current_a=0.1), steps=(step,)))[0]
    assert some.outcome is Outcome.BAD


def test_a_screen_of_unknown_resistance_leaves_the_fall_open() -> None:
    """The centre alone can say no; it can never say yes."""
    open_screen = known_to(world.VID_28, screen_ohm_per_km=None, top_db_per_100m=75.93)
    of = run(open_screen, 30.0)
    assert supply_checks(of, supply(current_a=0.1))[0].outcome is Outcome.NOT_COMPUTED
    assert "the resistance of the screen of VID-28 is not stated" in (
        supply_checks(of, supply(current_a=None))[0].sentence
    )
    starving = supply_checks(of, supply(current_a=0.5))[0]
    assert starving.outcome is Outcome.BAD
    assert starving.sentence.startswith("The centre of VID-28 alone loses")


def test_copper_on_steel_is_flagged_under_a_supply_only() -> None:
    """160 Ω/km on 0.8 mm are 4.7 times copper: flagged for a head, not for an unpowered antenna."""
    flagged = check(
        "satellite 75 dBuV 200 mA", run(STEEL, 30.0), "direct current in copper on steel"
    )
    copper_ohm_per_m = 4 / (58e6 * math.pi * 0.8e-3**2)
    assert flagged.value == pytest.approx(0.160 / copper_ohm_per_m, rel=1e-3)
    assert flagged.outcome is Outcome.CAUTION
    assert "4.7\u202ftimes the resistance of copper" in flagged.sentence
    bare = signal("DVB-T antenna 70 dBuV").judge(run(STEEL, 30.0)).verdict.checks
    assert all("steel" not in each.name for each in bare)
    lost = [
        check("satellite 75 dBuV 200 mA", run(of, 30.0), "supply of the head").value
        for of in (STEEL, THICK)
    ]
    assert isinstance(lost[0], float)
    assert isinstance(lost[1], float)
    assert lost[0] > 5 * lost[1]


def test_a_greedy_head_and_other_plugs_are_cautions() -> None:
    """More than 500 mA is more than most receivers give; BNC needs an adapter at an F socket."""
    greedy = check("satellite 75 dBuV 600 mA", run(THICK, 10.0), "current of the head")
    assert greedy.outcome is Outcome.CAUTION
    names = [
        each.name
        for each in signal("satellite 75 dBuV").judge(world.run(THICK, 10.0)).verdict.checks
    ]
    assert names.count("socket for BNC-60") == 1
    all_f = signal("satellite 75 dBuV 100 mA").judge(run(THICK, 10.0))
    assert all_f.verdict.outcome is Outcome.GOOD


def test_an_amplifier_at_the_antenna_is_fed_over_the_cable() -> None:
    """Said with volts, current and need it is judged; the level is then that of the amplifier."""
    typed = "DVB-T antenna 75 dBuV, mast-head amplifier 12 V 100 mA needs 10 V"
    name = "supply of the amplifier at the antenna"
    assert check(typed, run(THICK, 30.0), name).outcome is Outcome.GOOD
    assert check(typed.replace("100 mA", "900 mA"), run(THIN, 20.0), name).outcome is Outcome.BAD
    of = signal(typed)
    assert isinstance(of, TerrestrialAntenna)
    assert of.near_end == "the amplifier at the antenna"


# --- 50 Ω


def test_75_ohm_cable_in_a_50_ohm_run_costs_its_mismatch() -> None:
    """The loss judged is the cable's own and the worst of the mismatch, and the caution says so."""
    of = world.run(THICK, 15.0, ends=(FIFTY, FIFTY))
    judged = signal("50 ohm feed 600 MHz 6 dB").judge(of)
    main, cable = (
        judged.verdict.checks[0],
        next(each for each in judged.verdict.checks if each.name == "impedance of VID-70"),
    )
    own = check("50 ohm feed 600 MHz 6 dB", world.run(RF_50, 15.0, ends=(FIFTY, FIFTY)), main.name)
    assert isinstance(main.value, float)
    assert isinstance(own.value, float)
    square = ((74.4 - 50) / (74.4 + 50)) ** 2
    assert 0 < main.value - own.value < 20 * math.log10((1 + square) / (1 - square))
    assert cable.outcome is Outcome.CAUTION
    assert "14.1\u202fdB down" in cable.sentence
    assert judged.verdict.works


def test_a_50_ohm_cable_passes_and_a_100_ohm_one_is_refused() -> None:
    """50.3 Ω is the class; 99.4 Ω costs more than a decibel at the ends, which is no receiver's."""
    ends = (FIFTY, FIFTY)
    typed = "50 ohm feed 600 MHz 9 dB"
    assert signal(typed).judge(world.run(RF_50, 15.0, ends=ends)).verdict.outcome is Outcome.GOOD
    refused = signal(typed).judge(world.run(world.PHO_61, 5.0, ends=ends))
    assert refused.verdict.outcome is Outcome.BAD
    assert refused.deciding == "impedance of PHO-61"
    assert "a cable of 50\u202fΩ is needed" in refused.sentence


@given(
    lengths=st.lists(st.floats(min_value=0.01, max_value=400), min_size=2, max_size=9, unique=True)
)
def test_a_longer_feed_never_has_more_to_spare(lengths: list[float]) -> None:
    """The mismatch fades with length, but the cable's own loss always grows faster."""
    of = signal("50 ohm feed 600 MHz 6 dB")
    assert isinstance(of, RadioFeed50)
    budget = of.budget(world.run(THICK, 10.0))
    assert isinstance(budget, Budget)
    used = budget.used(np.array(sorted(lengths)))
    assert (np.diff(used) >= 0).all()


def test_a_feed_without_an_allowance_tells_the_loss_and_asks() -> None:
    """Without the loss allowed there is no yes and no no, but the figure and one question."""
    of = signal("50 ohm feed 600 MHz")
    judged = of.judge(world.run(RF_50, 15.0, ends=(FIFTY, FIFTY)))
    assert judged.verdict.outcome is Outcome.CAUTION
    assert "how much loss may the cable between them have?" in judged.sentence
    assert judged.chance_within_limit is None
    assert of.margin_at(world.run(RF_50, 15.0), world.LENGTHS_M) is None


def test_ends_of_a_third_impedance_and_of_none_are_told() -> None:
    """75 Ω plugs on 50 Ω cable are a caution; plugs made to no impedance are not computed."""
    typed = "50 ohm feed 600 MHz 9 dB"
    other = check(typed, world.run(RF_50, 15.0), "impedance of BNC-60")
    assert other.outcome is Outcome.CAUTION
    assert "without harm" in other.sentence
    plain = (world.PLAIN, world.PLAIN)
    none = check(typed, world.run(RF_50, 15.0, ends=plain), "impedance of plain")
    assert none.outcome is Outcome.NOT_COMPUTED


def test_a_cable_without_stated_impedance_is_not_judged_for_50_ohm() -> None:
    """What is not stated is not guessed."""
    blank = world.cable("BLANK", replace(THICK.sheet, impedance_ohm=None))
    judged = signal("50 ohm feed 600 MHz 9 dB").judge(world.run(blank, 5.0))
    assert judged.verdict.outcome is Outcome.NOT_COMPUTED
    assert "the impedance of BLANK is not stated" in judged.sentence


# --- facts of the trade, common practice without a published source


@pytest.mark.parametrize("cable", SERIAL_VIDEO_COAXES, ids=lambda cable: cable.code)
@pytest.mark.parametrize(
    "typed", ["DVB-T antenna 70 dBuV", "FM antenna 65 dBuV", "satellite, head 80 dBuV"]
)
def test_coax_for_serial_video_serves_antennas_and_satellite_too(cable: Cable, typed: str) -> None:
    """Common practice: what is made for serial video carries antenna and satellite runs as well."""
    sheet = replace(cable.sheet, resistance_screen_ohm_per_m=0.010)
    judged = signal(typed).judge(run(replace(cable, sheet=sheet), 15.0))
    assert judged.verdict.works, judged.sentence
    assert judged.verdict.checks[0].outcome is Outcome.GOOD


@pytest.mark.parametrize("typed", ["FM antenna 90 dBuV", "cable tv 90 dBuV", "satellite 90 dBuV"])
def test_of_two_75_ohm_coaxes_the_thinner_loses_more(typed: str) -> None:
    """Common practice, at every frequency used here: 7, 6, 4 and 2.8 mm in this order."""
    lost = []
    for cable in (THICK, MIDDLE, world.VID_40, THIN):
        main = signal(typed).judge(run(cable, 20.0)).verdict.checks[0]
        assert isinstance(main.value, float)
        lost.append(main.value)
    assert lost == sorted(lost)
    assert len(set(lost)) == len(lost)


# --- what is refused


@pytest.mark.parametrize(
    "typed", ["satellite 75 dBuV", "DVB-T antenna 70 dBuV", "cable tv 70 dBuV", "50 ohm 600 MHz"]
)
def test_another_kind_of_cable_is_refused(typed: str) -> None:
    """A pair is no coax, whatever its losses."""
    ends = (world.PLAIN, world.PLAIN)
    judged = signal(typed).judge(world.run(world.AUD_BP, 5.0, ends=ends))
    assert judged.verdict.outcome is Outcome.BAD
    assert f"is {Family.PAIR.one}" in judged.sentence
    assert judged.chance_within_limit is None


def test_a_cable_without_losses_is_not_computed() -> None:
    """No stated loss, no answer, with or without a level."""
    blank = world.cable("BLANK", replace(THICK.sheet, loss_points=()))
    for typed in ("satellite", "satellite 75 dBuV 100 mA", "DVB-T antenna", "50 ohm 600 MHz 6 dB"):
        judged = signal(typed).judge(run(blank, 5.0))
        assert judged.verdict.outcome is Outcome.NOT_COMPUTED
        assert "BLANK" in judged.sentence


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
def test_levels_and_currents_that_are_no_numbers_are_refused(bad: float) -> None:
    """A level, a current, a frequency and a loss must be numbers, each named when it is not."""
    with pytest.raises(BadValue, match="outlet_level_dbuv"):
        CableTelevision(outlet_level_dbuv=bad, channels=Channels.DIGITAL, highest_hz=862e6)
    with pytest.raises(BadValue, match="head_level_dbuv"):
        SatelliteIf(head_level_dbuv=bad, head_current_a=None)
    with pytest.raises(BadValue, match="head_current_a"):
        SatelliteIf(head_level_dbuv=None, head_current_a=bad)
    with pytest.raises(BadValue, match="frequency_hz"):
        RadioFeed50(what="feed", frequency_hz=bad, allowed_db=None, antenna_supply=None)
    with pytest.raises(BadValue, match="allowed_db"):
        RadioFeed50(what="feed", frequency_hz=1e9, allowed_db=bad, antenna_supply=None)
    with pytest.raises(BadValue, match="level_dbuv"):
        TerrestrialAntenna(
            service=Service.FM,
            highest_hz=108e6,
            level_dbuv=bad,
            mast_supply=None,
            at_outlet=False,
        )
    with pytest.raises(BadValue, match="source_v"):
        SupplyStep(source_v=bad, needed_v=None)


def test_bands_and_windows_the_wrong_way_round_are_refused() -> None:
    """A channel outside its service's band, a window whose most is its least, a supply of none."""
    window = Window(
        low_hz=47e6,
        high_hz=862e6,
        least_dbuv=54.0,
        most_dbuv=74.0,
        guard_db=1.0,
        slope_db=12.0,
        source=OUTLET_SOURCE,
    )
    with pytest.raises(BadValue, match="low_hz"):
        replace(window, low_hz=862e6)
    with pytest.raises(BadValue, match="most_dbuv"):
        replace(window, most_dbuv=54.0)
    with pytest.raises(BadValue, match="highest_hz"):
        CableTelevision(outlet_level_dbuv=None, channels=Channels.DIGITAL, highest_hz=50e6)
    with pytest.raises(BadValue, match=r"TerrestrialAntenna\.highest_hz"):
        TerrestrialAntenna(
            service=Service.DAB,
            highest_hz=694e6,
            level_dbuv=None,
            mast_supply=None,
            at_outlet=False,
        )
    with pytest.raises(BadValue, match="steps"):
        replace(supply(current_a=None), steps=())
    assert F_PLUG.mating == "F"
