"""The day at the benches, as the person who hands out the work reads it."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_count, require_not_negative, require_text
from reelwright.documents.sheet import SheetMark


@dataclass(frozen=True, kw_only=True)
class BenchRow:
    """One batch in the order of work. ``change_over`` says what is changed before it, and how long.

    ``late`` rows are marked in words as well as by their mark.
    """

    sequence: int
    start: str
    finish: str
    batch: str
    setup: str
    pieces: int
    change_over: str
    person: str
    due: str
    late: bool

    def __post_init__(self) -> None:
        require_count(self, "sequence", at_least=1)
        require_count(self, "pieces", at_least=1)
        require_text(self, "start", "finish", "batch", "setup")


@dataclass(frozen=True, kw_only=True)
class PersonLoad:
    """One person's minutes of work in the minutes they are there; ``note`` may be empty."""

    person: str
    load_min: float
    present_min: float
    note: str

    def __post_init__(self) -> None:
        require_text(self, "person")
        require_not_negative(self, "load_min", "present_min")


@dataclass(frozen=True, kw_only=True)
class BenchPlanSheet:
    """The plan. ``day_svg`` is the day drawing; ``late`` are sentences, one an order; ``beyond``
    says what runs on after the end of the day, and may be empty."""

    mark: SheetMark
    sentence: str
    lead: str
    day_svg: str
    rows: tuple[BenchRow, ...]
    people: tuple[PersonLoad, ...]
    late: tuple[str, ...]
    beyond: str

    def __post_init__(self) -> None:
        require_text(self, "sentence")
