"""What the bare wire holds, which is the most that any joint on it can."""

from collections.abc import Sequence
from statistics import fmean

from reelwright.core.ends.strength.pull_rules.wire import Wire, WireMetal
from reelwright.core.errors import BadValue
from reelwright.core.materials.tensile import ANNEALED_COPPER
from reelwright.core.quantities.show import show_in, show_percent
from reelwright.core.verdicts import Check, Outcome, Reason

LEAST_OF_WIRE_FRACTION = 0.60
"""A joint that holds less of its wire weakened it: the floor that NASA-STD-8739.4 asks."""


def wire_holds_n(wire: Wire) -> tuple[float, float] | Reason:
    """Return what the bare wire holds at least and at most, in N: A·σ of soft copper.

    A measured or stated strength of the wire stands for both. A Reason: not copper, or its area is
    not known.
    """
    if wire.break_n is not None:
        return wire.break_n, wire.break_n
    if wire.metal is not WireMetal.COPPER:
        return Reason(code="not_copper", sentence=f"The strength of {wire.metal} is not known.")
    if wire.area_m2 is None:
        return Reason(code="size_unknown", sentence="The area of the wire is not known.")
    return ANNEALED_COPPER.force_n(wire.area_m2)


def judge_against_wire(forces_n: Sequence[float], wire: Wire) -> Check | Reason:
    """Return how much of the bare wire's strength joints on it kept; for pulls of that wire alone.

    ``forces_n`` [N] are the pulls of such joints. More than the wire can hold is a caution, for the
    wire or the gauge is not what it is taken for; so is less than 60 % of the least it holds.
    Raises BadValue for no pulls.
    """
    if not forces_n:
        raise BadValue(
            owner="judge_against_wire", field="forces_n", value=(), accepted="one pull or more"
        )
    holds = wire_holds_n(wire)
    if isinstance(holds, Reason):
        return holds
    low_n, high_n = holds
    mean_n = fmean(forces_n)
    band = f"{show_in(low_n, 'N', decimals=0)} to {show_in(high_n, 'N', decimals=0)}"
    told = f"joints hold {show_in(mean_n, 'N', decimals=0)} on average, the bare wire {band}"
    kept = mean_n / low_n
    if mean_n > high_n:
        outcome = Outcome.CAUTION
        sentence = f"{told}: more than the wire can, so look at the gauge or the wire's size"
    elif kept < LEAST_OF_WIRE_FRACTION:
        outcome = Outcome.CAUTION
        sentence = (
            f"{told}: {show_percent(kept)} of it at best, so the wire is weakened or the joint is"
        )
    else:
        outcome, sentence = Outcome.GOOD, f"{told}: {show_percent(min(kept, 1.0))} of it at best"
    return Check(
        name="strength kept of the wire",
        outcome=outcome,
        sentence=sentence,
        source=ANNEALED_COPPER.source,
        value=mean_n,
        limit=high_n if mean_n > high_n else LEAST_OF_WIRE_FRACTION * low_n,
        margin=high_n - mean_n if mean_n > high_n else mean_n - LEAST_OF_WIRE_FRACTION * low_n,
        unit="N",
    )
