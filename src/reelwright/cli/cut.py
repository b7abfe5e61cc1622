"""``reelwright cut``: which reel each piece comes off, from three files."""

import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from reelwright.cli.speaking import EXIT_BAD_INPUT, EXIT_NO, print_json, stop, telling_errors

if TYPE_CHECKING:
    from reelwright.core.cutting import CutPlan, CutProblem
    from reelwright.core.cutting.stop import Progress, Stop
    from reelwright.core.cutting.written import WrittenTable

_FILE = click.Path(path_type=Path)


@click.command("cut")
@click.argument("pieces", type=_FILE)
@click.argument("reels", type=_FILE)
@click.argument("rules", type=_FILE)
@click.option(
    "--chance",
    type=click.FloatRange(50, 99.9999),
    default=98.0,
    show_default=True,
    help="How sure, in percent, that each stretch holds what is cut from it.",
)
@click.option(
    "--seconds",
    type=click.FloatRange(0),
    help="Stop searching after so long, with the best plan found; else until it is proven or "
    "its limits end it.",
)
@click.option(
    "--yield",
    "yield_percent",
    type=click.FloatRange(50, 100),
    help="How many of a hundred cables come out good: tells whether the reels hold spares enough.",
)
@click.option(
    "--confidence",
    type=click.FloatRange(50, 99.9999),
    default=95.0,
    show_default=True,
    help="With --yield: how sure, in percent, that enough come out good.",
)
@click.option("--beside", "beside_plain", is_flag=True, help="What two plain rules would do.")
@click.option("--out", type=_FILE, help="Draw all reels into this SVG file.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for programs.")
def command(
    *,
    pieces: Path,
    reels: Path,
    rules: Path,
    chance: float,
    seconds: float | None,
    yield_percent: float | None,
    confidence: float,
    beside_plain: bool,
    out: Path | None,
    as_json: bool,
) -> None:
    """Choose the reel of every piece, and say how good that choice is.

    PIECES, REELS and RULES are tables (CSV or XLSX): what is to be cut, what lies in the rack, and
    what is worth keeping of each item. They are told in docs/guide/cut-files.md. Exits with 0 where
    every piece is served, 1 where one is not, 2 where a file is bad; then nothing is planned.
    """
    with telling_errors(as_json=as_json):
        _refuse_to_replace(out)
        problem = _read(pieces, reels, rules, chance_of_enough=chance / 100)
        from reelwright.core.cutting import spare_outlooks
        from reelwright.core.cutting.beside import beside

        made = _planned(problem, seconds, quiet=as_json)
        spares = (
            spare_outlooks(
                problem, made, yield_fraction=yield_percent / 100, confidence=confidence / 100
            )
            if yield_percent is not None
            else ()
        )
        tallies = beside(problem, made) if beside_plain else ()
        if out is not None:
            from reelwright.drawings.by_itself import by_itself
            from reelwright.drawings.cut_plan import draw_cut_plan

            out.write_text(by_itself(draw_cut_plan(problem, made)), encoding="utf-8")
    from reelwright.cli.cut_told import plan_json, tell_plan

    if as_json:
        print_json(plan_json(problem, made, spares, tallies, drawing=out))
    else:
        tell_plan(problem, made, spares, tallies)
        if out is not None:
            click.echo(f"Drawn: {out}")
    if made.unserved:
        raise SystemExit(EXIT_NO)


def _refuse_to_replace(out: Path | None) -> None:
    """A slip of the hand must not cost a file of pieces: only a drawing is replaced."""
    if out is None or not out.exists():
        return
    if not out.is_file() or out.read_bytes()[:4] != b"<svg":
        stop(f"{out} is there already and is no drawing; it stays as it is.", code=EXIT_BAD_INPUT)


def _read(pieces: Path, reels: Path, rules: Path, *, chance_of_enough: float) -> "CutProblem":
    """Read all three files, so that what is wrong with any of them is told at once."""
    from reelwright.core.cutting.written import read_problem

    return read_problem(
        pieces=_table(pieces, "length"),
        reels=_table(reels, "reel"),
        rules=_table(rules, "item"),
        chance_of_enough=chance_of_enough,
    )


def _table(path: Path, each: str) -> "WrittenTable":
    from reelwright.core.cutting.written import WrittenTable
    from reelwright.core.errors import InputFaults
    from reelwright.shop.tables import read_lines

    try:
        lines = read_lines(name=path.name, content=path.read_bytes(), each=each)
    except InputFaults as error:
        return WrittenTable(file=path.name, lines=(), faults=error.faults)
    return WrittenTable(file=path.name, lines=tuple((row, tuple(cells)) for row, cells in lines))


def _planned(problem: "CutProblem", seconds: float | None, *, quiet: bool) -> "CutPlan":
    from rich.console import Console

    from reelwright.core.cutting import plan
    from reelwright.core.cutting.stop import after_seconds, never, telling
    from reelwright.core.quantities.words import counted

    rule: Stop = never if seconds is None else after_seconds(seconds, clock=time.monotonic)
    console = Console(stderr=True)
    if quiet or not console.is_terminal:
        return plan(problem, stop=rule)
    total = counted(len(problem.items), "item")
    with console.status(f"0 of {total} planned") as shown:

        def tell(progress: "Progress") -> None:
            shown.update(f"{progress.steps} of {total} planned")

        return plan(problem, stop=telling(rule, tell=tell))
