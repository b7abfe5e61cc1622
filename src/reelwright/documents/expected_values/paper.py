"""Expected values onto A4."""

from reelwright.documents.expected_values.content import NOT_A_CERTIFICATE, ExpectedValues
from reelwright.documents.press import print_pdf


def render_expected_values(content: ExpectedValues) -> bytes:
    """The expected values as PDF; every page says in words that nothing was measured."""
    return print_pdf(
        "expected_values/expected_values.typ",
        {
            "mark": content.mark,
            "sentence": content.sentence,
            "lead": content.lead,
            "lines": content.lines,
            "warning": NOT_A_CERTIFICATE,
        },
    )
