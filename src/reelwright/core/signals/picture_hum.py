"""Hum bars in an analogue picture: a mains current on the screen of a long run."""

import math

from reelwright.core.physics.audio import hum_v
from reelwright.core.quantities.show import show_both, show_in
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.direct_current import warm_screen_ohm_per_m
from reelwright.core.signals.hum import CONSUMER_LINE, CONTACT_OHM
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

CHECK_NAME = "hum in the picture"
PICTURE_V = 0.7
"""Level [V] from black to white into 75 Ω: ITU-R BT.470 and BT.1700 (from memory)."""

LIMIT_DB = 50.0
"""Hum, peak to peak, this far [dB] below black to white is not seen (common practice)."""


def picture_hum_check(run: Run) -> tuple[Check, ...]:
    """Return how far the hum lies below the picture [dB]; nothing where the screen is not known."""
    screen = warm_screen_ohm_per_m(run)
    if screen is None:
        return ()
    current = CONSUMER_LINE.current_a
    rms_v = hum_v(
        current_a=current,
        screen_ohm_per_m=screen,
        length_m=run.length.mean_m,
        contact_ohm=CONTACT_OHM,
    )
    below = 20 * math.log10(PICTURE_V / (2 * math.sqrt(2) * float(rms_v)))
    good = below >= LIMIT_DB
    return (
        Check(
            name=CHECK_NAME,
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"With {show_quantity(current, 'A', digits=2)} of mains current on its screen "
                f"(assumed: {CONSUMER_LINE.why}), {show_both(run.length.mean_m)} put hum bars "
                f"{show_in(below, 'dB', decimals=0)} below the picture; "
                f"{show_in(LIMIT_DB, 'dB', decimals=0)} are not seen. "
                + (
                    "Two devices that are both earthed can drive far more: then an isolating "
                    "transformer helps, no cable does."
                    if good
                    else "A heavier screen hums less, and so does an isolating transformer."
                )
            ),
            source=Source(
                text="hum 50 dB or more below black to white", basis=Basis.COMMON_PRACTICE
            ),
            value=below,
            limit=LIMIT_DB,
            margin=below - LIMIT_DB,
            unit="dB",
        ),
    )
