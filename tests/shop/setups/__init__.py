"""Tests of the shop's setups."""
