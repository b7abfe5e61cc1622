"""What is asked of a catalogue: a signal over a length, and the cables there are to carry it."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.length import Length
from reelwright.core.physics.lot_values import require_lot_of
from reelwright.core.quantities.guard import require_count, require_finite
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.space import Place


@dataclass(frozen=True, kw_only=True)
class CatalogueCable:
    """A cable that may be proposed, with every connector that can be put on it.

    ``lot`` is None while no reel is chosen; ``price_per_m`` is None where no price is known, in
    one currency for the whole catalogue. Raises BadValue for a lot of another cable, a connector
    named twice, or a price that is not above zero.
    """

    cable: Cable
    lot: Lot | None
    connectors: tuple[Connector, ...]
    price_per_m: Decimal | None

    def __post_init__(self) -> None:
        require_lot_of(self.cable, self.lot)
        codes = [each.code for each in self.connectors]
        if len(set(codes)) != len(codes):
            raise BadValue(
                owner="CatalogueCable", field="connectors", value=codes, accepted="each code once"
            )
        price = self.price_per_m
        if price is not None and (not price.is_finite() or price <= 0):
            raise BadValue(
                owner="CatalogueCable",
                field="price_per_m",
                value=price,
                accepted="a price above zero, or None",
            )

    def connector(self, codes: Iterable[str]) -> Connector | None:
        """Return the first of ``codes`` that can be put on this cable, or None."""
        here = {each.code: each for each in self.connectors}
        return next((here[code] for code in codes if code in here), None)


@dataclass(frozen=True, kw_only=True)
class Question:
    """A run to be made work: what it carries, how far, where, between which ends, from what.

    ``ends`` holds, for each end, the connector codes that answer to what was asked, the first
    choice first. ``asked`` is the run as it was asked for, or None while no cable is named; it
    has the question's length, temperature [°C] and adapters. ``space`` is None where the place is
    not known. Raises BadValue where these disagree, an end has no code, or a cable stands twice.
    """

    signal: Signal
    length: Length
    temperature_celsius: float
    space: Place | None
    ends: tuple[tuple[str, ...], tuple[str, ...]]
    adapters: int
    catalogue: tuple[CatalogueCable, ...]
    asked: Run | None

    def __post_init__(self) -> None:
        require_finite(self, "temperature_celsius")
        require_count(self, "adapters")
        codes = [each.cable.code for each in self.catalogue]
        if len(set(codes)) != len(codes):
            raise BadValue(
                owner="Question", field="catalogue", value=codes, accepted="each cable once"
            )
        if len(self.ends) != 2 or not all(self.ends):
            raise BadValue(
                owner="Question", field="ends", value=self.ends, accepted="codes for both ends"
            )
        if self.asked is not None:
            self._require_as_asked(self.asked)

    def _require_as_asked(self, asked: Run) -> None:
        for field in ("length", "temperature_celsius", "adapters"):
            if getattr(asked, field) != getattr(self, field):
                raise BadValue(
                    owner="Question",
                    field=field,
                    value=getattr(self, field),
                    accepted=f"that of the run asked for, {getattr(asked, field)!r}",
                )

    @property
    def connectors(self) -> tuple[Connector, ...]:
        """Every connector that can be put on any cable here, each once, by code."""
        found = {each.code: each for entry in self.catalogue for each in entry.connectors}
        return tuple(found[code] for code in sorted(found))

    @property
    def asked_is_there(self) -> bool:
        """Whether the run asked for can be made: its cable is here and takes both its ends."""
        asked = self.asked
        return asked is not None and any(
            entry.cable.code == asked.cable.code
            and all(entry.connector((end.code,)) is not None for end in asked.connectors)
            for entry in self.catalogue
        )
