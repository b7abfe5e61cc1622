"""The day on one page: one sentence, seven numbers, what to look at first."""

from reelwright.documents.summary.content import Fetch, LookFirst, SevenNumber, Summary
from reelwright.documents.summary.paper import render_summary

__all__ = ["Fetch", "LookFirst", "SevenNumber", "Summary", "render_summary"]
