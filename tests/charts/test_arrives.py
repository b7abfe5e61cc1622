"""Eye, reflection and loss charts: plain, named, true, each with its table."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from reelwright import style
from reelwright.charts.eye import EyeCurve, draw_eye, open_sentence
from reelwright.charts.loss import LossCurve, StatedLoss, draw_loss, residual_label
from reelwright.charts.reflection import ReflectionCurve, draw_reflection, end_label
from reelwright.core.errors import BadValue

SVG = "{http://www.w3.org/2000/svg}"
PHASES = np.arange(16) / 16 - 0.5
BITS = np.where(np.arange(31) % 3 == 0, 1.0, -1.0)
DISTANCE = np.linspace(-0.5, 21.0, 5001)
HERTZ = np.geomspace(1e6, 3e9, 160)


def an_eye(height: float) -> EyeCurve:
    """Return an eye whose opening is a parabola of this height."""
    return EyeCurve(
        title="Behind an equaliser",
        phase_ratio=PHASES,
        opening_ratio=height - 6.0 * PHASES**2,
        level_ratio=np.outer(1 - PHASES**2, BITS),
    )


def a_trace() -> ReflectionCurve:
    """Return a trace of 20 m with a peak of 4 ohm at the near end and 2 at the far one."""
    own = 74.4 + np.sqrt(np.maximum(DISTANCE, 0.0))
    near = 4.0 * np.exp(-(((DISTANCE - 0.03) / 0.02) ** 2))
    far = 2.0 * np.exp(-(((DISTANCE - 20.0) / 0.02) ** 2))
    return ReflectionCurve(
        title="What a reflectometer would show",
        distance_m=DISTANCE,
        seen_ohm=own + near + far,
        own_ohm=own,
        length_m=20.0,
        resolution_m=0.025,
    )


def a_loss(limit_db: float | None = 20.0) -> LossCurve:
    """Return a loss of 10 dB at 1 GHz by the root law, with three stated points."""
    loss = 10 * np.sqrt(HERTZ / 1e9)
    return LossCurve(
        title="Loss over frequency",
        frequency_hz=HERTZ,
        loss_db=loss,
        low_db=0.94 * loss,
        high_db=1.06 * loss,
        stated=tuple(
            StatedLoss(frequency_hz=hz, loss_db=10 * (hz / 1e9) ** 0.5, residual=off)
            for hz, off in ((1e7, 0.004), (1e8, -0.0123), (1e9, 0.0))
        ),
        carried_on_from_hz=1e9,
        deciding_hz=1.485e9,
        limit_db=limit_db,
    )


def texts(svg: str) -> list[str]:
    """Return every written text."""
    return [element.text or "" for element in ET.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize(
    "svg",
    [
        pytest.param(draw_eye(an_eye(0.6)).svg, id="open eye"),
        pytest.param(draw_eye(an_eye(-0.2)).svg, id="closed eye"),
        pytest.param(draw_reflection(a_trace()).svg, id="trace"),
        pytest.param(draw_loss(a_loss()).svg, id="loss"),
        pytest.param(draw_loss(a_loss(None)).svg, id="loss without a limit"),
    ],
)
def test_every_chart_is_plain_and_named_in_the_house_colours(svg: str) -> None:
    """No id, style or foreign colour; one title, one description, one family of type."""
    root = ET.fromstring(svg)
    assert root.attrib["role"] == "img"
    assert root.findtext(f"{SVG}title")
    assert (root.findtext(f"{SVG}desc") or "").endswith(".")
    assert not re.search(r'\s(style|id|class|role="graphics)', svg.split(">", 1)[1])
    assert set(re.findall(r'font-family="([^"]*)"', svg)) == {style.FONT_FAMILY}
    used = {c.upper() for c in re.findall(r'"(#[0-9A-Fa-f]{6})"', svg)}
    known = {v for v in vars(style).values() if isinstance(v, str) and v.startswith("#")}
    assert used <= known
    assert len(svg) < 120_000


def test_an_eye_says_how_far_it_is_open_or_that_it_is_closed() -> None:
    """0.6 high: open where 6·x² stays below, 10 of 16 phases at most; below zero: closed."""
    curve = an_eye(0.6)
    share = round(float((6 * PHASES**2 < 0.6).mean()) * 100)
    assert open_sentence(curve) == f"open by 0.60, over {share}\u202f% of the bit"
    assert open_sentence(curve) in texts(draw_eye(curve).svg)
    assert open_sentence(an_eye(-0.1)) == "closed"
    assert "closed" in texts(draw_eye(an_eye(-0.1)).svg)
    middle = next(row for row in draw_eye(curve).table if abs(row.phase_ratio) < 1e-9)
    assert middle.opening_ratio == pytest.approx(0.6)


def test_the_opening_is_drawn_only_where_there_is_one() -> None:
    """The copper outline of an open eye is missing from a closed one."""
    assert style.COPPER.lower() in draw_eye(an_eye(0.6)).svg.lower()
    assert style.COPPER.lower() not in draw_eye(an_eye(-0.2)).svg.lower()


def test_both_ends_are_named_where_they_stand_out() -> None:
    """Near and far end carry their peaks, thinned or not, and the table holds both."""
    chart = draw_reflection(a_trace())
    near, far = chart.table[0], chart.table[-1]
    assert near.distance_m == pytest.approx(0.03, abs=0.01)
    assert far.distance_m == pytest.approx(20.0, abs=0.01)
    assert far.seen_ohm == pytest.approx(74.4 + 20**0.5 + 2.0, abs=0.05)
    assert {end_label(near), end_label(far)} <= set(texts(chart.svg))
    assert [row.what for row in chart.table[1:-1]] == [
        f"cable at {at}\u202fm" for at in ("5", "10", "15")
    ]


def test_residuals_are_written_beside_every_stated_point() -> None:
    """What the fit lies off is drawn and stands in the table, nought among them."""
    chart = draw_loss(a_loss())
    told = texts(chart.svg)
    for words in ("fit +0.4\u202f%", "fit \u22121.2\u202f%", "fit 0.0\u202f%"):
        assert words in told
    assert [row.residual for row in chart.table] == [None, 0.004, -0.0123, 0.0]
    assert residual_label(0.0003) == "0.0\u202f%"


def test_the_loss_is_read_where_it_decides_and_the_limit_is_named() -> None:
    """At 1485 MHz it is 12.2 dB; the limit is drawn where there is one."""
    chart = draw_loss(a_loss())
    assert chart.table[0].loss_db == pytest.approx(10 * 1.485**0.5, abs=0.01)
    assert "12.2\u202fdB at 1485\u202fMHz" in texts(chart.svg)
    assert "limit 20.0\u202fdB" in texts(chart.svg)
    assert not any(told.startswith("limit") for told in texts(draw_loss(a_loss(None)).svg))


def test_drawn_twice_the_charts_are_the_same_bytes() -> None:
    """The same values give the same drawing."""
    assert draw_eye(an_eye(0.5)).svg == draw_eye(an_eye(0.5)).svg
    assert draw_reflection(a_trace()).svg == draw_reflection(a_trace()).svg
    assert draw_loss(a_loss()).svg == draw_loss(a_loss()).svg


@pytest.mark.parametrize(
    ("curve", "broken"),
    [
        (an_eye(0.5), {"phase_ratio": PHASES[::-1]}),
        (an_eye(0.5), {"opening_ratio": PHASES[:3]}),
        (an_eye(0.5), {"level_ratio": np.full((16, 3), np.nan)}),
        (a_trace(), {"distance_m": DISTANCE[::-1]}),
        (a_trace(), {"seen_ohm": DISTANCE * np.inf}),
        (a_trace(), {"length_m": 0.0}),
        (a_loss(), {"frequency_hz": HERTZ[::-1]}),
        (a_loss(), {"loss_db": HERTZ[:4]}),
        (a_loss(), {"limit_db": -1.0}),
    ],
)
def test_nonsense_is_refused(curve: Any, broken: dict[str, Any]) -> None:
    """Falling axes, other shapes, numbers that are none, a length of nothing: refused by name."""
    with pytest.raises(BadValue, match=next(iter(broken))):
        replace(curve, **broken)
