"""The Django application of orders."""

from django.apps import AppConfig


class OrdersConfig(AppConfig):
    """Customers, their orders, and every answer given."""

    name = "reelwright.shop.orders"
    label = "orders"
    default_auto_field = "django.db.models.BigAutoField"
