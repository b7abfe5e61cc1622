"""Multichannel digital audio on 75 Ω coax: 56 or 64 channels at 125 Mbaud, judged by its eye."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.pulse import cursors
from reelwright.core.physics.root_line import loss_for_opening_db
from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.physics.step import Band, gaussian_edge
from reelwright.core.quantities.show import show_both, show_plain_m
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

SYMBOL_RATE_HZ = 125e6
"""Symbols in a second [Hz], whatever the sample rate: 100 Mb/s, four bits in five symbols."""

LAUNCHED_V = 0.3
"""Weakest launch [V peak to peak] of the 0.3 to 0.6 V allowed."""

NEEDED_EYE_V = 0.15
"""Eye [V peak to peak] that a receiver must be able to read."""

LONGEST_M = 50.0
"""Length [m] that the standard names for coax."""

_SOURCE = Source(
    text=(
        "AES10: 0.3 to 0.6 V launched, an eye of 0.15 V; the loss that leaves it of the weakest "
        "launch and the slowest edge, in the worst pattern, without an equaliser"
    ),
    basis=Basis.FROM_MEMORY,
)
_LENGTH_SOURCE = Source(text="AES10: up to 50 m of 75 Ω coax", basis=Basis.FROM_MEMORY)
# 20 to 80 % within 1 to 3 ns (AES10, from memory): the slowest, as 10 to 90 % of a normal edge.
_EDGE_S = 3e-9 * 2.5631 / 1.6832


@dataclass(frozen=True, kw_only=True)
class MultichannelDigitalAudio(CoaxSignal):
    """Multichannel digital audio on coax; the sample rate does not change its symbol rate."""

    name = "multichannel digital audio"

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A receiver terminated with 75\u202fΩ that finds an eye open by 0.15\u202fV or more, "
            "without an equaliser."
        )

    @property
    def limit(self) -> LossLimit:
        """The loss at half the symbol rate that leaves the eye needed.

        Nothing is held back besides: launch, edge and pattern are the worst there are already.
        """
        return LossLimit(
            frequency_hz=SYMBOL_RATE_HZ / 2,
            limit_db=loss_for_opening_db(
                NEEDED_EYE_V / LAUNCHED_V, rise_ratio=_EDGE_S * SYMBOL_RATE_HZ
            ),
            guard_db=0.0,
            source=_SOURCE,
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return the eye of the actual line, the length named, what is doubtful of the loss."""
        return (*_eye(run), *_length(run), *super().further_checks(run))


@lru_cache(maxsize=1024)
def eye_opening_ratio(
    cable: Cable, lot: Lot | None, length_m: float, temperature_celsius: float
) -> float | None:
    """Return how far [1] the eye stays open at the far end, of what was launched.

    The exact line between matched ends behind the slowest edge allowed, worst pattern of any kind;
    None where the line of the cable is not known.
    """
    known = line_of_sheet(cable, lot)
    if not isinstance(known, SheetLine):
        return None

    def channel(frequency_hz: FloatArray) -> ComplexArray:
        at = known.parameters(frequency_hz, temperature_celsius=temperature_celsius)
        # The delay taken out, so that the window lies on the eye.
        turned = at.gamma - 2j * np.pi * frequency_hz * known.delay_s_per_m
        through: ComplexArray = np.exp(-turned * length_m)
        through *= gaussian_edge(frequency_hz, rise_s=_EDGE_S)
        return through

    band = Band(lowest_hz=max(known.lowest_hz, 10.0), highest_hz=known.highest_hz)
    lowest = known.parameters([band.lowest_hz], temperature_celsius=temperature_celsius)
    rested = float(np.exp(-lowest.gamma.real[0] * length_m))
    found = cursors(
        channel,
        at_rest_ratio=rested,
        delay_s=0.0,
        bit_s=1 / SYMBOL_RATE_HZ,
        phase_count=16,
        before_count=3,
        after_count=60,
        band=band,
    )
    return float(found.worst_opening_ratio.max())


def _eye(run: Run) -> tuple[Check, ...]:
    opening = eye_opening_ratio(run.cable, run.lot, run.length.mean_m, run.temperature_celsius)
    if opening is None:
        return ()
    eye_v = opening * LAUNCHED_V
    margin = eye_v - NEEDED_EYE_V
    found = show_quantity(max(0.0, eye_v), "V")
    return (
        Check(
            name="eye at the receiver",
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"Of the weakest launch, {show_quantity(LAUNCHED_V, 'V')}, an eye of {found} is "
                f"left over {show_both(run.length.mean_m)} in the worst pattern; the receiver "
                f"needs {show_quantity(NEEDED_EYE_V, 'V')}."
            ),
            source=_SOURCE,
            value=eye_v,
            limit=NEEDED_EYE_V,
            margin=margin,
            unit="V",
        ),
    )


def _length(run: Run) -> tuple[Check, ...]:
    length_m = run.length.mean_m
    if length_m <= LONGEST_M:
        return ()
    return (
        Check(
            name="length named by the standard",
            outcome=Outcome.CAUTION,
            sentence=(
                f"{show_both(length_m)} is more than the {show_plain_m(LONGEST_M)} that the "
                "standard names for coax: equipment need not be built for it."
            ),
            source=_LENGTH_SOURCE,
            value=length_m,
            limit=LONGEST_M,
            margin=LONGEST_M - length_m,
            unit="m",
        ),
    )
