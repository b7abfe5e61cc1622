"""Plots with axes, each written once: value in, SVG text and its table out."""
