"""Computer video on five coaxes (red, green, blue and two syncs): loss at half the pixel clock."""

from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.physics.delay import skew_s
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_in, show_percent
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.verdicts import Basis, Check, Outcome, Source

SKEW_LIMIT_PIXELS = 0.25
"""Largest skew between legs in pixel periods [1] (common practice)."""

_LOSS_SOURCE = Source(
    text="3 dB at half the pixel clock: beyond it the picture softens visibly",
    basis=Basis.COMMON_PRACTICE,
)
_SKEW_SOURCE = Source(text="a quarter of a pixel between legs", basis=Basis.COMMON_PRACTICE)


@dataclass(frozen=True, kw_only=True)
class RgbhvVideo(CoaxSignal):
    """One leg of an RGBHV set at ``pixel_clock_hz`` [Hz]; skew is judged over the whole set."""

    pixel_clock_hz: float

    def __post_init__(self) -> None:
        require_positive(self, "pixel_clock_hz")

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A display terminated with 75\u202fΩ on every leg that gets half the pixel clock, "
            "with all legs in step."
        )

    @property
    def name(self) -> str:
        """RGBHV with its pixel clock."""
        return f"RGBHV video {self.pixel_clock_hz / 1e6:g} MHz"

    @property
    def limit(self) -> LossLimit:
        """The loss allowed at half the pixel clock."""
        return LossLimit(
            frequency_hz=self.pixel_clock_hz / 2, limit_db=3.0, guard_db=0.0, source=_LOSS_SOURCE
        )

    def judge_skew(self, delays_s: Mapping[str, float]) -> Check:
        """Return whether the legs' delays [s] lie within a quarter pixel; value and limit in [s].

        Raises BadValue for no legs.
        """
        skew, pixel_s = skew_s(delays_s), 1 / self.pixel_clock_hz
        limit = SKEW_LIMIT_PIXELS * pixel_s
        good = skew <= limit
        return Check(
            name="skew between the legs",
            outcome=Outcome.GOOD if good else Outcome.BAD,
            sentence=(
                f"The legs differ by {show_in(skew * 1e12, 'ps', decimals=0)}, which is "
                f"{show_percent(skew / pixel_s)} of a pixel: "
                + (
                    "far too little to see."
                    if skew <= limit / 2
                    else "within the quarter pixel that is allowed."
                    if good
                    else "more than the quarter pixel that is allowed; colours will fringe."
                )
            ),
            source=_SKEW_SOURCE,
            value=skew,
            limit=limit,
            margin=limit - skew,
            unit="s",
        )
