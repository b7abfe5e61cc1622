"""Tests of files of readings."""
