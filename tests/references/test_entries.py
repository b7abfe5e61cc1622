"""Every entry of the list of published values is held by a check, or left out with its reason."""

import json
import os
from pathlib import Path
from typing import Any

import pytest

from tests.references.entries import ENTRIES
from tests.references.harness import LeftOut
from tests.references.page import all_checks, all_left_out

LEFT_OUT = (
    LeftOut(
        names=("P15",),
        quantity="length left on a reel by its weight",
        reason="counting by weight comes with the room of stock",
    ),
    LeftOut(
        names=("P28",),
        quantity="remaining crimps of a die by the fall of its pull",
        reason="drift comes with the control of processes",
    ),
)
LISTS = ("electrical.json", "trade-problems.json")


def listed() -> list[dict[str, Any]]:
    """Return the entries of the lists, or skip plainly where they are not at hand."""
    folder = os.environ.get("REELWRIGHT_REFERENCE_DIR")
    if not folder:
        pytest.skip("REELWRIGHT_REFERENCE_DIR names no folder: the lists are not at hand")
    entries: list[dict[str, Any]] = []
    for name in LISTS:
        path = Path(folder) / "reference" / name
        if not path.is_file():
            pytest.skip(f"{path} is not there: the lists are not at hand")
        entries += json.loads(path.read_text("utf-8"))
    return entries


def test_every_entry_is_held_or_left_out_with_its_reason() -> None:
    """No entry in scope is passed over in silence."""
    checks = {check.id for check in all_checks()}
    left = {name for each in all_left_out() for name in each.names}

    def held(name: str) -> bool:
        known = ENTRIES.get(name, name)
        return known in checks or any(check.startswith(f"{known}.") for check in checks)

    silent = [e["id"] for e in listed() if e["id"] not in left and not held(e["id"])]
    assert not silent, ", ".join(silent)


def test_every_check_named_here_is_there() -> None:
    """A check that was renamed or removed is found out, list at hand or not."""
    checks = {check.id for check in all_checks()}
    gone = sorted({check for check in ENTRIES.values() if check not in checks})
    assert not gone, ", ".join(gone)
