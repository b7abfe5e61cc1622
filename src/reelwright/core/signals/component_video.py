"""Component video: brightness and two colour differences on three coaxes, without an equaliser."""

from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.composite_video import FLAT_INPUT, UNEQUALISED
from reelwright.core.signals.leg_skew import SkewLimit, judge_skew, lots_skew_check
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.signals.picture_hum import picture_hum_check
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Source

TOP_HZ = 30e6
"""Top [Hz] of the band in high definition."""

SKEW_LIMIT = SkewLimit(
    limit_s=10e-9,
    of_s=10e-9,
    of_what="what is allowed",
    allowed="the 10\u202fns",
    else_seen="colours will stand beside their edges",
    source=Source(
        text="10 ns between brightness and colour: EBU Tech. N10, studio practice",
        basis=Basis.FROM_MEMORY,
    ),
)
"""Largest skew between the three legs."""


@dataclass(frozen=True, kw_only=True)
class ComponentVideo(CoaxSignal):
    """One leg of component video, to 30 MHz; skew is judged over the three of them."""

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return FLAT_INPUT

    @property
    def name(self) -> str:
        """Component video."""
        return "component video"

    @property
    def limit(self) -> LossLimit:
        """The loss allowed at the top of the band; the half kept back is for critical use."""
        return LossLimit(frequency_hz=TOP_HZ, limit_db=1.0, guard_db=0.5, source=UNEQUALISED)

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what is doubtful about the loss, the skew that lots may bring, the hum."""
        return (
            *super().further_checks(run),
            *lots_skew_check(run, SKEW_LIMIT),
            *picture_hum_check(run),
        )

    def judge_skew(self, delays_s: Mapping[str, float]) -> Check:
        """Return whether the legs' delays [s] lie within 10 ns. Raises BadValue for no legs."""
        return judge_skew(delays_s, SKEW_LIMIT)
