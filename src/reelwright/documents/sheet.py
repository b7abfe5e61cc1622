"""What stands on every sheet, whichever paper it is."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_text


@dataclass(frozen=True, kw_only=True)
class SheetMark:
    """Who printed the sheet, its code, its date and its revision, each as shown.

    ``date`` is the working day the sheet is for ("Tue 25 Nov 2025"), not the moment of printing.
    """

    workshop: str
    code: str
    date: str
    revision: str

    def __post_init__(self) -> None:
        require_text(self, "workshop", "code", "date", "revision")
