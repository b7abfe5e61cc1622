"""Section and budget drawings."""

import pytest

from reelwright.core.errors import BadValue
from reelwright.drawings.budget import BudgetPart, BudgetView, budget_table, draw_budget
from reelwright.drawings.section import draw_section, section_table
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
from tests.ends_world import AUD_BP, DAT_6, POF_22, SPK_14, VID_28, VID_60


@pytest.mark.parametrize(
    "cable", [VID_60, VID_28, AUD_BP, SPK_14, DAT_6, POF_22], ids=lambda c: c.code
)
@pytest.mark.parametrize("scale", [2.0, 5.0, 10.0])
def test_every_section_is_plain_and_legible(cable, scale) -> None:  # type: ignore[no-untyped-def]
    """Each kind of cable has a section whose labels do not touch and that says every diameter."""
    svg = draw_section(cable, jacket="BU", scale=scale)
    assert_plain(svg)
    assert overlaps(svg) == []
    assert outside(svg) == []
    assert colours(svg) <= style_colours()
    shown = {box.text for box in text_boxes(svg)}
    assert {row.diameter for row in section_table(cable)} <= shown


def test_rings_are_to_scale() -> None:
    """The circles of a coax have its layers' radii × scale, outermost first."""
    radii = [
        float(c.attrib["r"])
        for c in parsed(draw_section(VID_60, jacket="BU", scale=4.0)).iter(f"{SVG}circle")
        if c.attrib.get("stroke")
    ]
    assert radii == pytest.approx([12.10, 8.80, 7.52, 7.32, 1.624], abs=5e-4)


def _budget(*used: float) -> BudgetView:
    return BudgetView(
        title="What uses up the 20 dB",
        parts=tuple(BudgetPart(name=f"part {n}", used=value) for n, value in enumerate(used)),
        limit=20.0,
        unit="dB",
    )


@pytest.mark.parametrize(
    "used", [(10.6, 0.2, 1.0), (35.6, 0.2, 1.0), (20.0,), (0.0, 0.1), (1, 2, 3, 4, 5)]
)
def test_every_budget_is_plain_and_legible(used: tuple[float, ...]) -> None:
    """Under, at and over the limit: labels apart, on the sheet, in house colours."""
    svg = draw_budget(_budget(*used))
    assert_plain(svg)
    assert overlaps(svg) == []
    assert outside(svg) == []
    shown = {box.text for box in text_boxes(svg)}
    assert all(f"{value:.1f}\u202fdB" in shown for value in used)


def test_the_bar_says_what_is_over_in_words_and_figures() -> None:
    """Over the limit it says by how much; under it, what is to spare; the table agrees."""
    over = {box.text for box in text_boxes(draw_budget(_budget(35.6, 0.2, 1.0)))}
    assert "limit 20.0\u202fdB, over by 16.8\u202fdB" in over
    assert budget_table(_budget(35.6, 0.2, 1.0))[-1] == ("over the limit", "16.8\u202fdB")
    under = {box.text for box in text_boxes(draw_budget(_budget(10.6, 0.2, 1.0)))}
    assert "8.2\u202fdB to spare" in under


def test_a_budget_without_parts_is_refused() -> None:
    """Nothing used up is no budget."""
    with pytest.raises(BadValue):
        _budget()
