"""The cut list onto A4."""

from reelwright.documents.cut_list.content import CutList
from reelwright.documents.press import print_pdf


def render_cut_list(content: CutList) -> bytes:
    """The cut list as PDF; a reel whose cuts do not fit a page goes on under its own heading."""
    return print_pdf("cut_list/cut_list.typ", content)
