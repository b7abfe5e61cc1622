"""The chart of weld energy over area."""

import pytest

from reelwright.charts.weld_law import KnownPoint, LawPoint, WeldLaw, WeldLawRow, draw_weld_law
from reelwright.core.errors import BadValue


def point(area_mm2: float) -> LawPoint:
    """A place on a law of 73 J/mm²."""
    energy_j = 73 * area_mm2
    return LawPoint(
        area_m2=area_mm2 * 1e-6, energy_j=energy_j, low_j=energy_j * 0.9, high_j=energy_j * 1.1
    )


def law(**other: object) -> WeldLaw:
    """A law with one gauge known and one asked."""
    given: dict[str, object] = {
        "title": "Weld energy",
        "curve": (point(1.0), point(3.0), point(9.0)),
        "known": (KnownPoint(name="T-15", area_m2=2.08e-6, energy_j=149.0),),
        "asked": point(3.31),
    }
    return WeldLaw(**(given | other))  # type: ignore[arg-type]


def test_the_chart_names_what_is_known_and_what_is_asked() -> None:
    """Set-up and energy stand in the picture and in its description; the table comes along."""
    rows = (WeldLawRow(what="T-15", area="2.08 mm²", energy="149 J", law="152 J"),)
    chart = draw_weld_law(law(), rows)
    assert chart.table == rows
    assert "T-15" in chart.svg
    assert "asked: 3.31\u202fmm², 242\u202fJ" in chart.svg
    assert "242" not in draw_weld_law(law(asked=None), rows).svg


def test_a_law_has_two_places_at_least() -> None:
    """One place, or places that do not rise, are no line."""
    for curve in ((point(1.0),), (point(2.0), point(1.0))):
        with pytest.raises(BadValue):
            law(curve=curve)
    with pytest.raises(BadValue):
        KnownPoint(name="", area_m2=1e-6, energy_j=1.0)
