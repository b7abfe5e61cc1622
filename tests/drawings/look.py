"""Reading a drawing back: its texts as boxes, its colours, its forbidden things."""

import itertools
import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass

from reelwright import style
from reelwright.drawings.text_size import text_width

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True, kw_only=True)
class TextBox:
    """One text and the rectangle its letters can reach."""

    text: str
    left: float
    right: float
    top: float
    bottom: float

    def touches(self, other: "TextBox") -> bool:
        """Return whether the two rectangles overlap by more than rounding."""
        return (
            self.left < other.right - 0.01
            and other.left < self.right - 0.01
            and self.top < other.bottom - 0.01
            and other.top < self.bottom - 0.01
        )


def parsed(svg: str) -> ET.Element:
    """Return the root; fails where the text is not well-formed."""
    return ET.fromstring(svg)


def text_boxes(svg: str) -> list[TextBox]:
    """Return every text as the box of its cap height and descent."""
    boxes = []
    for element in parsed(svg).iter(f"{SVG}text"):
        size = float(element.attrib["font-size"])
        text = element.text or ""
        width = text_width(text, size=size, weight=int(element.attrib["font-weight"]))
        x, y = float(element.attrib["x"]), float(element.attrib["y"])
        shift = {"start": 0.0, "middle": width / 2, "end": width}[element.attrib["text-anchor"]]
        boxes.append(
            TextBox(
                text=text,
                left=x - shift,
                right=x - shift + width,
                top=y - 0.66 * size,
                bottom=y + 0.2 * size,
            )
        )
    return boxes


def overlaps(svg: str) -> list[tuple[str, str]]:
    """Return each pair of texts that touch."""
    return [
        (one.text, other.text)
        for one, other in itertools.combinations(text_boxes(svg), 2)
        if one.touches(other)
    ]


def outside(svg: str) -> list[str]:
    """Return each text that reaches over the sheet's edge."""
    left, top, width, height = (float(v) for v in parsed(svg).attrib["viewBox"].split())
    return [
        box.text
        for box in text_boxes(svg)
        if box.left < left - 0.01
        or box.right > left + width + 0.01
        or box.top < top
        or box.bottom > top + height + 0.01
    ]


def style_colours() -> set[str]:
    """Return every colour that the one source of colours knows."""
    known = {value for name, value in vars(style).items() if name.isupper() and _is_colour(value)}
    for jacket in style.JACKET_COLOURS.values():
        known |= {jacket.fill, jacket.ink, jacket.pale, jacket.edge}
    return known


def _is_colour(value: object) -> bool:
    return isinstance(value, str) and re.fullmatch(r"#[0-9A-F]{6}", value) is not None


def colours(svg: str) -> set[str]:
    """Return every colour that a drawing uses."""
    return set(re.findall(r'"(#[0-9A-Fa-f]{3,8})"', svg))


def assert_plain(svg: str) -> None:
    """Fail unless the drawing is well-formed, named, in our font, and safe under our policy."""
    root = parsed(svg)
    assert root.tag == f"{SVG}svg"
    assert root.attrib["role"] == "img"
    assert (root.findtext(f"{SVG}title") or "").strip()
    assert (root.findtext(f"{SVG}desc") or "").strip()
    for element in root.iter():
        assert not {"style", "id", "class"} & set(element.attrib), element.attrib
        assert not any(name.startswith("on") for name in element.attrib)
        assert element.tag not in (f"{SVG}style", f"{SVG}script", f"{SVG}foreignObject")
    fonts = set(re.findall(r'font-family="([^"]*)"', svg))
    assert fonts <= {style.FONT_FAMILY}
    assert not set(style.MISSING_FROM_FONT) & set("".join(root.itertext()))
