"""Registers the app."""

from django.apps import AppConfig


class BinsConfig(AppConfig):
    """Registers ``bins``."""

    name = "reelwright.shop.bins"
    label = "bins"
