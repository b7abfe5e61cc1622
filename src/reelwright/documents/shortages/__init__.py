"""What is missing, for which orders, and by when."""

from reelwright.documents.shortages.content import Shortage, Shortages
from reelwright.documents.shortages.paper import render_shortages

__all__ = ["Shortage", "Shortages", "render_shortages"]
