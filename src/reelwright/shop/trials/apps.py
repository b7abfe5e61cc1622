"""The Django application of the searches for process windows."""

from django.apps import AppConfig


class TrialsConfig(AppConfig):
    """Searches, trials, windows, gauges that weld well."""

    name = "reelwright.shop.trials"
    label = "trials"
    default_auto_field = "django.db.models.BigAutoField"
