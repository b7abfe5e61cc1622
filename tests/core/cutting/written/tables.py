"""Tables in one line, and a problem written down as its three tables."""

import csv
import io
from collections.abc import Sequence

from reelwright.core.cutting import CutProblem, ReelStock
from reelwright.core.cutting.written import WrittenTable, read_problem
from reelwright.core.errors import InputFaults

RULES = "item,smallest_remnant,swarf\nred,3 m,50 mm\nwhite,3 m,50 mm\n"
REELS = "id,item,lot,length,uncertainty\nR-1,red,L1,60 m,0.4 m\nR-2,white,L2,140 m,0.9 m\n"
PIECES = "id,item,cut_length\nA,red,3.06 m\nB,white,25.92 m\n"


def table(file: str, text: str) -> WrittenTable:
    """Split a text as a file is split; rows are numbered as a person counts them."""
    rows = enumerate(csv.reader(io.StringIO(text)), start=1)
    return WrittenTable(
        file=file, lines=tuple((number, tuple(cells)) for number, cells in rows if any(cells))
    )


def read(pieces: str = PIECES, reels: str = REELS, rules: str = RULES) -> CutProblem:
    """Read three texts at 98 %."""
    return read_problem(
        pieces=table("pieces.csv", pieces),
        reels=table("reels.csv", reels),
        rules=table("rules.csv", rules),
        chance_of_enough=0.98,
    )


def faults(
    pieces: str = PIECES, reels: str = REELS, rules: str = RULES
) -> list[tuple[str, int | None, str | None]]:
    """Where each fault of three texts stands: file, row, column."""
    try:
        read(pieces, reels, rules)
    except InputFaults as error:
        return [(fault.file.removesuffix(".csv"), fault.row, fault.field) for fault in error.faults]
    return []


def told(pieces: str = PIECES, reels: str = REELS, rules: str = RULES) -> str:
    """Every fault of three texts, in words."""
    try:
        read(pieces, reels, rules)
    except InputFaults as error:
        return str(error).replace("\u202f", " ")
    return ""


def written(columns: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """Write a table down."""
    text = io.StringIO()
    csv.writer(text).writerows([columns, *rows])
    return text.getvalue()


def flaws_of(reel: ReelStock) -> str:
    """What lies between the stretches of a reel, in metres from its free end."""
    starts = [0, *(stretch.end_mm for stretch in reel.stretches)]
    return "; ".join(
        f"{start / 1000:.3f} to {stretch.start_mm / 1000:.3f}"
        for start, stretch in zip(starts, reel.stretches, strict=False)
        if stretch.start_mm > start
    )
