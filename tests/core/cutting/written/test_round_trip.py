"""Any problem written down is read as it was; anything else is refused in words."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from reelwright.core.cutting import CutProblem, ReelStock
from reelwright.core.cutting.written import pieces as of_pieces
from reelwright.core.cutting.written import reels as of_reels
from reelwright.core.cutting.written import rules as of_rules
from reelwright.core.errors import Fault, InputFaults
from tests.core.cutting.days import any_problem
from tests.core.cutting.written.tables import flaws_of, read, written


def alike(reel: ReelStock, uncertainty_mm: float) -> ReelStock:
    """A file states one uncertainty for a reel, not one for each stretch."""
    return replace(
        reel,
        stretches=tuple(
            replace(stretch, standard_uncertainty_mm=uncertainty_mm) for stretch in reel.stretches
        ),
    )


@st.composite
def files(draw: st.DrawFn) -> tuple[CutProblem, str, str, str]:
    """A problem and its three files, their columns and rows in any order, in mm or m."""
    made = draw(any_problem())
    named = {piece.lot_group for piece in made.pieces}
    made = replace(
        made,
        reels=tuple(alike(reel, draw(st.sampled_from([0.0, 2.5, 10.0]))) for reel in made.reels),
        groups=tuple(group for group in made.groups if group.id in named),
    )
    lots = sorted({reel.lot for reel in made.reels})
    ids = [None, *(reel.id for reel in made.reels)]
    made = replace(
        made,
        pieces=tuple(
            replace(
                piece,
                longer_by_lot_mm=tuple(
                    (lot, draw(st.integers(-30, 30)))
                    for lot in (draw(st.permutations(lots)) if draw(st.booleans()) else ())
                ),
                only_reel=draw(st.sampled_from(ids)),
            )
            for piece in made.pieces
        ),
    )
    rule_of = {group.id: str(group.rule) for group in made.groups}
    metres = draw(st.booleans())

    def length(length_mm: float) -> str:
        return f"{length_mm / 1000:.4f} m" if metres else f"{length_mm} mm"

    pieces = [
        {
            "id": piece.id,
            "item": piece.item,
            "cut_length": length(piece.cut_length_mm),
            "count": draw(st.sampled_from(["", "1"])),
            "due": piece.due_day or "",
            "priority": piece.priority or draw(st.sampled_from(["", "0"])),
            "group": piece.lot_group or "",
            "group_rule": rule_of[piece.lot_group] if piece.lot_group else "",
            "longer_by_lot": "; ".join(f"{lot} {more} mm" for lot, more in piece.longer_by_lot_mm),
            "only_reel": piece.only_reel or "",
        }
        for piece in made.pieces
    ]
    reels = [
        {
            "id": reel.id,
            "item": reel.item,
            "lot": reel.lot,
            "length": length(reel.length_mm),
            "uncertainty": length(reel.stretches[0].standard_uncertainty_mm),
            "flaws": flaws_of(reel),
            "age": reel.age_rank,
            "location": reel.location or "",
        }
        for reel in made.reels
    ]
    rules = [
        {
            "item": rule.item,
            "smallest_remnant": length(rule.smallest_remnant_mm),
            "swarf": length(rule.swarf_mm),
            "remnant_uses": ", ".join(
                f"{length(use.at_least_mm)} {use.use_chance:.0%}" for use in rule.remnant_uses
            ),
            "longest_reel": "1 m",
        }
        for rule in made.rules
    ]

    def file(known: tuple[of_pieces.Column, ...], rows: list[dict[str, object]]) -> str:
        columns = [column.name for column in known if not rows or column.name in rows[0]]
        columns = draw(st.permutations(columns))
        return written(columns, [[row[name] for name in columns] for row in rows])

    return (
        made,
        file(of_pieces.COLUMNS, pieces),
        file(of_reels.COLUMNS, reels),
        file(of_rules.COLUMNS, rules),
    )


@given(files())
@settings(max_examples=50, deadline=None)
def test_a_problem_written_down_is_read_as_it_was(files: tuple[CutProblem, str, str, str]) -> None:
    """Pieces, reels with their flaws, rules and groups come back, whatever the order of columns."""
    made, pieces, reels, rules = files
    found = read(pieces, reels, rules)
    assert found.pieces == made.pieces
    assert found.reels == made.reels
    assert found.rules == made.rules
    assert set(found.groups) == set(made.groups)


CELL = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["red", "3 m", "0", "-1 m", "12.2 to 12.4", "3 m 40 %", "same lot", "2026-11-24", "L1", "±"]
    ),
)


@given(
    st.lists(st.lists(CELL, max_size=9), max_size=4),
    st.lists(st.lists(CELL, max_size=10), max_size=4),
    st.lists(st.lists(CELL, max_size=6), max_size=4),
)
@settings(max_examples=100, deadline=None)
def test_whatever_stands_in_the_cells_is_read_or_refused(
    pieces: list[list[str]], reels: list[list[str]], rules: list[list[str]]
) -> None:
    """No text breaks the reader: it makes a problem, or tells faults with what is accepted."""
    texts = [
        written([column.name for column in known], rows)
        for known, rows in (
            (of_pieces.COLUMNS, pieces),
            (of_reels.COLUMNS, reels),
            (of_rules.COLUMNS, rules),
        )
    ]
    told: tuple[Fault, ...] = ()
    wanted = 0
    try:
        wanted = len(read(*texts).pieces)
    except InputFaults as error:
        told = error.faults
    assert bool(told) != bool(wanted)
    assert all(fault.accepted and fault.problem for fault in told)
