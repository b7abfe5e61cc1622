"""What waits from before: pieces promised earlier that no reel has given yet."""

import datetime as dt

from reelwright.core.quantities.date_text import read_date
from reelwright.shop.day.cuts_planned import WantedPiece
from reelwright.shop.orders.selectors import LineView, lines_by_id
from reelwright.shop.work.selectors import pieces_not_cut


def waiting_pieces() -> list[WantedPiece]:
    """Return the pieces that still have to come off a reel, as a plan asks for them."""
    pieces = pieces_not_cut()
    lines = {view.id: view for view in lines_by_id({piece.line_id for piece in pieces})}
    return [
        WantedPiece(
            id=piece.code,
            key=f"line {piece.line_id}",
            cable=piece.cable,
            colour=piece.colour,
            cut_length_mm=piece.cut_length_mm,
            due=due_of(lines[piece.line_id]),
            spare=piece.spare,
            group=piece.lot_group or None,
            group_hard=_wants_one_lot(lines[piece.line_id]),
        )
        for piece in pieces
    ]


def due_of(view: LineView) -> dt.date | None:
    """Return the day a line is promised for, or None."""
    typed = view.cells.get("due", "")
    return read_date(typed).value if typed else None


def _wants_one_lot(view: LineView) -> bool:
    make = view.answer.make
    return make is not None and make.lot_group_hard
