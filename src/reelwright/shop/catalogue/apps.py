"""The Django application of the catalogue."""

from django.apps import AppConfig


class CatalogueConfig(AppConfig):
    """Cables, connectors, aliases, prices."""

    name = "reelwright.shop.catalogue"
    label = "catalogue"
    default_auto_field = "django.db.models.BigAutoField"
