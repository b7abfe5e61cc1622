"""The strip of pulls: to scale, readable, plain, with its table."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.drawings.pulls import PullRow, PullsView, draw_pulls, pulls_table
from tests.drawings.look import (
    SVG,
    assert_plain,
    colours,
    outside,
    overlaps,
    parsed,
    style_colours,
    text_boxes,
)

TEN = (248.0, 262.0, 231.0, 255.0, 240.0, 251.0, 266.0, 235.0, 249.0, 243.0)


def view(
    *rows: PullRow,
    limit_n: float = 180.0,
    mean_n: float | None = 248.0,
    bound_n: float | None = 204.8,
    wire: tuple[float, float] | None = None,
) -> PullsView:
    """Pulls against a limit."""
    return PullsView(
        title="Pulls of T-02 rev D",
        rows=rows or (PullRow(name="braid pulled out of the ferrule", forces_n=TEN, held=False),),
        limit_n=limit_n,
        mean_n=mean_n,
        bound_n=bound_n,
        wire_low_n=None if wire is None else wire[0],
        wire_high_n=None if wire is None else wire[1],
    )


HELD = PullRow(name="pulled to the limit and held", forces_n=(200.0, 205.0), held=True)
SLIPPED = PullRow(name="jacket slipped", forces_n=(190.0, 195.0, 201.0), held=False)


@pytest.mark.parametrize(
    "shown",
    [
        view(),
        view(SLIPPED, HELD, mean_n=None, bound_n=None),
        view(limit_n=300.0, bound_n=204.8),
        view(bound_n=-40.0, limit_n=150.0),
        view(wire=(416.0, 520.0), limit_n=222.5),
        view(SLIPPED, mean_n=195.3, bound_n=None),
    ],
)
def test_every_strip_is_plain_and_readable(shown: PullsView) -> None:
    """Well-formed, in the house's font and colours, no text on another and none outside."""
    svg = draw_pulls(shown)
    assert_plain(svg)
    assert colours(svg) <= style_colours()
    assert overlaps(svg) == []
    assert outside(svg) == []


def test_points_lie_to_scale() -> None:
    """Ten points, as far apart as their forces, and none on another."""
    circles = [
        (float(c.attrib["cx"]), float(c.attrib["cy"]))
        for c in parsed(draw_pulls(view())).iter(f"{SVG}circle")
    ]
    assert len(circles) == len(TEN)
    across = sorted(x for x, _ in circles)
    per_n = (across[-1] - across[0]) / (max(TEN) - min(TEN))
    assert across == pytest.approx(
        [across[0] + per_n * (f - min(TEN)) for f in sorted(TEN)], abs=0.01
    )
    for one in range(len(circles)):
        for other in range(one):
            (x1, y1), (x2, y2) = circles[one], circles[other]
            assert (x1 - x2) ** 2 + (y1 - y2) ** 2 > 64


def test_a_stopped_pull_looks_unlike_one_that_gave_way() -> None:
    """A ring with an arrow to the right in place of a dot: not told by colour alone."""
    svg = draw_pulls(view(HELD, mean_n=None, bound_n=None))
    assert len(list(parsed(svg).iter(f"{SVG}polygon"))) == len(HELD.forces_n)
    assert "bound" not in [box.text.split()[0] for box in text_boxes(svg)]


def test_the_numbers_of_the_drawing_are_those_of_its_table() -> None:
    """Row by row: how many, lowest, mean, highest, and the limit, bound and mean on the drawing."""
    assert pulls_table(view(SLIPPED)) == (
        ("jacket slipped", "3", "190.0\u202fN", "195.3\u202fN", "201.0\u202fN"),
    )
    texts = {box.text for box in text_boxes(draw_pulls(view()))}
    assert {"at least 180\u202fN", "bound 204.8\u202fN", "mean 248.0\u202fN"} <= texts


@given(
    st.lists(st.floats(1, 2000), min_size=1, max_size=40),
    st.floats(1, 2000),
    st.none() | st.floats(-2000, 1500),
)
def test_any_pulls_can_be_drawn(forces: list[float], limit_n: float, bound_n: float | None) -> None:
    """Whatever was pulled, no text leaves the sheet and every pull has its point."""
    row = PullRow(name="joint peeled", forces_n=tuple(forces), held=False)
    svg = draw_pulls(view(row, limit_n=limit_n, mean_n=sum(forces) / len(forces), bound_n=bound_n))
    assert outside(svg) == []
    assert len(list(parsed(svg).iter(f"{SVG}circle"))) == len(forces)


def test_nothing_to_draw_is_refused() -> None:
    """No row without pulls, no strip without rows."""
    with pytest.raises(BadValue):
        PullRow(name="joint peeled", forces_n=(), held=False)
    with pytest.raises(BadValue):
        PullsView(
            title="Pulls",
            rows=(),
            limit_n=180.0,
            mean_n=None,
            bound_n=None,
            wire_low_n=None,
            wire_high_n=None,
        )
