"""Stations, press cavities, blade sets, instruments and the length wheel."""
