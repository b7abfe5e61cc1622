"""What each cable is expected to show when it is measured, from its own lot where that is known."""

from reelwright.core.quantities.measured import Measured
from reelwright.core.quantities.show import show_both
from reelwright.core.quantities.show_scaled import show_temperature_celsius, show_value_and_spread
from reelwright.core.quantities.words import counted
from reelwright.documents.expected_values import ExpectedLine, ExpectedRow, ExpectedValues
from reelwright.shop.day.judging.run_judged import ROOM_CELSIUS, expect
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.orders import answer as answers
from reelwright.shop.orders.selectors import LineView
from reelwright.shop.work.selectors import PieceView


def expected_paper(data: PackData) -> ExpectedValues | None:
    """Return the paper of all accepted lines, or None where nothing is made."""
    lines = [
        line
        for view in data.lines
        if view.id in data.travellers
        for line in _lines(data, view, data.pieces.get(view.id, []))
    ]
    if not lines:
        return None
    cables = sum(len(data.pieces.get(view.id, [])) for view in data.lines)
    return ExpectedValues(
        mark=data.mark("EXP"),
        sentence=f"What {counted(cables, 'cable')} should measure",
        lead=(
            f"Predicted at {show_temperature_celsius(ROOM_CELSIUS)} from data sheets and measured "
            "lots; the spread is one standard uncertainty. The figures are of the cable alone; the "
            "sentence over them counts its ends in."
        ),
        lines=tuple(lines),
    )


def _lines(data: PackData, view: LineView, pieces: list[PieceView]) -> list[ExpectedLine]:
    make = view.answer.make
    if make is None:
        return []
    by_lot: dict[str | None, list[PieceView]] = {}
    for piece in pieces:
        by_lot.setdefault(piece.lot, []).append(piece)
    worst = view.answer.worst
    return [
        ExpectedLine(
            order=view.order,
            line=str(view.number),
            cable=make.cable,
            lot=lot or "not chosen yet",
            length=show_both(make.finished_mm / 1000),
            ends=f"{make.connector_a} to {make.connector_b}",
            cables=_range([piece.serial for piece in members]),
            verdict=worst.sentence if worst is not None else "",
            basis="" if lot is not None else "From the data sheet: the lot is not chosen yet.",
            rows=tuple(
                _row(row, view)
                for row in expect(
                    cable=data.cables[make.cable],
                    lot=data.lots.get(lot or ""),
                    length_m=make.finished_mm / 1000,
                )
            ),
        )
        for lot, members in by_lot.items()
    ]


def _range(serials: list[str]) -> str:
    if len(serials) <= 2:
        return ", ".join(serials)
    return f"{serials[0]} to {serials[-1]} ({len(serials)})"


def _row(row: answers.ExpectedRow, view: LineView) -> ExpectedRow:
    limits = {check.name: check.limit for check in view.answer.checks}
    value, spread = show_value_and_spread(
        Measured(value=row.value, standard_uncertainty=row.standard_uncertainty, unit=row.unit)
    )
    return ExpectedRow(
        name=row.name,
        value=value,
        spread=f"± {spread}" if spread else "not known",
        limit=limits.get(row.name, ""),
        source=row.source,
    )
