"""Readings of finished ends: pulls, heights of crimps, stripped lengths."""
