"""What a rule set is: rows of one table, looked up as that table states them and never between.

Nothing is interpolated, converted from another rule set or filled up from one: a size that a table
does not hold is answered with "not tabulated" and its two nearest rows.
"""

import enum
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from reelwright.core.ends.strength.pull_rules.wire import GAUGE_WITHIN_FRACTION, Wire, WireMetal
from reelwright.core.ends.strength.pulls import PullMinimum
from reelwright.core.errors import BadValue
from reelwright.core.quantities.convert import awg_area_m2
from reelwright.core.quantities.guard import require_given, require_positive
from reelwright.core.quantities.show import show_plain
from reelwright.core.quantities.show_scaled import show_awg
from reelwright.core.verdicts import Reason, Source


class PullRules(enum.StrEnum):
    """Whose least pull counts for a set-up. They never mix."""

    COMMERCIAL = "commercial"
    MILITARY = "military"
    IEC = "IEC 60352-2"
    NASA = "NASA-STD-8739.4"
    CABLE_RETENTION = "MIL-DTL-55235A"


class RuleSet(Protocol):
    """One rule set, by whatever it looks a wire up."""

    @property
    def rules(self) -> PullRules:
        """Which rule set it is."""

    def minimum_for(self, wire: Wire) -> PullMinimum | Reason:
        """Return the least pull of this wire with its source, or why this rule set has none."""


@dataclass(frozen=True, kw_only=True)
class Row:
    """One row: the gauge (0 is 1/0) or the area [m²] it is printed for, both where it prints both.

    ``minimum_n`` [N] is the least pull printed there.
    """

    awg: int | None
    area_m2: float | None
    minimum_n: float

    def __post_init__(self) -> None:
        require_given(self, "area_m2")
        require_positive(self, "minimum_n")
        if self.awg is None and self.area_m2 is None:
            raise BadValue(owner="Row", field="awg", value=None, accepted="a gauge or an area")

    @property
    def size_m2(self) -> float:
        """The cross-section it stands for, to find its place among the others."""
        if self.area_m2 is not None:
            return self.area_m2
        assert self.awg is not None  # refused above
        return awg_area_m2(self.awg)

    @property
    def told(self) -> str:
        """The row in words: "14 AWG (222.5 N)"."""
        size = (
            show_plain(self.area_m2 * 1e6, "mm²")
            if self.area_m2 is not None
            else show_awg(self.awg or 0)
        )
        return f"{size} ({show_plain(self.minimum_n, 'N')})"


@dataclass(frozen=True, kw_only=True)
class TableRules:
    """A rule set that is one table for copper wire. ``rows`` run from the thinnest to the thickest.

    Raises BadValue for no rows, or rows whose size or least pull does not rise.
    """

    rules: PullRules
    rows: tuple[Row, ...]
    source: Source

    def __post_init__(self) -> None:
        for values in ([row.size_m2 for row in self.rows], [row.minimum_n for row in self.rows]):
            if not values or values != sorted(set(values)):
                raise BadValue(
                    owner="TableRules",
                    field="rows",
                    value=values,
                    accepted="rows whose size and least pull rise",
                )

    def minimum_for(self, wire: Wire) -> PullMinimum | Reason:
        """Return the row of this wire, or a Reason: not copper, size unknown, not tabulated."""
        refused = not_copper(self.rules, wire)
        if refused is not None:
            return refused
        row = next((row for row in self.rows if _is_of(row, wire)), None)
        if row is None:
            return not_tabulated(self.rules, self.rows, wire)
        return PullMinimum(minimum_n=row.minimum_n, source=self.source, rule_set=self.rules.value)


def _is_of(row: Row, wire: Wire) -> bool:
    if row.awg is not None and wire.awg is not None:
        return row.awg == wire.awg
    if row.area_m2 is None or wire.area_m2 is None:
        return False
    return math.isclose(wire.area_m2, row.area_m2, rel_tol=GAUGE_WITHIN_FRACTION)


def not_copper(rules: PullRules, wire: Wire) -> Reason | None:
    """Return why a wire that is not known to be copper has no row, or None where it is copper."""
    if wire.metal is WireMetal.COPPER:
        return None
    return Reason(
        code="not_copper",
        sentence=f"{rules} tabulates copper wire, and this is {wire.metal}.",
    )


def not_tabulated(rules: PullRules, rows: Iterable[Row], wire: Wire) -> Reason:
    """Return that a table has no row for this wire, with the rows on both sides of it."""
    if wire.area_m2 is None and wire.awg is None:
        return Reason(
            code="size_unknown",
            sentence=f"{rules} goes by the size of the wire, and that is not known.",
        )
    size_m2 = wire.area_m2 if wire.area_m2 is not None else awg_area_m2(wire.awg or 0)
    below = [row for row in rows if row.size_m2 < size_m2]
    above = [row for row in rows if row.size_m2 > size_m2]
    if below and above:
        told = f"it lies between {below[-1].told} and {above[0].told}, and nothing is interpolated"
    elif below:
        told = f"the thickest there is {below[-1].told}"
    else:
        told = f"the thinnest there is {above[0].told}"
    return Reason(code="not_tabulated", sentence=f"{rules} has no row for {wire.told}: {told}.")
