"""Beside the treble of a balanced line: its phantom supply, and the noise its screen lets in.

Both are told only where the resistances they need are known; neither takes back what the treble
allows because a figure is missing.
"""

import numpy as np

from reelwright.core.parts.cable import Cable
from reelwright.core.physics.audio import hum_v
from reelwright.core.physics.balanced_line import LegUnbalance, PhantomSupply
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.quantities.show import show_both, show_in, show_percent
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.direct_current import warm_conductor_ohm_per_m, warm_screen_ohm_per_m
from reelwright.core.signals.hum import CONTACT_OHM, EarthCurrent
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

PHANTOM = PhantomSupply(supply_v=48.0, feed_ohm=6.81e3)
"""Phantom supply of 48 V through 6.81 kΩ each leg: IEC 61938, from memory."""

PHANTOM_LOWEST = PhantomSupply(supply_v=44.0, feed_ohm=6.81e3)
"""The same at the lower end of its tolerance, 48 V ± 4 V: IEC 61938, from memory."""

MICROPHONE_A = 10e-3
"""Largest current [A] of a microphone on it: IEC 61938, from memory."""

NOISE_LIMIT_DB = -80.0
"""Loudest mains noise [dB] against the signal (common practice)."""

LEG_RESISTANCE_FRACTION, LEG_CAPACITANCE_FRACTION = 0.02, 0.03
"""How far the legs of a pair differ [1] (common practice, no published source)."""

SOURCE_DIFFERENCE_OHM = 1.0
"""How far the legs of an output differ [Ω] (common practice, no published source)."""

INPUT_OHM = 10e3
"""Each leg of a balanced input to the screen [Ω] (common practice, no published source)."""

_MAINS_HZ = 60.0
_PHANTOM = Source(
    text=(
        "a phantom microphone of 10 mA works at 44 V through 6.81 kΩ on each leg, the least of "
        "48 V ± 4 V, IEC 61938"
    ),
    basis=Basis.FROM_MEMORY,
)
_NOISE = Source(
    text=(
        "noise 80 dB or more below the signal; legs alike to 2 % in resistance and 3 % in "
        "capacitance, output legs to 1 Ω, input 10 kΩ each leg"
    ),
    basis=Basis.COMMON_PRACTICE,
)


STANDING_MICROPHONE = EarthCurrent(
    current_a=0.25e-3,
    why="a microphone that stands free of earth",
    signal_v=2e-3,
    instead="a screen of lower resistance lets less in",
)
"""A microphone of 2 mV, earthed through its cable only (common practice)."""

EARTHED_AT_BOTH_ENDS = EarthCurrent(
    current_a=10e-3,
    why="equipment earthed at both ends",
    signal_v=1.23,
    instead="a screen of lower resistance lets less in",
)
"""Line level of 1.23 V between earthed equipment (common practice)."""


def phantom_checks(run: Run) -> tuple[Check, ...]:
    """Return the volts left for the microphone; nothing where a resistance is not known."""
    leg, screen = warm_conductor_ohm_per_m(run), warm_screen_ohm_per_m(run)
    if isinstance(leg, Reason) or screen is None:
        return ()

    def volts(supply: PhantomSupply, length_m: float) -> float:
        return float(
            supply.microphone_v(
                current_a=MICROPHONE_A,
                leg_ohm_per_m=leg,
                screen_ohm_per_m=screen,
                length_m=length_m,
            )
        )

    left, needed = volts(PHANTOM, run.length.mean_m), volts(PHANTOM_LOWEST, 0.0)
    taken = volts(PHANTOM, 0.0) - left
    good = left >= needed
    return (
        Check(
            name="phantom power",
            outcome=Outcome.GOOD if good else Outcome.BAD,
            sentence=(
                f"Of 48\u202fV phantom a microphone that takes "
                f"{show_quantity(MICROPHONE_A, 'A', digits=2)} gets "
                f"{show_in(left, 'V', decimals=1)} behind the feed resistors and the cable, "
                f"which takes {show_quantity(taken, 'V', digits=2)}; it needs "
                f"{show_in(needed, 'V', decimals=1)}"
                + ("." if good else f", so {show_both(run.length.mean_m)} is too far.")
            ),
            source=_PHANTOM,
            value=left,
            limit=needed,
            margin=left - needed,
            unit="V",
        ),
    )


def unbalance_of(
    cable: Cable, *, length_m: float, leg_ohm: float, source_ohm: float
) -> LegUnbalance:
    """Return how far both legs of a run are from alike; legs [Ω], output [Ω] leg to leg."""
    to_rest = known_value(cable, None, Stated.CAPACITANCE_TO_REST)
    capacitance_f = 0.0 if to_rest is None else to_rest.value * length_m
    return LegUnbalance(
        resistance_ohm=SOURCE_DIFFERENCE_OHM + LEG_RESISTANCE_FRACTION * leg_ohm,
        capacitance_f=LEG_CAPACITANCE_FRACTION * capacitance_f,
        source_ohm=source_ohm,
        input_ohm=INPUT_OHM,
    )


def screen_noise_checks(run: Run, earth: EarthCurrent, *, source_ohm: float) -> tuple[Check, ...]:
    """Return the mains noise that the screen lets in; nothing where a resistance is not known.

    At mains frequency what a screen lets through is its resistance: its wall is far thinner than
    the skin depth. ``source_ohm`` [Ω] is the output, leg to leg.
    """
    leg, screen = warm_conductor_ohm_per_m(run), warm_screen_ohm_per_m(run)
    if isinstance(leg, Reason) or screen is None:
        return ()
    length = run.length.mean_m
    both_legs_v = float(
        hum_v(
            current_a=earth.current_a,
            screen_ohm_per_m=screen,
            length_m=length,
            contact_ohm=CONTACT_OHM,
        )
    )
    unbalance = unbalance_of(
        run.cable, length_m=length, leg_ohm=leg * length, source_ohm=source_ohm
    )
    noise_v = both_legs_v * unbalance.converted_ratio(_MAINS_HZ)
    level = float(20 * np.log10(noise_v / earth.signal_v))
    good = level <= NOISE_LIMIT_DB
    below = show_in(-level, "dB", decimals=0)
    return (
        Check(
            name="noise through the screen",
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"{show_quantity(earth.current_a, 'A', digits=2)} of mains current on the "
                f"screen (assumed: {earth.why}) puts {show_quantity(both_legs_v, 'V', digits=2)} "
                f"on both legs alike; legs that differ by "
                f"{show_percent(LEG_RESISTANCE_FRACTION, decimals=0)} make noise of it, {below} "
                "below the signal"
                + (
                    "."
                    if good
                    else f", less than the usual {show_in(-NOISE_LIMIT_DB, 'dB', decimals=0)}: "
                    f"{earth.instead}."
                )
            ),
            source=_NOISE,
            value=level,
            limit=NOISE_LIMIT_DB,
            margin=NOISE_LIMIT_DB - level,
            unit="dB",
        ),
    )
