"""Tests of the shop's searches for process windows."""
