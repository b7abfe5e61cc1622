"""Checks of constants, conversion, reading and display."""
