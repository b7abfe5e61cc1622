"""The words of a window: each response held at its limit, and why there is none if so."""

from statistics import NormalDist

import numpy as np

from reelwright.core.quantities.show import show_chance, show_plain
from reelwright.core.quantities.words import counted
from reelwright.core.trials._kernels import logistic, normal_below
from reelwright.core.trials.belief import Belief, bound_distance
from reelwright.core.trials.model import LooksModel, ResponseModel, TrialsModel
from reelwright.core.trials.space import FloatArray
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

LEAST_DEGREES = 3

_SOURCE = Source(text="the limit asked of this end", basis=Basis.OWN_SHOP)


def checks_at(model: TrialsModel, coordinates: FloatArray) -> tuple[Check, ...]:
    """Return one check for each limit and each look at ``coordinates`` (1) ``(n_setting,)``."""
    point = coordinates[None, :]
    return (
        *(check for one in model.responses for check in _check_response(model, one, point)),
        *(_check_looks(model, one, point) for one in model.looks),
    )


def _claim(model: TrialsModel) -> str:
    demand = model.problem.demand
    covered = show_plain(demand.coverage * 100, "%")
    return f"{covered} of parts with {show_plain(demand.confidence * 100, '%')} confidence"


def _check_response(model: TrialsModel, one: ResponseModel, point: FloatArray) -> list[Check]:
    mean, spread = one.at(point)
    away = float(bound_distance(one, model.problem.demand, spread)[0])
    checks = []
    for limit, sign in one.response.limits:
        bound = float(mean[0]) - sign * away
        spare = sign * (bound - limit)
        side = "above" if sign > 0 else "below"
        checks.append(
            Check(
                name=one.response.name,
                outcome=Outcome.GOOD if spare >= 0 else Outcome.BAD,
                sentence=(
                    f"{one.response.name} is expected at {one.response.show(float(mean[0]))}, and "
                    f"{side} {one.response.show(bound)} for {_claim(model)}: "
                    f"{side} {one.response.show(limit)} is asked for"
                ),
                source=_SOURCE,
                value=bound,
                limit=limit,
                margin=spare,
                unit=one.response.unit,
            )
        )
    return checks


def _check_looks(model: TrialsModel, one: LooksModel, point: FloatArray) -> Check:
    mean, spread = one.process.latent(point)
    sure = NormalDist().inv_cdf(model.problem.demand.confidence)
    share = float(logistic(mean - sure * spread)[0])
    least = one.looks.least_share
    confidence = show_plain(model.problem.demand.confidence * 100, "%")
    return Check(
        name=one.looks.name,
        outcome=Outcome.GOOD if share >= least else Outcome.BAD,
        sentence=(
            f"{one.looks.name}: {show_chance(share)} of parts are ok, with {confidence} "
            f"confidence; {show_chance(least)} are asked for"
        ),
        source=_SOURCE,
        value=share,
        limit=least,
        margin=share - least,
        unit="1",
    )


def reasons_for_too_few(model: TrialsModel) -> tuple[Reason, ...]:
    """Return each response whose noise nobody can claim to know from so few repeats."""
    return tuple(
        Reason(
            code="too few repeats",
            sentence=(
                f"{one.response.name} was repeated too little to know its noise: "
                f"{counted(one.degrees, 'reading')} more than trials, and {LEAST_DEGREES} that "
                f"differ are the least"
            ),
        )
        for one in model.responses
        if one.degrees < LEAST_DEGREES or one.process.shown.within == 0
    )


def reasons_for_none(model: TrialsModel, found: Belief) -> tuple[Reason, ...]:
    """Return why nothing in ``found`` is proven, the weightiest reason first."""
    reasons = [
        Reason(code="never observed", sentence=f"{name} was never observed")
        for name in model.unknown
    ]
    safe = found.safe >= 1 - model.problem.demand.unsafe_chance
    if not bool(safe.any()):
        reasons.append(
            Reason(code="nothing safe", sentence="nowhere is a trial safe enough to be repeated")
        )
        return tuple(reasons)
    places = np.flatnonzero(safe)
    alone = [_alone(model, found, places, place) for place in range(len(found.names))]
    held = [reason for reason in alone if reason is not None]
    reasons += held
    # Without noise known the bounds mean nothing, and that reason stands before these.
    if not held and not model.unknown and not bool(found.proven[places].any()):
        best = places[int(np.argmax(found.worst_bound[places]))]
        worst = int(np.argmin(found.bounds[best]))
        together = float(
            normal_below(found.margins[places] / found.spreads[places]).prod(axis=1).max()
        )
        reasons.append(
            Reason(
                code="never together",
                sentence=(
                    f"each response clears its limit somewhere, but never all at one setting: at "
                    f"{model.problem.show(model.space.values(found.points[best]))} "
                    f"{found.names[worst]} is not proven; the best chance of all of them together "
                    f"is {show_chance(together)}"
                ),
            )
        )
    return tuple(reasons)


def _alone(
    model: TrialsModel,
    found: Belief,
    places: "np.ndarray[tuple[int], np.dtype[np.intp]]",
    demand: int,
) -> Reason | None:
    """Return why this demand is proven nowhere by itself; ``None`` where it is somewhere."""
    bounds = found.bounds[places, demand]
    if float(bounds.max()) >= 0:
        return None
    at = places[int(np.argmax(bounds))]
    name = found.names[demand]
    where = model.problem.show(model.space.values(found.points[at]))
    hopeful = float(found.margins[at, demand]) > 0
    check = next(
        one
        for one in checks_at(model, found.points[at])
        if one.name == name and one.outcome is not Outcome.GOOD
    )
    ending = (
        "its mean would clear it, so more readings there may prove it"
        if hopeful
        else "its mean does not clear it either"
    )
    return Reason(
        code="limit not reached",
        sentence=f"at best, at {where}, {check.sentence}; {ending}",
    )
