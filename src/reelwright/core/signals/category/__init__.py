"""Limits of balanced data cabling by category: cable, connections, channel, permanent link."""
