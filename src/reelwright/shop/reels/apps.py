"""Registers the app."""

from django.apps import AppConfig


class ReelsConfig(AppConfig):
    """Registers ``reels``."""

    name = "reelwright.shop.reels"
    label = "reels"
