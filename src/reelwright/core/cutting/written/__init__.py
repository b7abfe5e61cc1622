"""A cutting problem written in three tables: ``read_problem`` of pieces, reels and rules.

    table.py      one file as it was split into cells: columns, cells, faults
    lengths.py    lengths of cable, flaws and uncertainties as they are written
    rules.py      what is worth keeping of each item
    reels.py      what lies in the rack
    pieces.py     what is to be cut, and what belongs together
    problem.py    the three held against each other

``docs/guide/cut-files.md`` says what may stand there.
"""

from reelwright.core.cutting.written.problem import read_problem
from reelwright.core.cutting.written.table import WrittenTable

__all__ = ["WrittenTable", "read_problem"]
