"""The Django application of web office: it has templates and static files, and no tables."""

from django.apps import AppConfig


class OfficeConfig(AppConfig):
    """Registers templates and static files."""

    name = "reelwright.web.office"
    label = "web_office"
