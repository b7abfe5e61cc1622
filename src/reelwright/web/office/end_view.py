"""What the drawing of one end needs of a set-up and its cable, for every page that shows it."""

from reelwright.core.parts.cable import Cable
from reelwright.drawings.end import EndView
from reelwright.shop.catalogue.selectors import cable_terms
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.to_core import strip_value


def jacket_letters(cable: Cable) -> str:
    """Return the letters of the first colour stocked; black where none is."""
    return next(iter(cable_terms()[cable.code].colours), "BK")


def end_view(sheet: SetUpSheet, cable: Cable) -> EndView | None:
    """Return what is drawn of the end; ``None`` while the set-up has no strip dimensions."""
    strip = strip_value(sheet)
    if strip is None:
        return None
    return EndView(title=sheet.name, cable=cable, strip=strip, jacket=jacket_letters(cable))
