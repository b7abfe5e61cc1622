"""Readings of finished ends: pulls, heights of crimps, stripped lengths, pins before and after."""
