"""What every plot goes through: our font for the plotting library, and plain SVG out of it."""

import re
from functools import cache
from xml.sax.saxutils import escape, quoteattr

from reelwright.style import font_folder


@cache
def register_fonts() -> None:
    """Let the plotting library measure and name our font; once a process."""
    import vl_convert

    vl_convert.register_font_directory(str(font_folder()))


def plain_svg(svg: str, *, title: str, description: str) -> str:
    """Return the SVG with one title and description instead of a role and a label on every mark.

    A reader of the page hears one sentence; the table beside holds the figures. Raises ValueError
    where the drawing carries an id or a style, which two drawings on a page, or a strict
    content-security policy, would not survive.
    """
    body = re.sub(r' (?:role|class|pointer-events|aria-[a-z]+)="[^"]*"', "", svg)
    for forbidden in (" style=", " id=", "<style", "<script"):
        if forbidden in body:
            raise ValueError(f"the plot carries {forbidden.strip()!r}")
    start = body.index(">") + 1
    opening = body[: start - 1] + f' role="img" aria-label={quoteattr(title)}>'
    return (
        f"{opening}<title>{escape(title)}</title><desc>{escape(description)}</desc>{body[start:]}"
    )
