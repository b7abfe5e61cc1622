"""Bars of effects, and the trace of a weld over the band of the good ones."""

import pytest

from reelwright.charts.effects import EffectBar, draw_effects
from reelwright.charts.weld_trace import TraceDrawn, band_of, draw_weld_trace
from reelwright.core.errors import BadValue
from reelwright.style import COPPER, GRAPHITE

CURVE = ((0.0, 0.0), (0.1, 300.0), (0.2, 300.0), (0.201, 0.0))


def test_each_effect_has_its_bar_and_its_words() -> None:
    """What stands out is copper, the rest graphite; names and figures are in the description."""
    drawn = draw_effects(
        "Effects on pull",
        "N",
        (
            EffectBar(name="energy", change=60.0, error=2.0, stands_out=True),
            EffectBar(name="energy × pressure", change=-1.0, error=2.0, stands_out=False),
        ),
    )
    assert "energy 60.0\u202fN; energy × pressure −1.00\u202fN." in drawn
    assert COPPER.casefold() in drawn.casefold()
    assert GRAPHITE.casefold() in drawn.casefold()
    with pytest.raises(BadValue):
        draw_effects("none", "N", ())


def test_the_band_is_the_mean_and_three_deviations_at_each_moment() -> None:
    """Five welds with peaks of 280 to 320 W: mean 300 W, s 15.81 W; four welds make no band."""
    good = [tuple((t, w * k) for t, w in CURVE) for k in (280 / 300, 290 / 300, 1.0, 310 / 300,
            320 / 300)]  # fmt: skip
    band = band_of(good)
    assert band is not None
    middle = len(band.time_s) // 2
    assert band.time_s[middle] == pytest.approx(0.1)
    assert band.high_w[middle] == pytest.approx(300 + 3 * 15.8114, abs=1e-3)
    assert band.low_w[middle] == pytest.approx(300 - 3 * 15.8114, abs=1e-3)
    assert band_of(good[:4]) is None


def test_the_trace_is_drawn_with_its_peak_and_says_whether_there_is_a_band() -> None:
    """Title, words and the peak's figure; time that does not go on is refused."""
    alone = draw_weld_trace(TraceDrawn(title="weld 1", curve=CURVE, good=()))
    assert "300\u202fW at 0.100\u202fs" in alone
    assert "no band of good welds yet" in alone
    over = draw_weld_trace(TraceDrawn(title="weld 6", curve=CURVE, good=(CURVE,) * 5))
    assert "the band is that of the good welds" in over
    assert ">good welds<" in over
    with pytest.raises(BadValue):
        TraceDrawn(title="weld", curve=((0.0, 1.0), (0.0, 2.0)), good=())
