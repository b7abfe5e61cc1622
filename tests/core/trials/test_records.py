"""What may be written down of trials, and what is refused, all faults together."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue, InputFaults
from reelwright.core.trials.guess import Peak
from reelwright.core.trials.problem import Demand, TrialsProblem
from reelwright.core.trials.record import Readings, Seen, Trial
from reelwright.core.trials.repeats import one_way, pool
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.settings import Setting
from reelwright.core.trials.space import SettingSpace
from tests.trials_world import BURNT, ENERGY, PRESSURE, problem, pull, trial

GOOD = (
    trial(1, (300, 2.5), (260, 266, 255)),
    trial(2, (250, 2.5), (231, 240)),
    trial(3, (300, 3.0), (252, 261)),
)


def _told(make: Callable[[], TrialsProblem]) -> list[str]:
    with pytest.raises(InputFaults) as caught:
        make()
    return [str(fault) for fault in caught.value.faults]


def test_an_honest_record_is_taken_as_it_is() -> None:
    """Unequal repeats, and a trial that failed outright, are taken."""
    taken = problem(*GOOD, trial(4, (400, 3.5), failure="the sonotrode cut through"))
    assert len(taken.survived) == 3
    assert taken.repeats_of(taken.responses[0]).degrees == 4


def test_before_the_first_trial_nothing_is_wrong() -> None:
    """A problem without trials is one to propose from."""
    assert problem().trials == ()


@pytest.mark.parametrize(
    ("bad", "field", "told"),
    [
        (trial(4, (500, 2.5), (250, 251)), "energy", "180 J to 420 J"),
        (trial(4, (math.nan, 2.5), (250, 251)), "energy", "outside what may be tried"),
        (trial(4, (300,), (250, 251)), "settings", "does not say how the machine was set"),
        (trial(3, (310, 2.5), (250, 251)), "trial", "this trial is there twice"),
        (trial(4, (300, 2.5)), "row 4", "nothing was written down"),
        (trial(4, (300, 2.5), (250, 251), failure="stuck"), "failure", "failed outright and yet"),
        (
            trial(4, (300, 2.5), (1.0, 1.1), seen=(Seen(looks="colour", good=1, seen_count=1),)),
            "colour",
            "nobody asked",
        ),
    ],
)
def test_each_slip_of_the_pen_is_named_with_its_trial(bad: Trial, field: str, told: str) -> None:
    """A setting out of range, missing, doubled, an empty or a contradicting trial: all refused."""
    found = "\n".join(_told(lambda: problem(*GOOD, bad)))
    assert field in found
    assert told in found.replace("\u202f", " ")


def test_all_faults_are_told_together() -> None:
    """Three slips in three trials come in one refusal, each with its row."""
    found = _told(
        lambda: problem(
            *GOOD,
            trial(3, (310, 2.5), (250, 251)),
            trial(5, (900, 2.5), (250, 252)),
            trial(6, (300, 2.6)),
        )
    )
    assert len(found) == 3
    assert "row 5" in found[1]
    assert "row 6" in found[2]


def test_repeats_that_contradict_each_other_are_refused() -> None:
    """One reading in another unit among repeats that agree within a few newtons is refused."""
    more = tuple(trial(n, (200 + 10 * n, 2.0), (240, 246, 243)) for n in range(4, 8))
    found = _told(lambda: problem(*GOOD, *more, trial(9, (300, 2.5), (260, 26.0, 262))))
    assert len(found) == 1
    assert "contradict each other" in found[0]
    assert "row 9" in found[0]


def test_the_same_setting_cannot_give_two_strengths() -> None:
    """A trial set as an earlier one and 100 N away, where readings scatter by 5 N, is refused."""
    found = _told(lambda: problem(*GOOD, trial(4, (300, 2.5), (160, 163, 158))))
    assert len(found) == 1
    assert "set the same as an earlier trial" in found[0]


def test_honest_noise_is_hardly_ever_called_a_contradiction() -> None:
    """Of 300 records of normal noise no more than one is refused: one in ten thousand is meant."""
    import numpy as np

    dice = np.random.default_rng(7)
    refused = 0
    for _ in range(300):
        made = [
            trial(n, (300 if n < 3 else 200 + 10 * n, 2.5), dice.normal(250, 6, 3))
            for n in range(1, 8)
        ]
        try:
            problem(*made)
        except InputFaults:
            refused += 1
    assert refused <= 1


def test_a_limit_under_the_noise_is_refused() -> None:
    """A limit of 3 N where a reading scatters by 5 N, and limits 10 N apart, prove nothing."""
    low = _told(lambda: problem(*GOOD, responses=(pull(lower=3.0),)))
    assert "the limit lies under the noise" in low[0]
    narrow = _told(lambda: problem(*GOOD, responses=(pull(lower=250, upper=260),)))
    assert "closer together than the noise" in narrow[0]


def test_readings_never_repeated_are_refused() -> None:
    """Where no trial has two readings, the noise is not known and nothing can be claimed."""
    found = _told(lambda: problem(trial(1, (300, 2.5), (260,)), trial(2, (250, 2.5), (240,))))
    assert "ever repeated" in found[0]


def test_repeats_that_never_differ_are_refused() -> None:
    """Four pairs of equal readings are copies and no repeats, one such pair may be chance."""
    copied = [trial(n, (200 + 10 * n, 2.5), (240.0 + n, 240.0 + n)) for n in range(1, 5)]
    assert "no two repeats" in _told(lambda: problem(*copied))[0]
    assert problem(copied[0]).trials == (copied[0],)


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"settings": ()}, "1 to 5 settings"),
        ({"settings": (ENERGY, PRESSURE) * 3}, "1 to 5 settings"),
        ({"settings": (ENERGY, ENERGY)}, "this setting is there twice"),
        ({"responses": ()}, "nothing says what a good part is"),
        ({"responses": (pull(), pull())}, "this response is there twice"),
        (
            {"responses": (pull(guess=Peak(setting="power", best_at=1.0, ratio_factor=2.0)),)},
            "a setting it cannot use",
        ),
    ],
)
def test_a_frame_that_cannot_be_searched_is_refused(changed: dict[str, object], told: str) -> None:
    """No setting, too many, doubled names, no response, a guess on a setting that is not there."""
    assert told in "\n".join(_told(lambda: problem(**changed)))


@pytest.mark.parametrize(
    "make",
    [
        lambda: Setting(name="e", unit="J", low=1, high=0, step=0.1, drift=0),
        lambda: Setting(name="e", unit="J", low=0, high=1, step=0.6, drift=0),
        lambda: Setting(name="e", unit="J", low=0, high=1, step=0, drift=0),
        lambda: Setting(name="e", unit="J", low=0, high=1, step=0.1, drift=-1),
        lambda: pull(lower=None),
        lambda: pull(lower=5, upper=5),
        lambda: Response(
            name="height", unit="mm", lower_limit=1.0, upper_limit=2.0, unsafe_below=1.5,
            unsafe_above=None, guess=pull().guess,
        ),
        lambda: Looks(name="colour", least_share=1.0),
        lambda: Readings(response="pull", values=()),
        lambda: Readings(response="pull", values=(math.inf,)),
        lambda: Seen(looks="colour", good=3, seen_count=2),
        lambda: trial(0, (300, 2.5)),
        lambda: trial(1, (300, 2.5), failure=" "),
        lambda: Demand(
            coverage=1.0, confidence=0.9, unsafe_chance=0.1, expected_good_fraction=0.9,
            clear_drifts_ratio=2,
        ),
        lambda: Demand(
            coverage=0.3, confidence=0.9, unsafe_chance=0.1, expected_good_fraction=0.9,
            clear_drifts_ratio=2,
        ),
        lambda: Peak(setting="energy", best_at=300, ratio_factor=1.0),
    ],
)  # fmt: skip
def test_values_that_are_nonsense_cannot_be_made(make: Callable[[], object]) -> None:
    """Ranges turned round, steps as wide as the range, limits crossed, shares of one: refused."""
    with pytest.raises(BadValue):
        make()


def test_looks_stand_beside_measured_responses() -> None:
    """A trial may be looked at and not measured."""
    seen = (Seen(looks="unburnt", good=2, seen_count=3),)
    taken = problem(trial(1, (300, 2.5), (260, 258), seen=seen), looks=(BURNT,))
    assert taken.trials[0].seen_of("unburnt") == seen[0]
    assert taken.trials[0].seen_of("colour") is None


settings = st.builds(
    lambda low, counts, step: Setting(
        name="s", unit="J", low=low, high=low + counts * step, step=step, drift=0.0
    ),
    low=st.floats(-1e3, 1e3),
    counts=st.integers(2, 500),
    step=st.floats(1e-3, 50),
)


@given(setting=settings, place=st.floats(0, 1))
def test_a_setting_is_always_one_the_machine_has(setting: Setting, place: float) -> None:
    """Any coordinate becomes a whole number of steps within the range, and comes back the same."""
    import numpy as np

    space = SettingSpace((setting,))
    value = float(space.from_cube(np.array([[place]]))[0, 0])
    steps = (value - setting.low) / setting.step
    assert abs(steps - round(steps)) < 1e-6
    assert setting.low <= value <= setting.high + 1e-9 * abs(setting.high)
    again = space.snap(space.to_cube(np.array([[value]])))
    assert space.from_cube(again)[0, 0] == pytest.approx(value, abs=1e-9 * setting.step + 1e-9)


@given(
    groups=st.lists(st.lists(st.floats(-1e3, 1e3), min_size=1, max_size=6), min_size=1, max_size=6),
    shift=st.floats(-1e3, 1e3),
)
def test_scatter_within_groups_does_not_feel_where_they_lie(
    groups: list[list[float]], shift: float
) -> None:
    """Moving every group by its own amount leaves the pooled scatter and its degrees."""
    moved = [[value + shift * place for value in group] for place, group in enumerate(groups)]
    one, two = pool(groups), pool(moved)
    assert one.degrees == two.degrees == sum(len(group) - 1 for group in groups)
    assert one.sum_of_squares == pytest.approx(two.sum_of_squares, rel=1e-6, abs=1e-6)


def test_groups_that_differ_are_told_from_groups_that_do_not() -> None:
    """Three groups 20 apart with scatter 1 differ; repeats without scatter are refused."""
    assert one_way([[1, 2, 3], [21, 22, 23], [41, 42, 43]]).chance < 1e-6
    assert one_way([[1, 2, 3], [3, 2, 1], [2, 1, 3]]).chance > 0.9
    with pytest.raises(BadValue):
        one_way([[1.0], [2.0]])
