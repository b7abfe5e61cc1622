"""Composite video: brightness and colour on one coax, without an equaliser."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.physics.terminations import insertion_loss_db
from reelwright.core.physics.two_port import line
from reelwright.core.quantities.show import show_db, show_percent
from reelwright.core.quantities.show_scaled import show_frequency_hz
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.signals.picture_hum import picture_hum_check
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

TOP_HZ = 5.5e6
"""Top [Hz] of the band of brightness."""

COLOUR_HZ = 4.43361875e6
"""The higher of the two colour carriers in use [Hz]: ITU-R BT.1700 (from memory)."""

COLOUR_LIMIT_DB = 0.5
"""Most that colour may fall behind brightness [dB] (common practice)."""

COLOUR_NAME = "colour against brightness"
# Brightness over whole lines: a picture has lines of 64 µs.
_LINE_HZ = 15_625.0
UNEQUALISED = Source(
    text="1 dB at the top of the band, 0.5 dB for critical use, no equaliser",
    basis=Basis.COMMON_PRACTICE,
)
"""Where the loss allowed to analogue video comes from."""

FLAT_INPUT = (
    "An input terminated with 75\u202fΩ that gets the picture flat to the top of its band, "
    "since it has no equaliser."
)
"""What the far end of analogue video needs."""


@dataclass(frozen=True, kw_only=True)
class CompositeVideo(CoaxSignal):
    """Composite video, to 5.5 MHz. A cable is linear: its differential gain and phase are none."""

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return FLAT_INPUT

    @property
    def name(self) -> str:
        """Composite video."""
        return "composite video"

    @property
    def limit(self) -> LossLimit:
        """The loss allowed at the top of the band; the half kept back is for critical use."""
        return LossLimit(frequency_hz=TOP_HZ, limit_db=1.0, guard_db=0.5, source=UNEQUALISED)

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what is doubtful about the loss, how colour falls behind brightness, the hum."""
        return (*super().further_checks(run), *_colour(run), *picture_hum_check(run))


def colour_behind_db(run: Run) -> float | None:
    """Return how much more [dB] is lost at the colour carrier than of a whole line of brightness.

    The run between 75 Ω and 75 Ω, exactly; None where its line is not known down to 15.6 kHz.
    """
    found = line_of_sheet(run.cable, run.lot)
    if not isinstance(found, SheetLine) or found.lowest_hz > _LINE_HZ:
        return None
    whole = line(
        parameters=found.parameters(
            np.array([_LINE_HZ, COLOUR_HZ]), temperature_celsius=run.temperature_celsius
        ),
        length_m=run.length.mean_m,
        reference_ohm=75.0,
    )
    brightness, colour = insertion_loss_db(whole, source_ohm=75.0, load_ohm=75.0)
    return float(colour - brightness)


def _colour(run: Run) -> tuple[Check, ...]:
    behind = colour_behind_db(run)
    if behind is None:
        return ()
    good = behind <= COLOUR_LIMIT_DB
    paler = show_percent(1 - 10 ** (-behind / 20))
    return (
        Check(
            name=COLOUR_NAME,
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"Colour at {show_frequency_hz(COLOUR_HZ, digits=3)} falls {show_db(behind)} "
                f"behind brightness, which makes it {paler} paler"
                + (
                    "; a cable is linear, so dark and bright parts alike (no differential gain)."
                    if good
                    else f"; {show_db(COLOUR_LIMIT_DB)} is what goes unseen. A picture with a "
                    "colour control can be set right."
                )
            ),
            source=Source(
                text="colour at most 0.5 dB behind brightness", basis=Basis.COMMON_PRACTICE
            ),
            value=behind,
            limit=COLOUR_LIMIT_DB,
            margin=COLOUR_LIMIT_DB - behind,
            unit="dB",
        ),
    )
