"""What the nominal ohms of a loudspeaker hide: its lowest impedance, damping, and its response.

A "4 Ω" box may fall to 3.2 Ω, and there a cable takes a quarter more than at its nominal ohms.
"""

import math
from dataclasses import dataclass

import numpy as np

from reelwright.core.physics.driver import Driver, audio_frequencies_hz, response_error_db
from reelwright.core.physics.loudspeaker import damping_factor, level_loss_db
from reelwright.core.physics.loudspeaker_pair import loudspeaker_pair_ohm_per_m
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import (
    show_both,
    show_both_whole,
    show_change_db,
    show_db,
    show_digits,
    show_in,
    show_plain,
    with_unit,
)
from reelwright.core.quantities.show_scaled import show_frequency_hz
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

LOWEST_FRACTION = 0.8
"""Lowest impedance over nominal [1] that is allowed: IEC 60268-5, from memory."""

USUAL_DRIVER = Driver(
    coil_ohm=6.0, coil_henry=0.5e-3, resonance_hz=60.0, mechanical_q=5.0, electrical_q=0.5
)
"""A usual woofer in its box, for 8 Ω (common practice, no published source)."""

AMPLIFIER_OHM = 0.04
"""Output resistance [Ω] of an amplifier, 8 Ω over a damping of 200 (common practice)."""

LEAST_DAMPING = 10.0
"""Above this damping factor [1] its coil's own resistance rules (common practice)."""

RESPONSE_LIMIT_DB = 0.5
"""Largest unevenness [dB] a cable may add (common practice)."""

_LOWEST = Source(
    text="loop at most 5 % of the lowest impedance, 80 % of the nominal one after IEC 60268-5",
    basis=Basis.FROM_MEMORY,
)
_DAMPING = Source(text="damping factor of 10 or more", basis=Basis.COMMON_PRACTICE)
_RESPONSE = Source(
    text="unevenness of at most 0.5 dB from 20 Hz to 20 kHz", basis=Basis.COMMON_PRACTICE
)


@dataclass(frozen=True, kw_only=True)
class LoudspeakerLoad:
    """A loudspeaker's impedance: ``driver``, its lowest [Ω], and whether each was stated."""

    driver: Driver
    lowest_ohm: float
    lowest_stated: bool
    driver_stated: bool

    def __post_init__(self) -> None:
        require_positive(self, "lowest_ohm")


def load_of(
    *, nominal_ohm: float, lowest_ohm: float | None, driver: Driver | None
) -> LoudspeakerLoad:
    """Return the load from what was stated; the rest is assumed.

    Without a curve: a usual woofer, all of its impedances in proportion so that it falls to the
    lowest [Ω]. Without a lowest: that of the curve, or 80 % of the nominal [Ω].
    """
    if driver is not None:
        return LoudspeakerLoad(
            driver=driver,
            lowest_ohm=lowest_ohm or driver.lowest_ohm,
            lowest_stated=True,
            driver_stated=True,
        )
    lowest = lowest_ohm or LOWEST_FRACTION * nominal_ohm
    return LoudspeakerLoad(
        driver=USUAL_DRIVER.scaled(lowest / USUAL_DRIVER.lowest_ohm),
        lowest_ohm=lowest,
        lowest_stated=lowest_ohm is not None,
        driver_stated=False,
    )


def lowest_checks(
    run: Run, load: LoudspeakerLoad, *, loop_ohm: float, fraction: float
) -> tuple[Check, ...]:
    """Return the level lost where the impedance is lowest, against ``fraction`` [1] of it.

    A caution at most, since the lowest impedance is assumed; nothing where it was stated, as the
    loudspeaker is then judged there in the first place.
    """
    if load.lowest_stated:
        return ()
    limit = 20 * math.log10(1 + fraction)
    lost = float(level_loss_db(loop_ohm=loop_ohm, nominal_ohm=load.lowest_ohm))
    good = lost <= limit
    least = show_digits(load.lowest_ohm, digits=2 if load.lowest_ohm < 10 else 3)
    longest_m = fraction * load.lowest_ohm / loop_ohm * run.length.mean_m
    return (
        Check(
            name="level at its lowest impedance",
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"Where its impedance is lowest, {with_unit(least, 'Ω')} (assumed: the least that "
                f"a loudspeaker should have), it gets {show_db(lost)} less"
                + (
                    "."
                    if good
                    else f", more than the usual {show_db(limit)}; this cable keeps that up to "
                    f"{show_both_whole(longest_m)}."
                )
            ),
            source=_LOWEST,
            value=lost,
            limit=limit,
            margin=limit - lost,
            unit="dB",
        ),
    )


def judge_damping(nominal_ohm: float, *, loop_ohm: float) -> Check:
    """Return the damping factor at the loudspeaker [1]."""
    damping = damping_factor(
        loop_ohm=loop_ohm, amplifier_ohm=AMPLIFIER_OHM, nominal_ohm=nominal_ohm
    )
    good = damping >= LEAST_DAMPING
    return Check(
        name="damping factor",
        outcome=Outcome.GOOD if good else Outcome.CAUTION,
        sentence=(
            f"The damping factor at the loudspeaker is {show_in(damping, '', decimals=0)} with an "
            f"amplifier of {show_plain(AMPLIFIER_OHM, 'Ω')} (assumed); above "
            f"{LEAST_DAMPING:g} its coil's own resistance decides"
            + ("." if good else ", below it the bass may sound loose.")
        ),
        source=_DAMPING,
        value=damping,
        limit=LEAST_DAMPING,
        margin=damping - LEAST_DAMPING,
        unit="1",
    )


def response_checks(run: Run, load: LoudspeakerLoad) -> tuple[Check, ...]:
    """Return how uneven the cable makes the response; nothing where its inductance is not known."""
    per_metre = loudspeaker_pair_ohm_per_m(run.cable, run.lot, run.temperature_celsius)
    if per_metre is None:
        return ()
    frequency = audio_frequencies_hz()
    error = response_error_db(
        cable_ohm=per_metre * run.length.mean_m, load_ohm=load.driver.impedance_ohm(frequency)
    )
    span = float(np.ptp(error))
    good = span <= RESPONSE_LIMIT_DB
    whose = (
        "its stated impedance curve"
        if load.driver_stated
        else "the impedance curve of a usual woofer (assumed)"
    )
    lowest = show_frequency_hz(float(frequency[int(np.argmin(error))]), digits=2)
    return (
        Check(
            name="evenness of the response",
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"Into {whose}, {show_both(run.length.mean_m)} of {run.cable.code} changes the "
                f"level by {show_change_db(float(error.min()))} at {lowest} and by "
                f"{show_change_db(float(error.max()))} where it takes least, an unevenness of "
                f"{show_db(span)}"
                + (
                    ": nobody will hear it."
                    if good
                    else f", more than the {show_plain(RESPONSE_LIMIT_DB, 'dB')} usually allowed."
                )
            ),
            source=_RESPONSE,
            value=span,
            limit=RESPONSE_LIMIT_DB,
            margin=RESPONSE_LIMIT_DB - span,
            unit="dB",
        ),
    )
