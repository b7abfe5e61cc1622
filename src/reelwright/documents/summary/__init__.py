"""The day on one page: one sentence, seven numbers, what to look at first."""

from reelwright.documents.summary.content import LookFirst, SevenNumber, Summary
from reelwright.documents.summary.paper import render_summary

__all__ = ["LookFirst", "SevenNumber", "Summary", "render_summary"]
