"""Legs of one picture on several coaxes: how far apart they arrive."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.physics.delay import skew_s
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.quantities.show import show_both, show_in, show_percent
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check, Outcome, Source

CHECK_NAME = "skew between the legs"
LOTS_NAME = "legs of several lots"
# Two standard deviations: 95 in 100 pairs of legs differ by less.
_COVER = 2.0


@dataclass(frozen=True, kw_only=True)
class SkewLimit:
    """The largest skew [s]; ``of_s`` [s] is what it is told as a share of, ``of_what`` its name.

    ``allowed`` names the limit, ``else_seen`` what is seen beyond it, both in words.
    """

    limit_s: float
    of_s: float
    of_what: str
    allowed: str
    else_seen: str
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "limit_s", "of_s")
        require_text(self, "of_what", "allowed", "else_seen")


def judge_skew(delays_s: Mapping[str, float], limit: SkewLimit) -> Check:
    """Return whether the legs' delays [s] lie within the limit; value and limit in [s].

    Raises BadValue for no legs.
    """
    skew = skew_s(delays_s)
    good = skew <= limit.limit_s
    return Check(
        name=CHECK_NAME,
        outcome=Outcome.GOOD if good else Outcome.BAD,
        sentence=(
            f"The legs differ by {show_in(skew * 1e12, 'ps', decimals=0)}, which is "
            f"{show_percent(skew / limit.of_s)} of {limit.of_what}: "
            + (
                "far too little to see."
                if skew <= limit.limit_s / 2
                else f"within {limit.allowed} that is allowed."
                if good
                else f"more than {limit.allowed} that is allowed; {limit.else_seen}."
            )
        ),
        source=limit.source,
        value=skew,
        limit=limit.limit_s,
        margin=limit.limit_s - skew,
        unit="s",
    )


def lots_skew_check(run: Run, limit: SkewLimit) -> tuple[Check, ...]:
    """Return how far two legs of this length may differ where each is cut from another lot.

    95 in 100 pairs differ by less: spread of the lot's delay and of the cut, √2 for two of them.
    Nothing where the delay is not known.
    """
    delay = known_value(run.cable, run.lot, Stated.DELAY)
    if delay is None:
        return ()
    relative = math.hypot(delay.relative_uncertainty, run.length_relative_uncertainty)
    apart = _COVER * math.sqrt(2) * relative * delay.value * run.length.mean_m
    good = apart <= limit.limit_s
    start = (
        f"Legs of {show_both(run.length.mean_m)} cut from several lots differ by up to "
        f"{show_quantity(apart, 's', digits=2)} in 95 of 100 pairs; "
        f"{show_quantity(limit.limit_s, 's', digits=3)} are allowed"
    )
    return (
        Check(
            name=LOTS_NAME,
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=start
            + (
                ", so any lots will do."
                if good
                else ": cut all legs from one lot, or ask for a set matched in delay."
            ),
            source=limit.source,
            value=apart,
            limit=limit.limit_s,
            margin=limit.limit_s - apart,
            unit="s",
        ),
    )
