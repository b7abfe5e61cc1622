"""What the lead reads at a quarter past eight."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_text
from reelwright.documents.sheet import SheetMark

N_NUMBERS = 7
LEVELS = ("good", "caution", "bad")


@dataclass(frozen=True, kw_only=True)
class SevenNumber:
    """One of the seven: its name, its value, and what stands behind it (may be empty)."""

    name: str
    value: str
    note: str

    def __post_init__(self) -> None:
        require_text(self, "name", "value")


@dataclass(frozen=True, kw_only=True)
class LookFirst:
    """One thing to look at. ``level`` is good, caution or bad; ``where`` names the paper."""

    level: str
    sentence: str
    where: str

    def __post_init__(self) -> None:
        require_text(self, "sentence")
        if self.level not in LEVELS:
            raise BadValue(
                owner="LookFirst", field="level", value=self.level, accepted=", ".join(LEVELS)
            )


@dataclass(frozen=True, kw_only=True)
class Fetch:
    """One place of the rack and the reels to fetch from it, in the order they are needed."""

    place: str
    reels: tuple[str, ...]

    def __post_init__(self) -> None:
        require_text(self, "place")


@dataclass(frozen=True, kw_only=True)
class Summary:
    """The day in ``sentence``; exactly seven numbers; the most pressing of ``look_first`` first.

    ``day_svg`` is the day drawing, low enough for this page; ``due_today`` the lines that leave
    today with where they stand; ``fetch`` the reels by place. The last three may be empty.
    """

    mark: SheetMark
    sentence: str
    lead: str
    numbers: tuple[SevenNumber, ...]
    look_first: tuple[LookFirst, ...]
    day_svg: str
    due_today: tuple[str, ...]
    fetch: tuple[Fetch, ...]

    def __post_init__(self) -> None:
        require_text(self, "sentence")
        if len(self.numbers) != N_NUMBERS:
            raise BadValue(
                owner="Summary",
                field="numbers",
                value=len(self.numbers),
                accepted=f"exactly {N_NUMBERS}",
            )
