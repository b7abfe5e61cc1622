"""Signals that are well known and that nothing here judges: what to ask about each instead."""

import re

_ROWS = (
    (
        r"\b50\s*(ohms?\b|ω|Ω)",
        "Not computed: 50 ohm. The coax signals judged here are all of 75 ohm. Which equipment is "
        "it for, and what does its socket ask for?",
    ),
    (
        r"\bsatellite\b|\blnb\b",
        "Not computed: satellite goes up to 2150 MHz and feeds the head over the cable. Which "
        "level does the head give, which does the receiver need, and how many mA does the head "
        "take?",
    ),
    (
        r"\bword ?clock\b|\bgen-?lock\b|\bblack ?burst\b|\btri-?level\b|\bsync\b",
        "Not computed: for clocks and sync no limit is known to us. Which equipment is it for, at "
        "which rate, and is the far end terminated with 75 ohm?",
    ),
    (
        r"\bhdmi\b|\busb\b|\bdisplay ?port\b|\bthunderbolt\b",
        "Not computed: such a cable is bought finished and not made to length. Could the picture "
        "or the data travel another way?",
    ),
)


def unjudged_question(text: str) -> str | None:
    """Return the question for a signal in ``text`` (small letters) that is known and not judged.

    None where it names no such signal.
    """
    for words, question in _ROWS:
        if re.search(words, text):
            return question
    return None
