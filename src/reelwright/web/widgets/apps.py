"""The Django application of web widgets: it has templates and static files, and no tables."""

from django.apps import AppConfig


class WidgetsConfig(AppConfig):
    """Registers templates and static files."""

    name = "reelwright.web.widgets"
    label = "web_widgets"
