"""How tightly a cable may be bent, as a multiple of its outside diameter, and by whose rule."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_given, require_positive, require_text
from reelwright.core.quantities.show import show_dimension, show_plain
from reelwright.core.verdicts import Basis, Check, Outcome, Source


@dataclass(frozen=True, kw_only=True)
class BendRule:
    """Radii over the outside diameter [1]: the least, and the one to aim at where there is one."""

    name: str
    least_ratio: float
    recommended_ratio: float | None
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_positive(self, "least_ratio")
        require_given(self, "recommended_ratio")


_NASA = "NASA-STD-8739.4, 7.3, and the workmanship pages of the same office"

COAX_BEND = BendRule(
    name="bend of a coax",
    least_ratio=6.0,
    recommended_ratio=10.0,
    source=Source(text=_NASA, basis=Basis.PUBLISHED),
)
POLYIMIDE_BEND = BendRule(
    name="bend of a cable insulated with polyimide film",
    least_ratio=10.0,
    recommended_ratio=15.0,
    source=Source(text=_NASA, basis=Basis.PUBLISHED),
)
DATA_PAIR_BEND = BendRule(
    name="bend of unscreened data pairs in service",
    least_ratio=4.0,
    recommended_ratio=None,
    source=Source(text="ANSI/TIA-568", basis=Basis.FROM_MEMORY),
)
STRAIGHT_AT_END_RATIO = 6.0
"""Outside diameters of straight run behind a finished coax end: NASA workmanship page 4.04, as best
practice."""


def straight_at_end_m(outside_diameter_m: float) -> float:
    """Return the straight run, in m, that a finished coax end wants behind it."""
    return STRAIGHT_AT_END_RATIO * outside_diameter_m


def judge_bend(*, outside_diameter_m: float, radius_m: float, rule: BendRule) -> Check:
    """Return whether a bend of ``radius_m`` [m], taken at its inside, is as wide as the rule asks.

    Bad under the least, a caution under the recommended radius.
    """
    least_m = rule.least_ratio * outside_diameter_m
    aim_m = None if rule.recommended_ratio is None else rule.recommended_ratio * outside_diameter_m
    told = (
        f"bent to {show_dimension(radius_m, decimals=1)}, {_times(radius_m / outside_diameter_m)}"
    )
    if radius_m < least_m:
        outcome, limit_m = Outcome.BAD, least_m
        sentence = f"{told}: at least {show_dimension(least_m, decimals=1)} is asked for"
    elif aim_m is not None and radius_m < aim_m:
        outcome, limit_m = Outcome.CAUTION, aim_m
        sentence = f"{told}: allowed, {show_dimension(aim_m, decimals=1)} is recommended"
    else:
        outcome, limit_m = Outcome.GOOD, least_m if aim_m is None else aim_m
        sentence = f"{told}, at least {show_dimension(limit_m, decimals=1)}"
    return Check(
        name=rule.name,
        outcome=outcome,
        sentence=sentence,
        source=rule.source,
        value=radius_m * 1e3,
        limit=limit_m * 1e3,
        margin=(radius_m - limit_m) * 1e3,
        unit="mm",
    )


def _times(ratio: float) -> str:
    return f"{show_plain(round(ratio, 1), '')} times the outside diameter"
