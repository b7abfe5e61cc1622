"""What a finished coax run sends back at its ends, against what equipment may send back itself.

Each end is a short section within the class of its connector, and a step to the impedance of the
cable; what the far end sends back has passed the run twice. Where every joint lies is not known to
a fraction of a wavelength, so the phases are not either: the worst that they allow, and what is
typical where they fall at random.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.parts.impedance import impedance_class
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.mismatch import (
    Mismatch,
    ReflectionBounds,
    bounds,
    short_section_reflection,
)
from reelwright.core.physics.reflection import reflection_of_step
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_in
from reelwright.core.quantities.show_scaled import show_frequency_hz
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

SECTION_M = 30e-3
"""Length [m] of a mated plug and socket from cable to circuit (common practice)."""

SECTION_VELOCITY = 0.70
"""Velocity factor [1] in the plug's solid fluoropolymer, 1/√2.05 (common practice)."""

SECTION_DELAY_S = SECTION_M / (SECTION_VELOCITY * SPEED_OF_LIGHT_M_PER_S)
"""Delay [s] of the section: a quarter wave near 1.7 GHz."""

CHECK_NAME = "return loss of the finished run"
_LOWEST_HZ = 5e6
_POINTS = 16
# A reflection of nothing at all has no figure in decibels.
_LEAST_REFLECTION = 1e-6


@dataclass(frozen=True, kw_only=True)
class EquipmentRule:
    """The least return loss [dB] asked of a device up to ``highest_hz`` [Hz], by rising steps."""

    steps: tuple[tuple[float, float], ...]
    source: Source

    def __post_init__(self) -> None:
        tops = [top for top, _ in self.steps]
        if not tops or tops != sorted(tops) or any(limit <= 0 for _, limit in self.steps):
            raise BadValue(
                owner="EquipmentRule",
                field="steps",
                value=self.steps,
                accepted="rising frequencies, each with a return loss above zero",
            )

    def limit_db(self, frequency_hz: float) -> float:
        """Return what is asked [dB] at ``frequency_hz`` [Hz]; beyond the last step the last one."""
        return next((limit for top, limit in self.steps if frequency_hz <= top), self.steps[-1][1])


@dataclass(frozen=True, kw_only=True)
class SentBack:
    """What comes back at the frequency that has least to spare against the rule."""

    frequency_hz: float
    reflections: ReflectionBounds
    limit_db: float

    def __post_init__(self) -> None:
        require_positive(self, "frequency_hz", "limit_db")

    @property
    def margin_db(self) -> float:
        """What the worst case leaves [dB]."""
        return self.reflections.worst_return_loss_db - self.limit_db


def sent_back(
    run: Run, rule: EquipmentRule, *, nominal_ohm: float, highest_hz: float
) -> SentBack | None:
    """Return what the run sends back from 5 MHz to ``highest_hz`` [Hz], seen on ``nominal_ohm``.

    Adapters inside the run are taken as standing right behind the near end, the worst place. None
    where impedance or loss of the cable is not known, or an end is made to no impedance. Raises
    BadValue for a band that is none.
    """
    if not highest_hz > _LOWEST_HZ:
        raise BadValue(
            owner="sent_back", field="highest_hz", value=highest_hz, accepted="above 5e6"
        )
    known = known_loss(run.cable, run.lot)
    line = known_value(run.cable, run.lot, Stated.IMPEDANCE)
    near, far = (end.impedance_ohm for end in run.connectors)
    if not isinstance(known, KnownLoss) or line is None or near is None or far is None:
        return None
    if known.line.lowest_hz > _LOWEST_HZ:
        return None
    step = abs(reflection_of_step(impedance_ohm=line.value, line_ohm=nominal_ohm))
    frequencies = _frequencies(rule, highest_hz)
    losses = _losses(known, frequencies, run.temperature_celsius) * run.length.mean_m
    found = []
    for frequency, loss in zip(frequencies, losses, strict=True):
        beginnings = [_section(near, nominal_ohm, frequency)]
        beginnings += [_section(nominal_ohm, nominal_ohm, frequency)] * run.adapters + [step]
        endings = [step, _section(far, nominal_ohm, frequency)]
        row = [Mismatch(own_reflection=one, loss_before_db=0.0) for one in beginnings]
        row += [Mismatch(own_reflection=one, loss_before_db=float(loss)) for one in endings]
        found.append(
            SentBack(
                frequency_hz=frequency, reflections=bounds(row), limit_db=rule.limit_db(frequency)
            )
        )
    return min(found, key=lambda each: each.margin_db)


