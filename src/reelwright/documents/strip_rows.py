"""The table beside a strip drawing, on every paper that has one."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_text
from reelwright.drawings.end import EndView, end_table


@dataclass(frozen=True, kw_only=True)
class StripRow:
    """One stripped length: its letter on the drawing, what is bared, its length with tolerance
    ("4.25 ±0.10"), and where it is cut, from the cable's end ("8.85"; empty where nowhere fixed).
    """

    letter: str
    name: str
    length: str
    cut_at: str

    def __post_init__(self) -> None:
        require_text(self, "letter", "name", "length")


def strip_rows(view: EndView) -> tuple[StripRow, ...]:
    """Return the drawing's figures as the table beside it."""
    return tuple(
        StripRow(letter=each.letter, name=each.name, length=each.told, cut_at=each.position)
        for each in end_table(view)
    )
