"""What a reflectometer of a given rise time would show of one run, its ends included.

For runs that are shown. Each end is drawn as a section at the upper edge of its class, since no
connector was measured: a sound one shows less. The far end is closed with the line's impedance.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.impedance import impedance_class
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.joint import ShortSection
from reelwright.core.physics.known_loss import AUDIO_HZ
from reelwright.core.physics.reflectometer import Trace, at_rest_reflection, own_slope, trace
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.physics.sheet_line import line_of_sheet
from reelwright.core.physics.step import Band, TimeGrid
from reelwright.core.physics.terminations import near_reflection
from reelwright.core.physics.two_port import cascade, line
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.signals.end_reflections import SECTION_DELAY_S
from reelwright.core.signals.plug_section import plug_ohm, plug_section
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Reason

_MOST_POINTS = 40_000
# What the window holds before the edge and behind the far end, in rise times.
_BEFORE, _BEHIND = 8, 40
_STEPS_IN_RISE = 4


@dataclass(frozen=True, kw_only=True, eq=False)
class RunTrace:
    """A trace of a run and what belongs beside it, all along ``distance_m`` [m], shape (n,).

    ``seen_ohm`` [Ω], shape (n,), is what the instrument shows; ``own_ohm`` [Ω], shape (n,), what it
    would show of the cable alone without end: the slope of its loss. ``ends_ohm`` [Ω] are the
    sections drawn at either end; ``resolution_m`` [m] is the distance below which two steps run
    together; ``rise_s`` [s] that of the instrument, 10 to 90 %.
    """

    distance_m: FloatArray
    seen_ohm: FloatArray
    own_ohm: FloatArray
    ends_ohm: tuple[float, float]
    length_m: float
    resolution_m: float
    rise_s: float
    reference_ohm: float

    def __post_init__(self) -> None:
        shape = self.distance_m.shape
        if self.seen_ohm.shape != shape or self.own_ohm.shape != shape:
            raise BadValue(
                owner="RunTrace", field="seen_ohm", value=self.seen_ohm.shape, accepted=str(shape)
            )


def end_section(connector: Connector) -> ShortSection:
    """Return an end as it is drawn: at the upper edge of the class it is made to.

    One whose own body is known stands as that is, one made to no impedance as a phono plug.
    """
    if connector.body is not None:
        return plug_section(connector)
    own_ohm = plug_ohm(connector)
    if connector.impedance_ohm is not None:
        own_ohm *= 1 + impedance_class(own_ohm).same_fraction
    return ShortSection(impedance_ohm=own_ohm, delay_s=SECTION_DELAY_S, loss_at_1_ghz_db=0.0)


def trace_of_run(run: Run, *, rise_s: float, reference_ohm: float) -> RunTrace | Reason:
    """Return what an instrument of ``rise_s`` [s] and ``reference_ohm`` [Ω] shows, or why not.

    The window holds the whole run. Raises BadValue for a rise or a reference not above zero, and
    for a rise so short that what is known of the line does not hold it (``step.Band``).
    """
    if not (rise_s > 0 and reference_ohm > 0):
        raise BadValue(
            owner="trace_of_run",
            field="rise_s",
            value=(rise_s, reference_ohm),
            accepted="a rise and a reference above zero",
        )
    found = line_of_sheet(run.cable, run.lot)
    if isinstance(found, Reason):
        return found
    if found.lowest_hz > AUDIO_HZ:
        return Reason(
            code="resistance-missing",
            sentence=(
                f"the resistance of conductor and screen of {run.cable.code} is not stated, and a "
                "trace rests on it"
            ),
        )
    length_m, celsius = run.length.mean_m, run.temperature_celsius
    there_and_back_s = 2 * found.delay_s_per_m * length_m
    beside = (_BEFORE + _BEHIND) * _STEPS_IN_RISE
    # A long run is shown with as much detail as a page can hold, by a slower edge.
    rise_s = max(rise_s, _STEPS_IN_RISE * there_and_back_s / (_MOST_POINTS - beside))
    step_s = rise_s / _STEPS_IN_RISE
    grid = TimeGrid(
        start_s=-_BEFORE * rise_s,
        step_s=step_s,
        sample_count=beside + int(np.ceil(there_and_back_s / step_s)),
    )
    band = Band(lowest_hz=found.lowest_hz, highest_hz=found.highest_hz)
    ends = tuple(end_section(end) for end in run.connectors)

    def back(frequency_hz: FloatArray) -> ComplexArray:
        parameters = found.parameters(frequency_hz, temperature_celsius=celsius)
        near, far = (
            end.two_port(frequency_hz=frequency_hz, reference_ohm=reference_ohm) for end in ends
        )
        middle = line(parameters=parameters, length_m=length_m, reference_ohm=reference_ohm)
        return near_reflection(cascade(near, middle, far), load_ohm=reference_ohm)

    def own(frequency_hz: FloatArray) -> ComplexArray:
        own_ohm: ComplexArray = found.parameters(
            frequency_hz, temperature_celsius=celsius
        ).impedance_ohm
        return own_ohm

    loop_ohm = found.direct_ohm_per_m * temperature_factor(celsius) * length_m
    seen = trace(
        back,
        at_rest_reflection=at_rest_reflection(
            resistance_ohm=loop_ohm + reference_ohm, reference_ohm=reference_ohm
        ),
        rise_s=rise_s,
        grid=grid,
        reference_ohm=reference_ohm,
        band=band,
    )
    alone = own_slope(own, rise_s=rise_s, grid=grid, reference_ohm=reference_ohm, band=band)
    return _shown(run, seen, alone, found.delay_s_per_m, (ends[0], ends[1]))


def _shown(
    run: Run,
    seen: Trace,
    alone: Trace,
    delay_s_per_m: float,
    ends: tuple[ShortSection, ShortSection],
) -> RunTrace:
    velocity = 1 / (delay_s_per_m * SPEED_OF_LIGHT_M_PER_S)
    return RunTrace(
        distance_m=seen.distance_m(velocity_factor=velocity),
        seen_ohm=seen.impedance_ohm,
        own_ohm=alone.impedance_ohm,
        ends_ohm=(ends[0].impedance_ohm, ends[1].impedance_ohm),
        length_m=run.length.mean_m,
        resolution_m=seen.resolution_m(velocity_factor=velocity),
        rise_s=seen.rise_s,
        reference_ohm=seen.reference_ohm,
    )
