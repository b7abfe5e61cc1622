"""How many strands of a conductor may be nicked or broken when it is stripped, by whose rule."""

import enum
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count
from reelwright.core.quantities.show import show_percent
from reelwright.core.quantities.show_scaled import show_awg
from reelwright.core.quantities.words import counted
from reelwright.core.verdicts import Basis, Check, Outcome, Source

SHIELD_NICKED_FRACTION = 0.10
"""Of a screen's strands, at most; none severed (NASA-STD-8739.4 Change 6, 10.2)."""

_FAA = Source(text="FAA AC 43.13-1B (1998), Table 11-13", basis=Basis.PUBLISHED)
SHIELD_SOURCE = Source(text="NASA-STD-8739.4 Change 6, 10.2", basis=Basis.PUBLISHED)
"""Where the share of a screen's strands stands."""


class StrandRules(enum.StrEnum):
    """Whose limit of damage counts."""

    AIRCRAFT_WIRE = "FAA AC 43.13-1B"
    SPACE_SHIELD = "NASA-STD-8739.4"


@dataclass(frozen=True, kw_only=True)
class StrandRow:
    """One row of the table: gauges from the thinnest to the thickest (0 is 1/0) and strands.

    ``most_strands`` None: or more.
    """

    thinnest_awg: int
    thickest_awg: int
    least_strands: int
    most_strands: int | None
    nicked_strands: int
    broken_strands: int

    def holds(self, awg: int, strands: int) -> bool:
        """Return whether a conductor of this gauge and number of strands stands in this row."""
        return self.thickest_awg <= awg <= self.thinnest_awg and (
            self.least_strands <= strands
            and (self.most_strands is None or strands <= self.most_strands)
        )


def _row(
    gauges: tuple[int, int], strands: tuple[int, int | None], most: tuple[int, int]
) -> StrandRow:
    return StrandRow(
        thinnest_awg=gauges[0],
        thickest_awg=gauges[1],
        least_strands=strands[0],
        most_strands=strands[1],
        nicked_strands=most[0],
        broken_strands=most[1],
    )


COPPER_ROWS = (
    _row((24, 14), (19, 19), (2, 0)),
    _row((12, 10), (37, 37), (4, 0)),
    _row((8, 4), (133, 133), (6, 6)),
    _row((2, 1), (665, 817), (6, 6)),
    _row((0, -1), (1045, 1330), (6, 6)),
    _row((-2, -2), (1665, None), (6, 6)),
    _row((-3, -3), (2109, None), (6, 6)),
)
ALUMINIUM_GAUGES = (8, -2)
"""Aluminium of these gauges may have neither a nicked nor a broken strand."""


@dataclass(frozen=True, kw_only=True)
class StrippedWire:
    """A stripped conductor or screen: its strands, and how many the strip hurt.

    ``awg`` is its gauge (0 is 1/0), None where it is of none or a screen.
    """

    awg: int | None
    strands: int
    nicked_strands: int
    broken_strands: int
    aluminium: bool

    def __post_init__(self) -> None:
        require_count(self, "strands", at_least=1)
        require_count(self, "nicked_strands", "broken_strands")
        if self.nicked_strands + self.broken_strands > self.strands:
            raise BadValue(
                owner="StrippedWire",
                field="nicked_strands",
                value=self.nicked_strands,
                accepted=f"with the broken ones at most {self.strands}",
            )


def strands_allowed(wire: StrippedWire, rules: StrandRules) -> tuple[int, int] | None:
    """Return how many strands may be nicked and how many broken; None where not tabulated.

    The rows are taken as printed: a number of strands between two rows stands in neither.
    """
    if rules is StrandRules.SPACE_SHIELD:
        return int(SHIELD_NICKED_FRACTION * wire.strands + 1e-9), 0
    if wire.awg is None:
        return None
    if wire.aluminium:
        thin, thick = ALUMINIUM_GAUGES
        return (0, 0) if thick <= wire.awg <= thin else None
    row = next((row for row in COPPER_ROWS if row.holds(wire.awg, wire.strands)), None)
    return None if row is None else (row.nicked_strands, row.broken_strands)


def judge_strands(wire: StrippedWire, rules: StrandRules) -> Check:
    """Return whether the strip hurt no more strands than the rule allows."""
    shield = rules is StrandRules.SPACE_SHIELD
    source = SHIELD_SOURCE if shield else _FAA
    hurt = (
        f"{wire.nicked_strands} nicked and {wire.broken_strands} broken of {wire.strands} strands"
    )
    allowed = strands_allowed(wire, rules)
    if allowed is None:
        size = "no gauge" if wire.awg is None else show_awg(wire.awg)
        return Check(
            name="strands hurt",
            outcome=Outcome.NOT_COMPUTED,
            sentence=f"{rules} has no row for {size} of {counted(wire.strands, 'strand')}, so it "
            f"does not say whether {hurt} may be",
            source=source,
            value=float(wire.nicked_strands + wire.broken_strands),
            limit=None,
            margin=None,
            unit="strands",
        )
    nicked, broken = allowed
    # A broken strand is worse than a nicked one: what is left over of one is none of the other.
    over = max(wire.nicked_strands - nicked, wire.broken_strands - broken)
    share = f" ({show_percent(SHIELD_NICKED_FRACTION)} of a screen)" if shield else ""
    return Check(
        name="strands hurt",
        outcome=Outcome.GOOD if over <= 0 else Outcome.BAD,
        sentence=f"{hurt}; at most {nicked}{share} and {broken} may be"
        + ("" if over <= 0 else ": strip it again, with other blades or another program"),
        source=source,
        value=float(wire.broken_strands if wire.broken_strands > broken else wire.nicked_strands),
        limit=float(broken if wire.broken_strands > broken else nicked),
        margin=float(-over),
        unit="strands",
    )
