"""Type marks printed on North American low-voltage cables, and which may stand in for which.

The table of permitted substitutions as printed in a textbook on data wiring (after NFPA 70,
articles 725, 760, 770 and 800); levels of a family from a laboratory's page on flame tests. Marks
of the European ladder are not on it and never will be.
"""

import re
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.jacket import JacketClass

# Mark: those that may take its place directly; what may take theirs follows from that.
DIRECT = {
    "CL3P": ("CMP", "FPLP", "MPP"),
    "CL3R": ("CL3P", "CMR", "FPLR", "MPR"),
    "CL3": ("CL3P", "CL3R", "MP", "MPG", "CM", "CMG", "FPL", "PLTC"),
    "CL3X": ("CL3", "CMX"),
    "CL2P": ("CL3P",),
    "CL2R": ("CL2P", "CL3R"),
    "CL2": ("CL2P", "CL2R", "CL3", "PLTC"),
    "CL2X": ("CL2", "CL3X"),
    "CMP": ("MPP",),
    "CMR": ("MPP", "CMP", "MPR"),
    "CM": ("MPP", "CMR", "MPG", "MP"),
    "CMG": ("MPP", "CMR", "MPG", "MP"),
    "CMX": ("CMG", "CM"),
    "FPLP": ("CMP", "MPP"),
    "FPLR": ("FPLP", "CMR", "MPR"),
    "FPL": ("FPLR", "CM", "CMG", "MP", "MPG"),
    "MPR": ("MPP",),
    "MPG": ("MPR",),
    "MP": ("MPR",),
}
"""Rows CL3P, CL3, CMR, CM and CMX were read; the others are from memory."""

LEVELS = {
    JacketClass.PLENUM: ("CMP", "CL3P", "CL2P", "FPLP", "MPP"),
    JacketClass.RISER: ("CMR", "CL3R", "CL2R", "FPLR", "MPR"),
    JacketClass.GENERAL: ("CM", "CMG", "CL3", "CL2", "FPL", "MP", "MPG"),
    JacketClass.LIMITED: ("CMX", "CL3X", "CL2X"),
}
"""The marks of every level."""

LARGEST_LIMITED_M = 0.25 * 0.0254
"""A CMX cable in a dwelling is thinner than this [m]: a quarter of an inch."""


MARKS = tuple(mark for marks in LEVELS.values() for mark in marks)
# "CM" and "MP" in a sentence are mostly something else, such as a centimetre.
_IN_A_SENTENCE = re.compile(rf"\b(?:{'|'.join(m for m in MARKS if len(m) > 2)})\b")


@dataclass(frozen=True, kw_only=True)
class TypeMark:
    """A type mark as printed. Raises BadValue where it is not one of ``MARKS``."""

    text: str

    def __post_init__(self) -> None:
        if self.text not in MARKS:
            raise BadValue(
                owner="TypeMark", field="text", value=self.text, accepted=", ".join(MARKS)
            )

    def __str__(self) -> str:
        return self.text

    @property
    def level(self) -> JacketClass:
        """The level that the mark stands on."""
        return next(level for level, marks in LEVELS.items() if self.text in marks)


def read_mark(typed: str) -> TypeMark | None:
    """Return the mark in "CMP", "type CL3R" or "cmr rated"; None where it is no such mark."""
    words = " ".join(typed.split()).upper().removeprefix("TYPE ")
    text = words.removesuffix("RATED").rstrip(" -")
    return TypeMark(text=text) if text in MARKS else None


def find_mark(text: str) -> TypeMark | None:
    """Return the first mark that stands in a sentence in capitals, or None."""
    found = _IN_A_SENTENCE.search(text)
    return None if found is None else TypeMark(text=found[0])


def level_of(mark: str) -> JacketClass | None:
    """Return the level of a mark as printed (CMP, CL2R, …); None where it is no such mark."""
    wanted = mark.strip().upper()
    return next((level for level, marks in LEVELS.items() if wanted in marks), None)


def mark_may_replace(offered: str, needed: str) -> bool:
    """Return whether a cable marked ``offered`` may be laid where ``needed`` is asked for.

    A mark may replace itself, and what follows step by step from the table. Unknown marks may
    replace nothing.
    """
    offered, needed = offered.strip().upper(), needed.strip().upper()
    if level_of(offered) is None or level_of(needed) is None:
        return False
    reached, waiting = {needed}, [needed]
    while waiting:
        for better in DIRECT.get(waiting.pop(), ()):
            if better not in reached:
                reached.add(better)
                waiting.append(better)
    return offered in reached
