"""Echoes of both ends of a coax run, and how far they can move an edge of digital audio.

A wave that comes back from the far end and again from the near one arrives behind the signal and
moves its edges. Each end is taken exactly, as the section of line that its connector is, with what
the standard allows the equipment behind it; between the ends the loss of the run, twice.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.joint import ShortSection
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.root_line import crossing_s, root_time_s
from reelwright.core.physics.terminations import near_reflection
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_both, show_percent
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.plug_section import plug_section
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

MOVED_LIMIT = 0.025
"""Most that an edge may move [cells]: as much as a transmitter itself may, IEC 60958-4-4:2016."""

ECHO_NAME = "echoes of both ends"
_SOURCE = Source(
    text=(
        "0.025 of a cell, the jitter that IEC 60958-4-4:2016 allows a transmitter; the plug by its "
        "diameters, from memory"
    ),
    basis=Basis.COMPUTED,
)


@dataclass(frozen=True, kw_only=True)
class Equipment:
    """Impedances that a standard allows the two devices: lowest and highest of each [Ω].

    ``edge_s`` [s] is the fastest rise launched, 10 to 90 %, and with it how high the wave reaches.
    """

    source_low_ohm: float
    source_high_ohm: float
    load_low_ohm: float
    load_high_ohm: float
    edge_s: float

    def __post_init__(self) -> None:
        require_positive(
            self, "source_low_ohm", "source_high_ohm", "load_low_ohm", "load_high_ohm", "edge_s"
        )


@lru_cache(maxsize=4096)
def _comes_back(
    section: ShortSection,
    low_ohm: float,
    high_ohm: float,
    line_ohm: float,
    band: tuple[float, float],
) -> FloatArray:
    """Largest size [1] of what an end sends back into the line, over the band, (n_frequency,)."""
    seen = section.two_port(frequency_hz=_frequencies(band), reference_ohm=line_ohm)
    sizes = [np.abs(near_reflection(seen, load_ohm=load)) for load in (low_ohm, high_ohm)]
    largest: FloatArray = np.maximum(*sizes)
    return largest


def _frequencies(band: tuple[float, float]) -> FloatArray:
    return np.geomspace(band[0], band[1], 24)


def worst_echo(run: Run, *, equipment: Equipment, fundamental_hz: float) -> float | None:
    """Return the largest echo [1] that arrives behind the signal, all trips together.

    ρ/(1 − ρ) with ρ the two ends' reflections times the loss there and back, at the worst frequency
    from ``fundamental_hz`` [Hz] to the knee of the edge. None where impedance or loss of the cable
    is not known.
    """
    known = known_loss(run.cable, run.lot)
    line = known_value(run.cable, run.lot, Stated.IMPEDANCE)
    if not isinstance(known, KnownLoss) or line is None:
        return None
    low = max(fundamental_hz, known.line.lowest_hz)
    band = (low, max(low * 1.01, 0.35 / equipment.edge_s))
    near, far = run.connectors
    both = _comes_back(
        plug_section(near), equipment.source_low_ohm, equipment.source_high_ohm, line.value, band
    ) * _comes_back(
        plug_section(far), equipment.load_low_ohm, equipment.load_high_ohm, line.value, band
    )
    loss = known.loss_db_per_m(_frequencies(band), temperature_celsius=run.temperature_celsius)
    trip = float(np.max(both * 10 ** (-2 * loss * run.length.mean_m / 20)))
    return trip / (1 - trip)


def echo_check(
    run: Run, *, equipment: Equipment, fundamental_hz: float, cell_s: float
) -> tuple[Check, ...]:
    """Return how far the echoes can move an edge [ns], against a part of the cell ``cell_s`` [s].

    An echo of the fraction x of the swing moves an edge by ½·x times the swing over the slope at
    the far end. Nothing where impedance or loss of the cable is not known.
    """
    echo = worst_echo(run, equipment=equipment, fundamental_hz=fundamental_hz)
    known = known_loss(run.cable, run.lot)
    if echo is None or not isinstance(known, KnownLoss):
        return ()
    frequency = max(fundamental_hz, known.line.lowest_hz)
    per_metre = float(known.loss_db_per_m(frequency, temperature_celsius=run.temperature_celsius))
    tau = root_time_s(loss_db=per_metre * run.length.mean_m, frequency_hz=frequency)
    moved = echo / 2 * float(crossing_s(tau_s=tau, launched_s=equipment.edge_s))
    limit = MOVED_LIMIT * cell_s
    good = moved <= limit
    plugs = (
        "with plugs that are not 75\u202fΩ "
        if any(end.impedance_ohm is None for end in run.connectors)
        else ""
    )
    return (
        Check(
            name=ECHO_NAME,
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"Over {show_both(run.length.mean_m)} {plugs}the echoes of both ends reach "
                f"{show_percent(echo)} of the signal in the worst case and move its edges by "
                f"{show_quantity(moved, 's', digits=2)}; "
                f"{show_quantity(limit, 's', digits=2)} are allowed, as to the transmitter itself"
                + ("." if good else ": a receiver may lose its hold.")
            ),
            source=_SOURCE,
            value=moved * 1e9,
            limit=limit * 1e9,
            margin=(limit - moved) * 1e9,
            unit="ns",
        ),
    )
