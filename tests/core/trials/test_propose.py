"""What comes next: at steps of the machine, safe, explained, the same for the same seed."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.trials.belief import believe
from reelwright.core.trials.gain import Aim
from reelwright.core.trials.guess import Peak
from reelwright.core.trials.model import fit_model
from reelwright.core.trials.propose import Proposals, first_point, propose
from reelwright.core.trials.record import Trial
from reelwright.core.trials.response import Response
from tests.trials_world import DEMAND, ENERGY, PRESSURE, problem, pull, trial, welded

NARROW = "\u202f"


def _trials(seed: int, count: int) -> list[Trial]:
    dice = np.random.default_rng(seed)
    return [
        welded(
            n + 1,
            (180 + 5 * int(dice.integers(0, 49)), 1.5 + 0.1 * int(dice.integers(0, 26))),
            dice,
        )
        for n in range(count)
    ]


def _check(found: Proposals, model_problem: object) -> None:
    for one in found.chosen:
        for setting, value in zip((ENERGY, PRESSURE), one.values, strict=True):
            steps = (value - setting.low) / setting.step
            assert abs(steps - round(steps)) < 1e-6
            assert setting.low <= value <= setting.high + 1e-9
        assert one.safe_chance >= 1 - DEMAND.unsafe_chance
        assert one.sentence.endswith(".")
        assert ENERGY.show(one.values[0]) in one.sentence
        assert NARROW in one.sentence


@given(seed=st.integers(0, 1000), count=st.integers(1, 8), asked=st.integers(1, 3))
@settings(max_examples=8, deadline=None)
def test_every_proposal_can_be_set_is_safe_and_says_why(seed: int, count: int, asked: int) -> None:
    """At steps within the ranges, risk as allowed, no two of a batch alike, explained in words."""
    made = problem(*_trials(seed, count))
    found = propose(fit_model(made), count=asked, seed=seed)
    _check(found, made)
    assert len(found.chosen) == asked or found.reason is not None
    assert len({one.values for one in found.chosen}) == len(found.chosen)


def test_the_same_seed_gives_the_same_trials() -> None:
    """Asked twice with one seed, the answer is the same to the last digit."""
    model = fit_model(problem(*_trials(4, 5)))
    assert propose(model, count=3, seed=9) == propose(model, count=3, seed=9)


def test_the_first_trial_is_the_first_guess_else_the_middle() -> None:
    """With an energy guessed at 262 J it begins at the nearest step, 260 J, else at the middle."""
    assert first_point(problem()) == pytest.approx((300, 2.7), abs=0.051)
    guess = Peak(setting="energy", best_at=262.0, ratio_factor=1.3)
    guided = problem(responses=(pull(guess=guess),))
    assert first_point(guided)[0] == 260
    found = propose(fit_model(guided), count=1, seed=1).chosen[0]
    assert found.aim is Aim.START
    assert f"the first guess for energy is 260{NARROW}J" in found.sentence
    assert (
        "middle of the range" in propose(fit_model(problem()), count=1, seed=1).chosen[0].sentence
    )


def test_a_first_batch_begins_at_the_guess_and_stays_safe() -> None:
    """Three trials may be asked for before any was made, all as safe as the lead believes."""
    found = propose(fit_model(problem()), count=3, seed=2)
    _check(found, problem())
    assert len(found.chosen) == 3 or found.reason is not None


@pytest.mark.parametrize("count", [0, 4, -1, True])
def test_batches_of_another_size_are_refused(count: int) -> None:
    """None, four, a negative number and a yes are no count of trials."""
    with pytest.raises(BadValue):
        propose(fit_model(problem()), count=count, seed=1)


def test_where_trials_failed_none_is_proposed() -> None:
    """After three failures above 380 J every proposal stays where the chance of one is allowed."""
    good = ((240, 190), (270, 210), (300, 216))
    made = [
        *(trial(n, (e, 2.7), (p, p + 8, p + 3)) for n, (e, p) in enumerate(good, start=1)),
        *(trial(n, (e, 2.7), failure="cut through") for n, e in ((4, 385), (5, 400), (6, 420))),
    ]
    model = fit_model(problem(*made))
    found = propose(model, count=3, seed=3)
    assert found.chosen
    assert all(one.values[0] < 370 for one in found.chosen)
    burnt = believe(model, model.space.to_cube(np.array([[400, 2.7]])))
    assert burnt.safe[0] < 0.5


def test_a_limit_of_safety_is_seen_coming() -> None:
    """A height that falls towards its limit of safety is not followed over it."""
    height = Response(
        name="height", unit="mm", lower_limit=1.8, upper_limit=2.2, unsafe_below=1.6,
        unsafe_above=None, guess=pull().guess,
    )  # fmt: skip
    from reelwright.core.trials.record import Readings

    made = [
        Trial(
            number=n,
            values=(e, 2.7),
            readings=(Readings(response="height", values=(h, h + 0.01, h - 0.01)),),
            seen=(),
            failure=None,
        )
        for n, (e, h) in enumerate(((200, 2.5), (240, 2.3), (280, 2.0), (320, 1.75)), start=1)
    ]
    model = fit_model(problem(*made, responses=(height,)))
    belief = believe(model, model.space.to_cube(np.array([[e, 2.7] for e in (240, 300, 400)])))
    assert belief.safe[0] > 0.9 > belief.safe[2]
    assert all(one.values[0] < 370 for one in propose(model, count=3, seed=1).chosen)


def test_nothing_safe_is_an_answer() -> None:
    """Where the lead expects half of all trials to fail and allows one in a hundred, none comes."""
    from dataclasses import replace

    careful = replace(DEMAND, unsafe_chance=0.01, expected_good_fraction=0.5)
    found = propose(
        fit_model(problem(trial(1, (300, 2.7), (180, 190)), demand=careful)), count=1, seed=1
    )
    assert found.chosen == ()
    assert found.reason is not None
    assert found.reason.code == "nothing safe"
    assert "1% is allowed" in found.reason.sentence


def test_trials_that_all_failed_lead_to_where_failing_is_less_likely() -> None:
    """With nothing measured yet, the next trial goes away from what failed."""
    from dataclasses import replace

    bold = replace(DEMAND, unsafe_chance=0.6)
    made = problem(trial(1, (300, 2.7), failure="no bond"), demand=bold)
    found = propose(fit_model(made), count=1, seed=1).chosen[0]
    assert "nothing was measured yet" in found.sentence
    assert np.hypot((found.values[0] - 300) / 240, (found.values[1] - 2.7) / 2.5) > 0.2


def test_a_search_reaches_the_window_and_is_done_in_few_trials() -> None:
    """From the middle of nowhere in particular, ten trials lead to a pull that holds its limit."""
    dice = np.random.default_rng(8)
    made = [welded(1, (200, 1.8), dice)]
    while len(made) < 10:
        chosen = propose(fit_model(problem(*made)), count=1, seed=len(made)).chosen[0]
        made.append(welded(len(made) + 1, chosen.values, dice))
        if chosen.aim is Aim.CONFIRM:
            break
    assert max(np.mean(one.values_of("pull")) for one in made) > 250
