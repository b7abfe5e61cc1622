"""Signals that are well known and that nothing here judges: what to ask about each instead."""

import re

_ROWS = (
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
