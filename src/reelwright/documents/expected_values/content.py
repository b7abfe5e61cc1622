"""Predicted values, one block an order line."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_text
from reelwright.documents.sheet import SheetMark

NOT_A_CERTIFICATE = "Not a certificate: nothing was measured."


@dataclass(frozen=True, kw_only=True)
class ExpectedRow:
    """One predicted value. ``value`` without spread, ``spread`` ("± 0.2 dB") or why it has none.

    ``limit`` is the promise or budget it is held against, empty where there is none.
    """

    name: str
    value: str
    spread: str
    limit: str
    source: str

    def __post_init__(self) -> None:
        require_text(self, "name", "value", "source")


@dataclass(frozen=True, kw_only=True)
class ExpectedLine:
    """One order line: ``cables`` are the serials it holds for, ``basis`` what was assumed."""

    order: str
    line: str
    cable: str
    lot: str
    length: str
    ends: str
    cables: str
    verdict: str
    basis: str
    rows: tuple[ExpectedRow, ...]

    def __post_init__(self) -> None:
        require_text(self, "order", "line", "cable", "length")


@dataclass(frozen=True, kw_only=True)
class ExpectedValues:
    """All lines of the day."""

    mark: SheetMark
    sentence: str
    lead: str
    lines: tuple[ExpectedLine, ...]

    def __post_init__(self) -> None:
        require_text(self, "sentence")
