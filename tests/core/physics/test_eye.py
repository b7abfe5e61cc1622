"""Patterns, receivers and the eye bit by bit."""

from collections.abc import Callable
from functools import partial

import numpy as np
import pytest

from reelwright.core.errors import BadValue
from reelwright.core.physics.eye import opening_ratio, samples_of_pattern
from reelwright.core.physics.patterns import (
    CLOCK_STRESS,
    EQUALISER_STRESS,
    TAPS,
    maximum_length_sequence,
    run_lengths,
    scramble,
    stress_pattern,
    words_to_bits,
)
from reelwright.core.physics.pulse import Cursors, cursors
from reelwright.core.physics.receiver import BOLTZMANN_J_PER_K, Receiver, root_loss
from reelwright.core.physics.statistical_eye import chance_above, level_at, statistical_eye

RATE = 2.97e9


def receiver(equalised_db: float, levels_off_hz: float = np.inf) -> Receiver:
    """A fourth-order low-pass at 0.7 of the rate behind an equaliser."""
    return Receiver(
        corner_hz=0.7 * RATE,
        order_count=4,
        equalised_db=equalised_db,
        equalised_at_hz=RATE / 2,
        levels_off_hz=levels_off_hz,
    )


def run_of(loss_db: float, *, equalised_db: float = 0.0, after: int = 100) -> Cursors:
    """Cursors of a √f cable of that loss at half the clock, behind the receiver."""
    return cursors(
        receiver(equalised_db).behind(partial(root_loss, loss_db=loss_db, at_hz=RATE / 2)),
        at_rest_ratio=1.0,
        delay_s=0.0,
        bit_s=1 / RATE,
        phase_count=32,
        before_count=3,
        after_count=after,
    )


@pytest.mark.parametrize("order", sorted(TAPS))
def test_a_sequence_of_maximum_length_holds_every_window_once(order: int) -> None:
    """Every window of n bits but all zeros occurs exactly once in the period."""
    bits = maximum_length_sequence(order)
    around = np.concatenate([bits, bits[: order - 1]])
    windows = np.lib.stride_tricks.sliding_window_view(around, order) @ (1 << np.arange(order))
    assert sorted(windows.tolist()) == list(range(1, 2**order))


def test_stress_words_are_sustained_from_one_state_of_512() -> None:
    """300h 198h give runs of 19 and 1, 200h 110h of 20, each from the state of zeros alone."""
    for words, runs in ((EQUALISER_STRESS, [19, 1]), (CLOCK_STRESS, [20, 20])):
        bits = words_to_bits(words * 60)
        sustained = []
        for state in range(512):
            start = tuple((state >> place) & 1 for place in range(9))
            tail = run_lengths(scramble(bits, state=start))[4:-1]
            if set(tail) == set(runs):
                sustained.append(state)
        assert sustained == [0]


def test_the_naive_tap_never_sustains_a_stress_pattern() -> None:
    """With y[n−4] instead of y[n−5] no state gives more than one run of 19 or 20 in a line."""
    for words in (EQUALISER_STRESS, CLOCK_STRESS):
        bits = words_to_bits(words * 30)
        state = np.arange(512)
        history = [(state >> place) & 1 for place in range(9)]
        level = np.zeros(512, dtype=int)
        sent = []
        for bit in bits:
            scrambled = bit ^ history[3] ^ history[8]
            history = [scrambled, *history[:8]]
            level = level ^ scrambled
            sent.append(level)
        for column in np.array(sent).T:
            assert sum(run >= 19 for run in run_lengths(column)) <= 1


def test_a_stress_pattern_is_a_level_off_balance() -> None:
    """Runs of 19 and 1 have a mean of 0.9 in size, which is what AC coupling has to bear."""
    sent = 2.0 * stress_pattern(EQUALISER_STRESS, word_pairs=200) - 1
    assert abs(sent[40:-40].mean()) == pytest.approx(0.9, abs=0.01)


