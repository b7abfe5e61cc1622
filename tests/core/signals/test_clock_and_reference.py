"""Word clock and video reference: rise, level by the ending, inputs on the way, delay."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.physics.step import Band, TimeGrid, gaussian_edge, step_response
from reelwright.core.physics.terminations import near_reflection, voltage_ratio
from reelwright.core.physics.two_port import cascade, line, line_of, shunt
from reelwright.core.signals import read_signal
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.reference_sync import ReferenceFormat, ReferenceSync
from reelwright.core.signals.termination import Ending, FarEnd
from reelwright.core.signals.word_clock import LAUNCHED_RISE_S, WordClock
from reelwright.core.verdicts import Check, Outcome
from tests import signal_world as world


def with_screen(cable: Cable, ohm_per_km: float) -> Cable:
    """Return a cable whose screen's resistance is stated too."""
    return replace(cable, sheet=replace(cable.sheet, resistance_screen_ohm_per_m=ohm_per_km / 1e3))


THICK = with_screen(world.VID_70, 9.0)
MIDDLE = with_screen(world.VID_60, 12.0)
THIN = with_screen(world.VID_28, 20.0)
PLAIN_END = Ending(far_end=FarEnd.TERMINATED, taps=0)
ENDINGS = st.builds(
    Ending, far_end=st.sampled_from(FarEnd), taps=st.integers(min_value=0, max_value=12)
)


def clock(ending: Ending = PLAIN_END) -> WordClock:
    """Return a word clock of 48 kHz."""
    return WordClock(sample_rate_hz=48_000, ending=ending)


def reference(form: ReferenceFormat, ending: Ending = PLAIN_END) -> ReferenceSync:
    """Return a reference with that ending."""
    return ReferenceSync(format=form, ending=ending)


def named(judgement: Judgement, start: str) -> Check:
    """Return the check whose name starts so."""
    return next(check for check in judgement.verdict.checks if check.name.startswith(start))


def crossing(rising: FloatArray, grid: TimeGrid, level: float) -> float:
    """Return when [s] a step passes that level."""
    after = int(np.argmax(rising >= level))
    between = (level - rising[after - 1]) / (rising[after] - rising[after - 1])
    return float(grid.time_s[after - 1] + between * grid.step_s)


@pytest.mark.parametrize("length_m", [100.0, 250.0])
@pytest.mark.parametrize("cable", [THICK, MIDDLE, THIN], ids=lambda cable: cable.code)
def test_the_rise_is_that_of_the_exact_step(cable: Cable, length_m: float) -> None:
    """Between 75 Ω ends the step of the exact line rises as the budget says, within 6 %."""
    sheet_line, known = line_of_sheet(cable, None), known_loss(cable, None)
    assert isinstance(sheet_line, SheetLine)
    assert isinstance(known, KnownLoss)

    def through(frequency_hz: FloatArray) -> ComplexArray:
        parameters = sheet_line.parameters(frequency_hz, temperature_celsius=20.0)
        two_port = line(parameters=parameters, length_m=length_m, reference_ohm=75.0)
        late = np.exp(2j * np.pi * frequency_hz * sheet_line.delay_s_per_m * length_m)
        result: ComplexArray = 2 * voltage_ratio(two_port, source_ohm=75.0, load_ohm=75.0) * late
        return result * gaussian_edge(frequency_hz, rise_s=LAUNCHED_RISE_S)

    resistance = cable.sheet.resistance_conductor_ohm_per_m or 0.0
    screen = cable.sheet.resistance_screen_ohm_per_m or 0.0
    rests = 150 / (150 + (resistance + screen) * length_m)
    grid = TimeGrid(start_s=-50e-9, step_s=1e-9, sample_count=4096)
    rising = step_response(
        through, at_rest_ratio=rests, grid=grid, band=Band(lowest_hz=10.0, highest_hz=1e10)
    )
    exact = crossing(rising, grid, 0.9 * rests) - crossing(rising, grid, 0.1 * rests)
    run = world.run(cable, length_m)
    ours = clock().rise_ns(run, known, np.array([length_m]))[0]
    assert ours == pytest.approx(1e9 * exact, rel=0.06)


