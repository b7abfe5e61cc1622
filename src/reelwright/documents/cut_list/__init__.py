"""The cut list: what comes off which reel, in which order, and what stays."""

from reelwright.documents.cut_list.content import CutList, CutReel, CutRow
from reelwright.documents.cut_list.paper import render_cut_list

__all__ = ["CutList", "CutReel", "CutRow", "render_cut_list"]
