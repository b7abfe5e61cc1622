"""The set-up sheet onto A4."""

from reelwright.documents.codes import qr_svg
from reelwright.documents.press import print_pdf
from reelwright.documents.set_up_sheet.content import (
    NOT_FOR_ORDERS,
    PHOTOGRAPH_ROOM_MM,
    SECTION_ROOM_MM,
    STRIP_ROOM_MM,
    TRUE_STRIP_ROOM_MM,
    SetUpPaper,
)


def render_set_up_sheet(content: SetUpPaper) -> bytes:
    """The sheet as PDF; unless it is released, every page says so in words. Raises PaperFault."""
    banner = "" if content.released else f"{content.state[:1].upper()}{content.state[1:]}. "
    return print_pdf(
        "set_up_sheet/set_up_sheet.typ",
        {
            "mark": content.mark,
            "sheet": content,
            "code_svg": qr_svg(content.code),
            "banner": banner and banner + NOT_FOR_ORDERS,
            "strip_room_mm": STRIP_ROOM_MM,
            "true_room_mm": TRUE_STRIP_ROOM_MM,
            "section_room_mm": SECTION_ROOM_MM,
            "photograph_room_mm": PHOTOGRAPH_ROOM_MM,
        },
    )
