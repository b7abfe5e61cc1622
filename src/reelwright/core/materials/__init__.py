"""Metals and dielectrics, each row with its source."""
