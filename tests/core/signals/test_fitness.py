"""Whether a cable and its ends can carry a signal at all, and how a judgement is put together."""

from dataclasses import replace

import pytest

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.jacket import Space
from reelwright.core.parts.length import Length
from reelwright.core.signals import Run, Signal, judge_space, read_signal
from reelwright.core.signals.judgement import Judgement
from reelwright.core.verdicts import Outcome
from tests import signal_world as world

SIGNALS = {
    "serial video 3G": world.VID_60,
    "RGBHV 154 MHz": world.VID_60,
    "composite": world.VID_60,
    "cable tv, 65 dBuV": world.VID_60,
    "digital coax 48 kHz": world.VID_60,
    "aes3 48 kHz": world.AUD_BP,
    "professional coaxial digital audio 48 kHz": world.VID_60,
    "multichannel digital audio": world.VID_60,
    "word clock 48 kHz": world.VID_60,
    "black burst": world.VID_60,
    "tri-level sync": world.VID_60,
    "unbalanced timecode": world.PHO_61,
    "balanced timecode": world.AUD_BP,
    "DMX512": world.AUD_BP,
    "optical audio": world.POF_22,
    "unbalanced line audio": world.PHO_61,
    "subwoofer line": world.PHO_61,
    "cartridge 50 to 400 pF, input 100 pF": world.PHO_61,
    "instrument pickup": world.PHO_61,
    "mic with phantom": world.AUD_BP,
    "loudspeaker 8 ohm": world.SPK_14,
    "loudspeaker line 70 V, 1 x 15 W": world.SPK_14,
    "category data": world.DAT_6,
}
CABLES = (world.VID_60, world.AUD_BP, world.POF_22, world.SPK_14, world.DAT_6)


def signal(typed: str) -> Signal:
    """Return the signal of a text that needs no question."""
    reading = read_signal(typed)
    assert reading.signal is not None
    return reading.signal


def judged(typed: str, run: Run) -> Judgement:
    """Return the judgement of that signal."""
    return signal(typed).judge(run)


@pytest.mark.parametrize("typed", SIGNALS)
def test_each_signal_works_on_5_m_of_its_own_cable(typed: str) -> None:
    """Five metres of the right cable between fitting ends work for every signal there is."""
    needed = signal(typed).needs.impedance_ohm
    end = world.PLAIN if needed is None else world.connector("FITTING", impedance_ohm=needed)
    judgement = judged(typed, world.run(SIGNALS[typed], 5.0, ends=(end, end)))
    assert judgement.verdict.works, judgement.sentence
    assert judgement.chance_within_limit == pytest.approx(1.0, abs=1e-3)
    assert judgement.length_at_95_m is not None
    assert judgement.length_at_50_m is not None
    assert 5.0 < judgement.length_at_95_m <= judgement.length_at_50_m


@pytest.mark.parametrize(
    ("typed", "cable"),
    [
        pytest.param(typed, cable, id=f"{typed} on {cable.code}")
        for typed in SIGNALS
        for cable in CABLES
        if cable.family not in signal(typed).families
    ],
)
def test_no_signal_works_on_a_kind_of_cable_it_does_not_run_on(typed: str, cable: Cable) -> None:
    """On a wrong kind the verdict is no, names both kinds, and shows no chance and no length."""
    wanted = signal(typed)
    judgement = wanted.judge(world.run(cable, 5.0, ends=(world.PLAIN, world.PLAIN)))
    assert judgement.verdict.outcome is Outcome.BAD
    assert judgement.deciding == "kind of cable"
    assert cable.code in judgement.sentence
    assert judgement.chance_within_limit is None
    assert judgement.length_at_50_m is None


