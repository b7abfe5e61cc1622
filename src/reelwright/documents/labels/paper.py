"""Labels onto the roll."""

from functools import cache

from reelwright.documents.codes import qr_svg
from reelwright.documents.labels.content import Labels
from reelwright.documents.press import print_pdf


def render_labels(content: Labels) -> bytes:
    """One PDF, a page a label, each page exactly the roll's size. The code says the serial.

    Text too long for its place is shortened with "…"; numbers never are: a serial that does not fit
    raises PaperFault. A roll lower than 20 mm has room for the length once and one line of text.
    """
    code_of = cache(qr_svg)
    return print_pdf(
        "labels/labels.typ",
        {
            "code": content.code,
            "roll": content.roll,
            "labels": [
                {"label": label, "code_svg": code_of(label.serial)} for label in content.labels
            ],
        },
    )
