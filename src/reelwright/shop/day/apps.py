"""The Django application of day."""

from django.apps import AppConfig


class DayConfig(AppConfig):
    """The runs of the day."""

    name = "reelwright.shop.day"
    label = "day"
    default_auto_field = "django.db.models.BigAutoField"