@pytest.mark.parametrize("typed", SIGNALS)
def test_margins_fall_with_length(typed: str) -> None:
    """On its own cable no signal gains from a longer run, and the band holds the margin."""
    lengths = world.LENGTHS_M
    curve = signal(typed).margin_at(world.run(SIGNALS[typed], 5.0), lengths)
    assert curve is not None
    assert curve.margin.shape == lengths.shape
    assert (curve.margin[1:] <= curve.margin[:-1]).all()
    assert (curve.low <= curve.margin).all()
    assert (curve.margin <= curve.high).all()


def test_a_50_ohm_connector_in_a_75_ohm_run_is_refused() -> None:
    """One end of another class decides, however short the run."""
    odd = world.connector("BNC-50", impedance_ohm=50.0)
    judgement = judged("3G", world.run(world.VID_60, 2.0, ends=(world.BNC, odd)))
    assert judgement.deciding == "impedance of BNC-50"
    assert "another class" in judgement.sentence
    same = judged("3G", world.run(world.VID_60, 2.0))
    assert same.verdict.outcome is Outcome.GOOD


def test_a_cable_of_another_class_is_refused_and_a_near_one_is_doubtful() -> None:
    """99.4 Ω is no 75 Ω cable; 81 Ω is near it and gives a caution."""
    assert judged("3G", world.run(world.PHO_61, 2.0)).deciding == "impedance of PHO-61"
    near = replace(world.VID_60, sheet=replace(world.VID_60.sheet, impedance_ohm=81.0))
    judgement = judged("3G", world.run(near, 2.0))
    assert judgement.verdict.outcome is Outcome.CAUTION
    assert "not the same class" in judgement.sentence


def test_an_impedance_that_is_not_stated_is_not_guessed() -> None:
    """With no impedance on the sheet the run is not computed, and what is missing is named."""
    silent = replace(world.VID_60, sheet=replace(world.VID_60.sheet, impedance_ohm=None))
    judgement = judged("3G", world.run(silent, 2.0))
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "impedance of VID-60 is not stated" in judgement.sentence


@pytest.mark.parametrize(
    ("typed", "cable", "missing"),
    [
        ("3G", replace(world.VID_60, sheet=world.sheet(75.0)), "two are needed"),
        ("cable tv", replace(world.VID_60, sheet=world.sheet(75.0)), "two are needed"),
        (
            "loudspeaker 8 ohm",
            replace(world.SPK_14, sheet=world.sheet()),
            "resistance of SPK-14 is not stated",
        ),
        (
            "loudspeaker line 70 V, 1 x 15 W",
            replace(world.SPK_14, sheet=world.sheet()),
            "resistance of SPK-14 is not stated",
        ),
        (
            "unbalanced line audio",
            replace(world.PHO_61, sheet=world.sheet()),
            "capacitance of PHO-61 is not stated",
        ),
        (
            "optical audio",
            replace(world.POF_22, sheet=world.sheet()),
            "optical loss of POF-22 is not stated",
        ),
    ],
)
def test_a_missing_value_is_not_computed_and_named(typed: str, cable: Cable, missing: str) -> None:
    """Nothing is put in place of what the data sheet does not state."""
    judgement = judged(typed, world.run(cable, 5.0))
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "Not computed" in judgement.sentence
    assert missing in judgement.sentence
    assert judgement.chance_within_limit is None


def test_a_loss_beyond_the_stated_points_is_less_sure() -> None:
    """At 11.88 Gb/s the loss is carried on from 1485 MHz, which is said and makes a caution."""
    judgement = judged("12G", world.run(world.VID_70, 30.0))
    assert judgement.verdict.outcome is Outcome.CAUTION
    assert "carried on from points stated up to 1485\u202fMHz" in judgement.sentence
    assert "to spare" in judgement.sentence


def test_copper_on_steel_is_doubtful_below_its_points() -> None:
    """At 6 MHz copper follows the rod down from 10 MHz; copper on steel loses more than that."""
    clad = world.cable("CCS", world.VID_60.sheet, conductor_material="copper-clad steel")
    plain = judged("digital coax 48 kHz", world.run(world.VID_60, 5.0))
    doubtful = judged("digital coax 48 kHz", world.run(clad, 5.0))
    assert plain.verdict.outcome is Outcome.GOOD
    assert doubtful.verdict.outcome is Outcome.CAUTION
    assert "copper on steel loses more" in doubtful.sentence


