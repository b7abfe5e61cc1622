"""Checks of the engineering core."""
