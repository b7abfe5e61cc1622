"""The cut list onto A4."""

from dataclasses import fields
from typing import Any

from reelwright.documents.cut_list.content import CutList, CutReel
from reelwright.documents.press import print_pdf


def render_cut_list(content: CutList) -> bytes:
    """The cut list as PDF; a reel whose cuts do not fit a page goes on under its own heading."""
    shown = {field.name: getattr(content, field.name) for field in fields(content)}
    shown["reels"] = [_reel(reel) for reel in content.reels]
    return print_pdf("cut_list/cut_list.typ", shown)


def _reel(reel: CutReel) -> dict[str, Any]:
    shown = {field.name: getattr(reel, field.name) for field in fields(reel)}
    shown["cuts"] = [{"cut": cut, "last": cut.last} for cut in reel.cuts]
    return shown