def test_losses_that_fit_badly_make_a_caution() -> None:
    """A sheet with one point 8 % off the curve is used with a warning."""
    sheet = world.sheet(74.9, losses_db_per_100m=(2.41, 9.02, 23.6, 31.62))
    judgement = judged("3G", world.run(replace(world.VID_60, sheet=sheet), 20.0))
    assert judgement.verdict.outcome is Outcome.CAUTION
    assert "off the curve" in judgement.sentence


def test_adapters_and_connectors_are_counted_from_100_mhz_up() -> None:
    """Each joint costs 0.10 dB at 1485 MHz and nothing worth counting at 6 MHz."""
    for typed, wanted in (("3G", 0.3), ("digital coax", 0.0)):
        bare = judged(typed, world.run(world.VID_60, 20.0)).verdict.checks[0].value
        more = judged(typed, world.run(world.VID_60, 20.0, adapters=3)).verdict.checks[0].value
        assert isinstance(bare, float)
        assert isinstance(more, float)
        assert more - bare == pytest.approx(wanted)


def test_less_than_the_guard_is_a_caution() -> None:
    """75.5 m at 2.97 Gb/s leave a third of a decibel, less than what is held back."""
    judgement = judged("3G", world.run(world.VID_70, 75.5))
    assert judgement.verdict.outcome is Outcome.CAUTION
    assert "less than the 1.0\u202fdB we hold back" in judgement.sentence
    assert "73\u202fm (239\u202fft)" in judgement.sentence


def test_an_unknown_outlet_level_is_a_question() -> None:
    """Cable television without the outlet's level tells the loss and asks; with it, it judges."""
    run = world.run(world.VID_70, 50 * 0.3048)
    asking = judged("cable tv", run)
    assert asking.verdict.outcome is Outcome.CAUTION
    assert "How much it gives we do not know" in asking.sentence
    assert asking.verdict.checks[0].limit is None
    assert signal("cable tv").margin_at(run, world.LENGTHS_M) is None
    assert judged("cable tv, 65 dBuV", run).verdict.outcome is Outcome.GOOD
    assert judged("cable tv, 50 dBuV", run).verdict.outcome is Outcome.BAD


@pytest.mark.parametrize(
    ("length_m", "outcome"),
    [(5.0, Outcome.GOOD), (15.0, Outcome.CAUTION), (90.0, Outcome.BAD)],
)
def test_stranded_data_cords(length_m: float, outcome: Outcome) -> None:
    """10 m of cords in a channel; more stands only alone; beyond a channel's loss it does not."""
    assert judged("cat 6", world.run(world.DAT_6, length_m)).verdict.outcome is outcome


def test_solid_data_cable_may_be_a_channel() -> None:
    """The same 90 m in solid cable are within the rule."""
    solid = replace(world.DAT_6, solid_conductor=True)
    assert judged("cat 6", world.run(solid, 90.0)).verdict.outcome is Outcome.GOOD


def test_balanced_digital_audio_goes_100_m_at_48_khz_only() -> None:
    """The standard states 100 m up to 50 kHz; beyond, without losses, it is not computed."""
    ends = (world.PLAIN, world.PLAIN)
    assert judged("aes3", world.run(world.AUD_BP, 99.0, ends=ends)).verdict.works
    assert not judged("aes3", world.run(world.AUD_BP, 101.0, ends=ends)).verdict.works
    faster = judged("aes3 96 kHz", world.run(world.AUD_BP, 5.0, ends=ends))
    assert faster.verdict.outcome is Outcome.NOT_COMPUTED
    assert "12.288\u202fMHz" in faster.sentence


