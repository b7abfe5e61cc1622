"""The Django application of work."""

from django.apps import AppConfig


class WorkConfig(AppConfig):
    """Pieces, cut plans, bench plans, travellers."""

    name = "reelwright.shop.work"
    label = "work"
    default_auto_field = "django.db.models.BigAutoField"
