"""What the body of an end sends back: by hand, by an independent library, at its limits."""

import importlib.util
import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.ends.fit.body_line import BodyReflection, body_reflection
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import LossPoint
from reelwright.core.parts.connector import BodySection
from reelwright.core.verdicts import Basis, Reason, Source
from tests.ends_world import BNC_60, VID_60

STATED = replace(
    VID_60,
    sheet=replace(
        VID_60.sheet,
        impedance_ohm=75.0,
        loss_points=(
            LossPoint(frequency_hz=1e9, loss_db_per_m=0.20),
            LossPoint(frequency_hz=3e9, loss_db_per_m=0.36),
        ),
    ),
)
DRAWN = Source(text="drawing", basis=Basis.DATA_SHEET)


def body(impedance_ohm: float, delay_ps: float) -> BodySection:
    """A body of that impedance, so long."""
    return BodySection(impedance_ohm=impedance_ohm, delay_s=delay_ps * 1e-12, source=DRAWN)


def between(
    impedance_ohm: float, delay_ps: float, *, frequency_hz: float = 1e9, line_ohm: float = 75.0
) -> BodyReflection:
    """That body between two lines."""
    return BodyReflection(
        body=body(impedance_ohm, delay_ps), line_ohm=line_ohm, frequency_hz=frequency_hz
    )


def test_a_quarter_wave_is_what_it_is_by_hand() -> None:
    """50 Ω, 250 ps at 1 GHz: 50²/75 = 33.33 Ω is seen, Γ = −41.67/108.33, 8.299 dB."""
    by_hand = -20 * math.log10((75 - 50**2 / 75) / (75 + 50**2 / 75))
    assert between(50, 250).return_loss_db == pytest.approx(by_hand)
    assert by_hand == pytest.approx(8.299, abs=5e-4)


def test_an_eighth_of_a_wave_is_what_it_is_by_hand() -> None:
    """Z = 50·(75 + 50j)/(50 + 75j) = 46.154 − 19.231j Ω: |Γ| = 34.67/122.67, 10.976 dB."""
    seen = complex(50 * (75 + 50j) / (50 + 75j))
    assert seen == pytest.approx(46.1538 - 19.2308j, abs=1e-4)
    by_hand = -20 * math.log10(abs((seen - 75) / (seen + 75)))
    assert between(50, 125).return_loss_db == pytest.approx(by_hand)
    assert by_hand == pytest.approx(10.976, abs=5e-4)


@pytest.mark.skipif(importlib.util.find_spec("skrf") is None, reason="scikit-rf is not installed")
@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("impedance_ohm", [32.3, 50.0, 71.0, 80.0])
@pytest.mark.parametrize("frequency_hz", [0.135e9, 1.5e9, 3e9, 6e9])
def test_scikit_rf_says_the_same(impedance_ohm: float, frequency_hz: float) -> None:
    """A line of scikit-rf between ports of 75 Ω has the same return loss (S11)."""
    import skrf
    from skrf.media import DefinedGammaZ0

    frequency = skrf.Frequency.from_f([frequency_hz], unit="Hz")
    beta = 2 * math.pi * frequency_hz / 3e8
    media = DefinedGammaZ0(frequency=frequency, gamma=1j * beta, z0=impedance_ohm, z0_port=75.0)
    length_m = 120e-12 * 3e8
    s11 = media.line(length_m, "m").s[0, 0, 0]
    found = between(impedance_ohm, 120, frequency_hz=frequency_hz).return_loss_db
    assert found == pytest.approx(-20 * math.log10(abs(s11)), rel=1e-9)


def test_what_is_not_seen_has_no_figure() -> None:
    """The line's own impedance, and half a wave of any other, send nothing back."""
    assert between(75, 120).return_loss_db is None
    half = between(50, 500)
    assert half.return_loss_db is None
    # At a quarter wave below it the 50 Ω do send back.
    assert half.worst_frequency_hz == pytest.approx(0.5e9)
    assert half.worst_return_loss_db == pytest.approx(8.299, abs=5e-4)


@given(st.floats(20, 200), st.floats(10, 400), st.floats(1e8, 1e10), st.floats(0.01, 1.0))
def test_the_worst_is_the_worst_up_to_there(
    impedance_ohm: float, delay_ps: float, frequency_hz: float, share: float
) -> None:
    """At no lower frequency does more come back."""
    whole = between(impedance_ohm, delay_ps, frequency_hz=frequency_hz)
    lower = between(impedance_ohm, delay_ps, frequency_hz=share * frequency_hz)
    if lower.return_loss_db is not None:
        assert whole.worst_return_loss_db is not None
        assert whole.worst_return_loss_db <= lower.return_loss_db + 1e-9


def test_the_frequency_is_the_top_of_the_cable_s_sheet() -> None:
    """The last loss of the sheet, between two lines of the cable's own impedance."""
    found = body_reflection(STATED, replace(BNC_60, body=body(71, 100)))
    assert isinstance(found, BodyReflection)
    assert (found.frequency_hz, found.line_ohm) == (3e9, 75.0)


def test_what_is_not_stated_is_not_computed() -> None:
    """No body, no impedance, no loss: each is said, none is guessed."""
    stated = replace(BNC_60, body=body(71, 100))
    for cable, connector, told in (
        (STATED, replace(BNC_60, body=None), "not computed: the drawing gives no body section"),
        (
            replace(STATED, sheet=replace(STATED.sheet, impedance_ohm=None)),
            stated,
            f"not computed: the sheet of {VID_60.code} states no impedance",
        ),
        (
            replace(STATED, sheet=replace(STATED.sheet, loss_points=())),
            stated,
            "and so no frequency to look at",
        ),
    ):
        found = body_reflection(cable, connector)
        assert isinstance(found, Reason)
        assert told in found.sentence
    with pytest.raises(BadValue):
        between(71, 100, frequency_hz=0.0)
    with pytest.raises(BadValue):
        between(71, 100, line_ohm=-75.0)
