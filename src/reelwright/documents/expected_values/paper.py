"""Expected values onto A4."""

from reelwright.documents.expected_values.content import NOT_A_CERTIFICATE, ExpectedValues
from reelwright.documents.press import print_pdf


def render_expected_values(content: ExpectedValues) -> bytes:
    """The expected values as PDF; every page says in words that nothing was measured.

    Where a figure comes from stands once at the end, and its number beside every figure from there.
    """
    notes: dict[str, int] = {}
    lines = [
        {
            "line": line,
            "rows": [
                {"row": row, "note": notes.setdefault(row.source, len(notes) + 1)}
                for row in line.rows
            ],
        }
        for line in content.lines
    ]
    return print_pdf(
        "expected_values/expected_values.typ",
        {
            "mark": content.mark,
            "sentence": content.sentence,
            "lead": content.lead,
            "lines": lines,
            "notes": list(notes),
            "warning": NOT_A_CERTIFICATE,
        },
    )