def test_without_the_screen_the_rise_is_on_the_safe_side() -> None:
    """Where the resistance at rest is not stated the rise told is the longer one."""
    lengths = np.array([100.0, 250.0, 400.0])
    rises = []
    for cable in (world.VID_60, MIDDLE):
        known = known_loss(cable, None)
        assert isinstance(known, KnownLoss)
        rises.append(clock().rise_ns(world.run(cable, 10.0), known, lengths))
    assert (rises[0] > 1.3 * rises[1]).all()


@given(ENDINGS, st.floats(min_value=1.0, max_value=300.0))
def test_the_settled_level_is_that_of_the_line_at_rest(ending: Ending, length_m: float) -> None:
    """The exact two-port at 1 Hz between source and ending gives the same volts."""
    sheet_line = line_of_sheet(MIDDLE, None)
    assert isinstance(sheet_line, SheetLine)
    parameters = sheet_line.parameters([1.0], temperature_celsius=20.0)
    two_port = line(parameters=parameters, length_m=length_m, reference_ohm=75.0)
    exact = 5.0 * voltage_ratio(two_port, source_ohm=75.0, load_ohm=ending.load_ohm)
    found = clock(ending).level_v(world.run(MIDDLE, length_m))
    assert found is not None
    assert found == (pytest.approx(float(np.abs(exact[0])), rel=1e-6), True)


def test_two_terminations_are_the_usual_trouble() -> None:
    """2.5 V become 1.67 V, less than a logic input needs; the sentence says what to take off."""
    judgement = clock(Ending(far_end=FarEnd.TWICE, taps=0)).judge(world.run(MIDDLE, 5.0))
    assert judgement.verdict.outcome is Outcome.BAD
    assert named(judgement, "level").value == pytest.approx(1.65, abs=0.01)
    assert "take one off" in judgement.sentence
    unstated = clock(Ending(far_end=FarEnd.TWICE, taps=0)).judge(world.run(world.VID_60, 5.0))
    assert "no more than 1.66\u202fV" in unstated.sentence


def test_a_level_that_hangs_on_the_screen_is_not_guessed() -> None:
    """Over 180 m the level depends on the screen; unstated, it is not computed, stated it is."""
    silent = clock().judge(world.run(world.VID_60, 180.0))
    assert silent.verdict.outcome is Outcome.NOT_COMPUTED
    assert "resistance of the screen of VID-60 is not stated" in silent.sentence
    assert clock().judge(world.run(MIDDLE, 180.0)).verdict.outcome is Outcome.GOOD


def test_an_open_end_is_a_caution_that_tells_the_plateau() -> None:
    """The level doubles; with inputs on the way each stands at half of it there and back."""
    judgement = clock(Ending(far_end=FarEnd.OPEN, taps=2)).judge(world.run(MIDDLE, 30.0))
    assert judgement.verdict.outcome is Outcome.CAUTION
    assert named(judgement, "level").value == pytest.approx(4.88, abs=0.1)
    assert "at half the level for up to 240\u202fns" in judgement.sentence
    assert "75\u202fΩ of the last input" in judgement.sentence


def test_the_delay_is_held_to_a_part_of_the_sample() -> None:
    """5 % of a sample are 1.04 µs at 48 kHz, which 260 m of foam take."""
    near, far = (named(clock().judge(world.run(THICK, length)), "delay") for length in (100, 300))
    assert near.outcome is Outcome.GOOD
    assert far.outcome is Outcome.CAUTION
    assert far.limit == pytest.approx(1041.7, abs=0.1)
    assert far.value == pytest.approx(300 * 4.019)


