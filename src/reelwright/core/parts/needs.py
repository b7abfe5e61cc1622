"""What a signal asks of the cable and of both ends, in the words of conductors and contacts."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count, require_given


@dataclass(frozen=True, kw_only=True)
class SignalNeeds:
    """What must be there before any loss is worth computing.

    ``legs`` counts the conductors that carry the signal, the screen left out: one for a coax,
    two for a balanced line or a loudspeaker, eight for four data pairs, one light guide for a
    fibre. ``balanced``: two legs alike against the screen. ``phantom_power``: a supply travels on
    both legs and returns on the screen. ``impedance_ohm`` is the nominal class of the line;
    ``None`` where the line is too short against the wavelength for it to matter (audio,
    loudspeakers).
    """

    legs: int
    balanced: bool
    phantom_power: bool
    screen: bool
    impedance_ohm: float | None

    def __post_init__(self) -> None:
        require_count(self, "legs", at_least=1)
        require_given(self, "impedance_ohm")
        if self.balanced and self.legs < 2:
            raise BadValue(
                owner="SignalNeeds",
                field="legs",
                value=self.legs,
                accepted="2 or more, as balanced",
            )
        if self.phantom_power and not (self.balanced and self.screen):
            raise BadValue(
                owner="SignalNeeds",
                field="phantom_power",
                value=True,
                accepted="only with a balanced line and a screen to return on",
            )
