"""The margin chart: plain, named, true, with its table."""

import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from reelwright import style
from reelwright.charts.margin import MarginChart, MarginCurve, draw_margin, run_sentence
from reelwright.charts.plain import plain_svg
from reelwright.core.errors import BadValue

SVG = "{http://www.w3.org/2000/svg}"
LENGTHS = np.linspace(0.0, 120.0, 121)


def a_curve(run_m: float, *, alpha: float = 0.177, limit: float = 18.8) -> MarginCurve:
    """Return a straight falling margin of ``limit`` at no length, alpha dB/m."""
    margin = limit - alpha * LENGTHS
    spread = 1.645 * np.sqrt(1.0 + (0.025 * alpha * LENGTHS) ** 2)
    return MarginCurve(
        title="What is to spare, by length",
        unit="dB",
        lengths_m=LENGTHS,
        margin=margin,
        low=margin - spread,
        high=margin + spread,
        run_m=run_m,
        run_margin=limit - alpha * run_m,
        length_at_95_m=97.0,
        length_at_50_m=limit / alpha,
    )


@pytest.fixture(scope="module")
def chart() -> MarginChart:
    """Return the chart of a run that works."""
    return draw_margin(a_curve(57.9))


def texts(svg: str) -> list[str]:
    """Return every written text."""
    return [element.text or "" for element in ET.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("run_m", [2.0, 57.9, 95.0, 104.0, 118.0, 300.0])
def test_every_run_gives_a_plain_named_chart(run_m: float) -> None:
    """Short, good, doubtful, failing and far beyond the plot: no id, style or foreign colour."""
    svg = draw_margin(a_curve(run_m)).svg
    root = ET.fromstring(svg)
    assert root.attrib["role"] == "img"
    assert root.findtext(f"{SVG}title") == "What is to spare, by length"
    assert "stay within the limit at" in (root.findtext(f"{SVG}desc") or "")
    assert not re.search(r'\s(style|id|class|role="graphics)', svg.split(">", 1)[1])
    assert set(re.findall(r'font-family="([^"]*)"', svg)) == {style.FONT_FAMILY}
    used = {c.upper() for c in re.findall(r'"(#[0-9A-Fa-f]{6})"', svg)}
    known = {v for v in vars(style).values() if isinstance(v, str) and v.startswith("#")}
    assert used <= known
    assert run_sentence(a_curve(run_m)) in texts(svg)


def test_the_sentence_says_spare_or_short_with_the_figure() -> None:
    """57.9 m has 8.6 dB to spare, 118 m is 2.1 dB short, in those words."""
    assert run_sentence(a_curve(57.9)) == "your 57.9\u202fm: 8.6\u202fdB to spare"
    assert run_sentence(a_curve(118.0)) == "your 118\u202fm: 2.1\u202fdB short"


def test_limit_curve_and_point_are_where_the_axes_say(chart: MarginChart) -> None:
    """The point's height over the limit line is its margin on the scale of the axis labels."""
    ticks = {}
    for element in ET.fromstring(chart.svg).iter(f"{SVG}text"):
        found = re.fullmatch(r"([+−]?)(\d+)\u202fdB", element.text or "")
        if found:
            place = re.search(r"translate\([^,]+,([-0-9.]+)\)", element.attrib["transform"])
            assert place is not None
            ticks[int(found[2]) * (-1 if found[1] == "−" else 1)] = float(place[1])
    per_db = (ticks[0] - ticks[10]) / 10
    rule = re.search(
        rf'<line transform="translate\([-0-9.]+,([-0-9.]+)\)" x2="[-0-9.]+" y2="([-0-9.]+)" '
        rf'stroke="{style.INK}" stroke-width="1.6"',
        chart.svg,
    )
    assert rule is not None
    # Labels are set on half pixels; the scale itself is exact.
    assert abs(float(rule[2])) == pytest.approx((18.8 - 0.177 * 57.9) * per_db, abs=0.6)


def test_the_table_says_what_the_chart_shows(chart: MarginChart) -> None:
    """The run, both lengths and the curve at round lengths, with the margin there."""
    rows = {row.what: row for row in chart.table if row.what != "curve"}
    assert rows["this run"].margin == pytest.approx(18.8 - 0.177 * 57.9)
    assert rows["50 % stay within the limit"].margin == pytest.approx(0.0, abs=1e-6)
    curve = [row for row in chart.table if row.what == "curve"]
    assert [row.length_m for row in curve] == [0, 20, 40, 60, 80, 100, 120]
    assert all(row.margin == pytest.approx(18.8 - 0.177 * row.length_m) for row in curve)


def test_the_same_curve_gives_the_same_bytes(chart: MarginChart) -> None:
    """Drawn twice, the chart is byte-identical: a pack can be made again."""
    assert draw_margin(a_curve(57.9)).svg == chart.svg


@pytest.mark.parametrize(
    "broken",
    [
        {"lengths_m": LENGTHS[::-1]},
        {"margin": LENGTHS[:5]},
        {"low": LENGTHS + 1e3},
        {"run_m": -1.0},
        {"margin": LENGTHS * np.nan},
    ],
)
def test_nonsense_is_refused(broken: dict[str, object]) -> None:
    """Falling lengths, other shapes, a band that crosses, a negative run: refused when built."""
    good = a_curve(57.9)
    with pytest.raises(BadValue):
        MarginCurve(**({name: getattr(good, name) for name in good.__dataclass_fields__} | broken))


def test_a_drawing_with_an_id_is_not_let_through() -> None:
    """A plot that carries an id or a style raises, instead of clashing on the page."""
    with pytest.raises(ValueError, match="id="):
        plain_svg('<svg width="1"><g id="clip0"/></svg>', title="t", description="d")
    with pytest.raises(ValueError, match="style="):
        plain_svg('<svg width="1"><g style="x"/></svg>', title="t", description="d")
