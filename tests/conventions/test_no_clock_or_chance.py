"""The core computes from what it is given: no clock, no dice, no disk, no environment."""

import ast

import pytest

from tests.conventions.reading import CORE, dotted, parsed

FORBIDDEN_MODULES = {
    "time", "os", "secrets", "uuid", "tempfile", "pathlib", "shutil", "socket", "subprocess",
    "importlib", "io", "glob",
}  # fmt: skip
CLOCKS = {"now", "today", "utcnow"}
DICE = {"Random", "default_rng", "Generator", "PCG64", "SeedSequence"}


def from_outside(tree: ast.Module) -> list[str]:
    """Uses of clock, unseeded chance, environment and disk, each with its line."""
    found = []
    for node in ast.walk(tree):
        names: set[str] = set()
        if isinstance(node, ast.Import):
            names = {alias.name.partition(".")[0] for alias in node.names} & FORBIDDEN_MODULES
        elif isinstance(node, ast.ImportFrom):
            module = (node.module or "").partition(".")[0]
            names = {module} & FORBIDDEN_MODULES
            if module == "random":
                names |= {alias.name for alias in node.names} - DICE
        elif isinstance(node, ast.Call):
            names = calls_outside(node)
        found += [f"line {getattr(node, 'lineno', 0)}: {name}" for name in sorted(names)]
    return found


def calls_outside(call: ast.Call) -> set[str]:
    """The name of the call where it asks the world outside; empty where it does not."""
    name = dotted(call.func)
    head, _, last = name.rpartition(".")
    seeded = bool(call.args or call.keywords)
    if name == "open" or (head.split(".")[-1] in {"datetime", "date"} and last in CLOCKS):
        return {name}
    if last in DICE and not seeded:
        return {name}
    # Functions of the module itself share one hidden state that nobody seeded for us.
    if (head == "random" or head.endswith(".random")) and last not in DICE:
        return {name}
    return set()


def test_the_core_asks_neither_clock_nor_dice_nor_disk() -> None:
    """Nothing in the core reads the time, an unseeded generator, the environment or a file."""
    found = [f"{path}: {use}" for path, tree in parsed(CORE) for use in from_outside(tree)]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(
    "source",
    [
        "import time",
        "from time import monotonic",
        "import os.path",
        "datetime.datetime.now()",
        "date.today()",
        "random.random()",
        "random.Random()",
        "from random import choice",
        "np.random.normal(0, 1)",
        "np.random.default_rng()",
        "open('lots.csv')",
    ],
)
def test_each_way_of_asking_the_world_is_found(source: str) -> None:
    """Each way to the clock, the dice, the environment or the disk is found."""
    assert from_outside(ast.parse(source))


@pytest.mark.parametrize(
    "source",
    ["random.Random(7).random()", "np.random.default_rng(seed)", "datetime.date(2026, 1, 5)"],
)
def test_seeded_chance_and_given_dates_are_allowed(source: str) -> None:
    """A generator with its seed and a date that is a value may be used."""
    assert not from_outside(ast.parse(source))
