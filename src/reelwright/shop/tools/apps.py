"""Registers the app."""

from django.apps import AppConfig


class ToolsConfig(AppConfig):
    """Registers ``tools``."""

    name = "reelwright.shop.tools"
    label = "tools"
