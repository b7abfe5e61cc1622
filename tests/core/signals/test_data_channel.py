"""Data at its rate: the loss over the whole band, category, echoes, delay, power."""

import time
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, LossPoint, Lot
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.signals import read_signal
from reelwright.core.signals.category.cable import Category
from reelwright.core.signals.category.links import Link, connection_loss_db, insertion_loss_db
from reelwright.core.signals.data_channel import DataChannel
from reelwright.core.signals.data_loss import ChannelLoss, channel_loss
from reelwright.core.signals.data_rates import DATA_RATES
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.power_over_data import (
    POWER_TYPES,
    PowerAsked,
    power_of_type,
    power_of_watts,
)
from reelwright.core.verdicts import Check, Outcome
from tests import signal_world as world
from tests.core.signals.data_world import DAT_6, PLUGS, at_the_limit, data_cable


def judged(typed: str, cable: Cable, length_m: float, celsius: float = 20.0) -> Judgement:
    """Return the judgement of that signal over that cable between two plugs."""
    reading = read_signal(typed)
    assert reading.signal is not None, reading.question
    return reading.signal.judge(
        world.run(cable, length_m, celsius=celsius, spread_m=0.01 * length_m, ends=PLUGS)
    )


def named(judgement: Judgement, name: str) -> Check:
    """Return the check of that name."""
    return next(check for check in judgement.verdict.checks if check.name == name)


def test_a_cord_works_at_every_rate_its_category_carries() -> None:
    """5 m of the demo's patch cable are good from 100 Mb/s to 5 Gb/s."""
    for rate in DATA_RATES[:-1]:
        judgement = judged(f"category data {rate.words}", DAT_6, 5.0)
        assert judgement.verdict.outcome is Outcome.GOOD, judgement.sentence
        assert judgement.chance_within_limit == pytest.approx(1.0, abs=1e-6)
        assert "only in a test of the finished cable" in judgement.sentence


@pytest.mark.parametrize("category", Category)
def test_100_m_of_cable_at_the_limit_are_a_channel_of_their_category(category: Category) -> None:
    """100 m of solid cable that loses all that is allowed, with two plugs, keep its limit."""
    # The limit leaves room for 2 % more (5 % in 6A) and for two further connections.
    rate = next(each for each in reversed(DATA_RATES) if each.category is category)
    judgement = judged(f"category data {rate.words}", at_the_limit(category), 100.0)
    main = judgement.verdict.checks[0]
    assert main.margin is not None
    assert isinstance(main.limit, float)
    assert 0 < main.margin < 0.12 * main.limit
    assert judgement.length_at_50_m is not None
    assert 100 < judgement.length_at_50_m < 110


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(Category),
    st.sampled_from([DAT_6, at_the_limit(Category.FIVE_E), at_the_limit(Category.SIX)]),
    st.floats(min_value=1, max_value=200),
    st.sampled_from([0.0, 20.0, 45.0]),
    st.integers(min_value=0, max_value=4),
)
def test_one_frequency_judges_the_whole_band(
    category: Category, cable: Cable, length_m: float, celsius: float, adapters: int
) -> None:
    """Within the limit where it decides means within everywhere, and beyond there beyond."""
    run = world.run(cable, length_m, celsius=celsius, ends=PLUGS, adapters=adapters)
    decides = channel_loss(run, category)
    known = known_loss(cable, None)
    assert isinstance(decides, ChannelLoss)
    assert isinstance(known, KnownLoss)
    band = np.geomspace(1e6, category.highest_hz * (1 - 1e-12), 1500)
    per_metre = known.loss_db_per_m(band, temperature_celsius=min(celsius, 20.0))
    # Unscreened: 0.4 % a degree to 40 °C, 0.6 % above.
    per_metre *= {0.0: 1.0, 20.0: 1.0, 45.0: 1 + 20 * 0.004 + 5 * 0.006}[celsius]
    lost = per_metre * length_m + (2 + adapters) * connection_loss_db(category, band)
    over = (lost / insertion_loss_db(category, Link.CHANNEL, band)).max() - 1
    ours = decides.loss_db_per_m * length_m + decides.joints_db
    if abs(over) > 0.003:  # nearer than that the two grids may differ
        assert (ours > decides.limit_db) == (over > 0)


