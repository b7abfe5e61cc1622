"""The day from file to pack, growing with the number of lines, on the demo workshop.

Each size runs as a process of its own on a fresh copy of the workshop, so that its peak of memory
is its own. Beside it, in the same process: the cuts placed by plain first fit.
"""

import argparse
import csv
import io
import json
import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from benchmarks.table import Table

SEED = 20261124
SIZES, QUICK_SIZES = (25, 50, 100, 200), (10, 40)
# One-sided 98 %, as the planner asks for: the normal deviate.
SURE_98 = 2.054
COLUMNS = (
    "lines",
    "accepted",
    "pieces",
    "judging_s",
    "planning_s",
    "recording_s",
    "benches_s",
    "pack_s",
    "whole_s",
    "peak_mb",
    "first_fit_s",
    "placed",
    "first_fit_placed",
    "lines_whole",
    "first_fit_lines_whole",
)
NOTES = (
    f"Seed {SEED}: lines drawn from the demo workshop's released set-ups and the colours in its "
    "rack, 0.5 to 12 m, 1 to 4 cables; one line in eight asks for one lot. whole_s is the process "
    "by the clock, with loading; the other times are seconds of processor time.",
    "first_fit is plain first fit, longest piece first, on the same pieces and reels: it knows "
    "neither lots nor flaw-free stretches to save nor lines that are worth nothing in part. placed "
    "counts the planner's pieces after lines it could not give whole were held; lines_whole, the "
    "lines of which every piece was placed.",
)


def measure(*, quick: bool) -> Table:
    """Measure every size. ``quick``: two small ones, within a minute."""
    with tempfile.TemporaryDirectory(prefix="reelwright-bench-") as place:
        base = Path(place) / "base"
        _call(base, "-m", "reelwright", "demo")
        rows = [_size(Path(place), base, lines) for lines in (QUICK_SIZES if quick else SIZES)]
    return Table(
        title="A day's orders, from file to pack",
        columns=COLUMNS,
        rows=[[row[column] for column in COLUMNS] for row in rows],
        notes=NOTES,
    )


def _size(place: Path, base: Path, lines: int) -> dict[str, Any]:
    home = Path(shutil.copytree(base, place / f"home-{lines}"))
    began = time.perf_counter()
    printed = _call(home, "-m", "benchmarks.day", str(lines), str(place / f"pack-{lines}"))
    whole_s = time.perf_counter() - began
    row: dict[str, Any] = json.loads(printed.splitlines()[-1])
    return row | {"whole_s": whole_s - row["first_fit_s"]}


