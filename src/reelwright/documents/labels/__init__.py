"""Wrap-around labels for a roll: one label a page, at true size."""

from reelwright.documents.labels.content import Label, LabelRoll, Labels
from reelwright.documents.labels.paper import render_labels

__all__ = ["Label", "LabelRoll", "Labels", "render_labels"]
