"""How serial data arrives over one run: its eye before and behind an equaliser, at 1e-12.

For runs that are shown; a verdict never waits for it. The cable is its own line between 75 Ω and
75 Ω, with the losses of its joints; noise is that of the receiver of ``serial_reach``.
"""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.eye import samples_of_pattern
from reelwright.core.physics.known_loss import AUDIO_HZ, KnownLoss, known_loss
from reelwright.core.physics.patterns import (
    CLOCK_STRESS,
    EQUALISER_STRESS,
    maximum_length_sequence,
    stress_pattern,
)
from reelwright.core.physics.pulse import Cursors, cursors
from reelwright.core.physics.receiver import Receiver
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.physics.statistical_eye import statistical_eye
from reelwright.core.physics.step import Band
from reelwright.core.physics.terminations import voltage_ratio
from reelwright.core.physics.two_port import line
from reelwright.core.signals.line_loss import joint_loss_db
from reelwright.core.signals.run import Run
from reelwright.core.signals.serial_reach import (
    CORNER_RATIO,
    ERROR_PROBABILITY,
    LEVELS_OFF_RATIO,
    ORDER,
    matched_receiver,
    noise_ratio,
)
from reelwright.core.verdicts import Reason

PHASES = 32
_BEFORE, _AFTER = 4, 90
_SEQUENCE_ORDER = 7
# A pair of stress words has 20 bits; as many as hold the cursors twice over.
_WORD_PAIRS = 12
_LINE_OHM = 75.0

DECISION_NOISE_RATIO = 2e-3
"""Noise [1] that any decision adds, where a bit is ±1 (assumed; common practice, no source)."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Eye:
    """One eye, a bit sent as ±1: ``phase_ratio`` [1], shape (n_phase,), in bits from the middle.

    ``opening_ratio`` [1], shape (n_phase,), is what is left at an error rate of 1e-12, below zero
    where it is closed; ``level_ratio`` [1], shape (n_phase, n_bit), the levels of a sequence of
    127 bits; ``stress_opening_ratio`` [1] the opening that the worse of the two stress lines of
    serial video leaves at its best instant, noise left out.
    """

    phase_ratio: FloatArray
    opening_ratio: FloatArray
    level_ratio: FloatArray
    stress_opening_ratio: float

    def __post_init__(self) -> None:
        shape = self.phase_ratio.shape
        if self.opening_ratio.shape != shape or self.level_ratio.shape[:1] != shape:
            raise BadValue(
                owner="Eye",
                field="opening_ratio",
                value=self.opening_ratio.shape,
                accepted=f"{shape}, as phase_ratio",
            )

    @property
    def height_ratio(self) -> float:
        """The tallest opening [1]; 0 where the eye is closed."""
        return max(0.0, float(self.opening_ratio.max()))

    @property
    def width_ratio(self) -> float:
        """The share of the bit [1] over which it is open."""
        return float((self.opening_ratio > 0).mean())


@dataclass(frozen=True, kw_only=True)
class RunEyes:
    """The eyes of a run: as it ``arrives``, and ``equalised``. ``loss_db`` [dB] at half the clock.

    Both behind the same low-pass; the first without equaliser.
    """

    rate_bit_per_s: float
    loss_db: float
    arrives: Eye
    equalised: Eye


def eyes_of_run(run: Run, *, rate_bit_per_s: float) -> RunEyes | Reason:
    """Return the eyes of a run at a rate [bit/s], or the reason why they are not known.

    Raises BadValue for a rate that is not above zero.
    """
    if not rate_bit_per_s > 0:
        raise BadValue(
            owner="eyes_of_run", field="rate_bit_per_s", value=rate_bit_per_s, accepted="above zero"
        )
    known = known_loss(run.cable, run.lot)
    found = line_of_sheet(run.cable, run.lot)
    if isinstance(known, Reason):
        return known
    if isinstance(found, Reason):
        return found
    if found.lowest_hz > AUDIO_HZ:
        return Reason(
            code="resistance-missing",
            sentence=(
                f"the resistance of conductor and screen of {run.cable.code} is not stated, and an "
                "eye rests on it"
            ),
        )
    loss_db = _loss_db(run, known, rate_bit_per_s / 2)
    plain = Receiver(
        corner_hz=CORNER_RATIO * rate_bit_per_s,
        order_count=ORDER,
        equalised_db=0.0,
        equalised_at_hz=rate_bit_per_s / 2,
        levels_off_hz=LEVELS_OFF_RATIO * rate_bit_per_s,
    )
    matched = matched_receiver(rate_bit_per_s=rate_bit_per_s, loss_db=loss_db)
    return RunEyes(
        rate_bit_per_s=rate_bit_per_s,
        loss_db=loss_db,
        arrives=_eye(run, found, plain, rate_bit_per_s),
        equalised=_eye(run, found, matched, rate_bit_per_s),
    )


def _loss_db(run: Run, known: KnownLoss, frequency_hz: float) -> float:
    per_metre = float(
        known.loss_db_per_m(frequency_hz, temperature_celsius=run.temperature_celsius)
    )
    return per_metre * run.length.mean_m + joint_loss_db(run, frequency_hz=frequency_hz)


def _eye(run: Run, found: SheetLine, receiver: Receiver, rate_bit_per_s: float) -> Eye:
    response = _cursors(run, found, receiver, rate_bit_per_s)
    opened = statistical_eye(
        response,
        noise_ratio=math.hypot(noise_ratio(receiver), DECISION_NOISE_RATIO),
        error_probability=ERROR_PROBABILITY,
    )
    return Eye(
        phase_ratio=response.phase_ratio,
        opening_ratio=opened.opening_ratio,
        level_ratio=samples_of_pattern(response, maximum_length_sequence(_SEQUENCE_ORDER)),
        stress_opening_ratio=min(
            _stress_opening(response, words) for words in (EQUALISER_STRESS, CLOCK_STRESS)
        ),
    )


def _stress_opening(response: Cursors, words: tuple[int, int]) -> float:
    sent = stress_pattern(words, word_pairs=_WORD_PAIRS)
    levels = samples_of_pattern(response, sent) * (2.0 * sent - 1.0)
    return float(levels.min(axis=1).max())


def _cursors(run: Run, found: SheetLine, receiver: Receiver, rate_bit_per_s: float) -> Cursors:
    # At rest a joint loses nothing worth counting, and at half the clock what the verdict counts.
    joints = 10 ** (-joint_loss_db(run, frequency_hz=rate_bit_per_s / 2) / 20)
    loop_ohm = (
        found.direct_ohm_per_m * temperature_factor(run.temperature_celsius) * run.length.mean_m
    )

    def channel(frequency_hz: FloatArray) -> ComplexArray:
        whole = line(
            parameters=found.parameters(frequency_hz, temperature_celsius=run.temperature_celsius),
            length_m=run.length.mean_m,
            reference_ohm=_LINE_OHM,
        )
        passed = voltage_ratio(whole, source_ohm=_LINE_OHM, load_ohm=_LINE_OHM)
        arrived: ComplexArray = 2 * joints * passed * receiver.transfer(frequency_hz)
        return arrived

    return cursors(
        channel,
        at_rest_ratio=joints * 2 * _LINE_OHM / (2 * _LINE_OHM + loop_ohm),
        delay_s=found.delay_s_per_m * run.length.mean_m,
        bit_s=1 / rate_bit_per_s,
        phase_count=PHASES,
        before_count=_BEFORE,
        after_count=_AFTER,
        band=Band(lowest_hz=found.lowest_hz, highest_hz=found.highest_hz),
    )