def _call(home: Path, *arguments: str) -> str:
    done = subprocess.run(
        [sys.executable, *arguments],
        env=os.environ | {"REELWRIGHT_HOME": str(home), "REELWRIGHT_TEST_HASHER": "1"},
        cwd=Path(__file__).parent.parent,
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    return done.stdout


SIGNALS = {
    "coax": "serial video 1.485 Gb/s",
    "pair": "balanced line",
    "loudspeaker": "loudspeaker 8 ohm",
    "data": "category data",
    "fibre": "optical audio",
}


def orders(lines: int, shelf: Any) -> bytes:
    """Return a file of so many plausible lines that this workshop could make."""
    from reelwright.core.parts.colour import COLOUR_NAMES
    from reelwright.shop.orders.columns import COLUMNS as FIELDS

    chance = random.Random(SEED)
    pairs = sorted(pair for pair in shelf.set_ups if shelf.colours_in_stock(pair[0]))
    text = io.StringIO()
    writer = csv.DictWriter(text, FIELDS, restval="")
    writer.writeheader()
    for number in range(1, lines + 1):
        cable, connector = chance.choice(pairs)
        colour = COLOUR_NAMES[chance.choice(shelf.colours_in_stock(cable))]
        quantity = chance.randint(1, 4)
        length = f"{chance.randint(5, 120) / 10:g} m"
        writer.writerow(
            {
                "order": f"B-{number:03d}",
                "customer": f"Customer {chance.randint(1, 40)}",
                "typed": f"{quantity} × {length}, {colour}",
                "quantity": quantity,
                "cable": cable,
                "signal": SIGNALS[shelf.cables[cable].family.name.lower()],
                "end_a": connector,
                "end_b": connector,
                "length": length,
                "colour": colour,
                "space": "room",
                "due": f"2026-11-{chance.randint(24, 28)}",
                "set": "same lot" if chance.random() < 1 / 8 else "",
            }
        )
    return text.getvalue().encode()


def first_fit(wanted: Iterable[Any], stock: Iterable[Any]) -> set[str]:
    """Place pieces longest first, each on the first stretch that holds it; return the placed."""
    room = [
        [reel.item, stretch.length_mm - SURE_98 * stretch.standard_uncertainty_mm]
        for reel in stock
        for stretch in reel.stretches
    ]
    placed = set()
    for piece in sorted(wanted, key=lambda each: -each.cut_length_mm):
        for stretch in room:
            if stretch[0] == piece.item and stretch[1] >= piece.cut_length_mm:
                stretch[1] -= piece.cut_length_mm
                placed.add(piece.id)
                break
    return placed


def _whole_lines(wanted: Iterable[Any], placed: set[str]) -> int:
    whole: dict[str, bool] = {}
    for piece in wanted:
        if not piece.spare:
            whole[piece.key] = whole.get(piece.key, True) and piece.id in placed
    return sum(whole.values())


def run(lines: int, pack: Path) -> dict[str, Any]:
    """Take in a file of so many lines and write its pack; return what was measured."""
    import django

    django.setup()
    from reelwright.shop.day import services
    from reelwright.shop.day.load import load_shelf
    from reelwright.shop.day.pack.write import pack_write
    from reelwright.shop.day.selectors import run_summary
    from reelwright.shop.people.selectors import acting_lead, today, workshop

    on = today(workshop())
    shelf = load_shelf(on)
    content = orders(lines, shelf)
    asked: list[Any] = []
    planned: list[Any] = []
    planner = services.plan_cuts

    def remembering(**problem: Any) -> Any:
        asked[:] = problem["wanted"]
        planned[:] = [planner(**(problem | {"wanted": asked}))]
        return planned[0]

    services.plan_cuts = remembering
    moments: dict[str, float] = {}

    def progress(what: str, _share: float) -> None:
        moments.setdefault(" ".join(what.split()[:2]), time.process_time())

    result = services.day_run(
        by=acting_lead(), name="benchmark.csv", content=content, on=on, progress=progress
    )
    recorded = time.process_time()
    pack_write(run_id=result.run_id, folder=pack)
    packed = time.process_time()
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    fitted = time.process_time()
    by_first_fit = first_fit(asked, shelf.stock)
    first_fit_s = time.process_time() - fitted
    placed = {place.piece_id for place in planned[0].plan.placements}
    summary = run_summary(result.run_id)
    return {
        "lines": lines,
        "accepted": summary.to_json()["accepted"],
        "pieces": len(asked),
        "judging_s": moments["choosing reels"] - moments["judging line"],
        "planning_s": moments["recording the"] - moments["choosing reels"],
        "recording_s": moments["ordering the"] - moments["recording the"],
        "benches_s": recorded - moments["ordering the"],
        "pack_s": packed - recorded,
        "peak_mb": peak_mb,
        "first_fit_s": first_fit_s,
        "placed": len(placed),
        "first_fit_placed": len(by_first_fit),
        "lines_whole": _whole_lines(asked, placed),
        "first_fit_lines_whole": _whole_lines(asked, by_first_fit),
    }


if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "reelwright.config.settings")
    reader = argparse.ArgumentParser(description="One size, for ``measure`` alone.")
    reader.add_argument("lines", type=int)
    reader.add_argument("pack", type=Path)
    given = reader.parse_args()
    print(json.dumps(run(given.lines, given.pack)))
