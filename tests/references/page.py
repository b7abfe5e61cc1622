"""docs/references.md, written from the checks themselves."""

import importlib
from collections.abc import Iterable
from pathlib import Path

from tests.references.harness import MEANING, Basis, LeftOut, ReferenceCheck, deviation_text

HERE = Path(__file__).parent
PAGE = HERE.parents[1] / "docs" / "references.md"

HEAD = """# What the engines were held against

Written by `python -m tests.references` from the checks in `tests/references/`; a test fails when
this page and the checks disagree. Every value comes from outside the project, with its source.
The reason for each tolerance stands beside the check in its file.
"""


def all_checks() -> tuple[ReferenceCheck, ...]:
    """Return the checks of every topic file, in the order of file and place in it."""
    checks: list[ReferenceCheck] = []
    for path in sorted(HERE.glob("test_*.py")):
        module = importlib.import_module(f"tests.references.{path.stem}")
        checks.extend(getattr(module, "CHECKS", ()))
    return tuple(checks)


def all_left_out() -> tuple[LeftOut, ...]:
    """Return what the topic files say is left out, in the order of file and place in it."""
    left: list[LeftOut] = []
    for path in sorted(HERE.glob("test_*.py")):
        module = importlib.import_module(f"tests.references.{path.stem}")
        left.extend(getattr(module, "LEFT_OUT", ()))
    return tuple(left)


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


def _number(value: float) -> str:
    return f"{value:.6g}".replace("-", "−")


def _row(check: ReferenceCheck) -> str:
    ours = float(check.ours())
    cells = (
        check.quantity,
        check.source,
        f"{_number(check.expected)} {check.unit}".removesuffix(" 1"),
        _number(ours),
        deviation_text(check, ours),
        str(check.within),
    )
    return "| " + " | ".join(_cell(cell) for cell in cells) + " |"


def page_text(checks: Iterable[ReferenceCheck], left_out: Iterable[LeftOut]) -> str:
    """Return the page: one chapter per basis, one table per module of ours, then what is not held.

    ``left_out`` is the last chapter, absent where there is nothing of it.
    """
    checks = tuple(checks)
    parts = [HEAD]
    counts = ", ".join(
        f"{sum(check.basis is basis for check in checks)} {basis}" for basis in Basis
    )
    parts.append(f"{len(checks)} checks: {counts}.\n")
    for basis in Basis:
        of_basis = [check for check in checks if check.basis is basis]
        parts.append(f"## {basis}\n\n{MEANING[basis]}\n")
        for module in sorted({check.module for check in of_basis}):
            rows = "\n".join(_row(check) for check in of_basis if check.module == module)
            parts.append(
                f"### {module}\n\n"
                "| Quantity | Source | Expected | Ours | Deviation | Tolerance |\n"
                "|---|---|---|---|---|---|\n"
                f"{rows}\n"
            )
    rows = "\n".join(
        f"| {_cell(one.quantity)} | {', '.join(one.names)} | {_cell(one.reason)} |"
        for one in left_out
    )
    if rows:
        parts.append(
            "## Left out\n\n"
            "Values that are known and that nothing here is held against, with the reason.\n\n"
            "| Quantity | Entries | Reason |\n|---|---|---|\n"
            f"{rows}\n"
        )
    return "\n".join(parts)