@pytest.mark.parametrize(("loss_db", "opening"), [(6.0, 0.39622), (8.0, 0.21361)])
def test_the_worst_opening_of_a_bare_cable_is_the_closed_form(
    loss_db: float, opening: float
) -> None:
    """2·max[erfc(c/2√t) − erfc(c/2√(t−1))] − 1, worked out in many digits apart from this code."""
    found = cursors(
        partial(root_loss, loss_db=loss_db, at_hz=0.5),
        at_rest_ratio=1.0,
        delay_s=0.0,
        bit_s=1.0,
        phase_count=256,
        before_count=2,
        after_count=60,
    )
    assert found.worst_opening_ratio.max() == pytest.approx(opening, abs=5e-5)


def test_a_matched_equaliser_opens_the_eye_whatever_the_length() -> None:
    """Undone exactly, 10 dB and 40 dB give the same cursors: those of the low-pass alone."""
    short, long = run_of(10.0, equalised_db=10.0), run_of(40.0, equalised_db=40.0)
    assert np.allclose(short.height_ratio, long.height_ratio, rtol=0, atol=1e-9)
    assert short.worst_opening_ratio.max() == pytest.approx(0.933, abs=0.001)
    assert np.abs(short.left_out_ratio).max() < 1e-9


def test_the_cursors_of_all_phases_are_one_pulse() -> None:
    """A bit's cursors add up to 1 at every phase, less what lies behind the last one."""
    found = run_of(12.0)
    assert np.abs(found.height_ratio.sum(axis=1) + found.left_out_ratio - 1).max() < 1e-9
    assert found.phase_ratio[0] == -0.5
    assert found.main_ratio.argmax() == pytest.approx(found.phase_ratio.size / 2, abs=1)


def test_bit_by_bit_is_the_plain_sum_over_bits() -> None:
    """Samples by transform equal the sum of every bit times its cursor, bit by bit."""
    found = run_of(9.0, after=20)
    bits = maximum_length_sequence(7)
    levels = samples_of_pattern(found, bits)
    sent = 2.0 * bits - 1
    for place in (0, 5, 126):
        expected = sum(
            found.height_ratio[:, column] * sent[(place - column + found.main_index) % 127]
            for column in range(found.height_ratio.shape[1])
        )
        assert np.allclose(levels[:, place], expected, rtol=0, atol=1e-12)


def test_no_pattern_is_worse_than_the_worst() -> None:
    """The eyes of a 2¹⁵ sequence and of a stress pattern lie at or above the worst opening."""
    found = run_of(9.0, after=40)
    worst = found.worst_opening_ratio + abs(found.left_out_ratio)
    for bits in (maximum_length_sequence(15), stress_pattern(EQUALISER_STRESS, word_pairs=50)):
        opening = opening_ratio(samples_of_pattern(found, bits), bits)
        assert (opening >= worst - 1e-9).all()
    assert (
        opening_ratio(
            samples_of_pattern(found, maximum_length_sequence(15)), maximum_length_sequence(15)
        ).max()
        < worst.max() + 0.05
    )


@pytest.mark.parametrize(("loss_db", "chance"), [(6.0, 1e-2), (9.0, 1e-3), (9.0, 3e-3)])
def test_the_statistical_eye_agrees_with_bits_where_bits_reach(
    loss_db: float, chance: float
) -> None:
    """Of 400,000 random bits with noise the share beyond the level is the chance, within 4 σ."""
    found = run_of(loss_db, after=30)
    one_phase = Cursors(
        phase_ratio=found.phase_ratio[16:17],
        height_ratio=found.height_ratio[16:17],
        main_index=found.main_index,
        left_out_ratio=found.left_out_ratio[16:17],
        bit_s=found.bit_s,
    )
    noise = 0.03
    level = level_at(chance, others_ratio=one_phase.others_ratio, noise_ratio=noise)
    dice = np.random.default_rng(23)
    bits = dice.integers(0, 2, 400_000)
    received = samples_of_pattern(one_phase, bits)[0] + noise * dice.standard_normal(bits.size)
    disturbance = received - one_phase.main_ratio[0] * (2 * bits - 1)
    beyond = np.mean(disturbance > level[0])
    # Neighbours share their bits: the spread of a share is wider than that of independent trials.
    assert beyond == pytest.approx(chance, abs=8 * np.sqrt(chance / bits.size))


