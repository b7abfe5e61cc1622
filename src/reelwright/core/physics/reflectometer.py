"""What a time-domain reflectometer of a given rise time shows of a cable and its ends.

The instrument sends a step through its own impedance and shows what comes back, as a reflection or
as the impedance that would send that back. Two things are *shown* that are not there: the loss of
the cable tilts the trace upwards, and steps behind a mismatch appear too small. Neither is taken
out here; ``own_slope`` gives the trace of the same cable without ends, to draw beside it.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.step import Band, Spectrum, TimeGrid, gaussian_edge, step_response
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.quantities.guard import require_positive

_SHORT, _OPEN = -1.0, 1.0


@dataclass(frozen=True, kw_only=True, eq=False)
class Trace:
    """A trace: ``time_s`` [s], shape (n,), to and fro from the instrument's edge.

    ``seen_reflection`` [1], shape (n,); ``reference_ohm`` [Ω] of the instrument; ``rise_s`` [s],
    10 to 90 %.
    """

    time_s: FloatArray
    seen_reflection: FloatArray
    reference_ohm: float
    rise_s: float

    @property
    def impedance_ohm(self) -> FloatArray:
        """Impedance [Ω] the trace shows, R(1 + ρ)/(1 − ρ), shape (n,); infinite for an open end."""
        within = np.clip(self.seen_reflection, _SHORT, _OPEN)
        with np.errstate(divide="ignore"):
            shown: FloatArray = self.reference_ohm * (1 + within) / (1 - within)
        return shown

    def distance_m(self, *, velocity_factor: float) -> FloatArray:
        """Return the distance [m] of each time, v·c·t/2, shape (n,).

        Raises BadValue unless ``velocity_factor`` [1] is above 0 and at most 1.
        """
        return velocity_factor * _light(velocity_factor) * self.time_s / 2

    def resolution_m(self, *, velocity_factor: float) -> float:
        """Return the distance [m] below which two steps run together: v·c·(rise time)/2."""
        return velocity_factor * _light(velocity_factor) * self.rise_s / 2


def trace(
    reflection: Spectrum,
    *,
    at_rest_reflection: float,
    rise_s: float,
    grid: TimeGrid,
    reference_ohm: float,
    band: Band | None = None,
) -> Trace:
    """Return what an instrument of ``rise_s`` [s] (10 to 90 %) and ``reference_ohm`` [Ω] shows.

    ``reflection`` is S11 against that reference (see ``terminations.near_reflection``) at the
    frequencies it is asked for; ``at_rest_reflection`` [1] is its value at direct current, from
    loop and load resistance; ``band`` where the reflection is known. Raises BadValue where the
    grid is too coarse for the rise time (fewer than two points in it, which would cut off the
    edge).
    """
    instrument = _Instrument(rise_s=rise_s, reference_ohm=reference_ohm)
    if grid.step_s * 2 > rise_s:
        raise BadValue(
            owner="trace", field="step_s", value=grid.step_s, accepted=f"at most {rise_s / 2:g}"
        )
    if not _SHORT <= at_rest_reflection <= _OPEN:
        raise BadValue(
            owner="trace",
            field="at_rest_reflection",
            value=at_rest_reflection,
            accepted="-1 to 1",
        )
    shown = step_response(
        lambda frequency: reflection(frequency) * gaussian_edge(frequency, rise_s=rise_s),
        at_rest_ratio=at_rest_reflection,
        grid=grid,
        band=band,
    )
    return Trace(
        time_s=grid.time_s,
        seen_reflection=shown,
        reference_ohm=instrument.reference_ohm,
        rise_s=instrument.rise_s,
    )


def own_slope(
    impedance: Spectrum,
    *,
    rise_s: float,
    grid: TimeGrid,
    reference_ohm: float,
    band: Band | None = None,
) -> Trace:
    """Return the trace of an endless piece of cable: its impedance, and the slope of its loss.

    ``impedance`` gives the characteristic impedance [Ω], complex, at frequencies [Hz] it is asked
    for, known in ``band``. At direct current an endless cable without leakage is an open end.
    """
    return trace(
        lambda frequency: (
            (impedance(frequency) - reference_ohm) / (impedance(frequency) + reference_ohm)
        ),
        at_rest_reflection=_OPEN,
        rise_s=rise_s,
        grid=grid,
        reference_ohm=reference_ohm,
        band=band,
    )


def at_rest_reflection(*, resistance_ohm: float, reference_ohm: float) -> float:
    """Return the reflection [1] at direct current of loop and load [Ω] together; inf for open."""
    if resistance_ohm < 0 or reference_ohm <= 0:
        raise BadValue(
            owner="at_rest_reflection",
            field="resistance_ohm",
            value=resistance_ohm,
            accepted="zero or more, on a reference above zero",
        )
    if np.isinf(resistance_ohm):
        return _OPEN
    return (resistance_ohm - reference_ohm) / (resistance_ohm + reference_ohm)


@dataclass(frozen=True, kw_only=True)
class _Instrument:
    rise_s: float
    reference_ohm: float

    def __post_init__(self) -> None:
        require_positive(self, "rise_s", "reference_ohm")


def _light(velocity_factor: float) -> float:
    if not 0 < velocity_factor <= 1:
        raise BadValue(
            owner="Trace",
            field="velocity_factor",
            value=velocity_factor,
            accepted="above 0, at most 1",
        )
    return SPEED_OF_LIGHT_M_PER_S
