"""The window, its centre, and the reasons where there is none; when to stop."""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from reelwright.core.errors import BadValue
from reelwright.core.trials.model import fit_model
from reelwright.core.trials.propose import propose
from reelwright.core.trials.record import Readings, Seen, Trial
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.standing import stand
from reelwright.core.trials.stop import (
    FirstOf,
    LittleToGain,
    NothingSafe,
    Progress,
    TrialsUsedUp,
    WindowFound,
)
from reelwright.core.trials.window import NoWindow, Window, find_window, in_window
from reelwright.core.verdicts import Outcome
from tests.trials_world import BURNT, DEMAND, ENERGY, PRESSURE, problem, pull, trial, welded


def _grid(seed: int, repeats: int = 5, **changed: object) -> list[Trial]:
    dice = np.random.default_rng(seed)
    places = product((230, 265, 300, 335, 370), (2.0, 2.4, 2.7, 3.1, 3.5))
    return [
        welded(n, at, dice, repeats=repeats, **changed)  # type: ignore[arg-type]
        for n, at in enumerate(places, start=1)
    ]


@pytest.fixture(scope="module")
def found() -> Window:
    """Return the window of a well-tried hill."""
    answer = find_window(fit_model(problem(*_grid(1))), seed=1)
    assert isinstance(answer, Window)
    return answer


def test_the_centre_is_the_middle_of_the_hill(found: Window) -> None:
    """The hill at 300 J and 2.7 bar is alike on all sides, and so the centre is near its top."""
    assert found.centre[0] == pytest.approx(300, abs=15)
    assert found.centre[1] == pytest.approx(2.7, abs=0.25)
    assert found.drifts_to_edge_ratio > 3
    assert found.stays_chance > 0.99
    assert [check.outcome for check in found.checks] == [Outcome.GOOD]
    assert "95\u202f% of parts with 90\u202f% confidence" in found.checks[0].sentence


def test_each_span_holds_the_centre_and_is_true(found: Window) -> None:
    """Going along one setting, the ends of its span truly hold the limit, all but hardly."""
    for place, span in enumerate(found.spans):
        assert span.low <= found.centre[place] <= span.high
        for end in (span.low, span.high):
            at = list(found.centre)
            at[place] = end
            strength = 270 - 60 * ((at[0] - 300) / 60) ** 2 - 40 * ((at[1] - 2.7) / 0.8) ** 2
            # The limit with the share asked for of a spread of 6 N; a little for the noise.
            assert strength > 223 + 1.645 * 6 - 6


def test_the_centre_is_not_the_maximum() -> None:
    """Where strength rises until the weld is cut through, the centre keeps away from its best."""
    dice = np.random.default_rng(2)
    places = list(product((200, 240, 270, 300, 330, 350, 370, 400), (2.2, 2.7, 3.2)))
    made = [
        trial(n, at, failure="cut through")
        if at[0] > 340
        else welded(n, at, dice, repeats=5, truth=lambda e, p: 80 + 0.6 * e - 20 * (p - 2.7) ** 2)
        for n, at in enumerate(places, start=1)
    ]
    model = fit_model(problem(*made))
    answer = find_window(model, seed=1)
    assert isinstance(answer, Window)
    line = model.space.to_cube(np.array([[e, 2.7] for e in range(200, 345, 5)], dtype=float))
    assert int(np.argmax(model.responses[0].at(line)[0])) == len(line) - 1
    assert 270 <= answer.centre[0] <= 320
    assert answer.spans[0].high < 345


def test_a_machine_that_drifts_more_is_given_more_room_or_none() -> None:
    """With drift of 6 bar nothing has room enough, and the answer says so."""
    made = _grid(1)
    loose = (ENERGY, replace(PRESSURE, drift=0.6))
    answer = find_window(fit_model(problem(*made, settings=loose)), seed=1)
    assert isinstance(answer, NoWindow)
    assert answer.reasons[0].code == "narrower than drift"
    assert "steadier machine" in answer.reasons[0].sentence
    assert answer.nearest is not None


def test_before_any_trial_there_is_no_window() -> None:
    """Nothing measured is the reason, and nothing is nearest."""
    answer = find_window(fit_model(problem()), seed=1)
    assert answer == NoWindow(reasons=answer.reasons, nearest=None)  # type: ignore[union-attr]
    assert answer.reasons[0].code == "nothing measured"


def test_a_limit_out_of_reach_is_told_with_the_best_there_is() -> None:
    """A limit of 300 N over a hill of 270 N is not reached; the best bound and mean are told."""
    answer = find_window(fit_model(problem(*_grid(1), responses=(pull(lower=300),))), seed=1)
    assert isinstance(answer, NoWindow)
    assert [reason.code for reason in answer.reasons] == ["limit not reached"]
    assert "its mean does not clear it either" in answer.reasons[0].sentence
    assert answer.nearest is not None
    assert answer.nearest[0] == pytest.approx(300, abs=25)


def test_a_mean_that_clears_with_too_few_readings_is_told_apart() -> None:
    """Three pulls at each of two settings prove nothing yet, though their mean clears the limit."""
    made = (trial(1, (300, 2.7), (262, 276, 255)), trial(2, (290, 2.6), (258, 270, 250)))
    answer = find_window(fit_model(problem(*made, responses=(pull(lower=245),))), seed=1)
    assert isinstance(answer, NoWindow)
    assert "more readings there may prove it" in answer.reasons[0].sentence


