"""Whether recorded pulls prove an end strong enough: a tolerance bound, never the mean."""

import math
from dataclasses import dataclass
from statistics import NormalDist, fmean, stdev

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_in, show_plain
from reelwright.core.statistics.tolerance import lower_tolerance_limit
from reelwright.core.verdicts import Check, Outcome, Source


@dataclass(frozen=True, kw_only=True)
class PullMinimum:
    """What a pull must exceed, and who says so; ``rule_set`` is None for what no rule set asks."""

    minimum_n: float
    source: Source
    rule_set: str | None = None

    def __post_init__(self) -> None:
        require_positive(self, "minimum_n")


def judge_pulls(
    pulls_n: tuple[float, ...],
    minimum: PullMinimum,
    *,
    coverage: float,
    confidence: float,
    name: str = "pull strength",
) -> Check:
    """Return whether the fraction ``coverage`` of such ends holds the minimum, with ``confidence``.

    Lower one-sided tolerance limit of a normal population, mean − k·s (NIST/SEMATECH e-Handbook of
    Statistical Methods, 7.2.6.3). Fewer than three pulls, or pulls without any spread, prove
    nothing: not computed. ``name`` is the check's own, where several are shown. Raises BadValue for
    a pull that is not above zero.
    """
    if any(not math.isfinite(pull) or pull <= 0 for pull in pulls_n):
        raise BadValue(
            owner="judge_pulls", field="pulls_n", value=pulls_n, accepted="newtons above zero"
        )
    sure = show_plain(confidence * 100, "%")
    claim = f"{show_plain(coverage * 100, '%')} of ends with {sure} confidence"
    if len(pulls_n) < 3 or stdev(pulls_n) == 0:
        return Check(
            name=name,
            outcome=Outcome.NOT_COMPUTED,
            sentence=f"{len(pulls_n)} pulls prove nothing of {claim}: make three or more",
            source=minimum.source,
            value=None,
            limit=minimum.minimum_n,
            margin=None,
            unit="N",
        )
    bound_n = lower_tolerance_limit(
        mean=fmean(pulls_n),
        deviation=stdev(pulls_n),
        sample_size=len(pulls_n),
        coverage=coverage,
        confidence=confidence,
    )
    wanted = show_plain(minimum.minimum_n, "N")
    spare_n = bound_n - minimum.minimum_n
    # The mean may lie high while the bound does not: then more pulls can still show it.
    weak = fmean(pulls_n) <= minimum.minimum_n
    # Where k ends as pulls go on: what cannot be reached there is out of reach.
    holds_n = fmean(pulls_n) - NormalDist().inv_cdf(coverage) * stdev(pulls_n)
    if spare_n >= 0:
        outcome, ending = Outcome.GOOD, f"at least {wanted} is asked for"
    elif weak:
        outcome, ending = Outcome.BAD, f"under the {wanted} asked for"
    else:
        outcome = Outcome.BAD
        ending = f"not yet the {wanted} asked for; " + (
            "more pulls may show it"
            if holds_n > minimum.minimum_n
            else "they spread too far for any number of pulls to show it"
        )
    return Check(
        name=name,
        outcome=outcome,
        sentence=(
            f"{len(pulls_n)} pulls show {show_in(bound_n, 'N', decimals=1)} for {claim}: {ending}"
        ),
        source=minimum.source,
        value=bound_n,
        limit=minimum.minimum_n,
        margin=spare_n,
        unit="N",
    )
