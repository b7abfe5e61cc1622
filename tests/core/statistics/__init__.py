"""Checks of the statistics that the main job uses."""
