"""Published cutting-stock instances, read from a folder where one is named, or generated.

``REELWRIGHT_REFERENCE_DIR`` names the folder. A line of a file is a name, the stock (``1000``, or
``length:cost`` with commas between), the best known number of reels or ``?``, further published
columns with one stock length, and the pieces as ``length`` or ``length``x``pieces``.
"""

import os
import random
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from reelwright.core.cutting.stock_lengths import StockLength, StockProblem, WantedLength

FOLDER = "REELWRIGHT_REFERENCE_DIR"
KINDS = (
    "falkenauer_t",
    "falkenauer_u",
    "hard28",
    "monaci_regen",
    "scholl_1",
    "scholl_2",
    "schwerin_1",
    "waescher_1",
)
"""The files, each one class of instances. monaci_regen has several stock lengths with costs."""

UNIFORM, TRIPLETS = "uniform, generated", "triplets, generated"
_PUBLISHED_COLUMNS = 3
"""Status, root of the linear program, seconds: between the best known and the pieces."""


@dataclass(frozen=True, kw_only=True)
class Case:
    """One instance. ``best_known``: the least cost published; ``None`` where nobody says."""

    kind: str
    name: str
    problem: StockProblem
    best_known: int | None


def read_case(kind: str, line: str) -> Case:
    """Read one line of a file."""
    name, stock, best, *rest = line.split()
    several = ":" in stock
    pairs = [tuple(map(int, one.split(":"))) for one in stock.split(",")] if several else []
    pieces: Counter[int] = Counter()
    for word in rest if several else rest[_PUBLISHED_COLUMNS:]:
        length, _, count = word.partition("x")
        pieces[int(length)] += int(count or 1)
    return Case(
        kind=kind,
        name=name,
        problem=problem_of(pairs or [(int(stock), 1)], pieces),
        best_known=None if best == "?" else int(best),
    )


def read_cases(path: Path) -> list[Case]:
    """Read a file, whose name is the class."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return [read_case(path.stem, line) for line in lines if line[:1] != "#"]


def problem_of(stock: Sequence[tuple[int, ...]], pieces: Mapping[int, int]) -> StockProblem:
    """Return the problem of ``stock`` as (length, cost) and of ``pieces`` by length."""
    return StockProblem(
        stock=tuple(StockLength(length_mm=length, cost=cost) for length, cost in stock),
        wanted=tuple(WantedLength(length_mm=at, pieces=count) for at, count in pieces.items()),
    )


def all_cases() -> tuple[list[Case], list[str]]:
    """Return what can be had, and a sentence for each thing that is missing.

    Where anything is missing, generated instances are there too.
    """
    named = os.environ.get(FOLDER)
    if not named:
        return generated(), [f"{FOLDER} names no folder: no published instance was measured."]
    cases: list[Case] = []
    missing = []
    for kind in KINDS:
        paths = [place / f"{kind}.txt" for place in _places(Path(named))]
        found = next((path for path in paths if path.is_file()), None)
        if found is None:
            missing.append(f"{kind}.txt is not in the folder that {FOLDER} names.")
        else:
            cases += read_cases(found)
    return (cases + generated() if missing else cases), missing


def _places(named: Path) -> tuple[Path, Path]:
    return named / "reference" / "cutting", named / "cutting"


def generated() -> list[Case]:
    """Five each of Falkenauer's two recipes in four sizes, by a fixed seed (from memory, 1996).

    Uniform: reels of 150, pieces of 20 to 100; the least number of reels is not known. Triplets:
    reels of 1000, each cut into three without rest, so that nothing is below a third of the pieces.
    """
    dice = random.Random(1996)
    cases = []
    for pieces in (120, 250, 500, 1000):
        for number in range(5):
            lengths = Counter(dice.randint(20, 100) for _ in range(pieces))
            problem = problem_of([(150, 1)], lengths)
            name = f"uniform {pieces} {number}"
            cases.append(Case(kind=UNIFORM, name=name, problem=problem, best_known=None))
    for pieces in (60, 120, 249, 501):
        for number in range(5):
            lengths = Counter(length for _ in range(pieces // 3) for length in _triplet(dice))
            problem = problem_of([(1000, 1)], lengths)
            name = f"triplets {pieces} {number}"
            cases.append(Case(kind=TRIPLETS, name=name, problem=problem, best_known=pieces // 3))
    return cases


def _triplet(dice: random.Random) -> tuple[int, int, int]:
    first = dice.randint(380, 490)
    second = dice.randint(250, (1000 - first) // 2)
    return first, second, 1000 - first - second


def spread(cases: Sequence[Case]) -> list[Case]:
    """Return every twentieth of each class in its order, or more often to have three or four."""
    chosen = []
    for kind in dict.fromkeys(case.kind for case in cases):
        of_kind = [case for case in cases if case.kind == kind]
        chosen += of_kind[:: max(1, min(20, len(of_kind) // 3))]
    return chosen


def some_of_each(cases: Sequence[Case], *, count: int, seed: int) -> list[Case]:
    """Return ``count`` of the cases by ``seed``, of every class as equally many as there are."""
    by_kind: dict[str, list[Case]] = {}
    for case in cases:
        by_kind.setdefault(case.kind, []).append(case)
    dice = random.Random(seed)
    for of_kind in by_kind.values():
        dice.shuffle(of_kind)
    chosen: list[Case] = []
    while len(chosen) < count and any(by_kind.values()):
        for of_kind in by_kind.values():
            if of_kind and len(chosen) < count:
                chosen.append(of_kind.pop())
    return [case for case in cases if case in chosen]
