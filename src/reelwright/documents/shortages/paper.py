"""Shortages onto A4."""

from reelwright.documents.press import print_pdf
from reelwright.documents.shortages.content import Shortages


def render_shortages(content: Shortages) -> bytes:
    """The shortages as PDF."""
    return print_pdf("shortages/shortages.typ", content)
