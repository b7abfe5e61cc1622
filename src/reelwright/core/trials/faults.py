"""What is wrong with a record of trials: every fault, none raised before all are found.

Two repeats contradict each other only where honest noise would do so once in ten thousand records:
a refusal stops the bench, so it must mean a slip of the pen, a wrong unit or a changed machine.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from statistics import NormalDist, fmean

from reelwright.core.errors import Fault
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.trials._kernels import chance_of_larger_f, chance_of_larger_t
from reelwright.core.trials.guess import Peak
from reelwright.core.trials.record import Trial
from reelwright.core.trials.repeats import pool
from reelwright.core.trials.response import Looks, Response
from reelwright.core.trials.settings import Setting

MOST_SETTINGS = 5
_TOO_RARE = 1e-4
_ENOUGH_DEGREES = 3


def _fault(problem: str, accepted: str, *, row: int | None = None, field: str | None = None,
           value: object = None) -> Fault:  # fmt: skip
    shown = None if value is None else f"{value:g}" if isinstance(value, float) else str(value)
    if shown is not None:
        # A fault quotes its value, and a quoted narrow space would come out as its code.
        shown = shown.replace(NARROW_SPACE, " ")
    return Fault(
        file="trials", row=row, field=field, value=shown, problem=problem, accepted=accepted
    )


def faults_of(
    settings: Sequence[Setting],
    responses: Sequence[Response],
    looks: Sequence[Looks],
    trials: Sequence[Trial],
    *,
    coverage: float,
) -> list[Fault]:
    """Return all faults, in the order in which a reader meets them; ``row`` is a trial's number.

    ``coverage`` (1) is the share of parts that must lie within the limits.
    """
    return [
        *_faults_of_frame(settings, responses, looks),
        *_doubled("trial", (str(trial.number) for trial in trials)),
        *(
            fault
            for trial in trials
            for fault in _faults_of_trial(trial, settings, responses, looks)
        ),
        *(
            fault
            for response in responses
            for fault in _faults_of_noise(response, trials, coverage=coverage)
        ),
    ]


def faults_of_counts(*, settings_count: int, responses_count: int) -> Iterator[Fault]:
    """Yield what is wrong with how many settings, and how many responses and looks, there are."""
    if not 1 <= settings_count <= MOST_SETTINGS:
        yield _fault(
            "there must be something to set, and not too much to learn from few trials",
            f"1 to {MOST_SETTINGS} settings",
            field="settings",
            value=settings_count,
        )
    if not responses_count:
        yield _fault("nothing says what a good part is", "one response or more", field="responses")


def faults_of_names(settings: Sequence[str], responses: Sequence[str]) -> Iterator[Fault]:
    """Yield the names that are there twice, of settings and of responses with looks."""
    yield from _doubled("setting", settings)
    yield from _doubled("response", responses)


def faults_of_guesses(
    responses: Sequence[Response], settings: Sequence[Setting]
) -> Iterator[Fault]:
    """Yield the first guesses that rest on none of these settings, or on one that may be zero."""
    for response in responses:
        guess = response.guess
        if isinstance(guess, Peak):
            named = [one for one in settings if one.name == guess.setting]
            if len(named) != 1 or named[0].low <= 0:
                yield _fault(
                    f"the first guess of {response.name} rests on a setting it cannot use",
                    "the name of a setting that is always above zero",
                    field=response.name,
                    value=guess.setting,
                )


def _faults_of_frame(
    settings: Sequence[Setting], responses: Sequence[Response], looks: Sequence[Looks]
) -> Iterator[Fault]:
    yield from faults_of_counts(
        settings_count=len(settings), responses_count=len(responses) + len(looks)
    )
    yield from faults_of_names(
        [one.name for one in settings],
        [*(one.name for one in responses), *(one.name for one in looks)],
    )
    yield from faults_of_guesses(responses, settings)


def _doubled(kind: str, names: Iterable[str]) -> Iterator[Fault]:
    seen: set[str] = set()
    for name in names:
        if name in seen:
            yield _fault(f"this {kind} is there twice", f"each {kind} once", field=kind, value=name)
        seen.add(name)


def _faults_of_trial(
    trial: Trial,
    settings: Sequence[Setting],
    responses: Sequence[Response],
    looks: Sequence[Looks],
) -> Iterator[Fault]:
    if len(trial.values) != len(settings):
        yield _fault(
            "the trial does not say how the machine was set",
            f"{len(settings)} settings",
            row=trial.number,
            field="settings",
            value=len(trial.values),
        )
    for one, value in zip(settings, trial.values, strict=False):
        if not (math.isfinite(value) and one.low <= value <= one.high):
            yield _fault(
                "outside what may be tried",
                f"{one.show(one.low)} to {one.show(one.high)}",
                row=trial.number,
                field=one.name,
                value=float(value),
            )
    known = {one.name for one in responses}
    known_looks = {one.name for one in looks}
    for name in (*(one.response for one in trial.readings), *(one.looks for one in trial.seen)):
        if name not in known | known_looks:
            yield _fault(
                "nobody asked for this response",
                ", ".join(sorted(known | known_looks)) or "a response that was asked for",
                row=trial.number,
                field="response",
                value=name,
            )
    yield from (
        _fault(
            "this response is there twice",
            "all its repeats in one place",
            row=trial.number,
            field=name,
        )
        for name in sorted(known | known_looks)
        if sum(one.response == name for one in trial.readings)
        + sum(one.looks == name for one in trial.seen)
        > 1
    )
    told = bool(trial.readings or trial.seen)
    if trial.failure is not None and trial.readings:
        yield _fault(
            "the trial failed outright and yet has readings",
            "readings, or a failure",
            row=trial.number,
            field="failure",
            value=trial.failure,
        )
    elif trial.failure is None and not told:
        yield _fault(
            "nothing was written down of this trial", "readings, or how it failed", row=trial.number
        )


def _faults_of_noise(
    response: Response, trials: Sequence[Trial], *, coverage: float
) -> Iterator[Fault]:
    groups = [(trial, trial.values_of(response.name)) for trial in trials]
    groups = [(trial, values) for trial, values in groups if values]
    if not groups:
        return
    pooled = pool(values for _, values in groups)
    if pooled.deviation is None:
        yield _fault(
            "no reading was ever repeated, so its noise is not known",
            "two readings or more of at least one trial",
            field=response.name,
        )
        return
    if pooled.sum_of_squares == 0 and pooled.degrees >= _ENOUGH_DEGREES:
        yield _fault(
            "no two repeats of any trial differ, so their noise is not known",
            "readings as the instrument shows them, made anew each time",
            field=response.name,
        )
        return
    noise = pooled.deviation
    lower, upper = response.lower_limit, response.upper_limit
    reach = NormalDist().inv_cdf(coverage) * noise
    if lower is not None and upper is not None and upper - lower < 2 * reach:
        yield _fault(
            f"the limits lie closer together than the noise of one setting, which spreads "
            f"{coverage:.0%} on each side over {response.show(2 * reach)}",
            "wider limits, or a steadier process or instrument",
            field=response.name,
            value=response.show(upper - lower),
        )
    elif (lower is None or upper is None) and abs(lower or upper or 0.0) < noise:
        yield _fault(
            f"the limit lies under the noise of one reading, {response.show(noise)}",
            "a limit that a reading can tell from nothing",
            field=response.name,
            value=response.show(lower or upper or 0.0),
        )
    yield from _contradictions(response, groups)


def _contradictions(
    response: Response, groups: Sequence[tuple[Trial, tuple[float, ...]]]
) -> Iterator[Fault]:
    for trial, values in groups:
        others = pool(other for place, other in groups if place is not trial)
        own = pool([values])
        if not own.degrees or others.degrees < _ENOUGH_DEGREES or not others.sum_of_squares:
            continue
        ratio = own.sum_of_squares / own.degrees * others.degrees / others.sum_of_squares
        chance = chance_of_larger_f(ratio=ratio, degrees=own.degrees, degrees_below=others.degrees)
        if chance * len(groups) < _TOO_RARE:
            yield _fault(
                f"these repeats contradict each other: the others scatter by "
                f"{response.show(others.deviation or 0.0)}, these by "
                f"{response.show(own.deviation or 0.0)}",
                "repeats of one setting, in one unit",
                row=trial.number,
                field=response.name,
                value=", ".join(response.show(value) for value in values),
            )
    within = pool(values for _, values in groups)
    pairs = [(one, two) for one, two in combinations(groups, 2) if one[0].values == two[0].values]
    if within.degrees < _ENOUGH_DEGREES or not within.deviation:
        return
    for (_, values), (other, others_values) in pairs:
        apart = fmean(values) - fmean(others_values)
        spread = within.deviation * math.sqrt(1 / len(values) + 1 / len(others_values))
        chance = chance_of_larger_t(ratio=apart / spread, degrees=within.degrees)
        if chance * len(pairs) < _TOO_RARE:
            yield _fault(
                f"set the same as an earlier trial, and {response.show(abs(apart))} away from it, "
                f"where one reading scatters by {response.show(within.deviation)}",
                "trials that agree, or a machine that holds what is set",
                row=other.number,
                field=response.name,
                value=response.show(fmean(others_values)),
            )