@lru_cache(maxsize=64)
def _frequencies(rule: EquipmentRule, highest_hz: float) -> tuple[float, ...]:
    even = {float(one) for one in np.geomspace(_LOWEST_HZ, highest_hz, _POINTS)}
    # Each step of the rule is tightest at its own top.
    tops = {top for top, _ in rule.steps if _LOWEST_HZ < top < highest_hz}
    return tuple(sorted(even | tops))


@lru_cache(maxsize=1024)
def _losses(known: KnownLoss, frequencies: tuple[float, ...], celsius: float) -> FloatArray:
    return known.loss_db_per_m(np.array(frequencies), temperature_celsius=celsius)


@lru_cache(maxsize=4096)
def _section(own_ohm: float, nominal_ohm: float, frequency_hz: float) -> float:
    """The largest reflection [1] up to that frequency of a section at an edge of its class."""
    allowed = impedance_class(nominal_ohm).same_fraction
    angle = min(2 * math.pi * frequency_hz * SECTION_DELAY_S, math.pi / 2)
    edges = (own_ohm * (1 - allowed), own_ohm * (1 + allowed))
    return max(
        _LEAST_REFLECTION,
        *(
            float(
                np.abs(
                    short_section_reflection(
                        section_ohm=edge, line_ohm=nominal_ohm, angle_rad=angle
                    )
                )
            )
            for edge in edges
        ),
    )


def return_loss_check(
    run: Run, rule: EquipmentRule, *, nominal_ohm: float, highest_hz: float
) -> tuple[Check, ...]:
    """Return the check of the return loss; it only informs, and is left out where not known."""
    found = sent_back(run, rule, nominal_ohm=nominal_ohm, highest_hz=highest_hz)
    if found is None:
        return ()
    worst, typical = (
        show_in(each, "dB", decimals=0)
        for each in (
            found.reflections.worst_return_loss_db,
            found.reflections.typical_return_loss_db,
        )
    )
    allowed = show_in(impedance_class(nominal_ohm).same_fraction * 100, "%", decimals=0)
    good = found.margin_db >= 0
    return (
        Check(
            name=CHECK_NAME,
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"With plugs anywhere within {allowed} of their impedance, what the run sends back "
                f"at {show_frequency_hz(found.frequency_hz, digits=3)} lies {worst} below what is "
                f"sent at worst and {typical} as a rule; a device must keep "
                f"{show_in(found.limit_db, 'dB', decimals=0)} itself"
                + (
                    "."
                    if good
                    else ", so these ends send back more than the devices do. The loss does not "
                    "show that; better matched ends would."
                )
            ),
            source=rule.source,
            value=found.reflections.worst_return_loss_db,
            limit=found.limit_db,
            margin=found.margin_db,
            unit="dB",
        ),
    )


EQUIPMENT_75 = EquipmentRule(
    steps=((1.485e9, 15.0), (3e9, 10.0), (6e9, 7.0), (12e9, 4.0)),
    source=Source(
        text=(
            "return loss asked of serial video equipment: 15 dB to 1.485 GHz, 10 dB to 3 GHz, 7 dB "
            "to 6 GHz, 4 dB to 12 GHz, SMPTE ST 292-1, 424, 2081-1 and 2082-1; plugs 30 mm long, "
            "common practice"
        ),
        basis=Basis.FROM_MEMORY,
    ),
)
"""What the standards of serial video ask of sources and receivers."""
