"""The charts of trials: plain, named, true, with their table."""

import re
import xml.etree.ElementTree as ET
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright import style
from reelwright.charts.contour import column_runs, zero_line
from reelwright.charts.trials import TrialsChart, draw_trials, held_values
from reelwright.core.errors import BadValue
from reelwright.core.trials.model import TrialsModel, fit_model
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.propose import Proposals, propose
from reelwright.core.trials.window import NoWindow, Window, find_window
from tests.trials_world import ENERGY, problem, trial, welded

SVG = "{http://www.w3.org/2000/svg}"


def _searched(made: TrialsProblem) -> tuple[TrialsModel, Window | NoWindow, Proposals]:
    model = fit_model(made)
    return model, find_window(model, seed=1), propose(model, count=2, seed=1)


def _hill() -> TrialsProblem:
    dice = np.random.default_rng(1)
    places = product((230, 265, 300, 335), (2.0, 2.7, 3.4))
    made = [welded(n, at, dice, repeats=5) for n, at in enumerate(places, start=1)]
    return problem(*made, trial(20, (420, 4.0), failure="cut through"))


def _ridge() -> TrialsProblem:
    pulls = ((220, 163.0), (260, 243.0), (290, 268.0), (330, 255.0))
    made = [trial(n, (e,), (p, p + 6, p - 5)) for n, (e, p) in enumerate(pulls, start=1)]
    return problem(*made, trial(5, (400,), failure="cut through"), settings=(ENERGY,))


@pytest.fixture(scope="module")
def hill() -> tuple[TrialsModel, Window | NoWindow, Proposals]:
    """Return a search over two settings that found a window."""
    return _searched(_hill())


@pytest.fixture(scope="module")
def chart(hill: tuple[TrialsModel, Window | NoWindow, Proposals]) -> TrialsChart:
    """Return its map."""
    model, window, proposals = hill
    return draw_trials(model, window=window, proposals=proposals)


def _texts(svg: str) -> list[str]:
    return [element.text or "" for element in ET.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("made", [_hill(), _ridge(), problem()], ids=["map", "line", "untried"])
def test_every_search_gives_a_plain_named_chart(made: TrialsProblem) -> None:
    """A map, a line and a search without trials: no id, style or foreign colour, one title."""
    model, window, proposals = _searched(made)
    svg = draw_trials(model, window=window, proposals=proposals).svg
    root = ET.fromstring(svg)
    assert root.attrib["role"] == "img"
    assert root.findtext(f"{SVG}title") == "Trials, and the window they prove"
    assert "trials were made" in (root.findtext(f"{SVG}desc") or "")
    assert not re.search(r'\s(style|id|class|role="graphics)', svg.split(">", 1)[1])
    assert set(re.findall(r'font-family="([^"]*)"', svg)) == {style.FONT_FAMILY}
    used = {c.upper() for c in re.findall(r'"(#[0-9A-Fa-f]{6})"', svg)}
    known = {v for v in vars(style).values() if isinstance(v, str) and v.startswith("#")}
    assert used <= known


def test_each_trial_is_on_the_map_with_its_number(chart: TrialsChart) -> None:
    """Thirteen numbers, two proposals and the key's words are written on the map."""
    told = _texts(chart.svg)
    assert {str(n) for n in range(1, 13)} | {"20", "next 1", "next 2"} <= set(told)
    assert {"within limits", "not within", "failed", "proven window", "too risky"} <= set(told)
    assert "energy, J" in told


def test_marks_stand_where_the_axes_say(chart: TrialsChart) -> None:
    """The failed trial at 420 J and 4.0 bar lies in the upper right corner of the plot."""
    place = r'transform="translate\(([0-9.]+),([0-9.]+)\)"'
    crosses = re.findall(rf'{place}[^>]*stroke="{style.BAD}" stroke-width="2.5"', chart.svg)
    assert ("600", "0") in crosses


def test_the_table_says_what_the_chart_shows(chart: TrialsChart) -> None:
    """One row a trial with settings and outcome, and one for each proposal with its sentence."""
    rows = {row.what: row for row in chart.table}
    assert len(chart.table) == 15
    assert rows["trial 20"].outcome == "failed: cut through"
    assert rows["trial 8"].settings == ("300\u202fJ", "2.7\u202fbar")
    assert rows["trial 8"].outcome == "within every limit"
    assert rows["trial 1"].outcome == "not within every limit"
    assert rows["next 1"].outcome.startswith("Try energy")


def test_the_same_search_gives_the_same_bytes(
    hill: tuple[TrialsModel, Window | NoWindow, Proposals], chart: TrialsChart
) -> None:
    """Drawn twice, the chart is byte-identical, and with axes changed it is another."""
    model, window, proposals = hill
    assert draw_trials(model, window=window, proposals=proposals).svg == chart.svg
    turned = draw_trials(model, window=window, proposals=proposals, across="pressure")
    assert turned.svg != chart.svg
    assert "pressure, bar" in _texts(turned.svg)


def test_other_settings_are_held_at_the_centre(
    hill: tuple[TrialsModel, Window | NoWindow, Proposals],
) -> None:
    """The map is cut at the window's centre, without a window at the nearest, else the middle."""
    model, window, _ = hill
    assert isinstance(window, Window)
    assert held_values(model, window) == window.centre
    none = NoWindow(reasons=(), nearest=(300.0, 2.5))
    assert held_values(model, none) == (300.0, 2.5)
    assert held_values(model, NoWindow(reasons=(), nearest=None)) == (300.0, 2.7)


@pytest.mark.parametrize(("across", "up"), [("power", None), ("energy", "energy"), (None, "power")])
def test_axes_that_are_no_settings_are_refused(
    hill: tuple[TrialsModel, Window | NoWindow, Proposals], across: str | None, up: str | None
) -> None:
    """A setting that is not there, and the same setting twice, are refused with what there is."""
    model, window, proposals = hill
    with pytest.raises(BadValue, match="energy and pressure"):
        draw_trials(model, window=window, proposals=proposals, across=across, up=up)


@given(st.floats(0.15, 0.45), st.floats(0.3, 0.7), st.floats(0.3, 0.7))
def test_a_circle_is_outlined_as_a_circle(radius: float, x: float, y: float) -> None:
    """The zero line of a cone lies on its circle, and the columns fill it to its area."""
    across, ups = np.linspace(0, 1, 101), np.linspace(0, 1, 101)
    gap = np.hypot(across[None, :] - x, ups[:, None] - y)
    line = zero_line(radius - gap, across, ups)
    for one in line:
        for px, py in (one[:2], one[2:]):
            assert np.hypot(px - x, py - y) == pytest.approx(radius, abs=2e-3)
    fine = across[(across > 0.002) & (across < 0.998)]
    area = sum(high - low for _, low, high in column_runs(radius - gap, ups)) * 0.01
    inside = np.minimum(1, y + np.sqrt(np.maximum(0, radius**2 - (fine - x) ** 2)))
    inside -= np.maximum(0, y - np.sqrt(np.maximum(0, radius**2 - (fine - x) ** 2)))
    assert area == pytest.approx(inside.sum() * 0.01, abs=0.02)
