"""The day drawing: to scale in time, everything named, nonsense refused."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from reelwright.core.errors import BadValue
from reelwright.drawings.day import Day, DayBlock, DayMark, DayRow, clock_text, draw_day

SVG = "{http://www.w3.org/2000/svg}"


def _block(
    change_over_start_min: float, start_min: float, finish_min: float, **more: object
) -> DayBlock:
    told = {"label": "T-02", "note": "", "late": False} | more
    return DayBlock(
        change_over_start_min=change_over_start_min,
        start_min=start_min,
        finish_min=finish_min,
        **told,  # type: ignore[arg-type]
    )


def _day(*blocks: DayBlock, marks: tuple[DayMark, ...] = ()) -> Day:
    return Day(
        title="The day",
        begin_min=480,
        end_min=1020,
        rows=(DayRow(station="Press", who="Ana", blocks=blocks),),
        marks=marks,
    )


def _outlined(svg: str) -> list[tuple[float, float, float]]:
    """Left edge, width and edge weight of each block."""
    root = ElementTree.fromstring(svg)
    return [
        (float(r.attrib["x"]), float(r.attrib["width"]), float(r.attrib["stroke-width"]))
        for r in root.iter(f"{SVG}rect")
        if "stroke" in r.attrib
    ]


def test_time_is_to_scale() -> None:
    """A block of twice the time is twice as wide, and the change-over between them is a gap."""
    (x1, w1, _), (x2, w2, _) = _outlined(
        draw_day(_day(_block(500, 510, 570), _block(570, 600, 720)))
    )
    assert w2 == pytest.approx(2 * w1, rel=1e-3)
    assert x2 - (x1 + w1) == pytest.approx(w1 / 2, rel=1e-3)


def test_a_change_over_is_hatched_and_none_is_not() -> None:
    """Hatching stands only where a machine is changed over."""
    with_one = draw_day(_day(_block(500, 560, 620)))
    without = draw_day(_day(_block(560, 560, 620)))
    (hatch,) = ElementTree.fromstring(with_one).iter(f"{SVG}path")
    assert hatch.attrib["d"].count("M") > 5
    assert not list(ElementTree.fromstring(without).iter(f"{SVG}path"))


def test_a_late_batch_is_told_without_colour() -> None:
    """A late batch has a heavier edge and the word, in the drawing and in its description."""
    svg = draw_day(_day(_block(500, 510, 700, late=True), _block(700, 700, 900)))
    (_, _, heavy), (_, _, light) = _outlined(svg)
    assert heavy > 2 * light
    texts = [t.text for t in ElementTree.fromstring(svg).iter(f"{SVG}text")]
    assert "T-02, late" in texts
    assert "T-02 08:30 to 11:40, late" in svg


def test_a_narrow_block_is_named_below_it() -> None:
    """A block too narrow for its name has it outside; a wide one inside, its note behind it."""
    svg = draw_day(_day(_block(500, 500, 504, label="T-05"), _block(600, 600, 900, note="O-12")))
    at = _texts_at(svg)
    assert at["T-05"][1] > at["O-12"][1] == at["T-02"][1]
    assert at["O-12"][0] > at["T-02"][0]


def _texts_at(svg: str) -> dict[str | None, tuple[float, float]]:
    return {
        t.text: (float(t.attrib["x"]), float(t.attrib["y"]))
        for t in ElementTree.fromstring(svg).iter(f"{SVG}text")
    }


def test_names_of_narrow_neighbours_do_not_touch() -> None:
    """Of three narrow neighbours the second is named above its block; where a name would touch
    one that stands there, it is left to the table."""
    blocks = (_block(500 + 6 * n, 500 + 6 * n, 505 + 6 * n, label=f"1{n}") for n in range(3))
    at = _texts_at(draw_day(_day(*blocks)))
    assert at["11"][1] < at["10"][1]
    assert "12" not in at or at["12"][0] >= at["10"][0] + 10


def test_a_compact_day_is_low_and_names_what_has_room() -> None:
    """Half the height, no names of people, no name outside a block; the description holds all."""
    day = _day(_block(500, 500, 504, label="T-05"), _block(600, 600, 900))
    svg = draw_day(day, compact=True)
    assert float(ElementTree.fromstring(svg).attrib["height"]) < float(
        ElementTree.fromstring(draw_day(day)).attrib["height"]
    )
    assert {"T-02", "Press"} <= _texts_at(svg).keys()
    assert not {"T-05", "Ana"} & _texts_at(svg).keys()
    assert "T-05 08:20 to 08:24" in svg


def test_marks_close_together_are_all_named() -> None:
    """Two parcel times half an hour apart both have their label, on two lines if need be."""
    marks = (DayMark(minute=930, label="courier booking"), DayMark(minute=960, label="courier"))
    svg = draw_day(_day(_block(500, 500, 600), marks=marks), width_px=640)
    root = ElementTree.fromstring(svg)
    labels = {t.text: float(t.attrib["y"]) for t in root.iter(f"{SVG}text")}
    assert labels["15:30 courier booking"] != labels["16:00 courier"]
    assert max(labels.values()) < float(root.attrib["height"])


def test_everything_lies_within_the_sheet() -> None:
    """Blocks from the first minute to the last end inside the drawing's width."""
    svg = draw_day(_day(_block(480, 480, 1020)), width_px=640)
    ((x, width, _),) = _outlined(svg)
    assert x > 0
    assert x + width <= 640


def test_it_carries_title_and_description() -> None:
    """A reader that cannot see gets each station with its batches and times."""
    svg = draw_day(_day(_block(500, 510, 570), marks=(DayMark(minute=960, label="courier"),)))
    told = re.search(r"<desc>(.*)</desc>", svg)
    assert told is not None
    assert told[1] == "Press: T-02 08:30 to 09:30. courier at 16:00."
    assert "<title>The day</title>" in svg


def test_clock_text() -> None:
    """Minutes after midnight read as a clock."""
    assert [clock_text(m) for m in (0, 610, 850)] == ["00:00", "10:10", "14:10"]


def test_nonsense_is_refused() -> None:
    """Blocks that end before they begin, or lie outside the day, are refused when built."""
    with pytest.raises(BadValue):
        _block(500, 600, 590)
    with pytest.raises(BadValue):
        _block(610, 600, 700)
    with pytest.raises(BadValue, match="holds every block"):
        _day(_block(400, 400, 500))
    with pytest.raises(BadValue, match="holds every block"):
        replace(_day(), marks=(DayMark(minute=1100, label="courier"),))
