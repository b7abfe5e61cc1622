"""Composite and component analogue video without an equaliser."""

import enum
from dataclasses import dataclass

from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.verdicts import Basis, Source

_SOURCE = Source(
    text="1 dB at the top of the band, 0.5 dB for critical use, no equaliser",
    basis=Basis.COMMON_PRACTICE,
)


class Format(enum.StrEnum):
    """How the picture travels."""

    COMPOSITE = "composite"
    COMPONENT = "component"


_TOP_HZ = {Format.COMPOSITE: 5.5e6, Format.COMPONENT: 30e6}


@dataclass(frozen=True, kw_only=True)
class AnalogueVideo(CoaxSignal):
    """Analogue video; composite reaches to 5.5 MHz, component (high definition) to 30 MHz."""

    format: Format

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "An input terminated with 75\u202fΩ that gets the picture flat to the top of its band, "
            "since it has no equaliser."
        )

    @property
    def name(self) -> str:
        """The format in words."""
        return f"{self.format} video"

    @property
    def limit(self) -> LossLimit:
        """The loss allowed at the top of the band; the half kept back is for critical use."""
        return LossLimit(
            frequency_hz=_TOP_HZ[self.format], limit_db=1.0, guard_db=0.5, source=_SOURCE
        )
