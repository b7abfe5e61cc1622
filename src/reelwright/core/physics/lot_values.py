"""What is known of the cable in hand: its lot as measured where it was, else the data sheet."""

import enum
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Lot, LotMeasure
from reelwright.core.physics.spread import (
    BOOK_CAPACITANCE_SPREAD,
    BOOK_DELAY_SPREAD,
    BOOK_IMPEDANCE_SPREAD,
    BOOK_RESISTANCE_SPREAD,
    book_spread_source,
)
from reelwright.core.quantities.guard import require_positive
from reelwright.core.verdicts import Basis, Source


class Stated(enum.StrEnum):
    """A value that sheets state and lots are measured for, by the name of its field."""

    IMPEDANCE = "impedance_ohm"
    DELAY = "delay_s_per_m"
    CAPACITANCE = "capacitance_f_per_m"
    CAPACITANCE_TO_REST = "capacitance_to_rest_f_per_m"
    CONDUCTOR_RESISTANCE = "resistance_conductor_ohm_per_m"
    SCREEN_RESISTANCE = "resistance_screen_ohm_per_m"


_BOOK_SPREAD = {
    Stated.IMPEDANCE: BOOK_IMPEDANCE_SPREAD,
    Stated.DELAY: BOOK_DELAY_SPREAD,
    Stated.CAPACITANCE: BOOK_CAPACITANCE_SPREAD,
    Stated.CAPACITANCE_TO_REST: BOOK_CAPACITANCE_SPREAD,
    Stated.CONDUCTOR_RESISTANCE: BOOK_RESISTANCE_SPREAD,
    Stated.SCREEN_RESISTANCE: BOOK_RESISTANCE_SPREAD,
}
_WORDS = {
    Stated.IMPEDANCE: "impedance",
    Stated.DELAY: "delay",
    Stated.CAPACITANCE: "capacitance",
    Stated.CONDUCTOR_RESISTANCE: "resistance",
    Stated.SCREEN_RESISTANCE: "resistance of the screen",
}


@dataclass(frozen=True, kw_only=True)
class KnownValue:
    """A value in the unit of its field, its relative standard uncertainty [1], its source."""

    value: float
    relative_uncertainty: float
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "value", "relative_uncertainty")


def require_lot_of(cable: Cable, lot: Lot | None) -> None:
    """Raise BadValue where ``lot`` is a lot of another cable."""
    if lot is not None and lot.cable_code != cable.code:
        raise BadValue(
            owner="Lot", field="cable_code", value=lot.cable_code, accepted=f"{cable.code!r}"
        )


def known_value(cable: Cable, lot: Lot | None, what: Stated) -> KnownValue | None:
    """Return a value of the lot, else of the data sheet; None where neither states it.

    Raises BadValue where the lot is of another cable.
    """
    require_lot_of(cable, lot)
    # One core to the rest is measured on no lot: it needs a fixture that clips to every core.
    measured: LotMeasure | None = getattr(lot, what, None)
    if lot is not None and measured is not None:
        return KnownValue(
            value=measured.value,
            relative_uncertainty=measured.relative_uncertainty,
            source=Source(text=f"{_WORDS[what]} measured on lot {lot.code}", basis=Basis.OWN_SHOP),
        )
    stated: float | None = getattr(cable.sheet, what)
    if stated is None:
        return None
    spread = _BOOK_SPREAD[what]
    return KnownValue(
        value=stated,
        relative_uncertainty=spread,
        source=Source(
            text=f"{cable.sheet.source.text}; {book_spread_source(spread)}",
            basis=cable.sheet.source.basis,
        ),
    )
