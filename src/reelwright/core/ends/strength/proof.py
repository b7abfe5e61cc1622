"""What recorded pulls prove together: all of them, each way of giving way, and the gauge.

The bound of a mixture of two ways of giving way is the bound of neither, so each way with enough
pulls is judged by itself besides all of them. A pull that was stopped is a lower bound and no
value: put in as one it would make the spread too small, so such pulls count only by their number.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from reelwright.core.ends.strength.failure import WHAT_IT_SAYS, FailureMode
from reelwright.core.ends.strength.more_pulls import MorePulls, PullsSeen, more_pulls
from reelwright.core.ends.strength.pulls import PullMinimum, judge_pulls
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_in, show_percent, show_plain
from reelwright.core.quantities.words import counted, listed
from reelwright.core.statistics.tolerance import sample_without_failure
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source, Verdict

_PRACTICE = Source(text="one population at a time", basis=Basis.COMMON_PRACTICE)
_WILKS = Source(
    text="smallest of n values, whatever the distribution: Wilks (1941)", basis=Basis.PUBLISHED
)
_GAUGE_TIMES = 2.0
"""A margin within so many standard uncertainties of the gauge is no margin: about 95 %."""


@dataclass(frozen=True, kw_only=True)
class PullReading:
    """One finished end pulled: ``force_n`` [N] where it gave way or was stopped."""

    force_n: float
    mode: FailureMode

    def __post_init__(self) -> None:
        require_positive(self, "force_n")


@dataclass(frozen=True, kw_only=True)
class ModeGroup:
    """The pulls that gave way alike. ``check`` is None where they are too few to judge alone."""

    mode: FailureMode
    forces_n: tuple[float, ...]
    check: Check | None
    says: str

    @property
    def mean_n(self) -> float:
        """Their mean, in N."""
        return fmean(self.forces_n)


@dataclass(frozen=True, kw_only=True)
class PullProof:
    """What the pulls prove. The first check of the verdict is the one over all of them.

    ``bound_n`` [N] is the tolerance bound of all pulls, None where none was computed; ``more`` what
    further pulls would do, or why none would.
    """

    verdict: Verdict
    groups: tuple[ModeGroup, ...]
    bound_n: float | None
    more: MorePulls | Reason

    @property
    def overall(self) -> Check:
        """The check over all pulls."""
        return self.verdict.checks[0]


def prove_by_pulls(
    readings: Sequence[PullReading],
    minimum: PullMinimum,
    *,
    coverage: float,
    confidence: float,
    least_count: int,
    gauge_uncertainty_n: float | None = None,
) -> PullProof:
    """Return what the pulls prove against the minimum, with every reason it may not be enough.

    ``least_count`` pulls of one way of giving way are enough to judge it alone.
    ``gauge_uncertainty_n`` [N] is the pull tester's standard uncertainty, resolution in it: twice
    that is a guard between what the pulls show and the minimum. None where it is not known, and
    then nothing is said of it.
    """
    groups = _groups(
        readings, minimum, coverage=coverage, confidence=confidence, least_count=least_count
    )
    held = sum(reading.mode is FailureMode.NOT_BROKEN for reading in readings)
    forces = tuple(reading.force_n for reading in readings)
    if held:
        overall = _by_number(forces, held, minimum, coverage=coverage, confidence=confidence)
        guard = (
            []
            if gauge_uncertainty_n is None
            else _guarded(overall, minimum, gauge_uncertainty_n, "the weakest")
        )
        return PullProof(
            verdict=Verdict(checks=(overall, *guard)),
            groups=groups,
            bound_n=None,
            more=Reason(
                code="pulls_stopped",
                sentence="How many more is not computed: pulls that were stopped have no spread.",
            ),
        )
    overall = judge_pulls(forces, minimum, coverage=coverage, confidence=confidence)
    checks = [overall, *(group.check for group in groups if group.check and len(groups) > 1)]
    checks += _mixed(groups, least_count)
    checks += _outlier(forces, overall, minimum, coverage)
    if gauge_uncertainty_n is not None:
        checks += _under_the_noise(forces, overall, minimum, gauge_uncertainty_n)
    return PullProof(
        verdict=Verdict(checks=tuple(checks)),
        groups=groups,
        bound_n=overall.value if isinstance(overall.value, float) else None,
        more=_more(
            forces, minimum, coverage=coverage, confidence=confidence, least_count=least_count
        ),
    )


def _groups(
    readings: Sequence[PullReading],
    minimum: PullMinimum,
    *,
    coverage: float,
    confidence: float,
    least_count: int,
) -> tuple[ModeGroup, ...]:
    """Return the pulls by how they gave way, the weakest first."""
    found = []
    for mode in FailureMode:
        forces = tuple(one.force_n for one in readings if one.mode is mode)
        if not forces:
            continue
        check = None
        if mode is not FailureMode.NOT_BROKEN and len(forces) >= least_count:
            check = judge_pulls(
                forces, minimum, coverage=coverage, confidence=confidence, name=str(mode)
            )
        found.append(ModeGroup(mode=mode, forces_n=forces, check=check, says=WHAT_IT_SAYS[mode]))
    return tuple(sorted(found, key=lambda group: group.mean_n))


def _more(
    forces: tuple[float, ...],
    minimum: PullMinimum,
    *,
    coverage: float,
    confidence: float,
    least_count: int,
) -> MorePulls | Reason:
    if len(forces) < 2:
        told = counted(len(forces), "pull")
        return Reason(
            code="spread_unknown", sentence=f"{told} so far: how ends differ shows from two on."
        )
    return more_pulls(
        PullsSeen(made_count=len(forces), mean_n=fmean(forces), spread_n=stdev(forces)),
        minimum_n=minimum.minimum_n,
        coverage=coverage,
        confidence=confidence,
        least_count=least_count,
    )


def _by_number(
    forces: tuple[float, ...],
    held: int,
    minimum: PullMinimum,
    *,
    coverage: float,
    confidence: float,
) -> Check:
    """Judge pulls of which some were stopped, by how many held the minimum, none failing."""
    needed = sample_without_failure(coverage=coverage, confidence=confidence)
    wanted, weakest = show_plain(minimum.minimum_n, "N"), min(forces)
    stopped = f"{held} of {counted(len(forces), 'pull')} were stopped and held"
    if weakest < minimum.minimum_n:
        outcome = Outcome.BAD
        sentence = (
            f"{stopped}, and the weakest reached {show_in(weakest, 'N', decimals=1)}, "
            f"under the {wanted} asked for: such pulls prove something only where all reach it"
        )
    elif len(forces) >= needed:
        outcome = Outcome.GOOD
        sentence = (
            f"{len(forces)} pulls reached {wanted} and none failed, which shows it for "
            f"{show_percent(coverage)} of ends with {show_percent(confidence)} confidence"
        )
    else:
        outcome = Outcome.NOT_COMPUTED
        sentence = (
            f"{stopped}: that says at least, not how much. {needed} without a failure would show "
            f"{wanted} for {show_percent(coverage)} of ends with {show_percent(confidence)} "
            f"confidence, {needed - len(forces)} more; pulling till they give way takes far fewer"
        )
    return Check(
        name="pull strength",
        outcome=outcome,
        sentence=sentence,
        source=_WILKS,
        value=weakest,
        limit=minimum.minimum_n,
        margin=None if outcome is Outcome.NOT_COMPUTED else weakest - minimum.minimum_n,
        unit="N",
    )


def _mixed(groups: tuple[ModeGroup, ...], least_count: int) -> list[Check]:
    """Return a caution where ends gave way in more than one way."""
    if len(groups) < 2:
        return []
    ways = listed(f"{group.mode} ({len(group.forces_n)})" for group in groups)
    few = [str(group.mode) for group in groups if group.check is None]
    if not few:
        ending = "; each is judged by itself as well"
    elif len(few) == len(groups):
        ending = f"; fewer than {least_count} of each, too few to judge any alone"
    else:
        ending = f"; fewer than {least_count} gave way as {listed(few)}, too few to judge alone"
    if _lies_between(groups):
        ending += f". Most of the spread lies between the ways: mend the weakest, {groups[0].mode}"
    return [
        Check(
            name="ways of giving way",
            outcome=Outcome.CAUTION,
            sentence=f"ends gave way in {len(groups)} ways: {ways}{ending}",
            source=_PRACTICE,
            value=float(len(groups)),
            limit=1.0,
            margin=1.0 - len(groups),
            unit="ways",
        )
    ]


def _lies_between(groups: tuple[ModeGroup, ...]) -> bool:
    """Return whether ends that gave way alike spread by less than half of what all of them do."""
    squares = sum(
        (len(group.forces_n) - 1) * stdev(group.forces_n) ** 2
        for group in groups
        if len(group.forces_n) > 1
    )
    degrees = sum(len(group.forces_n) - 1 for group in groups)
    together = stdev([force for group in groups for force in group.forces_n])
    return degrees > 0 and (squares / degrees) ** 0.5 < together / 2


def _outlier(
    forces: tuple[float, ...], overall: Check, minimum: PullMinimum, coverage: float
) -> list[Check]:
    """Return a refusal where a pull failed that a normal population would not have held.

    So few pulls should hold less than one failure of the share allowed; one there says that the
    bound's normal population is not what was pulled.
    """
    weakest = min(forces, default=minimum.minimum_n)
    if (
        overall.outcome is not Outcome.GOOD
        or weakest >= minimum.minimum_n
        or len(forces) * (1 - coverage) >= 1
    ):
        return []
    return [
        Check(
            name="weakest pull",
            outcome=Outcome.BAD,
            sentence=f"one pull reached only {show_in(weakest, 'N', decimals=1)}, under the "
            f"{show_plain(minimum.minimum_n, 'N')} asked for, far from the others: find out why "
            "before the bound of the others is believed",
            source=_PRACTICE,
            value=weakest,
            limit=minimum.minimum_n,
            margin=weakest - minimum.minimum_n,
            unit="N",
        )
    ]


def _noise(
    name: str, outcome: Outcome, sentence: str, *, value_n: float, limit_n: float
) -> list[Check]:
    return [
        Check(
            name=name,
            outcome=outcome,
            sentence=sentence,
            source=Source(
                text="the pull tester's standard uncertainty, twice", basis=Basis.OWN_SHOP
            ),
            value=value_n,
            limit=limit_n,
            margin=value_n - limit_n,
            unit="N",
        )
    ]


def _under_the_noise(
    forces: tuple[float, ...], overall: Check, minimum: PullMinimum, gauge_uncertainty_n: float
) -> list[Check]:
    """Return a refusal where the gauge's own noise hides the spread of the ends or the margin."""
    if len(forces) >= 2 and stdev(forces) < gauge_uncertainty_n:
        spread_n, noise = stdev(forces), show_in(gauge_uncertainty_n, "N", decimals=1)
        return _noise(
            "noise of the gauge",
            Outcome.NOT_COMPUTED,
            f"the pulls spread by {show_in(spread_n, 'N', decimals=1)}, less than the gauge's own "
            f"{noise}: that is its noise, and how the ends differ is not known",
            value_n=spread_n,
            limit_n=gauge_uncertainty_n,
        )
    return _guarded(overall, minimum, gauge_uncertainty_n, "the bound")


def _guarded(
    overall: Check, minimum: PullMinimum, gauge_uncertainty_n: float, what: str
) -> list[Check]:
    """Return whether what clears the minimum still does less twice the gauge's uncertainty."""
    if overall.outcome is not Outcome.GOOD or not isinstance(overall.value, float):
        return []
    noise = show_in(gauge_uncertainty_n, "N", decimals=1)
    spare_n, guard_n = overall.value - minimum.minimum_n, _GAUGE_TIMES * gauge_uncertainty_n
    if spare_n < guard_n:
        return _noise(
            "noise of the gauge",
            Outcome.NOT_COMPUTED,
            f"{what} clears the minimum by {show_in(spare_n, 'N', decimals=1)}, less than "
            f"twice the gauge's own {noise}: the two cannot be told apart",
            value_n=spare_n,
            limit_n=guard_n,
        )
    return _noise(
        "guard of the gauge",
        Outcome.GOOD,
        f"less twice the pull tester's own {noise} there is "
        f"{show_in(overall.value - guard_n, 'N', decimals=1)} left of {what}: at least "
        f"{show_plain(minimum.minimum_n, 'N')} is asked for",
        value_n=overall.value - guard_n,
        limit_n=minimum.minimum_n,
    )
