"""What a page tells of a connector: its drawing's tolerances, its face with who says so."""

from dataclasses import replace

from reelwright.demo.connectors import connector_entries
from reelwright.web.office.connector_view import back_end, face

CONNECTORS = {entry.connector.code: entry.connector for entry in connector_entries()}


def plain(text: str) -> str:
    """The text with common spaces."""
    return text.replace("\u202f", " ")


def test_a_back_end_is_told_with_its_tolerances() -> None:
    """To the micrometre where the maker keeps finer than a hundredth; the tip's window with it."""
    told = {name: plain(value) for name, value in back_end(CONNECTORS["BNC-60"])}
    assert told["Bore of the pin's barrel"] == "0.88 mm ± 0.005 mm"
    assert told["Bore of the stem"] == "4.00 mm ± 0.02 mm"
    assert told["Tip of the pin, allowed"] == "5.45 mm to 5.79 mm"
    assert "Floor to reference plane" not in told


def test_a_face_says_whose_figure_it_is() -> None:
    """Read in a standard's title, from memory, or nothing at all."""
    (bore,) = face(CONNECTORS["BNC-60"])
    assert (plain(bore.value), str(bore.source)[:19]) == ("6.50 mm", "IEC 61169-8:2007, i")
    rows = face(replace(CONNECTORS["BNC-60"], impedance_ohm=50.0))
    assert [plain(row.value) for row in rows] == [
        "6.50 mm",
        "1.32 mm to 1.37 mm",
        "at most 5.28 mm",
    ]
    assert "from memory" in str(rows[1].source)
    assert face(CONNECTORS["XLR3M"]) == ()


def test_a_connector_without_a_drawing_tells_what_it_takes() -> None:
    """A soldered one has its accepted ranges and no more."""
    told = [name for name, _ in back_end(CONNECTORS["XLR3M"])]
    assert told == ["Takes jackets", "Takes conductors"]