def test_long_coaxial_digital_audio_is_a_caution() -> None:
    """Beyond 50 m loss still allows it, but reflections and ground decide."""
    judgement = judged("digital coax", world.run(world.VID_60, 60.0))
    assert judgement.verdict.outcome is Outcome.CAUTION
    assert "reflections" in judgement.sentence


def test_long_unbalanced_audio_gets_dull() -> None:
    """From 1 kΩ, 67 m of audio coax lose half a decibel at 20 kHz; 100 m are too much."""
    judgement = judged("line level", world.run(world.PHO_61, 100.0))
    assert judgement.verdict.outcome is Outcome.BAD
    # The exact line; the droop of its capacitance alone would say 66.3 m.
    assert judgement.length_at_50_m == pytest.approx(66.6, abs=0.1)
    assert "slightly dull" in judgement.sentence


def test_a_small_loudspeaker_line_needs_no_marking() -> None:
    """60 W in all stay below 100 VA, so nothing is left open."""
    typed = "loudspeaker line 100 V, 4 x 15 W, 10 m apart"
    judgement = judged(typed, world.run(world.SPK_14, 60.0))
    assert judgement.verdict.outcome is Outcome.GOOD


def test_a_long_thin_loudspeaker_line_is_refused() -> None:
    """A kilometre of 1.31 mm² with 8 × 15 W falls by more than 10 %."""
    typed = "loudspeaker line 70 V, 8 x 15 W, 20 ft apart"
    judgement = judged(typed, world.run(world.SPK_16, 1000.0))
    assert judgement.verdict.outcome is Outcome.BAD
    assert "thicker" in judgement.sentence


@pytest.mark.parametrize("space", Space)
def test_every_space_is_answered_and_leaves_the_last_word(space: Space) -> None:
    """Whatever the space, the authority having jurisdiction decides."""
    check = judge_space(world.VID_60, space)
    assert check.sentence.endswith("The authority having jurisdiction decides.")
    known = {
        Space.FREE: Outcome.GOOD,
        Space.IN_WALL: Outcome.GOOD,
        Space.RISER_SHAFT: Outcome.BAD,
        Space.AIR_HANDLING: Outcome.BAD,
    }
    assert check.outcome is known.get(space, Outcome.NOT_COMPUTED)


def test_a_run_refuses_nonsense() -> None:
    """No length, a lot of another cable, a furnace, a negative number of adapters."""
    good = world.run(world.VID_60, 1.0)
    nothing = Length(mean_m=0.0, standard_uncertainty_m=0.0)
    with pytest.raises(BadValue):
        replace(good, length=nothing)
    with pytest.raises(BadValue):
        replace(good, lot=world.lot(world.VID_70, 0.83))
    with pytest.raises(BadValue):
        replace(good, temperature_celsius=900.0)
    with pytest.raises(BadValue):
        replace(good, adapters=-1)


@pytest.mark.parametrize("typed", ["serial video 3G", "serial video 270M", "cable tv, 65 dBuV"])
def test_a_plug_made_to_no_impedance_is_not_computed_from_100_megahertz_up(typed: str) -> None:
    """What comes back from a phono plug is not known at such frequencies, so it is no yes."""
    phono = world.connector("RCA", impedance_ohm=None)
    judgement = judged(typed, world.run(world.VID_60, 5.0, ends=(phono, phono)))
    assert judgement.verdict.outcome is Outcome.NOT_COMPUTED
    assert "made to no impedance" in judgement.sentence


@pytest.mark.parametrize("typed", ["composite video", "component video", "s/pdif"])
def test_a_plug_made_to_no_impedance_is_short_against_slow_signals(typed: str) -> None:
    """Below 100 MHz a phono plug is short against the wave, and is the usual plug of these."""
    phono = world.connector("RCA", impedance_ohm=None)
    judgement = judged(typed, world.run(world.VID_60, 5.0, ends=(phono, phono)))
    assert judgement.verdict.works, judgement.sentence
