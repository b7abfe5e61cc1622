"""Which set-ups a cavity serves, and what it would do to each as wide as it measures today."""

from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.ends.dies.cavities import Cavity, CavityUse
from reelwright.core.ends.dies.cavity_choice import Window
from reelwright.core.ends.fit.grip import ferrule_window_m, pin_window_m
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Outcome
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.setups.selectors import standing_set_ups
from reelwright.shop.setups.sheet import SetUpSheet

_SAME_M = 0.005e-3


@dataclass(frozen=True, kw_only=True)
class CavityUseRow:
    """One set-up that names the cavity's width, and how its width today lies in the window."""

    name: str
    code: str
    letter: str
    pair: str
    state: str
    outcome: Outcome
    told: str


def cavity_uses(cavities: Iterable[Cavity]) -> dict[str, tuple[CavityUseRow, ...]]:
    """Return, for each cavity by its code, the set-ups that count and name its width, worst first.

    What no set-up names has none.
    """
    known_cables, known_connectors = cables(), connectors()
    standing = standing_set_ups()
    found: dict[str, tuple[CavityUseRow, ...]] = {}
    for cavity in cavities:
        of = pin_window_m if cavity.use is CavityUse.PIN else ferrule_window_m
        rows = [
            _row(cavity, sheet, of(known_cables[pair[0]], known_connectors[pair[1]]))
            for pair, sheet in standing.items()
            if _names_width(sheet, cavity)
        ]
        found[cavity.code] = tuple(sorted(rows, key=lambda row: (-row.outcome.rank, row.code)))
    return found


def _row(cavity: Cavity, sheet: SetUpSheet, window_m: tuple[float, float] | None) -> CavityUseRow:
    outcome, told = _told(cavity, window_m)
    return CavityUseRow(
        name=sheet.name,
        code=sheet.code,
        letter=sheet.letter,
        pair=f"{sheet.cable_code} in {sheet.connector_code}",
        state=str(sheet.state),
        outcome=outcome,
        told=told,
    )


def _names_width(sheet: SetUpSheet, cavity: Cavity) -> bool:
    numbers = sheet.numbers
    die_mm = numbers.pin_die_mm if cavity.use is CavityUse.PIN else numbers.ferrule_die_mm
    return die_mm is not None and abs(float(die_mm) / 1e3 - cavity.engraved_m) <= _SAME_M


def _told(cavity: Cavity, ends: tuple[float, float] | None) -> tuple[Outcome, str]:
    if ends is None:
        return Outcome.NOT_COMPUTED, "the drawing does not give all of this crimp: not computed"
    window, width_m = Window(smallest_m=ends[0], largest_m=ends[1]), cavity.across_flats_m
    off_m = window.off_m(width_m)
    if off_m > 0:
        return (
            Outcome.BAD,
            f"too wide by {show_dimension(off_m, decimals=3)}: the loosest is not gripped, "
            f"{show_dimension(window.largest_m, decimals=3)} is the most",
        )
    if off_m < 0:
        return (
            Outcome.CAUTION,
            f"narrower by {show_dimension(-off_m, decimals=3)} than spares the tightest, "
            f"{show_dimension(window.smallest_m, decimals=3)}",
        )
    spare_m = window.largest_m - width_m
    return (
        Outcome.GOOD,
        f"grips the loosest up to {show_dimension(window.largest_m, decimals=3)}: it may wear by "
        f"{show_dimension(spare_m, decimals=3)}",
    )
