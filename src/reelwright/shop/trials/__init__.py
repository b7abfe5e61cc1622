"""Searches for a process window: what was asked, every trial made, the window written down."""