def test_heat_and_adapters_shorten_the_reach() -> None:
    """At 60 °C the reach is 20 % shorter, unscreened; two patch points cost a little too."""
    cool = judged("category data 1 Gb/s", DAT_6, 50.0)
    hot = judged("category data 1 Gb/s", DAT_6, 50.0, celsius=60.0)
    assert cool.length_at_50_m is not None
    assert hot.length_at_50_m is not None
    assert hot.length_at_50_m == pytest.approx(cool.length_at_50_m / 1.2, rel=1e-3)


def test_too_long_a_run_is_refused_with_the_longest_one() -> None:
    """110 m lose more than a channel may; the sentence says how much and what would do."""
    judgement = judged("gigabit ethernet", DAT_6, 110.0)
    assert judgement.verdict.outcome is Outcome.BAD
    assert judgement.deciding == "loss in the channel"
    assert "0.37\u202fdB too much" in judgement.sentence
    assert "89\u202fm (293\u202fft)" in judgement.sentence


def test_a_margin_inside_the_spread_is_a_caution() -> None:
    """93.5 m keep the limit by a hundredth of a decibel, which a lot may take."""
    judgement = judged("gigabit ethernet", DAT_6, 93.5)
    assert named(judgement, "loss in the channel").outcome is Outcome.CAUTION
    assert "may take" in judgement.sentence


@pytest.mark.parametrize(
    ("length_m", "outcome"), [(30.0, Outcome.GOOD), (45.0, Outcome.CAUTION), (56.0, Outcome.BAD)]
)
def test_10_gigabit_over_category_6_is_bound_by_its_neighbours(
    length_m: float, outcome: Outcome
) -> None:
    """37 m for sure, 55 m with quiet neighbours, no farther; lengths told agree with that."""
    judgement = judged("10GBASE-T", DAT_6, length_m)
    assert named(judgement, "category").outcome is outcome
    assert judgement.length_at_95_m == pytest.approx(37.0, abs=0.2)
    assert judgement.length_at_50_m == pytest.approx(46.0, abs=0.1)


def test_6a_is_not_bound_by_its_neighbours() -> None:
    """Over category 6A 10 Gb/s goes the whole 100 m."""
    judgement = judged("10 Gb/s data", at_the_limit(Category.SIX_A), 100.0)
    assert named(judgement, "category").outcome is Outcome.GOOD
    assert named(judgement, "loss in the channel").outcome is not Outcome.BAD


def test_a_rate_beyond_the_category_leaves_crosstalk_open() -> None:
    """5 Gb/s over cable that bears out 5e only is a caution that names why, not a refusal."""
    judgement = judged("5 Gb/s data", at_the_limit(Category.FIVE_E), 20.0)
    check = named(judgement, "category")
    assert check.outcome is Outcome.CAUTION
    assert "Whether its crosstalk allows the rate" in check.sentence
    assert judgement.verdict.works


def test_long_stranded_cable_may_only_stand_alone_at_a_rate_too() -> None:
    """Beyond the 10 m of cords it is a caution, at 1 Gb/s as without a rate."""
    assert named(judged("1 Gb/s data", DAT_6, 10.0), "place in a channel").outcome is Outcome.GOOD
    assert "whole channel by itself" in judged("1 Gb/s data", DAT_6, 11.0).sentence


@pytest.mark.parametrize(
    ("impedance_ohm", "outcome"), [(100.0, Outcome.GOOD), (120.0, Outcome.CAUTION)]
)
def test_echoes_follow_from_the_impedance(impedance_ohm: float, outcome: Outcome) -> None:
    """100 Ω within its lots stays clear of 17 dB; 120 Ω does not."""
    cable = data_cable(
        "Z", ((10, 7.1), (100, 23.8)), ohm_per_km=130.0, solid=False, impedance_ohm=impedance_ohm
    )
    check = named(judged("1 Gb/s data", cable, 10.0), "return loss from the impedance")
    assert check.outcome is outcome
    if impedance_ohm == 120.0:
        # 120 Ω and two spreads of 2.4 Ω are 124.8 Ω, or as far off below: 75.2 Ω.
        step = 24.8 / 175.2
        assert check.value == pytest.approx(-20 * np.log10(2 * step / (1 + step * step)))


