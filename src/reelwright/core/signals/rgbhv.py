"""Computer video on five coaxes (red, green, blue and two syncs): loss at half the pixel clock."""

from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_both, show_in, show_plain
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.direct_current import (
    warm_conductor_ohm_per_m,
    warm_screen_ohm_per_m,
)
from reelwright.core.signals.leg_skew import SkewLimit, judge_skew, lots_skew_check
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.signals.picture_hum import picture_hum_check
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

SKEW_LIMIT_PIXELS = 0.25
"""Largest skew between legs in pixel periods [1] (common practice)."""

SYNC_SENT_V, SYNC_NEEDED_V = 2.4, 2.0
"""Least high level sent and needed [V] of transistor-transistor logic (from memory)."""

SYNC_NAME = "level of the syncs"
_SYNC_LOAD_OHM = 75.0
_LOSS_SOURCE = Source(
    text="3 dB at half the pixel clock: beyond it the picture softens visibly",
    basis=Basis.COMMON_PRACTICE,
)
_SKEW_SOURCE = Source(text="a quarter of a pixel between legs", basis=Basis.COMMON_PRACTICE)
_SYNC_SOURCE = Source(
    text="2.4 V sent, 2.0 V needed: levels of transistor-transistor logic, into 75 Ω at worst",
    basis=Basis.FROM_MEMORY,
)


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

    @property
    def skew_limit(self) -> SkewLimit:
        """A quarter of a pixel between legs."""
        pixel_s = 1 / self.pixel_clock_hz
        return SkewLimit(
            limit_s=SKEW_LIMIT_PIXELS * pixel_s,
            of_s=pixel_s,
            of_what="a pixel",
            allowed="the quarter pixel",
            else_seen="colours will fringe",
            source=_SKEW_SOURCE,
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what is doubtful about the loss, the skew that lots may bring, syncs and hum."""
        return (
            *super().further_checks(run),
            *lots_skew_check(run, self.skew_limit),
            *_syncs(run),
            *picture_hum_check(run),
        )

    def judge_skew(self, delays_s: Mapping[str, float]) -> Check:
        """Return whether the legs' delays [s] lie within a quarter pixel; value and limit in [s].

        Raises BadValue for no legs.
        """
        return judge_skew(delays_s, self.skew_limit)


def _syncs(run: Run) -> tuple[Check, ...]:
    """Syncs are logic, not picture: what the resistance leaves of their high level decides."""
    centre, screen = warm_conductor_ohm_per_m(run), warm_screen_ohm_per_m(run)
    if isinstance(centre, Reason) or screen is None:
        return ()
    loop = (centre + screen) * run.length.mean_m
    level = SYNC_SENT_V * _SYNC_LOAD_OHM / (_SYNC_LOAD_OHM + loop)
    good = level >= SYNC_NEEDED_V
    return (
        Check(
            name=SYNC_NAME,
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"Of the {show_plain(SYNC_SENT_V, 'V')} that a sync has at least, "
                f"{show_in(level, 'V', decimals=2)} arrive over {show_both(run.length.mean_m)} in "
                f"a display that terminates it; {show_in(SYNC_NEEDED_V, 'V', decimals=1)} are "
                "needed"
                + (
                    "."
                    if good
                    else ": such a display may lose its hold, one of high input will not."
                )
            ),
            source=_SYNC_SOURCE,
            value=level,
            limit=SYNC_NEEDED_V,
            margin=level - SYNC_NEEDED_V,
            unit="V",
        ),
    )
