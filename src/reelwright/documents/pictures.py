"""A drawing's own size and title, read from its SVG, so that a page can print it true."""

import base64
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


# How a picture of w × h as stored is turned upright, by the number that Exif gives the way up.
_TURNS = {
    1: "1 0 0 1 0 0",
    2: "-1 0 0 1 {w} 0",
    3: "-1 0 0 -1 {w} {h}",
    4: "1 0 0 -1 0 {h}",
    5: "0 1 1 0 0 0",
    6: "0 1 -1 0 {h} 0",
    7: "0 -1 -1 0 {h} {w}",
    8: "0 -1 1 0 0 {w}",
}


def photograph_svg(
    content: bytes,
    *,
    kind: str,
    width_px: int,
    height_px: int,
    turned: int,
    title: str,
    room_mm: tuple[float, float],
) -> str:
    """Wrap a photograph ("jpeg" or "png") as a drawing: upright, as large as ``room_mm`` takes.

    Width and height are those of the file as stored; ``turned`` is the way up, 1 to 8 (Exif, CIPA
    DC-008, from memory). BadValue for another kind or way up.
    """
    for field, value, accepted in (
        ("kind", kind, ("jpeg", "png")),
        ("turned", turned, tuple(_TURNS)),
    ):
        if value not in accepted:
            raise BadValue(
                owner="photograph_svg",
                field=field,
                value=value,
                accepted=", ".join(map(str, accepted)),
            )
    wide, high = (height_px, width_px) if turned >= 5 else (width_px, height_px)
    scale = min(room_mm[0] / wide, room_mm[1] / high)
    turn = _TURNS[turned].format(w=width_px, h=height_px)
    code = base64.b64encode(content).decode("ascii")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide * scale:.2f}mm" '
        f'height="{high * scale:.2f}mm" viewBox="0 0 {wide} {high}">'
        f"<title>{html.escape(title)}</title>"
        f'<image width="{width_px}" height="{height_px}" transform="matrix({turn})" '
        f'href="data:image/{kind};base64,{code}"/></svg>'
    )