def test_what_is_not_stated_is_not_judged_and_holds_nothing() -> None:
    """Without impedance, delay and resistance the loss still answers, and nothing is made up."""
    cable = data_cable(
        "BARE", ((1, 2.0), (10, 6.5), (100, 21.0)), ohm_per_km=None, solid=True,
        impedance_ohm=None, delay_ns_per_m=None,
    )  # fmt: skip
    judgement = judged("1 Gb/s data", cable, 20.0)
    assert judgement.verdict.works
    names = {check.name for check in judgement.verdict.checks}
    assert not names & {"delay", "loop resistance", "return loss from the impedance"}


def test_without_losses_a_rate_is_not_computed() -> None:
    """The demo's cable with no losses stated is judged by length only where no rate is asked."""
    judgement = judged("1 Gb/s data", world.DAT_6, 5.0)
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "two are needed" in judgement.sentence
    assert judged("category data", world.DAT_6, 5.0).verdict.outcome is Outcome.GOOD


def test_the_lots_losses_stand_before_the_book() -> None:
    """A lot measured 10 % above the sheet reaches a tenth less far."""
    points = tuple(
        LossPoint(frequency_hz=each.frequency_hz, loss_db_per_m=1.1 * each.loss_db_per_m)
        for each in DAT_6.sheet.loss_points
    )
    lot = Lot(
        code="L-9", cable_code="DAT-6", colour="YE", impedance_ohm=None, delay_s_per_m=None,
        capacitance_f_per_m=None, resistance_conductor_ohm_per_m=None,
        resistance_screen_ohm_per_m=None, loss_points=points, loss_relative_uncertainty=0.01,
    )  # fmt: skip
    signal = DataChannel(rate=DATA_RATES[3], power=None)
    book = signal.judge(world.run(DAT_6, 20.0, ends=PLUGS))
    own = signal.judge(world.run(DAT_6, 20.0, ends=PLUGS, lot_of=lot))
    assert book.length_at_50_m is not None
    assert own.length_at_50_m == pytest.approx(book.length_at_50_m / 1.1, rel=0.01)


@pytest.mark.parametrize("kind", POWER_TYPES, ids=lambda kind: f"type {kind.number}")
def test_power_arrives_over_cords(kind: object) -> None:
    """10 m of the demo's cable bring each type's watts and volts."""
    typed = f"category data 1 Gb/s with power of type {kind.number}"  # type: ignore[attr-defined]
    judgement = judged(typed, DAT_6, 10.0)
    assert named(judgement, "power at the device").outcome is Outcome.GOOD
    assert judgement.verdict.works, judgement.sentence


def test_power_that_does_not_arrive_is_refused() -> None:
    """Conductors of 250 Ω/km over 60 m have 15 Ω, more than types 2 to 4 may."""
    thin = data_cable("THIN", ((10, 7.1), (100, 23.8)), ohm_per_km=250.0, solid=False)
    judgement = judged("1 Gb/s data with PoE type 2", thin, 60.0)
    check = named(judgement, "power at the device")
    assert check.outcome is Outcome.BAD
    assert "24.6\u202fW to the device" in check.sentence  # 30 − 0.6²·15
    assert check.value == pytest.approx(24.6)
    assert not judgement.verdict.works


def test_fewer_watts_reach_farther() -> None:
    """The same run feeds a device that takes only 20 W of the 25.5 W of type 2."""
    thin = data_cable("THIN", ((10, 7.1), (100, 23.8)), ohm_per_km=250.0, solid=False)
    judgement = judged("1 Gb/s data with PoE type 2, 20 W", thin, 60.0)
    assert named(judgement, "power at the device").outcome is Outcome.GOOD


def test_power_needs_the_resistance() -> None:
    """Where it is not stated the power is not computed, and that holds the order."""
    judgement = judged("PoE 10 W", world.DAT_6, 5.0)
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "resistance of DAT-6 is not stated" in judgement.sentence


@pytest.mark.parametrize("metal", ["copper-clad aluminium", "CCA, 7 strands", "aluminum"])
def test_no_aluminium_under_power(metal: str) -> None:
    """Copper on aluminium is refused under power with the reason, and a caution without."""
    clad = data_cable("CHEAP", ((10, 7.1), (100, 23.8)), ohm_per_km=130.0, solid=False, metal=metal)
    powered = judged("1 Gb/s data with power of type 1", clad, 5.0)
    assert powered.deciding == "metal of the conductors"
    assert "We do not sell it to carry power" in powered.sentence
    plain = judged("1 Gb/s data", clad, 5.0)
    assert named(plain, "metal of the conductors").outcome is Outcome.CAUTION


