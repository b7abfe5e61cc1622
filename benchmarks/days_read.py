"""Days of a workshop in the published form, read from a folder where one is named.

``REELWRIGHT_REFERENCE_DIR`` names the folder; the days are the JSON files in ``workshop-days``, one
object each: costs in cents, items, reels, pieces by order line, groups; lengths in millimetres.
Their reels carry no uncertainty, so it is taken as zero. Their groups are hard: one lot, one reel.
An item's tolerance (``tol_minus``) is not used: nothing is cut short.
"""

import json
import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from benchmarks.cutting_cases import FOLDER
from reelwright.core.cutting import (
    CutProblem,
    ItemRules,
    LotGroup,
    LotRule,
    Piece,
    ReelStock,
    Stretch,
)
from reelwright.core.cutting.aims import InMoney

RULES = {"lot": LotRule.SAME, "reel": LotRule.SAME_REEL}


@dataclass(frozen=True, kw_only=True)
class Day:
    """One day: what is to be cut from what, and what everything costs."""

    name: str
    problem: CutProblem
    money: InMoney


def published_names() -> tuple[list[str], list[str]]:
    """Return the names of the published days, and a sentence where there are none."""
    named = os.environ.get(FOLDER)
    if not named:
        return [], [f"{FOLDER} names no folder: no published day was measured."]
    names = sorted(
        {path.stem for place in _places(Path(named)) for path in place.glob("*.json")},
        key=lambda name: [int(part) if part.isdigit() else 0 for part in name.split("_")],
    )
    if not names:
        return [], [f"There is no workshop-days in the folder that {FOLDER} names."]
    return names, []


def published(name: str) -> Day:
    """Read one of the published days."""
    places = _places(Path(os.environ[FOLDER]))
    path = next(place / f"{name}.json" for place in places if (place / f"{name}.json").is_file())
    return read_day(json.loads(path.read_text(encoding="utf-8")))


def _places(named: Path) -> tuple[Path, Path]:
    return (
        named / "reference" / "cutting" / "workshop-days",
        named / "cutting" / "workshop-days",
    )


def read_day(told: dict[str, Any]) -> Day:
    """Return the day that one of the files tells."""
    costs = told["costs"]
    items = told["items"]
    pieces = tuple(_pieces(told["pieces"], items))
    used = {piece.lot_group for piece in pieces}
    return Day(
        name=told["name"],
        problem=CutProblem(
            pieces=pieces,
            reels=tuple(_reels(told["reels"], items)),
            rules=tuple(
                ItemRules(
                    item=item["id"],
                    smallest_remnant_mm=item["min_remnant"],
                    swarf_mm=costs["swarf"],
                )
                for item in items
            ),
            groups=tuple(
                LotGroup(id=f"G-{group['id']}", rule=RULES[group["rule"]])
                for group in told["groups"]
                if f"G-{group['id']}" in used
            ),
            chance_of_enough=0.98,
        ),
        money=InMoney(
            price_cents_per_m=tuple((item["id"], item["price_c_per_m"]) for item in items),
            short_cents=costs["short_c_per_prio"],
            short_cents_per_m=costs["short_c_per_m"],
            lot_mixed_cents=0,
            unusable_end_cents=costs["bad_end_c"],
            reel_cents=costs["mount_c"],
            open_remnant_cents=costs["open_remnant_c"],
            age_cents_per_m=costs["fifo_c_per_m_rank"],
        ),
    )


def _pieces(lines: Iterable[dict[str, Any]], items: list[dict[str, Any]]) -> Iterator[Piece]:
    for line in lines:
        item = items[line["item"]]
        for number in range(line["qty"]):
            yield Piece(
                id=f"O-{line['order']}-{number}",
                item=item["id"],
                cut_length_mm=line["len"] + item["allowance"],
                due_day=None,
                priority=line["prio"],
                lot_group=None if line["group"] is None else f"G-{line['group']}",
            )


def _reels(reels: list[dict[str, Any]], items: list[dict[str, Any]]) -> Iterator[ReelStock]:
    """The oldest lot of an item has the rank 0; a reel not yet opened loses its start."""
    for number, item in enumerate(items):
        own = [reel for reel in reels if reel["item"] == number]
        ages = sorted({reel["age_days"] for reel in own}, reverse=True)
        for reel in own:
            start_mm = 0 if reel["opened"] else item["start_trim"]
            yield ReelStock(
                id=f"R-{reel['id']}",
                item=item["id"],
                lot=reel["lot"],
                location=None,
                stretches=stretches(start_mm, reel["remaining"], reel["flaws"], u_mm=0.0),
                age_rank=ages.index(reel["age_days"]),
            )


def stretches(
    start_mm: int, end_mm: int, flaws: Iterable[list[int]], *, u_mm: float
) -> tuple[Stretch, ...]:
    """Return what lies between the flaws, given as [start, end]."""
    found = []
    at = start_mm
    for flaw_start, flaw_end in [*sorted(flaws), [end_mm, end_mm]]:
        if flaw_start > at:
            found.append(
                Stretch(start_mm=at, length_mm=flaw_start - at, standard_uncertainty_mm=u_mm)
            )
        at = max(at, flaw_end)
    return tuple(found)
