"""``python -m benchmarks NAME [--quick] [--json] [--record]``.

A benchmark is a module of this folder with ``measure(*, quick: bool) -> Table``. ``--quick`` ends
within a minute. The last line printed is one JSON object; with ``--json`` it is the only one.
"""

import argparse
import importlib
import pkgutil
import sys
import time
from datetime import date
from pathlib import Path

# A ratio measured on several threads is one of the scheduler's; before numpy is loaded.
import benchmarks.one_thread  # noqa: F401
from benchmarks.table import Table, as_json, environment, environment_line, record

HARNESS = {
    "__main__",
    "cutting_cases",
    "cutting_rivals",
    "days_checker",
    "days_longest_first",
    "days_made",
    "days_read",
    "one_thread",
    "table",
    "trials_truths",
    "year_shop",
}


def names(folder: Path = Path(__file__).parent) -> list[str]:
    """Every benchmark there is, by module."""
    found = {module.name for module in pkgutil.iter_modules([str(folder)])}
    return sorted(found - HARNESS)


def main() -> int:
    """Measure one benchmark and print it; 2 where there is none of that name."""
    reader = argparse.ArgumentParser(prog="python -m benchmarks", description=__doc__)
    reader.add_argument("name", nargs="?", help="which benchmark; without it, they are listed")
    reader.add_argument("--quick", action="store_true", help="a smaller one, within a minute")
    reader.add_argument("--json", action="store_true", help="nothing but the JSON object")
    reader.add_argument("--record", action="store_true", help="add the run to RESULTS.md")
    asked = reader.parse_args()
    there = names()
    if asked.name not in there:
        what = "There are no benchmarks yet." if not there else f"There are: {', '.join(there)}."
        print(
            what if asked.name is None else f"No benchmark {asked.name!r}. {what}", file=sys.stderr
        )
        return 2
    measure = importlib.import_module(f"benchmarks.{asked.name}").measure
    where = environment()
    began = time.perf_counter()
    table: Table = measure(quick=asked.quick)
    took_s = time.perf_counter() - began
    if not asked.json:
        print(f"{table.title}\n{environment_line(where)}; took {took_s:.1f} s\n")
        print(table.markdown(), end="\n\n")
    if asked.record:
        record(
            f"{asked.name} (quick)" if asked.quick else asked.name, table, where, on=date.today()
        )
    print(as_json(asked.name, table, where, quick=asked.quick, took_s=took_s))
    return 0


if __name__ == "__main__":
    sys.exit(main())
