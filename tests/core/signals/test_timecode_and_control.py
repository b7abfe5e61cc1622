"""Timecode by its edges; control buses by rate, level, receivers, end, stubs and cable."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, LossPoint
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.physics.step import Band, TimeGrid, gaussian_edge, step_response
from reelwright.core.physics.terminations import voltage_ratio
from reelwright.core.physics.two_port import line
from reelwright.core.signals import read_signal
from reelwright.core.signals.control_bus import ControlBus
from reelwright.core.signals.control_checks import Bus, level_v
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.timecode import Timecode
from reelwright.core.verdicts import Check, Outcome
from tests import signal_world as world

ENDS = (world.PLAIN, world.PLAIN)
AUDIO = replace(
    world.AUD_BP,
    sheet=replace(
        world.AUD_BP.sheet,
        delay_s_per_m=5.06e-9,
        loss_points=(
            LossPoint(frequency_hz=3e6, loss_db_per_m=0.036),
            LossPoint(frequency_hz=6e6, loss_db_per_m=0.052),
            LossPoint(frequency_hz=12e6, loss_db_per_m=0.076),
        ),
    ),
)
# A pair of 120 Ω made for a bus: 0.22 mm² legs, little capacitance to the screen.
CONTROL = replace(
    AUDIO,
    code="CTL-120",
    sheet=replace(
        AUDIO.sheet,
        impedance_ohm=120.0,
        capacitance_f_per_m=42e-12,
        capacitance_to_rest_f_per_m=72e-12,
    ),
)
COAX = replace(world.PHO_61, sheet=replace(world.PHO_61.sheet, resistance_screen_ohm_per_m=0.018))


def named(judgement: Judgement, start: str) -> Check:
    """Return the check whose name starts so."""
    return next(check for check in judgement.verdict.checks if check.name.startswith(start))


def lighting(**changes: object) -> ControlBus:
    """Return lighting control with twelve receivers, terminated, without stubs."""
    plain = ControlBus(
        rate_bit_per_s=250_000, lighting=True, unit_load_count=12, terminated=True, stub_m=None
    )
    return replace(plain, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(("source_ohm", "length_m"), [(600.0, 300.0), (50.0, 800.0)])
def test_the_edges_of_timecode_are_those_of_the_exact_line(
    source_ohm: float, length_m: float
) -> None:
    """The exact line into 10 kΩ is never 1 % slower than told, and at most 8 % faster."""
    sheet_line = line_of_sheet(COAX, None)
    assert isinstance(sheet_line, SheetLine)

    def through(frequency_hz: FloatArray) -> ComplexArray:
        parameters = sheet_line.parameters(frequency_hz, temperature_celsius=20.0)
        two_port = line(parameters=parameters, length_m=length_m, reference_ohm=75.0)
        result = voltage_ratio(two_port, source_ohm=source_ohm, load_ohm=10_000.0)
        return result * gaussian_edge(frequency_hz, rise_s=25e-6)

    loop = (0.0664 + 0.018) * length_m
    rests = 10_000.0 / (10_000.0 + source_ohm + loop)
    grid = TimeGrid(start_s=-60e-6, step_s=0.1e-6, sample_count=2048)
    rising = step_response(
        through, at_rest_ratio=rests, grid=grid, band=Band(lowest_hz=1.0, highest_hz=1e9)
    )
    moments = [float(np.interp(part * rests, rising, grid.time_s)) for part in (0.1, 0.9)]
    signal = Timecode(balanced=False, source_ohm=source_ohm)
    budget = signal.judge(world.run(COAX, length_m, ends=ENDS)).verdict.checks[0]
    assert isinstance(budget.value, float)
    assert 0.99 <= budget.value / (1e6 * (moments[1] - moments[0])) <= 1.08


def test_timecode_holds_up_to_its_tolerance() -> None:
    """From 600 Ω, 46 pF/m and 0.17 Ω/m let 25 µs become 30 µs over 264 m; 100 Ω carry it on."""
    judgement = Timecode(balanced=True, source_ohm=None).judge(world.run(AUDIO, 400.0, ends=ENDS))
    assert judgement.verdict.outcome is Outcome.BAD
    assert judgement.length_at_50_m == pytest.approx(263.8, abs=0.5)
    assert "It holds up to 264\u202fm" in judgement.sentence
    assert "assumed" in judgement.sentence
    driven = Timecode(balanced=True, source_ohm=100.0)
    assert driven.judge(world.run(AUDIO, 400.0, ends=ENDS)).verdict.works


def test_timecode_sees_the_capacitance_of_its_form() -> None:
    """A balanced source sees core to core, an unbalanced one on a pair one core to all the rest."""
    rises = [
        Timecode(balanced=balanced, source_ohm=600.0)
        .judge(world.run(AUDIO, 200.0, ends=ENDS))
        .verdict.checks[0]
        .value
        for balanced in (True, False)
    ]
    assert rises[0] < rises[1]  # type: ignore[operator]


@given(
    st.floats(min_value=10.0, max_value=2000.0),
    st.floats(min_value=1.0, max_value=500.0),
    st.floats(min_value=1.01, max_value=4.0),
)
def test_timecode_slows_with_length_and_source(
    source_ohm: float, length_m: float, more: float
) -> None:
    """More length or more source resistance never makes an edge faster than it was sent."""

    def rise(ohm: float, length: float) -> float:
        signal = Timecode(balanced=True, source_ohm=ohm)
        value = signal.judge(world.run(AUDIO, length, ends=ENDS)).verdict.checks[0].value
        assert isinstance(value, float)
        return value

    first = rise(source_ohm, length_m)
    assert 25.0 < first < rise(more * source_ohm, length_m)
    assert first < rise(source_ohm, more * length_m)


def test_timecode_without_capacitance_is_not_computed() -> None:
    """What is missing is named."""
    silent = replace(AUDIO, sheet=replace(AUDIO.sheet, capacitance_f_per_m=None))
    judgement = Timecode(balanced=True, source_ohm=None).judge(world.run(silent, 10.0, ends=ENDS))
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "capacitance of AUD-BP is not stated" in judgement.sentence
    with pytest.raises(BadValue, match="source_ohm"):
        Timecode(balanced=True, source_ohm=0.0)


@given(
    st.integers(min_value=1, max_value=32),
    st.booleans(),
    st.floats(min_value=1.0, max_value=1200.0),
)
def test_the_level_on_a_bus_is_that_of_the_line_at_rest(
    unit_load_count: int, terminated: bool, length_m: float
) -> None:
    """The exact two-port at 1 Hz, driven by a source of no resistance, gives the same volts."""
    bus = Bus(
        rate_bit_per_s=9600, unit_load_count=unit_load_count, terminated=terminated, stub_m=None
    )
    sheet_line = line_of_sheet(CONTROL, None)
    assert isinstance(sheet_line, SheetLine)
    parameters = sheet_line.parameters([1.0], temperature_celsius=20.0)
    two_port = line(parameters=parameters, length_m=length_m, reference_ohm=120.0)
    exact = 1.5 * float(np.abs(voltage_ratio(two_port, source_ohm=0.0, load_ohm=bus.load_ohm)[0]))
    ours = level_v(world.run(CONTROL, length_m, ends=ENDS), bus)
    assert isinstance(ours, float)
    assert ours <= exact * (1 + 1e-6)
    at_half_hz = sheet_line.parameters([4800.0], temperature_celsius=20.0).loss_db_per_m[0]
    turning = 1.5 * 10 ** (-float(at_half_hz) * length_m / 20)
    assert ours == pytest.approx(min(exact, turning), rel=0.01)


def test_a_bus_on_its_own_cable_works() -> None:
    """100 m of a 120 Ω pair with twelve receivers is good in every check."""
    judgement = lighting().judge(world.run(CONTROL, 100.0, ends=ENDS))
    assert judgement.verdict.outcome is Outcome.GOOD
    assert judgement.length_at_50_m == pytest.approx(300.0)
    level = named(judgement, "level at the receiver")
    load = 1 / (1 / 120 + 12 / 12_000)
    assert level.value == pytest.approx(1.5 * load / (load + 17.0), rel=1e-9)


def test_a_microphone_pair_on_a_bus_is_a_caution() -> None:
    """110 Ω is near enough, but 105 pF/m to all the rest is an audio cable, and that is said."""
    judgement = lighting().judge(world.run(AUDIO, 50.0, ends=ENDS))
    assert judgement.verdict.outcome is Outcome.CAUTION
    assert named(judgement, "impedance").outcome is Outcome.GOOD
    assert "105\u202fpF/m" in judgement.sentence
    assert "pair for audio" in judgement.sentence


@pytest.mark.parametrize(
    ("changes", "check", "outcome", "told"),
    [
        ({"unit_load_count": 33}, "receivers", Outcome.BAD, "use a splitter"),
        ({"terminated": False}, "end of the line", Outcome.BAD, "plug a terminator"),
        ({"stub_m": 0.3}, "stubs", Outcome.GOOD, "do no harm."),
        ({"stub_m": 2.0}, "stubs", Outcome.CAUTION, "loop the line through"),
    ],
)
def test_what_else_a_bus_asks(
    changes: dict[str, object], check: str, outcome: Outcome, told: str
) -> None:
    """Too many receivers, an open end and long stubs each come with what to do about it."""
    judgement = lighting(**changes).judge(world.run(CONTROL, 100.0, ends=ENDS))
    found = named(judgement, check)
    assert found.outcome is outcome
    assert told in found.sentence


def test_a_slow_bus_bears_an_open_end() -> None:
    """At 9600 b/s the echo of 100 m has come and gone in a hundredth of a bit."""
    slow = ControlBus(
        rate_bit_per_s=9600, lighting=False, unit_load_count=4, terminated=False, stub_m=None
    )
    found = named(slow.judge(world.run(CONTROL, 100.0, ends=ENDS)), "end of the line")
    assert found.outcome is Outcome.CAUTION
    assert "do no harm" in found.sentence
    silent = replace(
        CONTROL, sheet=replace(CONTROL.sheet, delay_s_per_m=None, capacitance_f_per_m=None)
    )
    unsure = named(slow.judge(world.run(silent, 100.0, ends=ENDS)), "end of the line")
    assert "delay of the cable is not stated" in unsure.sentence


@given(st.integers(min_value=1, max_value=50_000_000), st.floats(min_value=1.01, max_value=10.0))
def test_a_faster_bus_never_goes_further(rate: int, more: float) -> None:
    """Length falls with the rate, and never exceeds 1200 m."""
    slow, fast = (
        ControlBus(
            rate_bit_per_s=each, lighting=False, unit_load_count=1, terminated=True, stub_m=None
        ).longest_m
        for each in (rate, int(rate * more) + 1)
    )
    assert 0 < fast <= slow <= 1200.0


def test_an_unscreened_pair_lacks_a_common_conductor() -> None:
    """Two legs alone let the devices drift apart; a second pair or a screen does not."""
    bare = replace(CONTROL, screened=False)
    assert "common one" in lighting().judge(world.run(bare, 20.0, ends=ENDS)).sentence
    four: Cable = replace(
        world.DAT_6, sheet=replace(world.DAT_6.sheet, impedance_ohm=100.0,
                                   resistance_conductor_ohm_per_m=0.085)
    )  # fmt: skip
    judgement = lighting().judge(world.run(four, 20.0, ends=ENDS))
    assert judgement.verdict.outcome is Outcome.GOOD


def test_a_pair_of_far_too_low_impedance_is_refused() -> None:
    """60 Ω is another class; 75 Ω is doubted."""
    outcomes = []
    for ohm in (60.0, 75.0):
        of = replace(CONTROL, sheet=replace(CONTROL.sheet, impedance_ohm=ohm))
        outcomes.append(lighting().judge(world.run(of, 20.0, ends=ENDS)).verdict.outcome)
    assert outcomes == [Outcome.BAD, Outcome.CAUTION]


def test_nonsense_is_refused() -> None:
    """No rate, no receivers, stubs below zero, a resistance that is not stated."""
    with pytest.raises(BadValue, match="rate_bit_per_s"):
        lighting(rate_bit_per_s=0)
    with pytest.raises(BadValue, match="unit_load_count"):
        lighting(unit_load_count=0)
    with pytest.raises(BadValue, match="stub_m"):
        lighting(stub_m=-1.0)
    silent = replace(CONTROL, sheet=replace(CONTROL.sheet, resistance_conductor_ohm_per_m=None))
    judgement = lighting().judge(world.run(silent, 20.0, ends=ENDS))
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "resistance of CTL-120 is not stated" in judgement.sentence


@pytest.mark.parametrize(
    ("typed", "name", "unit_load_count"),
    [
        ("DMX", "lighting control DMX512-A", 32),
        ("dmx512, 20 fixtures", "lighting control DMX512-A", 20),
        ("DMX unterminated, 8 receivers", "lighting control DMX512-A (not terminated)", 8),
        ("lighting control DMX512, 12 fixtures", "lighting control DMX512-A", 12),
        ("RS-485 115.2 kb/s", "RS-485 control 115.2 kb/s", 32),
        ("rs485, 9600 baud, 4 devices", "RS-485 control 9.6 kb/s", 4),
        ("RS-485 control, 1 Mb/s", "RS-485 control 1 Mb/s", 32),
        ("rs 422 300 bps", "RS-485 control 300 b/s", 32),
    ],
)
def test_control_is_read(typed: str, name: str, unit_load_count: int) -> None:
    """Rate, receivers and end are read where they are said; else the most is taken."""
    signal = read_signal(typed).signal
    assert isinstance(signal, ControlBus)
    assert signal.name == name
    assert signal.unit_load_count == unit_load_count


def test_stubs_are_read() -> None:
    """A stub's length stands before or behind the word, in any unit."""
    for typed, stub_m in (("DMX, stubs of 2 m", 2.0), ("DMX with 18 in stubs", 0.4572)):
        signal = read_signal(typed).signal
        assert isinstance(signal, ControlBus)
        assert signal.stub_m == pytest.approx(stub_m)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("LTC on XLR", "balanced timecode"),
        ("timecode, BNC, 75 ohm source", "unbalanced timecode"),
        ("balanced time code", "balanced timecode"),
        ("unbalanced timecode", "unbalanced timecode"),
    ],
)
def test_timecode_is_read(typed: str, name: str) -> None:
    """Balanced or not is told by the word or by the connector."""
    signal = read_signal(typed).signal
    assert isinstance(signal, Timecode)
    assert signal.name == name


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("timecode", "balanced (three contacts) or unbalanced"),
        ("MIDI timecode", "longitudinal"),
        ("RS-485", "Which rate"),
        ("RS-485 0 kb/s", "Which rate"),
        ("RS-485 900 Mb/s", "Which rate"),
        ("DMX, 0 fixtures", "How many receivers"),
        ("lighting control", "Which control is it"),
        ("control cable", "Which control is it"),
    ],
)
def test_what_does_not_settle_it_is_asked(typed: str, asked: str) -> None:
    """A missing rate or form is asked for, with what would be accepted."""
    question = read_signal(typed).question
    assert question is not None
    assert asked in question
