"""The summary onto one A4 page."""

from reelwright.documents.press import print_pdf
from reelwright.documents.summary.content import Summary


def render_summary(content: Summary) -> bytes:
    """One page always: what does not fit of ``look_first`` is counted, not dropped in silence.

    Day, parcels and reels stand below where the list leaves room for them.
    """
    return print_pdf("summary/summary.typ", content)
