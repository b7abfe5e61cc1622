"""The labels: one for each end of each cable."""

from reelwright.core.quantities.show import show_feet_inches, show_metres
from reelwright.documents.labels import Label, LabelRoll, Labels
from reelwright.shop.day.pack.gather import PackData

# The roll in the workshop's label printer.
ROLL = LabelRoll(width_mm=50.0, height_mm=25.0)


def label_lines(line_label: str, cable: str, colour: str) -> tuple[str, ...]:
    """Return what a label says beside serial, end and length."""
    return (line_label, f"{cable} {colour}")


def labels_paper(data: PackData) -> Labels | None:
    """Return the labels of all accepted lines, or None where nothing is made."""
    labels = [
        Label(
            serial=piece.serial,
            end=end,
            lines=label_lines(view.label, piece.cable, piece.colour),
            length=show_metres(piece.finished_mm),
            feet=show_feet_inches(piece.finished_mm / 1000),
        )
        for view in data.lines
        if view.id in data.travellers
        for piece in data.pieces.get(view.id, [])
        for end in ("A", "B")
    ]
    if not labels:
        return None
    return Labels(code=data.mark("LBL").code, roll=ROLL, labels=tuple(labels))
