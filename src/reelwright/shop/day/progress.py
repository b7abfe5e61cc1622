"""Telling how far long work is."""

from collections.abc import Callable

Progress = Callable[[str, float], None]
"""Called with what is being done and how far the whole is, 0 to 1."""


def silent(_what: str, _share: float) -> None:
    """Tell nobody."""
