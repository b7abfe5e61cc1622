"""What is known of the cable in hand: its lot as measured where it was, else the data sheet."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.physics.spread import BOOK_DELAY_SPREAD
from reelwright.core.quantities.guard import require_positive
from reelwright.core.verdicts import Basis, Source


@dataclass(frozen=True, kw_only=True)
class KnownDelay:
    """Delay [s/m] with its relative standard uncertainty [1] and where it comes from."""

    delay_s_per_m: float
    relative_uncertainty: float
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "delay_s_per_m", "relative_uncertainty")


def require_lot_of(cable: Cable, lot: Lot | None) -> None:
    """Raise BadValue where ``lot`` is a lot of another cable."""
    if lot is not None and lot.cable_code != cable.code:
        raise BadValue(
            owner="Lot", field="cable_code", value=lot.cable_code, accepted=f"{cable.code!r}"
        )


def known_delay(cable: Cable, lot: Lot | None) -> KnownDelay | None:
    """Return the delay of the lot, else of the data sheet; None where neither states one.

    Raises BadValue where the lot is of another cable.
    """
    require_lot_of(cable, lot)
    if lot is not None and lot.delay_s_per_m is not None:
        return KnownDelay(
            delay_s_per_m=lot.delay_s_per_m,
            relative_uncertainty=lot.delay_relative_uncertainty or BOOK_DELAY_SPREAD,
            source=Source(text=f"delay measured on lot {lot.code}", basis=Basis.OWN_SHOP),
        )
    if cable.sheet.delay_s_per_m is None:
        return None
    return KnownDelay(
        delay_s_per_m=cable.sheet.delay_s_per_m,
        relative_uncertainty=BOOK_DELAY_SPREAD,
        source=cable.sheet.source,
    )
