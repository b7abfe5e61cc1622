"""Labels of near points stand apart."""

from hypothesis import given
from hypothesis import strategies as st

from reelwright.charts.label_places import LabelPlace, place_labels

WIDE, HIGH = 7.5, 15.0


def box(point: tuple[float, float], told: str, place: LabelPlace) -> tuple[float, ...]:
    """Where a label prints."""
    left = point[0] + place.dx - (0.0 if place.is_right else WIDE * len(told))
    middle = point[1] + place.dy
    return left, middle - HIGH / 2, left + WIDE * len(told), middle + HIGH / 2


def overlap(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    """Whether two boxes have more than an edge in common."""
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide > 1e-9 and high > 1e-9


@given(
    x=st.floats(60, 500),
    y=st.floats(60, 300),
    away=st.tuples(st.floats(-20, 20), st.floats(-20, 20)),
)
def test_two_next_points_never_overprint(x: float, y: float, away: tuple[float, float]) -> None:
    """However close two proposals lie, their labels have nothing in common."""
    points = [(x, y), (x + away[0], y + away[1])]
    told = ["next 1", "next 2"]
    one, other = (
        box(*each)
        for each in zip(points, told, place_labels(points, told, width_px=600), strict=True)
    )
    assert not overlap(one, other)


def test_a_label_at_the_edge_stands_inside() -> None:
    """At the right edge it ends at its point, at the left it begins there."""
    (right,) = place_labels([(595.0, 100.0)], ["next 1"], width_px=600)
    (left,) = place_labels([(3.0, 100.0)], ["next 1"], width_px=600)
    assert (right.is_right, left.is_right) == (False, True)
