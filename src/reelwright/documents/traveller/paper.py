"""Travellers onto A5."""

from reelwright.documents.codes import qr_svg
from reelwright.documents.press import print_pdf
from reelwright.documents.traveller.content import STRIP_ROOM_MM, Travellers


def render_traveller(content: Travellers) -> bytes:
    """One PDF with every traveller; each counts its own pages. Raises PaperFault."""
    return print_pdf(
        "traveller/traveller.typ",
        {
            "mark": content.mark,
            "strip_room_mm": {str(ends): room for ends, room in STRIP_ROOM_MM.items()},
            "travellers": [
                {"sheet": sheet, "code_svg": qr_svg(sheet.code), "code": sheet.code}
                for sheet in content.travellers
            ],
        },
    )
