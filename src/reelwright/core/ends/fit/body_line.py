"""What the body of an end sends back by itself: a short line of another impedance in the line."""

import math
from dataclasses import dataclass

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import BodySection, Connector
from reelwright.core.physics.mismatch import short_section_reflection
from reelwright.core.physics.reflection import return_loss_db
from reelwright.core.quantities.guard import require_positive
from reelwright.core.verdicts import Reason

UNSEEN_REFLECTION = 1e-3
"""Below this reflection [1], 60 dB, no bridge of a workshop tells it from none. Common practice, no
published source."""


@dataclass(frozen=True, kw_only=True)
class BodyReflection:
    """The body of an end, without loss, between two lines of ``line_ohm`` [Ω] at ``frequency_hz``.

    Exact, by ``short_section_reflection``. Seen alone: neither the cable's own unevenness nor the
    step from the cable to the body's wires is in it.
    """

    body: BodySection
    line_ohm: float
    frequency_hz: float

    def __post_init__(self) -> None:
        require_positive(self, "line_ohm", "frequency_hz")

    @property
    def return_loss_db(self) -> float | None:
        """The return loss [dB] at the frequency; None where what comes back is not seen."""
        return _return_loss_db(self._reflection(self.frequency_hz))

    @property
    def worst_frequency_hz(self) -> float:
        """Where up to the frequency most comes back [Hz]: at a quarter wave, or at its end.

        What comes back grows with |sin θ| alone, and so up to θ = π/2.
        """
        return min(self.frequency_hz, 1 / (4 * self.body.delay_s))

    @property
    def worst_return_loss_db(self) -> float | None:
        """The least return loss [dB] up to the frequency; None where nothing is seen."""
        return _return_loss_db(self._reflection(self.worst_frequency_hz))

    def _reflection(self, frequency_hz: float) -> float:
        found = short_section_reflection(
            section_ohm=self.body.impedance_ohm,
            line_ohm=self.line_ohm,
            angle_rad=2 * math.pi * frequency_hz * self.body.delay_s,
        )
        return float(abs(found))


def body_reflection(cable: Cable, connector: Connector) -> BodyReflection | Reason:
    """Return what an end's body sends back between two lines of the cable's impedance.

    At the top frequency for which the cable's data sheet gives a loss. A Reason says what is not
    stated: the body's section, the impedance of the cable, a loss at any frequency.
    """
    if connector.body is None:
        return _reason("the drawing gives no body section")
    if cable.sheet.impedance_ohm is None:
        return _reason(f"the sheet of {cable.code} states no impedance")
    if not cable.sheet.loss_points:
        return _reason(f"the sheet of {cable.code} gives no loss, and so no frequency to look at")
    return BodyReflection(
        body=connector.body,
        line_ohm=cable.sheet.impedance_ohm,
        frequency_hz=cable.sheet.loss_points[-1].frequency_hz,
    )


def _return_loss_db(reflection: float) -> float | None:
    return return_loss_db(reflection) if reflection >= UNSEEN_REFLECTION else None


def _reason(sentence: str) -> Reason:
    return Reason(code="body_not_computed", sentence=f"not computed: {sentence}")
