"""Tests of what traces of welds are kept."""
