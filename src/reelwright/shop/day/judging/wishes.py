"""Wishes in the typed text that no column holds: what they come to is said, not passed over."""

import re

from reelwright.shop.day.judging.findings import Findings
from reelwright.shop.orders.columns import ReadLine

_ADAPTERS = (
    "Adapters, barrels and patch bays in the run are not counted: tell us how many there are, "
    "since each takes its share."
)
_WISHES = (
    (
        r"\bcertificates?\b(?! \d)|\bcertified\b|\btest (?:report|sheet)s?\b",
        "A certificate is written from what the finished cables measure; the figures here are "
        "predictions.",
    ),
    (
        r"\badapt[eo]rs?\b|\bbarrels?\b|\bcouplers?\b|\bpatch ?bays?\b|\bpatch panels?\b",
        _ADAPTERS,
    ),
    (
        r"\b(?:boots?|heat[- ]?shrink)\b",
        "Boots and heat-shrink go by your message; they change nothing in what was judged.",
    ),
)


def note_wishes(line: ReadLine, findings: Findings) -> None:
    """Add a note for each wish that the text holds."""
    text = line.typed.casefold()
    findings.notes += [
        note
        for words, note in _WISHES
        if re.search(words, text) and not (note is _ADAPTERS and line.adapters)
    ]
