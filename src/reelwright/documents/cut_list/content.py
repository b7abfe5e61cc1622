"""What the person at the reels must see, in the order they walk."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count, require_text
from reelwright.documents.sheet import SheetMark


@dataclass(frozen=True, kw_only=True)
class CutRow:
    """Cuts of one length in a row: the place of the first in the order (from 1), whose they are,
    and one tick for each, named as it is told from its neighbours ("1", "2" … of "O-07").

    A row of one piece has its whole name in ``pieces`` and one tick, which may be empty.
    ``before`` says what comes off between the last row and this one (a flaw), and may be empty.
    """

    before: str
    first: int
    pieces: str
    ticks: tuple[str, ...]
    cut_length: str
    cut_feet: str
    wheel_setting: str

    def __post_init__(self) -> None:
        require_count(self, "first", at_least=1)
        require_text(self, "pieces", "cut_length", "wheel_setting")
        if not self.ticks:
            raise BadValue(
                owner="CutRow", field="ticks", value=(), accepted="a tick for each piece"
            )

    @property
    def last(self) -> int:
        """The place of the last of them."""
        return self.first + len(self.ticks) - 1


@dataclass(frozen=True, kw_only=True)
class CutReel:
    """One reel with its cuts. ``remaining`` is what is on it before the first cut, with spread.

    ``reel_svg`` is the bar drawing. ``remnant`` says what stays, ``remnant_action`` what to do with
    it, ``why`` why this reel was chosen; each may be empty.
    """

    reel: str
    location: str
    lot: str
    cable: str
    colour: str
    colour_letters: str
    remaining: str
    reel_svg: str
    cuts: tuple[CutRow, ...]
    flaws: tuple[str, ...]
    remnant: str
    remnant_action: str
    why: str

    def __post_init__(self) -> None:
        require_text(self, "reel", "lot", "cable", "remaining")


@dataclass(frozen=True, kw_only=True)
class CutList:
    """The day's cuts. ``sentence`` holds the totals ("14 reels, 96 pieces, 0.7 % lost").

    ``lead`` says how good the plan is and what was assumed; ``warnings`` stand before the reels.
    """

    mark: SheetMark
    sentence: str
    lead: str
    warnings: tuple[str, ...]
    reels: tuple[CutReel, ...]

    def __post_init__(self) -> None:
        require_text(self, "sentence")