@given(ENDINGS)
def test_inputs_and_endings_only_ever_lower_a_level(ending: Ending) -> None:
    """One termination gives the most but for an open end; each input takes a little."""
    more = replace(ending, taps=ending.taps + 1)
    assert more.load_ohm < ending.load_ohm
    assert more.level_ratio < ending.level_ratio
    assert (ending.lost_db < -5) == (ending.far_end is FarEnd.OPEN)


def test_the_ending_is_the_reflection_and_its_level() -> None:
    """Of the wave that arrives 1 + Γ is the level: −3.52 dB for two terminations."""
    twice = Ending(far_end=FarEnd.TWICE, taps=0)
    gamma = (twice.load_ohm - 75.0) / (twice.load_ohm + 75.0)
    assert twice.level_ratio == pytest.approx(1 + gamma)
    assert twice.lost_db == pytest.approx(3.52, abs=0.03)
    assert Ending(far_end=FarEnd.OPEN, taps=0).lost_db == pytest.approx(-6.02, abs=0.07)


def test_black_burst_by_its_subcarrier() -> None:
    """Over 100 m of 6 mm coax 1.6 dB are lost at 4.43 MHz; two terminations more are too much."""
    good = reference(ReferenceFormat.BLACK_BURST).judge(world.run(MIDDLE, 100.0))
    assert good.verdict.outcome is Outcome.GOOD
    known = known_loss(MIDDLE, None)
    assert isinstance(known, KnownLoss)
    loss = 100.0 * float(known.loss_db_per_m(4_433_618.75, temperature_celsius=20.0))
    assert named(good, "level at 4.434 MHz").value == pytest.approx(loss, abs=0.04)
    assert "641° of the colour subcarrier" in named(good, "delay").sentence
    twice = Ending(far_end=FarEnd.TWICE, taps=0)
    bad = reference(ReferenceFormat.BLACK_BURST, twice).judge(world.run(MIDDLE, 5.0))
    assert bad.verdict.outcome is Outcome.BAD
    assert "Take one termination off" in bad.sentence
    assert bad.length_at_50_m == 0.0


def test_tri_level_by_30_megahertz() -> None:
    """At 30 MHz the run ends at 71 m, less 0.5 dB held back at 59 m."""
    judgement = reference(ReferenceFormat.TRI_LEVEL).judge(world.run(MIDDLE, 200.0))
    assert judgement.verdict.outcome is Outcome.BAD
    assert judgement.length_at_50_m == pytest.approx(71.0, abs=0.5)
    assert "The longest run we recommend is 59\u202fm" in judgement.sentence
    near = reference(ReferenceFormat.TRI_LEVEL).judge(world.run(MIDDLE, 65.0))
    assert near.verdict.outcome is Outcome.CAUTION


@given(
    st.integers(min_value=1, max_value=6),
    st.lists(st.floats(min_value=0.1, max_value=40.0), min_size=6, max_size=6),
    st.sampled_from(ReferenceFormat),
)
def test_inputs_on_the_way_never_send_back_more_than_the_bound(
    taps: int, apart_m: list[float], form: ReferenceFormat
) -> None:
    """Wherever T-pieces stand on a lossless line, the exact cascade stays below the bound."""
    highest = 4_433_618.75 if form is ReferenceFormat.BLACK_BURST else 0.35 / 54e-9
    frequency = np.linspace(0.05, 1.0, 40) * highest
    tap = shunt(
        frequency_hz=frequency,
        admittance_siemens=1e-4 + 2j * np.pi * frequency * 30e-12,
        reference_ohm=75.0,
    )
    parts = []
    for length_m in apart_m[:taps]:
        gamma = 2j * np.pi * frequency * 4.02e-9
        parts += [
            line_of(
                frequency_hz=frequency,
                gamma=gamma,
                impedance_ohm=75.0,
                length_m=length_m,
                reference_ohm=75.0,
            ),
            tap,
        ]
    back = np.abs(near_reflection(cascade(*parts), load_ohm=75.0)).max()
    bound = reference(form, Ending(far_end=FarEnd.TERMINATED, taps=taps)).tap_return_loss_db
    assert bound is not None
    assert -20 * np.log10(back) >= bound - 1e-9


