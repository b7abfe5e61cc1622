"""A drawing's own size and title, read from its SVG, so that a page can print it true."""

import html
import re
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.documents.glyphs import printable_svg

_MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "px": 25.4 / 96, "": 25.4 / 96}
_ROOT = re.compile(r"<svg\b[^>]*>", re.DOTALL)
_LENGTH = r"\s{}\s*=\s*[\"']\s*([0-9.]+)\s*(mm|cm|in|pt|px|)\s*[\"']"
_VIEW_BOX = re.compile(r"\sviewBox\s*=\s*[\"']\s*([-0-9.eE+,\s]+)[\"']")
_TITLE = re.compile(r"<title\b[^>]*>(.*?)</title>", re.DOTALL)


@dataclass(frozen=True, kw_only=True)
class Picture:
    """An SVG with the size it asks for in millimetres and its title as the text alternative."""

    svg: str
    width_mm: float
    height_mm: float
    title: str


def read_picture(svg: str) -> Picture:
    """Read the size (mm; SVG's 96 px to the inch) and title. BadValue when it is no drawing."""
    root = _ROOT.search(svg)
    if root is None:
        raise BadValue(owner="Picture", field="svg", value=svg[:40], accepted="an SVG drawing")
    sizes: list[float | None] = []
    for side in ("width", "height"):
        found = re.search(_LENGTH.format(side), root[0])
        sizes.append(float(found[1]) * _MM_PER_UNIT[found[2]] if found else None)
    width_mm, height_mm = sizes
    if width_mm is None or height_mm is None:
        box = _VIEW_BOX.search(root[0])
        numbers = [float(n) for n in re.split(r"[\s,]+", box[1].strip())] if box else []
        if len(numbers) != 4:
            raise BadValue(
                owner="Picture", field="svg", value=root[0][:80], accepted="a size or a viewBox"
            )
        width_mm, height_mm = (n * _MM_PER_UNIT["px"] for n in numbers[2:])
    title = _TITLE.search(svg)
    return Picture(
        svg=printable_svg(svg),
        width_mm=width_mm,
        height_mm=height_mm,
        title=html.unescape(title[1].strip()) if title else "",
    )
