"""What the workshop has and knows on one day, as one value: every line is judged against it."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.bench.problem import ChangeOverRule
from reelwright.core.cutting.problem import ReelStock
from reelwright.core.ends.strip.cut_length import WheelCalibration
from reelwright.core.parts.cable import Cable, Family, Lot
from reelwright.core.parts.connector import Connector
from reelwright.shop.catalogue.selectors import CableTerms, ConnectorTerms, Pricing
from reelwright.shop.orders.columns import Vocabulary
from reelwright.shop.reels.selectors import ReelNow
from reelwright.shop.setups.selectors import FamilyTimes
from reelwright.shop.setups.sheet import SetUpSheet


@dataclass(frozen=True, kw_only=True)
class Shelf:
    """Catalogue, released set-ups, stock and rates of one day.

    ``set_ups`` are the released ones by (cable code, connector code), ``unreleased`` the newest of
    the other pairs; ``stock`` is what lies in the rack for a plan, ``reels`` the same for a reader.
    """

    today: dt.date
    cables: Mapping[str, Cable]
    cable_terms: Mapping[str, CableTerms]
    connectors: Mapping[str, Connector]
    connector_terms: Mapping[str, ConnectorTerms]
    set_ups: Mapping[tuple[str, str], SetUpSheet]
    unreleased: Mapping[tuple[str, str], SetUpSheet]
    lots: Mapping[str, Lot]
    reels: tuple[ReelNow, ...]
    stock: tuple[ReelStock, ...]
    family_times: Mapping[Family, FamilyTimes]
    change_over: ChangeOverRule
    pricing: Pricing
    wheel: WheelCalibration
    vocabulary: Vocabulary

    def reels_of(self, cable_code: str, colour: str | None = None) -> tuple[ReelNow, ...]:
        """Return the reels that hold some of a cable, in one colour where it is given."""
        return tuple(
            reel
            for reel in self.reels
            if reel.cable_code == cable_code
            and reel.length_mm > 0
            and (colour is None or reel.colour == colour)
        )

    def colours_in_stock(self, cable_code: str) -> tuple[str, ...]:
        """Return the colours of a cable that lie in the rack, the most metres first."""
        metres: dict[str, int] = {}
        for reel in self.reels_of(cable_code):
            metres[reel.colour] = metres.get(reel.colour, 0) + reel.length_mm
        return tuple(sorted(metres, key=lambda colour: (-metres[colour], colour)))
