"""Tests of the shop's catalogue."""
