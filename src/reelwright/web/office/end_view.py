"""The drawing and the making of one end, for pages: as the shop lays it out."""

from reelwright.shop.setups.end_view import end_dies, end_set_up, end_view, jacket_letters

__all__ = ["end_dies", "end_set_up", "end_view", "jacket_letters"]
