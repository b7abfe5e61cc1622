"""The labels: one for each end of each cable."""

from reelwright.core.quantities.show import show_feet_inches
from reelwright.documents.labels import Label, LabelRoll, Labels
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.words import metres

# The roll in the workshop's label printer.
ROLL = LabelRoll(width_mm=50.0, height_mm=25.0)


def labels_paper(data: PackData) -> Labels | None:
    """Return the labels of all accepted lines, or None where nothing is made."""
    labels = [
        Label(
            serial=piece.serial,
            end=end,
            line_text=f"{view.label} · {piece.cable} {piece.colour}",
            length=f"{metres(piece.finished_mm)} · {show_feet_inches(piece.finished_mm / 1000)}",
        )
        for view in data.lines
        if view.id in data.travellers
        for piece in data.pieces.get(view.id, [])
        for end in ("A", "B")
    ]
    if not labels:
        return None
    return Labels(code=data.mark("LBL").code, roll=ROLL, labels=tuple(labels))