def test_an_eye_closes_with_rate_of_errors_and_with_noise() -> None:
    """Rarer errors and more noise leave less opening, and width goes with it."""
    found = run_of(24.0, equalised_db=20.0)
    rare = statistical_eye(found, noise_ratio=0.02, error_probability=1e-15)
    usual = statistical_eye(found, noise_ratio=0.02, error_probability=1e-12)
    noisy = statistical_eye(found, noise_ratio=0.05, error_probability=1e-12)
    assert (rare.opening_ratio < usual.opening_ratio).all()
    assert noisy.height_ratio < usual.height_ratio
    assert noisy.width_ratio <= usual.width_ratio
    centre = int(np.argmax(usual.opening_ratio))
    at_opening = chance_above(
        usual.opening_ratio * 0 + (found.main_ratio - usual.opening_ratio),
        others_ratio=found.others_ratio,
        noise_ratio=0.02,
    )
    assert at_opening[centre] == pytest.approx(1e-12, rel=1e-8)


def test_noise_behind_a_bare_low_pass_is_that_of_its_bandwidth() -> None:
    """A first-order low-pass has a noise bandwidth of π/2 corners, a fourth-order one of 1.026."""
    for order, factor, within in ((1, np.pi / 2, 0.02), (4, 1.0262, 1e-3)):
        bare = Receiver(
            corner_hz=1e9, order_count=order, equalised_db=0.0, equalised_at_hz=1e9,
            levels_off_hz=np.inf,
        )  # fmt: skip
        noise = bare.noise_v(impedance_ohm=75.0, noise_figure_db=0.0, temperature_k=290.0)
        power = BOLTZMANN_J_PER_K * 290 * 75 * factor * 1e9
        assert noise**2 == pytest.approx(power, rel=within)


def test_an_equaliser_that_levels_off_lets_in_a_bounded_noise() -> None:
    """More equalising lets in more noise, and the exact inverse is refused."""
    given_ = {"impedance_ohm": 75.0, "noise_figure_db": 8.0, "temperature_k": 290.0}
    some = receiver(20.0, levels_off_hz=RATE).noise_v(**given_)
    more = receiver(30.0, levels_off_hz=RATE).noise_v(**given_)
    assert 1e-5 < some < more < 1
    with pytest.raises(BadValue, match="levels_off_hz"):
        receiver(20.0).noise_v(**given_)


_SHORT = run_of(6.0, after=20)


@pytest.mark.parametrize(
    ("build", "field"),
    [
        (lambda: maximum_length_sequence(8), "order_count"),
        (lambda: words_to_bits([0x400]), "words"),
        (lambda: scramble(words_to_bits([1]), state=(0, 1)), "state"),
        (lambda: stress_pattern(CLOCK_STRESS, word_pairs=0), "word_pairs"),
        (lambda: samples_of_pattern(_SHORT, np.array([0, 1], dtype=np.int8)), "bits"),
        (lambda: opening_ratio(np.ones((1, 3)), np.ones(3, dtype=np.int8)), "bits"),
        (lambda: receiver(-1.0), "equalised_db"),
        (lambda: receiver(1.0, levels_off_hz=0.0), "levels_off_hz"),
        (lambda: run_of(6.0, after=0), "phase_count"),
        (lambda: statistical_eye(_SHORT, noise_ratio=0.0, error_probability=1e-12), "noise_ratio"),
        (lambda: statistical_eye(_SHORT, noise_ratio=0.1, error_probability=0.7),
         "error_probability"),
    ],
)  # fmt: skip
def test_what_makes_no_eye_is_refused(build: Callable[[], object], field: str) -> None:
    """Each pattern, receiver or question that makes no sense is refused by its field."""
    with pytest.raises(BadValue) as refused:
        build()
    assert refused.value.field == field
