"""How much loss serial video could bear with the best receiver that physics allows: no promise.

What a receiver cannot undo is heat: the more loss its equaliser makes up, the more of its own noise
it lifts. The ceiling is the loss at half the clock at which the eye of all patterns closes at an
error rate of 1e-12 behind an equaliser that is the exact inverse of a √f cable up to where it
levels off. Nothing else disturbs: no jitter, no crosstalk, no mismatch.
"""

from functools import lru_cache

from reelwright.core.errors import BadValue
from reelwright.core.physics.pulse import Cursors, cursors
from reelwright.core.physics.receiver import Receiver, root_loss
from reelwright.core.physics.statistical_eye import chance_above
from reelwright.core.verdicts import Basis, Source

LAUNCHED_V = 0.8
"""Level sent [V peak to peak] into 75 Ω: output tables of two published equipment manuals."""

NOISE_FIGURE_DB = 8.0
"""Noise figure [dB] of the receiver (assumed; common practice, no published source)."""

TEMPERATURE_K = 290.0
"""Temperature [K] of the source of noise, by the definition of the noise figure."""

ERROR_PROBABILITY = 1e-12
"""Rate of errors [1] at which an eye is called closed."""

# Searched for: of orders 2 to 6, corners 0.45 to 0.7 and levels 0.25 to 8 of the rate none bears
# more than 1 dB above this one, at any rate.
CORNER_RATIO = 0.5
LEVELS_OFF_RATIO = 0.3
ORDER = 6
_PHASES = 16
_AFTER = 32
_LEAST_DB, _MOST_DB = 20.0, 110.0
_FINE_DB = 0.05

REACH_SOURCE = Source(
    text=(
        "eye of all patterns at 1e-12 behind a matched equaliser, heat alone as noise: 800 mV "
        "sent, noise figure 8 dB assumed, low-pass of sixth order at half the rate, equaliser "
        "level from 0.3 of the rate"
    ),
    basis=Basis.COMPUTED,
)
"""What the ceiling rests on."""


def matched_receiver(*, rate_bit_per_s: float, loss_db: float) -> Receiver:
    """Return the receiver that undoes ``loss_db`` [dB] at half the clock, as described above."""
    return Receiver(
        corner_hz=CORNER_RATIO * rate_bit_per_s,
        order_count=ORDER,
        equalised_db=loss_db,
        equalised_at_hz=rate_bit_per_s / 2,
        levels_off_hz=LEVELS_OFF_RATIO * rate_bit_per_s,
    )


def noise_ratio(receiver: Receiver) -> float:
    """Return its noise [1] behind the equaliser, where a bit is ±1, on 75 Ω."""
    noise_v = receiver.noise_v(
        impedance_ohm=75.0, noise_figure_db=NOISE_FIGURE_DB, temperature_k=TEMPERATURE_K
    )
    return noise_v / (LAUNCHED_V / 2)


def error_probability(*, rate_bit_per_s: float, loss_db: float) -> float:
    """Return the rate of errors [1] at the best sampling instant behind ``loss_db`` [dB] of cable.

    Loss at half the clock, matched receiver. Raises BadValue for a rate or loss not above zero.
    """
    if rate_bit_per_s <= 0 or loss_db <= 0:
        raise BadValue(
            owner="error_probability",
            field="loss_db",
            value=(rate_bit_per_s, loss_db),
            accepted="a rate and a loss above zero",
        )
    receiver = matched_receiver(rate_bit_per_s=rate_bit_per_s, loss_db=loss_db)
    response = _response(receiver, rate_bit_per_s=rate_bit_per_s, loss_db=loss_db)
    return float(
        chance_above(
            response.main_ratio,
            others_ratio=response.others_ratio,
            noise_ratio=noise_ratio(receiver),
        ).min()
    )


def _response(receiver: Receiver, *, rate_bit_per_s: float, loss_db: float) -> Cursors:
    return cursors(
        receiver.behind(
            lambda frequency: root_loss(frequency, loss_db=loss_db, at_hz=rate_bit_per_s / 2)
        ),
        at_rest_ratio=1.0,
        delay_s=0.0,
        bit_s=1 / rate_bit_per_s,
        phase_count=_PHASES,
        before_count=4,
        after_count=_AFTER,
    )


@lru_cache(maxsize=16)
def ceiling_db(rate_bit_per_s: int) -> float:
    """Return the most loss [dB] at half the clock that any receiver of the kind could bear.

    To a twentieth of a decibel, from below. Halving finds it: errors only grow with loss.
    """
    low, high = _LEAST_DB, _MOST_DB
    while high - low > _FINE_DB:
        middle = (low + high) / 2
        errors = error_probability(rate_bit_per_s=rate_bit_per_s, loss_db=middle)
        low, high = (middle, high) if errors <= ERROR_PROBABILITY else (low, middle)
    return low
