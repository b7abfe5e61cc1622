"""What one person must see at one station; every text as it is to be read."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count, require_text
from reelwright.documents.sheet import SheetMark
from reelwright.documents.strip_rows import StripRow

CODE_PREFIX = "RW:T:"

STRIP_ROOM_MM = {1: (76.0, 40.0), 2: (63.5, 29.0)}
"""Width and height, in mm, that a strip drawing may take, by the number of ends on the page."""


@dataclass(frozen=True, kw_only=True)
class Die:
    """One die of a termination: what it closes ("pin") and its cavity ("1.60")."""

    closes: str
    cavity: str

    def __post_init__(self) -> None:
        require_text(self, "closes", "cavity")


@dataclass(frozen=True, kw_only=True)
class PinRow:
    """One way through the cable: contact at end A, conductor, contact at end B."""

    end_a: str
    conductor: str
    end_b: str

    def __post_init__(self) -> None:
        require_text(self, "end_a", "conductor", "end_b")


@dataclass(frozen=True, kw_only=True)
class TravellerEnd:
    """How one end is made, or both when ``which`` says "A and B".

    ``strip_svg`` is the strip drawing in millimetres of paper, printed at its own size when it is
    within ``STRIP_ROOM_MM`` (by the number of ends on the traveller), else shrunk, and the sheet
    says so; ``strip_rows`` are its figures in mm; ``strip_text`` is for figures that no drawing
    shows. Empty text: this end has no such thing (a soldered end has no die, no program); "not
    computed" is said, never left empty.
    """

    which: str
    connector: str
    setup: str
    revision: str
    strip_svg: str
    strip_text: str
    strip_rows: tuple[StripRow, ...]
    program: str
    blade_set: str
    dies: tuple[Die, ...]
    expected_height: str
    minimum_pull: str
    order_of_work: tuple[str, ...]

    def __post_init__(self) -> None:
        require_text(self, "which", "connector", "setup", "revision")


@dataclass(frozen=True, kw_only=True)
class Traveller:
    """One order line at one set-up. The customer appears as a number only.

    ``sources`` are the reels with their lots and places ("R-115 · lot L2405 · rack B4").
    """

    number: str
    order: str
    line: str
    customer_number: str
    due: str
    quantity: int
    cable: str
    colour: str
    colour_letters: str
    sources: tuple[str, ...]
    wheel_setting: str
    cut_length: str
    cut_feet: str
    finished_length: str
    finished_feet: str
    tolerance: str
    ends: tuple[TravellerEnd, ...]
    pin_map: tuple[PinRow, ...]
    cautions: tuple[str, ...]
    serials: tuple[str, ...]
    label_text: tuple[str, ...]
    first_article: tuple[str, ...]
    sign_for: tuple[str, ...]

    def __post_init__(self) -> None:
        require_text(self, "number", "order", "line", "cable", "wheel_setting", "cut_length")
        require_text(self, "finished_length")
        require_count(self, "quantity", at_least=1)
        if len(self.ends) not in (1, 2):
            raise BadValue(
                owner="Traveller", field="ends", value=len(self.ends), accepted="one or two ends"
            )

    @property
    def code(self) -> str:
        """What its QR code says."""
        return f"{CODE_PREFIX}{self.number}"


@dataclass(frozen=True, kw_only=True)
class Travellers:
    """All travellers of a day, in the order they are worked; ``mark.code`` names the stack."""

    mark: SheetMark
    travellers: tuple[Traveller, ...]

    def __post_init__(self) -> None:
        if not self.travellers:
            raise BadValue(
                owner="Travellers", field="travellers", value=(), accepted="one or more travellers"
            )
