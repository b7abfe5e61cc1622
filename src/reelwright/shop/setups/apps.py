"""The Django application of the set-ups."""

from django.apps import AppConfig


class SetUpsConfig(AppConfig):
    """Set-ups, revisions, pulls, working times."""

    name = "reelwright.shop.setups"
    label = "setups"
    default_auto_field = "django.db.models.BigAutoField"
