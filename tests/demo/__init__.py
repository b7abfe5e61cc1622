"""Tests of the demo workshop."""
