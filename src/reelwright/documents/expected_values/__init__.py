"""What each cable should measure: a prediction on paper, and no certificate."""

from reelwright.documents.expected_values.content import (
    NOT_A_CERTIFICATE,
    ExpectedLine,
    ExpectedRow,
    ExpectedValues,
)
from reelwright.documents.expected_values.paper import render_expected_values

__all__ = [
    "NOT_A_CERTIFICATE",
    "ExpectedLine",
    "ExpectedRow",
    "ExpectedValues",
    "render_expected_values",
]
