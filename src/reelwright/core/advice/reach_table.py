"""Every cable with every signal over many lengths at once: what is to spare, and how far it goes.

Budgets only: no sentence is written and nothing is judged but what length uses up, so that the
whole catalogue is answered while a page loads.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from reelwright.core.advice.tried import budget_of
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.impedance import ImpedanceMatch, impedance_class
from reelwright.core.parts.length import Length
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.quantities.guard import require_count, require_finite
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.distributed_line import DistributedLine
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal

SHORTEST_M = 1e-3
"""Shorter runs [m] than this reach nothing: their reach is 0."""

LONGEST_M = 100_000.0
"""Longer runs [m] than this are not looked for: their reach is infinite."""

_LOOKS_M = np.geomspace(SHORTEST_M, LONGEST_M, 129)
_NEAR_ENOUGH = 1e-9
# A straight line is met in one step and the curves here in six; far more than any needs.
_MOST_STEPS = 60


@dataclass(frozen=True, kw_only=True)
class Installed:
    """What all runs of a table have alike: both ends, adapters, temperature [°C].

    The ends count as joints; whether they can be put on each cable is not asked here.
    """

    connectors: tuple[Connector, Connector]
    adapters: int
    temperature_celsius: float

    def __post_init__(self) -> None:
        require_count(self, "adapters")
        require_finite(self, "temperature_celsius")


def can_carry(cable: Cable, signal: Signal) -> bool:
    """Return whether kind, conductors, screen and impedance class of the cable suit the signal."""
    needs = signal.needs
    if cable.family not in signal.families or cable.conductors < needs.legs:
        return False
    if needs.screen and not cable.screened:
        return False
    own = cable.sheet.impedance_ohm
    if needs.impedance_ohm is None or own is None:
        return True
    return impedance_class(needs.impedance_ohm).match(own) is not ImpedanceMatch.OTHER


def reach_table(
    cables: Sequence[Cable],
    signals: Sequence[Signal],
    lengths_m: FloatArray,
    *,
    installed: Installed,
) -> FloatArray:
    """Return margins, shape (n_cable, n_signal, n_length), each in its signal's margin unit.

    ``lengths_m`` [m], shape (n_length,). NaN where the cable cannot carry the signal, or where
    what the signal is judged by is not known. Data sheets only: a lot is one reel's, not the
    cable's. Raises BadValue for a length that is not above zero.
    """
    lengths = np.asarray(lengths_m, dtype=np.float64)
    if (
        lengths.ndim != 1
        or not lengths.size
        or not np.isfinite(lengths).all()
        or lengths.min() <= 0
    ):
        raise BadValue(
            owner="reach_table",
            field="lengths_m",
            value=lengths_m,
            accepted="one or more lengths above zero, in one row",
        )
    margins = np.full((len(cables), len(signals), lengths.size), np.nan)
    for row, cable in enumerate(cables):
        run = _run(cable, installed, length_m=float(lengths.max()))
        for column, signal in enumerate(signals):
            if not can_carry(cable, signal):
                continue
            budget = budget_of(signal, run)
            if budget is not None:
                margins[row, column] = budget.limit - budget.used(lengths)
                margins[row, column, lengths < _shortest_m(signal)] = np.nan
    return margins


def _shortest_m(signal: Signal) -> float:
    """Below this [m] there is no such run: a line is no shorter than its loudspeakers' places."""
    return signal.between_first_and_last_m if isinstance(signal, DistributedLine) else 0.0


def reach_m(
    cables: Sequence[Cable], signals: Sequence[Signal], *, installed: Installed
) -> FloatArray:
    """Return the length [m] at which nothing is to spare any more, shape (n_cable, n_signal).

    0 where even a millimetre is too long, infinite where 100 km is not, NaN as in ``reach_table``.
    """
    reach = np.full((len(cables), len(signals)), np.nan)
    for row, cable in enumerate(cables):
        run = _run(cable, installed, length_m=LONGEST_M)
        for column, signal in enumerate(signals):
            if not can_carry(cable, signal):
                continue
            budget = budget_of(signal, run)
            if budget is not None:
                reach[row, column] = reach_of(budget)
    return reach


def reach_of(budget: Budget) -> float:
    """Return the length [m] at zero margin of one budget; 0 or infinite as ``reach_m`` says."""

    def margin(lengths_m: FloatArray) -> FloatArray:
        left: FloatArray = budget.limit - budget.used(lengths_m)
        return left

    # Lengths span eight decades; 129 looks at once leave a seventh, which straight lines then close
    # in on faster than more looks would: a call for one length costs as much as one for all.
    left = margin(_LOOKS_M)
    over = left < 0
    if over[0]:
        return 0.0
    if not over.any():
        return float("inf")
    first = int(np.argmax(over))
    low, high = float(_LOOKS_M[first - 1]), float(_LOOKS_M[first])
    ends = (float(left[first - 1]), float(left[first]))
    return _closed_in(margin, low, high, ends)


def _closed_in(
    margin: Callable[[FloatArray], FloatArray],
    low: float,
    high: float,
    ends: tuple[float, float],
) -> float:
    """Regula falsi with the lagging end's value halved (Illinois): ``low`` holds, ``high`` not."""
    at_low, at_high = ends
    if at_low <= 0:
        return low
    lagging = 0
    for _ in range(_MOST_STEPS):
        if high / low <= 1 + _NEAR_ENOUGH:
            break
        share = at_low / (at_low - at_high)
        middle = low + (high - low) * share
        # A root on an end would never move it.
        middle = min(max(middle, low + (high - low) * 1e-12), high - (high - low) * 1e-12)
        here = float(margin(np.array([middle]))[0])
        if abs(here) <= 1e-13 * max(1.0, abs(at_high)):
            return middle
        if here >= 0:
            low, at_low = middle, here
            at_high, lagging = (at_high / 2, 1) if lagging == 1 else (at_high, 1)
        else:
            high, at_high = middle, here
            at_low, lagging = (at_low / 2, -1) if lagging == -1 else (at_low, -1)
    return low


def _run(cable: Cable, installed: Installed, *, length_m: float) -> Run:
    return Run(
        cable=cable,
        lot=None,
        length=Length(mean_m=length_m, standard_uncertainty_m=0.0),
        temperature_celsius=installed.temperature_celsius,
        connectors=installed.connectors,
        adapters=installed.adapters,
    )
