"""The category that a cable's stated values bear out, as far as a data sheet can show one.

Loss, impedance and resistance are on a sheet; crosstalk is not, so this is never proof of a
category. It only says which category the stated values do not contradict.
"""

from dataclasses import dataclass

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.sheet_line import loss_points_in_hand
from reelwright.core.quantities.show import show_in, show_plain
from reelwright.core.quantities.show_scaled import show_loss_per_100m, show_megahertz
from reelwright.core.signals.category.cable import (
    CONDUCTOR_OHM_PER_M,
    CORD_CONDUCTOR_OHM_PER_M,
    LENGTH_M,
    LOWEST_HZ,
    Category,
    insertion_loss_db,
)
from reelwright.core.signals.category.cords import STRANDED_MORE

NOMINAL_OHM = 100.0
"""Impedance [Ω] of every category."""

IMPEDANCE_TOLERANCE = 0.15
"""How far the impedance may lie from it [1]. From memory: TIA-568.2-D."""

# Sheets print losses to a tenth of a decibel in 100 m.
_ROUNDING_DB_PER_M = 0.05 / LENGTH_M


@dataclass(frozen=True, kw_only=True)
class CategoryShown:
    """``category`` is the highest that the values bear out, None where they bear out none.

    ``against`` says what stands against the next one, empty where there is none higher.
    """

    category: Category | None
    against: str


def category_shown(cable: Cable, lot: Lot | None) -> CategoryShown:
    """Return the category that the values in hand bear out, lot before sheet.

    The stated losses must reach up to the category's highest frequency and stay, at every one of
    them, within its cable (a fifth more where stranded), and impedance and resistance where stated
    within theirs.
    """
    best, against = None, ""
    for category in Category:
        against = _against(category, cable, lot)
        if against:
            break
        best = category
    return CategoryShown(category=best, against=against)


def _against(category: Category, cable: Cable, lot: Lot | None) -> str:
    impedance = known_value(cable, lot, Stated.IMPEDANCE)
    if impedance and abs(impedance.value / NOMINAL_OHM - 1) > IMPEDANCE_TOLERANCE:
        return (
            f"its impedance is {show_in(impedance.value, 'Ω', decimals=0)}, and a category asks "
            f"for {show_plain(NOMINAL_OHM, 'Ω')} within 15\u202f%"
        )
    resistance = known_value(cable, lot, Stated.CONDUCTOR_RESISTANCE)
    allowed = CONDUCTOR_OHM_PER_M if cable.solid_conductor else CORD_CONDUCTOR_OHM_PER_M
    if resistance and resistance.value > allowed:
        return (
            f"a conductor has {show_in(1e3 * resistance.value, 'Ω/km', decimals=0)}, and a "
            f"category asks for {show_in(1e3 * allowed, 'Ω/km', decimals=0)} or less"
        )
    stated = loss_points_in_hand(cable, lot)
    points = [each for each in stated if LOWEST_HZ <= each.frequency_hz <= category.highest_hz]
    factor = 1.0 if cable.solid_conductor else 1 + STRANDED_MORE
    for point in points:
        most = factor * float(insertion_loss_db(category, point.frequency_hz)) / LENGTH_M
        if point.loss_db_per_m > most + _ROUNDING_DB_PER_M:
            return (
                f"it loses {show_loss_per_100m(point.loss_db_per_m, decimals=1)} at "
                f"{show_megahertz(point.frequency_hz)}, and category {category} allows "
                f"{show_loss_per_100m(most, decimals=1)}"
            )
    if not points or stated[-1].frequency_hz < category.highest_hz * (1 - 1e-9):
        top = show_megahertz(stated[-1].frequency_hz) if points else "nowhere"
        return (
            f"category {category} is stated to {show_megahertz(category.highest_hz)}, and losses "
            f"of the cable are known {'to ' if points else ''}{top}"
        )
    return ""
