"""A drawing that leaves the house as a file, for machines that have not our font.

Its labels were placed by the widths of our font. Another one is squeezed or stretched into the
same widths, so that no two labels run into each other; with ours nothing changes.
"""

import re
from xml.sax.saxutils import unescape

from reelwright.drawings.canvas import number
from reelwright.drawings.text_size import text_width

_TEXT = re.compile(
    r'<text (?P<told>[^>]*?font-size="(?P<size>[\d.]+)" font-weight="(?P<weight>\d+)"[^>]*)>'
    r"(?P<text>[^<]+)</text>"
)


def by_itself(svg: str) -> str:
    """Return the SVG with the width of every label stated."""
    return _TEXT.sub(_held, svg)


def _held(found: re.Match[str]) -> str:
    width = text_width(
        unescape(found["text"]), size=float(found["size"]), weight=int(found["weight"])
    )
    return (
        f'<text {found["told"]} textLength="{number(width)}" lengthAdjust="spacingAndGlyphs">'
        f"{found['text']}</text>"
    )
