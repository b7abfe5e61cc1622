"""One revision of a set-up, every text as it is to be read."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_text
from reelwright.documents.set_up_sheet.results import (
    BladePrint,
    CrimpPrint,
    MeasuredRow,
    ModeRow,
    TipPrint,
    Told,
    WeldPrint,
    require_mark,
)
from reelwright.documents.sheet import SheetMark
from reelwright.documents.strip_rows import StripRow

NOT_FOR_ORDERS = "Not released: not for orders."

STRIP_ROOM_MM = (172.0, 76.0)
"""Width and height, in mm, that the strip drawing at its larger scale may take."""

TRUE_STRIP_ROOM_MM = (172.0, 76.0)
"""The same for the drawing 1 : 1."""

SECTION_ROOM_MM = (88.0, 62.0)
"""The same for the section of the cable."""

PHOTOGRAPH_ROOM_MM = (82.0, 62.0)
"""Width and height, in mm, of the largest photograph: two stand side by side."""


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One figure of a table without columns: what it is, and its value with its unit."""

    name: str
    value: str

    def __post_init__(self) -> None:
        require_text(self, "name", "value")


@dataclass(frozen=True, kw_only=True)
class PointRow:
    """One thing to look at, how it is when good and how when bad."""

    name: str
    good: str
    bad: str

    def __post_init__(self) -> None:
        require_text(self, "name", "good", "bad")


@dataclass(frozen=True, kw_only=True)
class CautionRow:
    """One caution, and the public rules it reminds of; empty where none is named."""

    sentence: str
    rules: str

    def __post_init__(self) -> None:
        require_text(self, "sentence")


@dataclass(frozen=True, kw_only=True)
class PullProof:
    """What the pulls show. ``mark``: good, caution or bad; ``more``: what more pulls would do,
    empty once proven; ``minimum``: the least pull, whose it is and its source."""

    mark: str
    sentence: str
    more: str
    modes: tuple[ModeRow, ...]
    others: tuple[Told, ...]
    minimum: str

    def __post_init__(self) -> None:
        require_text(self, "sentence", "minimum")
        require_mark(self, self.mark)


@dataclass(frozen=True, kw_only=True)
class PhotographPrint:
    """A photograph wrapped as a drawing (``pictures.photograph_svg``); ``mark``: good or bad."""

    mark: str
    caption: str
    photograph_svg: str

    def __post_init__(self) -> None:
        require_text(self, "caption", "photograph_svg")
        require_mark(self, self.mark)


@dataclass(frozen=True, kw_only=True)
class RevisionRow:
    """One revision of the set-up: its letter, its state, when it was drafted and approved."""

    letter: str
    state: str
    drafted: str
    approved: str

    def __post_init__(self) -> None:
        require_text(self, "letter", "state", "drafted")


@dataclass(frozen=True, kw_only=True)
class SetUpPaper:
    """The whole sheet. ``code`` is what its QR code says: set-up and revision, as a person would
    type them.

    ``state_mark``: good for a released revision, else what the pages show. ``released`` False:
    every page says so. ``missing`` stand between this revision and the state ``missing_for``.
    ``order_told``: whose order it is where a revision lays one down; ``operations`` in that order
    where the steps are in the shop's own words.
    Empty text or no rows: this end has no such thing, and its heading is left out; what is not
    given yet is said by ``missing``. Drawings are in mm of paper and printed at their own size.
    """

    mark: SheetMark
    code: str
    cable: str
    connector: str
    state: str
    state_mark: str
    released: bool
    lead: str
    block: tuple[Figure, ...]
    missing_for: str
    missing: tuple[str, ...]
    strip_svg: str
    strip_true_svg: str
    check_bar_svg: str
    strip_rows: tuple[StripRow, ...]
    threaded_first: str
    steps: tuple[str, ...]
    order_told: str
    operations: tuple[str, ...]
    machines: tuple[Figure, ...]
    blades: tuple[BladePrint, ...]
    strip_told: tuple[Told, ...]
    crimps: tuple[CrimpPrint, ...]
    tip: TipPrint | None
    weld: WeldPrint | None
    measured: tuple[MeasuredRow, ...]
    measured_told: tuple[Told, ...]
    section_svg: str
    bend_told: tuple[Told, ...]
    body_told: str
    pulls: PullProof | None
    points: tuple[PointRow, ...]
    points_source: str
    cautions: tuple[CautionRow, ...]
    cautions_note: str
    photographs: tuple[PhotographPrint, ...]
    revisions: tuple[RevisionRow, ...]
    moves: tuple[str, ...]

    def __post_init__(self) -> None:
        require_text(self, "code", "cable", "connector", "state", "lead")
        require_mark(self, self.state_mark)
        if not self.revisions:
            raise BadValue(
                owner="SetUpPaper", field="revisions", value=(), accepted="its own at least"
            )
