"""Biphase-mark digital audio: its cells, its highest fundamental, the level that arrives.

A frame of two samples has 64 bits of two cells each: 128 cells for one period of the sample rate
(IEC 60958-4-4). A string of ones turns at every cell, so its wave takes two cells: the highest
fundamental is half the cell rate, 64 times the sample rate, and it arrives the weakest. Loss is
held to the limit at the *cell rate*, twice that, because a lone cell after a long one arrives
weaker still than the fundamental alone would say: on a line that loses as the root of frequency a
loss of A at the cell rate leaves the eye open, in the worst pattern, by at least what A leaves of a
level, for A up to 9.2 dB. Held as a property in the tests.
"""

from dataclasses import dataclass

from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_plain
from reelwright.core.quantities.show_scaled import show_megahertz, show_quantity
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check, Outcome, Source

CELLS_PER_FRAME = 128
"""Cells in one period of the sample rate [1]: IEC 60958-4-4:2016."""

LEVEL_NAME = "level at the receiver"


def cell_rate_hz(sample_rate_hz: int) -> float:
    """Return the cell rate [Hz] at ``sample_rate_hz`` [Hz]: 6.144 MHz at 48 kHz."""
    return float(CELLS_PER_FRAME * sample_rate_hz)


def fundamental_hz(sample_rate_hz: int) -> float:
    """Return the highest fundamental [Hz], that of a string of ones: 3.072 MHz at 48 kHz."""
    return cell_rate_hz(sample_rate_hz) / 2


@dataclass(frozen=True, kw_only=True)
class Levels:
    """What is launched into the line and what the receiver needs [V peak to peak]."""

    launched_v: float
    needed_v: float
    source: Source

    def __post_init__(self) -> None:
        require_positive(self, "launched_v", "needed_v")


def level_check(run: Run, *, sample_rate_hz: int, levels: Levels) -> tuple[Check, ...]:
    """Return the level at the receiver by the highest fundamental; nothing without a known loss."""
    known = known_loss(run.cable, run.lot)
    if not isinstance(known, KnownLoss):
        return ()
    asked = fundamental_hz(sample_rate_hz)
    # A loss below what the sheet allows to be told is smaller than at its lowest frequency.
    frequency = max(asked, known.line.lowest_hz)
    per_metre = known.loss_db_per_m(frequency, temperature_celsius=run.temperature_celsius)
    arrived = levels.launched_v * 10 ** (-float(per_metre) * run.length.mean_m / 20)
    margin = arrived - levels.needed_v
    amount = show_quantity(arrived, "V")
    return (
        Check(
            name=LEVEL_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"Of {show_plain(levels.launched_v, 'V')} launched "
                f"{amount if frequency == asked else f'at least {amount}'} arrive at the highest "
                f"fundamental, {show_megahertz(asked)}; the receiver needs "
                f"{show_plain(levels.needed_v, 'V')}."
            ),
            source=levels.source,
            value=arrived,
            limit=levels.needed_v,
            margin=margin,
            unit="V",
        ),
    )
