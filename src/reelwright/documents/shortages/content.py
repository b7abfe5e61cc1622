"""The list the buyer takes to the telephone."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_text
from reelwright.documents.sheet import SheetMark


@dataclass(frozen=True, kw_only=True)
class Shortage:
    """One thing missing. ``have`` is what there is of it, or how it stands meanwhile; ``advice``
    says why and what would serve, and may be empty. ``arrives`` is what is on its way, or
    "nothing ordered".
    """

    item: str
    colour: str
    missing: str
    have: str
    orders: tuple[str, ...]
    needed_by: str
    arrives: str
    advice: str

    def __post_init__(self) -> None:
        require_text(self, "item", "missing", "have", "needed_by", "arrives")


@dataclass(frozen=True, kw_only=True)
class Shortages:
    """All that is missing, the most pressing first; none is an answer too."""

    mark: SheetMark
    sentence: str
    lead: str
    shortages: tuple[Shortage, ...]

    def __post_init__(self) -> None:
        require_text(self, "sentence")
