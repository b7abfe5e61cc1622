"""Registers the app."""

from django.apps import AppConfig


class PeopleConfig(AppConfig):
    """People and their workshop."""

    name = "reelwright.shop.people"
    label = "people"