@pytest.mark.parametrize("pulls", [(260, 260), (262, 276), (258, 262, 266)])
def test_noise_known_from_a_few_readings_proves_nothing(pulls: tuple[float, ...]) -> None:
    """Two equal pulls, two that differ and three of one trial are too few to claim a window."""
    answer = find_window(fit_model(problem(trial(1, (300, 2.7), pulls))), seed=1)
    assert isinstance(answer, NoWindow)
    assert answer.reasons[0].code == "too few repeats"


def _two_responses(limit: float) -> list[Response]:
    return [
        pull(),
        Response(
            name="peel", unit="N", lower_limit=limit, upper_limit=None, unsafe_below=None,
            unsafe_above=None, guess=pull().guess,
        ),
    ]  # fmt: skip


def test_responses_that_never_hold_together_are_told_so() -> None:
    """A pull that is good at 300 J and a peel that is good at 400 J share no setting."""
    dice = np.random.default_rng(4)
    made = []
    for n, (e, p) in enumerate(product((200, 250, 300, 350, 400), (2.2, 2.7, 3.2)), start=1):
        strength = 270 - 60 * ((e - 300) / 40) ** 2 - 10 * ((p - 2.7) / 0.8) ** 2
        peel = 60 - 20 * ((e - 400) / 40) ** 2
        made.append(
            Trial(
                number=n,
                values=(e, p),
                readings=tuple(
                    Readings(response=name, values=tuple(mean + spread * dice.standard_normal(4)))
                    for name, mean, spread in (("pull", strength, 4), ("peel", peel, 1))
                ),
                seen=(),
                failure=None,
            )
        )
    answer = find_window(fit_model(problem(*made, responses=tuple(_two_responses(50.0)))), seed=1)
    assert isinstance(answer, NoWindow)
    assert [reason.code for reason in answer.reasons] == ["never together"]


def test_a_response_nobody_observed_is_told() -> None:
    """Without one peel there is no window, however well the pulls hold."""
    answer = find_window(
        fit_model(problem(*_grid(1), responses=tuple(_two_responses(50.0)))), seed=1
    )
    assert isinstance(answer, NoWindow)
    assert answer.reasons[0].code == "never observed"
    assert "peel" in answer.reasons[0].sentence


def test_looks_bound_the_window_too() -> None:
    """Parts that are burnt above 310 J move the upper end of the window down to there."""
    made = [
        replace(
            one,
            seen=(Seen(looks="unburnt", good=12 if one.values[0] < 320 else 0, seen_count=12),),
        )
        for one in _grid(1)
    ]
    plain = find_window(fit_model(problem(*_grid(1))), seed=1)
    answer = find_window(fit_model(problem(*made, looks=(BURNT,))), seed=1)
    assert isinstance(plain, Window)
    assert isinstance(answer, Window)
    assert answer.centre[0] < plain.centre[0]
    assert answer.spans[0].high < plain.spans[0].high
    assert answer.checks[-1].name == "unburnt"
    none = find_window(
        fit_model(problem(*made, looks=(Looks(name="unburnt", least_share=0.999),))), seed=1
    )
    assert isinstance(none, NoWindow)
    assert "unburnt" in none.reasons[0].sentence


def test_more_coverage_never_widens_what_is_proven() -> None:
    """Whatever is proven for 99 % of parts is proven for 90 % too, and the other way it is not."""
    made = _grid(3)
    asked = np.random.default_rng(1).random((400, 2))
    loose, tight = (
        in_window(fit_model(problem(*made, demand=replace(DEMAND, coverage=share))), asked)
        for share in (0.9, 0.99)
    )
    assert not np.any(tight & ~loose)
    assert loose.sum() > tight.sum() > 0


def test_the_same_seed_gives_the_same_window() -> None:
    """Asked twice, the window is the same to the last digit."""
    model = fit_model(problem(*_grid(5)))
    assert find_window(model, seed=3) == find_window(model, seed=3)


def _progress(*made: Trial) -> Progress:
    model = fit_model(problem(*made))
    return Progress(
        model=model, window=find_window(model, seed=1), next=propose(model, count=1, seed=1)
    )


def test_each_rule_stops_for_its_own_reason_and_only_then() -> None:
    """A proven window, trials used up, nothing to gain: each says so, and the first one counts."""
    early, late = _progress(_grid(1)[12]), _progress(*_grid(1))
    found = WindowFound(least_trials=3)
    assert found(early) is None
    told = found(late)
    assert told is not None
    assert told.code == "window found"
    assert WindowFound(least_trials=99)(late) is None
    used = TrialsUsedUp(most_trials=25)
    assert used(early) is None
    assert "25 trials were made" in (used(late) or told).sentence
    assert NothingSafe()(late) is None
    assert LittleToGain(least_score=1e9)(late) is not None
    assert LittleToGain(least_score=0.0)(early) is None
    both = FirstOf(rules=(used, found))
    assert both(early) is None
    assert (both(late) or told).code == "trials used up"


def test_rules_that_never_stop_are_refused() -> None:
    """No trials at all and a negative gain are no rules."""
    for make in (
        lambda: WindowFound(least_trials=0),
        lambda: TrialsUsedUp(most_trials=0),
        lambda: LittleToGain(least_score=-1.0),
    ):
        with pytest.raises(BadValue):
            make()


def test_where_a_search_stands_is_its_window_and_its_next_trials() -> None:
    """Asked together, so that the window is sought once, they say what each says by itself."""
    dice = np.random.default_rng(5)
    made = [welded(n, at, dice) for n, at in enumerate(((300, 2.7), (240, 2.2), (345, 3.1)), 1)]
    for trials in ((), made, _grid(1)):
        asked = problem(*trials)
        model = fit_model(asked)
        found = stand(asked, count=2, seed=3, most_trials=None)
        assert found.window == find_window(model, seed=3)
        assert found.next == propose(model, count=2, seed=3)
