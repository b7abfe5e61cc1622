"""Cut list and bench plan as plain tables, for whoever reckons on with them."""

import csv
import io
from collections.abc import Iterable, Sequence

from reelwright.core.quantities.show import show_feet_inches
from reelwright.shop.day.pack.bench_plan import bench_paper
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.work.selectors import pieces_of_plan

CUT_COLUMNS = (
    "reel",
    "location",
    "lot",
    "cable",
    "colour",
    "sequence",
    "piece",
    "serial",
    "start_mm",
    "cut_length_mm",
    "wheel_setting_mm",
    "cut_length_ft_in",
    "finished_mm",
)
BENCH_COLUMNS = (
    "sequence",
    "start",
    "finish",
    "set_up",
    "lines",
    "cables",
    "change_over",
    "people",
    "due",
    "late",
)


def cut_table(data: PackData) -> bytes:
    """Return the cuts as CSV, one row each in cutting order; UTF-8 with lines ended as RFC 4180."""
    rows: list[Sequence[object]] = []
    if data.cut_plan is not None:
        pieces = {piece.code: piece for piece in pieces_of_plan(data.cut_plan.id)}
        for reel in data.cut_reels:
            cuts = [part for part in reel["segments"] if part["piece"]]
            for sequence, part in enumerate(cuts, start=1):
                piece = pieces[part["piece"]]
                rows.append(
                    (
                        reel["reel"],
                        reel["location"],
                        reel["lot"],
                        reel["cable"],
                        reel["colour"],
                        sequence,
                        piece.code,
                        piece.serial,
                        part["start_mm"],
                        piece.cut_length_mm,
                        piece.wheel_setting_mm,
                        show_feet_inches(piece.cut_length_mm / 1000).replace("\u202f", " "),
                        piece.finished_mm,
                    )
                )
    return _csv(CUT_COLUMNS, rows)


def bench_table(data: PackData) -> bytes:
    """Return the bench plan as CSV, one row for each batch in order of work."""
    paper = bench_paper(data)
    rows = () if paper is None else paper.rows
    batches = [] if data.bench_plan is None else data.bench_plan.content["batches"]
    dues = {batch["id"]: batch["due"] or "" for batch in batches}
    return _csv(
        BENCH_COLUMNS,
        [
            (
                row.sequence,
                row.start,
                row.finish,
                row.setup,
                row.batch,
                row.pieces,
                row.change_over.replace("\u202f", " "),
                row.person,
                dues[row.setup],
                "late" if row.late else "",
            )
            for row in rows
        ],
    )


def _csv(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return out.getvalue().encode()