def test_warm_bundles_are_a_caution_and_never_a_refusal() -> None:
    """Type 4 at 45 °C warms a bundle of the demo's thin cable beyond 10 °C."""
    thin = data_cable("THIN", ((10, 7.1), (100, 23.8)), ohm_per_km=180.0, solid=False)
    check = named(judged("1 Gb/s data, PoE type 4", thin, 5.0), "warmth of a bundle")
    assert check.outcome is Outcome.CAUTION
    assert "no design value" in check.sentence


@pytest.mark.parametrize(
    ("typed", "rate_bit_per_s", "kind", "device_w"),
    [
        ("cat 6 gigabit", 1_000_000_000, None, None),
        ("100BASE-TX", 100_000_000, None, None),
        ("2.5GBASE-T", 2_500_000_000, None, None),
        ("network lead, 2,5 Gbit/s", 2_500_000_000, None, None),
        ("10G ethernet over cat 6A", 10_000_000_000, None, None),
        ("cat 5e", None, None, None),
        ("PoE 30 W", None, 3, 30.0),
        ("PoE type 4", None, 4, 71.3),
        ("ethernet 100 Mb/s, power over ethernet 7 W", 100_000_000, 1, 7.0),
    ],
)
def test_rates_and_power_are_read(
    typed: str, rate_bit_per_s: int | None, kind: int | None, device_w: float | None
) -> None:
    """The digit of a category is no rate, and watts choose the weakest type that has them."""
    signal = read_signal(typed).signal
    assert isinstance(signal, DataChannel)
    assert (signal.rate and signal.rate.rate_bit_per_s) == rate_bit_per_s
    assert (signal.power and signal.power.type.number) == kind
    assert (signal.power and signal.power.device_w) == device_w


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("data 3 Gb/s", "Which data rate"),
        ("ethernet 1 Gb/s or 10 Gb/s", "Which data rate"),
        ("data 40GBASE-T", "Which data rate"),
        ("PoE", "How much power"),
        ("PoE 90 W", "up to 71.3"),
        ("PoE type 5", "1 to 4"),
        ("PoE type 1, 20 W", "How much power"),
        ("PoE 0 W", "How much power"),
    ],
)
def test_what_does_not_settle_rate_or_power_is_asked(typed: str, asked: str) -> None:
    """A rate that is none of the standard's, and power beyond the types, come back as questions."""
    question = read_signal(typed).question
    assert question is not None
    assert asked in question


def test_100_megabit_needs_two_pairs_and_strong_power_all_four() -> None:
    """Four conductors do for 100 Mb/s; types 3 and 4 feed over all eight."""
    slow = DATA_RATES[0]
    assert DataChannel(rate=slow, power=None).needs.legs == 4
    assert DataChannel(rate=slow, power=power_of_type(2)).needs.legs == 4
    assert DataChannel(rate=slow, power=power_of_type(3)).needs.legs == 8
    two_pairs = replace(DAT_6, conductors=4)
    assert judged("100 Mb/s data", two_pairs, 5.0).verdict.works
    assert not judged("1 Gb/s data", two_pairs, 5.0).verdict.works


def test_nonsense_of_power_is_refused() -> None:
    """More watts than the type has, no watts at all, a resistance below zero."""
    kind = POWER_TYPES[0]
    for device_w in (13.0, 0.0, float("nan")):
        with pytest.raises(BadValue):
            PowerAsked(type=kind, device_w=device_w)
    with pytest.raises(BadValue):
        kind.most_w(pair_set_ohm=-1.0)
    assert power_of_watts(72.0) is None
    assert power_of_type(0) is None


def test_an_answer_is_cheap_once_the_cable_is_known() -> None:
    """200 lengths at five rates take less than 50 ms in all."""
    run = world.run(DAT_6, 10.0, ends=PLUGS)
    lengths_m = np.linspace(1.0, 120.0, 200)
    signals = [DataChannel(rate=rate, power=None) for rate in DATA_RATES]
    for signal in signals:
        signal.margin_at(run, lengths_m)
    start = time.perf_counter()
    for signal in signals:
        signal.margin_at(run, lengths_m)
    assert time.perf_counter() - start < 0.05