def test_three_inputs_are_usual_and_four_are_doubted() -> None:
    """With 30 pF each, three T-pieces keep 20 dB at the subcarrier and four do not."""
    outcomes = [
        named(
            reference(
                ReferenceFormat.BLACK_BURST, Ending(far_end=FarEnd.TERMINATED, taps=taps)
            ).judge(world.run(MIDDLE, 20.0)),
            "inputs on the way",
        ).outcome
        for taps in (3, 4)
    ]
    assert outcomes == [Outcome.GOOD, Outcome.CAUTION]


def test_nonsense_is_refused() -> None:
    """Rates of zero, taps below none, a format that is none, a cable without losses."""
    with pytest.raises(BadValue, match="sample_rate_hz"):
        WordClock(sample_rate_hz=0, ending=PLAIN_END)
    with pytest.raises(BadValue, match="taps"):
        Ending(far_end=FarEnd.OPEN, taps=-1)
    with pytest.raises(BadValue, match="format"):
        ReferenceSync(format="burst", ending=PLAIN_END)  # type: ignore[arg-type]
    silent = replace(world.VID_60, sheet=replace(world.VID_60.sheet, loss_points=()))
    for signal in (clock(), reference(ReferenceFormat.TRI_LEVEL)):
        judgement = signal.judge(world.run(silent, 10.0))
        assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
        assert "two are needed" in judgement.sentence


@pytest.mark.parametrize(
    ("typed", "signal"),
    [
        ("word clock", clock()),
        (
            "wordclock 96 kHz, terminated twice",
            WordClock(sample_rate_hz=96_000, ending=Ending(far_end=FarEnd.TWICE, taps=0)),
        ),
        (
            "word clock 44.1 kHz, 3 T-pieces, unterminated",
            WordClock(sample_rate_hz=44_100, ending=Ending(far_end=FarEnd.OPEN, taps=3)),
        ),
        ("black burst", reference(ReferenceFormat.BLACK_BURST)),
        ("blackburst genlock", reference(ReferenceFormat.BLACK_BURST)),
        (
            "tri level sync, two inputs on the way, terminated",
            reference(ReferenceFormat.TRI_LEVEL, Ending(far_end=FarEnd.TERMINATED, taps=2)),
        ),
    ],
)
def test_clocks_and_references_are_read(typed: str, signal: object) -> None:
    """Rate, ending and inputs on the way are read where they are said."""
    assert read_signal(typed).signal == signal


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("sync", "black burst, tri-level sync, or word clock"),
        ("genlock", "black burst, tri-level sync, or word clock"),
        ("composite sync", "black burst, tri-level sync, or word clock"),
        ("reference", "black burst, tri-level sync, or word clock"),
        ("10 MHz reference", "black burst, tri-level sync, or word clock"),
        ("word clock 256fs", "multiple of the sample rate"),
        ("clock", "black burst, tri-level sync, or word clock"),
        ("black burst or tri-level", "Which reference is it"),
        ("word clock 12 MHz, 1 kHz", "Which sample rate"),
    ],
)
def test_what_could_be_several_is_asked(typed: str, asked: str) -> None:
    """A word that fits several is not guessed at."""
    question = read_signal(typed).question
    assert question is not None
    assert asked in question


def test_a_picture_with_sync_stays_a_picture() -> None:
    """RGBHV or composite video that names its sync is still what it is."""
    names = [
        None if (signal := read_signal(typed).signal) is None else signal.name
        for typed in ("RGBHV 154 MHz with sync", "composite video with sync")
    ]
    assert names == ["RGBHV video 154 MHz", "composite video"]


def test_what_was_assumed_of_the_ending_is_said() -> None:
    """One termination is taken for granted and told; where it is said, nothing is."""
    assert "one termination of 75 Ω, at the last input" in read_signal("black burst").assumed
    assert read_signal("black burst, terminated").assumed == ()
