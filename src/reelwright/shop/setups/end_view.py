"""What drawing and order of work need of a set-up and its cable, for every page and paper."""

from decimal import Decimal

from reelwright.core.ends.fit.compatibility import Dies
from reelwright.core.ends.order.steps import EndSetUp
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Method
from reelwright.drawings.end import EndView
from reelwright.shop.catalogue.selectors import cable_terms
from reelwright.shop.setups.sheet import Numbers, SetUpSheet
from reelwright.shop.setups.to_core import strip_laid_down, strip_value


def jacket_letters(cable: Cable) -> str:
    """Return the letters of the first colour stocked; black where none is."""
    return next(iter(cable_terms()[cable.code].colours), "BK")


def end_view(sheet: SetUpSheet, cable: Cable) -> EndView | None:
    """Return what is drawn of the end; ``None`` while the set-up has no strip dimensions."""
    strip = strip_value(sheet)
    if strip is None:
        return None
    return EndView(title=sheet.name, cable=cable, strip=strip, jacket=jacket_letters(cable))


def end_set_up(method: Method, numbers: Numbers, cable: Cable) -> EndSetUp:
    """Return what numbers say of one end's making; its strip is None while they lack any of it."""
    return EndSetUp(
        method=method,
        strip=strip_laid_down(method, numbers),
        boot=cable.family is Family.COAX,
        program=numbers.program or None,
        pin_die=_engraved(numbers.pin_die_mm),
        ferrule_die=_engraved(numbers.ferrule_die_mm),
    )


def end_dies(sheet: SetUpSheet) -> Dies:
    """Return the hexagons that a sheet names, in metres."""
    pin_mm, ferrule_mm = sheet.numbers.pin_die_mm, sheet.numbers.ferrule_die_mm
    return Dies(
        pin_across_flats_m=None if pin_mm is None else float(pin_mm) / 1e3,
        ferrule_across_flats_m=None if ferrule_mm is None else float(ferrule_mm) / 1e3,
    )


def _engraved(die_mm: Decimal | None) -> str | None:
    return None if die_mm is None else f"{die_mm:.2f}"
