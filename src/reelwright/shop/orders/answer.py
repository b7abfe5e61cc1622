"""What is answered on one line, whole: the words for the customer and every number behind them.

These values go into the records as JSON and come back unchanged.
"""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Self

from reelwright.core.errors import BadValue
from reelwright.core.quantities.show import show_chance
from reelwright.core.verdicts import Outcome

ACCEPTED, HELD, REFUSED = "accepted", "held", "refused"
_SURE = 0.99


@dataclass(frozen=True, kw_only=True)
class CheckRow:
    """One check as it is shown; numbers in ``unit``, the texts ready for people."""

    name: str
    outcome: str
    value: str
    limit: str
    margin: str
    sentence: str
    source: str


@dataclass(frozen=True, kw_only=True)
class ExpectedRow:
    """One value that the finished cable is expected to show when it is measured."""

    name: str
    value: float
    standard_uncertainty: float | None
    unit: str
    source: str


@dataclass(frozen=True, kw_only=True)
class Offer:
    """Something else that would work. ``cells``: the columns of the line that would order it;
    ``None`` where more must be known first. Its own verdict: ``outcome``, what is ``to_spare``
    with its unit, the chance to keep the limit; empty where it has none, as on older answers."""

    sentence: str
    price: str | None
    cells: Mapping[str, str] | None
    outcome: str = ""
    to_spare: str = ""
    chance_within_limit: float | None = None

    @property
    def verdict(self) -> str:
        """Its own verdict in a few words: "2.1 dB to spare, over 99 % chance to keep the limit"."""
        told = [f"{self.to_spare} to spare"] if self.to_spare else []
        chance = self.chance_within_limit
        if chance is not None:
            # A spread is never so well known that 100 % may be said.
            shown = f"over {show_chance(_SURE)}" if chance > _SURE else show_chance(chance)
            told.append(f"{shown} chance to keep the limit")
        return ", ".join(told)


@dataclass(frozen=True, kw_only=True)
class PossibleRow:
    """How far physics would let the signal go past what is promised: no promise, and whose word."""

    length_m: float
    sentence: str
    source: str


@dataclass(frozen=True, kw_only=True)
class PriceRow:
    """A price in full, as decimal text."""

    currency: str
    unit_price: str
    line_price: str
    unit_cost: str
    parts: tuple[tuple[str, str], ...]


@dataclass(frozen=True, kw_only=True)
class Make:
    """How the line is made: cable, colours, set-up of each end, lengths, number of pieces."""

    cable: str
    colours: tuple[str, ...]
    connector_a: str
    connector_b: str
    set_up_a: str
    set_up_b: str
    revision_a: str
    revision_b: str
    quantity: int
    spare_wanted: int
    finished_mm: int
    tolerance_minus_mm: int
    tolerance_plus_mm: int
    tolerance_assumed: bool
    cut_length_mm: int
    wheel_setting_mm: int
    cut_uncertainty_mm: float
    lot_group_size: int | None
    lot_group_hard: bool


@dataclass(frozen=True, kw_only=True)
class LineAnswer:
    """The answer. ``headline`` alone must not mislead; ``reasons`` are why; ``questions`` what
    must be known first, most valuable first; ``notes`` what was assumed or holds on condition.
    ``far_end`` says what the far end needs, ``possible`` how far past the limit physics allows;
    empty where no run was judged, as on older answers."""

    state: str
    headline: str
    reading: str
    reasons: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    offers: tuple[Offer, ...] = ()
    checks: tuple[CheckRow, ...] = ()
    expected: tuple[ExpectedRow, ...] = ()
    chance_within_limit: float | None = None
    length_at_95_m: float | None = None
    length_at_50_m: float | None = None
    price: PriceRow | None = None
    make: Make | None = None
    far_end: str = ""
    possible: PossibleRow | None = None

    def __post_init__(self) -> None:
        if self.state not in (ACCEPTED, HELD, REFUSED):
            raise BadValue(
                owner="LineAnswer",
                field="state",
                value=self.state,
                accepted="accepted, held or refused",
            )
        if self.state == HELD and not self.questions:
            raise BadValue(
                owner="LineAnswer", field="questions", value=(), accepted="a question when held"
            )
        if self.state == REFUSED and not self.reasons:
            raise BadValue(
                owner="LineAnswer", field="reasons", value=(), accepted="a reason when refused"
            )
        if self.state == ACCEPTED and (self.make is None or self.price is None):
            raise BadValue(
                owner="LineAnswer",
                field="make",
                value=None,
                accepted="how it is made and its price when accepted",
            )

    @property
    def worst(self) -> CheckRow | None:
        """The check that decides, or None where nothing was checked."""
        if not self.checks:
            return None
        return max(self.checks, key=lambda check: Outcome(check.outcome).rank)

    def to_json(self) -> dict[str, Any]:
        """Return plain lists and dicts."""
        return dataclasses.asdict(self)

    @classmethod
    def from_json(cls, content: Mapping[str, Any]) -> Self:
        """Return the answer that ``to_json`` gave."""
        fields = dict(content)
        for name, kind in (("checks", CheckRow), ("expected", ExpectedRow), ("offers", Offer)):
            fields[name] = tuple(kind(**row) for row in fields[name])
        for name in ("reasons", "questions", "notes"):
            fields[name] = tuple(fields[name])
        if fields["price"] is not None:
            price = dict(fields["price"])
            price["parts"] = tuple((cause, amount) for cause, amount in price["parts"])
            fields["price"] = PriceRow(**price)
        if fields.get("possible") is not None:
            fields["possible"] = PossibleRow(**fields["possible"])
        if fields["make"] is not None:
            make = dict(fields["make"])
            make["colours"] = tuple(make["colours"])
            fields["make"] = Make(**make)
        return cls(**fields)
