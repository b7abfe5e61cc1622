"""The Django application of web bench: it has templates and static files, and no tables."""

from django.apps import AppConfig


class BenchConfig(AppConfig):
    """Registers templates and static files."""

    name = "reelwright.web.bench"
    label = "web_bench"
