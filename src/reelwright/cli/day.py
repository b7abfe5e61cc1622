"""``reelwright day``: orders in, day pack out."""

import datetime as dt
from pathlib import Path

import click

from reelwright.cli.speaking import (
    EXIT_BAD_INPUT,
    open_workshop,
    print_json,
    stop,
    telling_errors,
)


@click.command("day")
@click.argument("orders", type=click.Path(path_type=Path))
@click.option("--out", type=click.Path(path_type=Path), required=True, help="Folder for the pack.")
@click.option("--on", help="The working day, as 2026-11-24; else the workshop's today.")
@click.option("--from", "from_hour", help="The hour from which the benches have time, as 14:10.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for programs.")
def command(orders: Path, out: Path, on: str | None, from_hour: str | None, as_json: bool) -> None:
    """Answer the order file ORDERS (CSV or XLSX), plan cuts and benches, write the day pack.

    All faults of the file are told together, and then nothing is written. The same file again
    changes nothing and writes the same pack.
    """
    with telling_errors(as_json=as_json):
        content = _content(orders)
        open_workshop()
        from reelwright.shop.day.pack.write import pack_write, require_place
        from reelwright.shop.day.selectors import run_summary
        from reelwright.shop.day.services import day_run
        from reelwright.shop.people.selectors import acting_lead, today, workshop

        require_place(out.absolute())
        day = _day(on) if on else today(workshop())
        with _Telling(quiet=as_json) as tell:
            result = day_run(
                by=acting_lead(),
                name=orders.name,
                content=content,
                on=day,
                now=_hour(from_hour) if from_hour else None,
                progress=lambda what, share: tell(what, 0.6 * share),
            )
            files = pack_write(
                run_id=result.run_id,
                folder=out,
                progress=lambda what, share: tell(what, 0.6 + 0.4 * share),
            )
        summary = run_summary(result.run_id)
        if as_json:
            print_json({**summary.to_json(), "recorded_now": result.recorded_now, "pack": str(out)})
            return
        if not result.recorded_now:
            click.echo("These orders were taken in before: nothing changed, the pack is the same.")
        for sentence in summary.sentences:
            click.echo(sentence)
        click.echo(f"Pack of {len(files)} files: {out}")


def _content(orders: Path) -> bytes:
    from reelwright.shop.tables import LARGEST_BYTES

    try:
        with orders.open("rb") as file:
            # One byte more than is allowed is enough to know.
            return file.read(LARGEST_BYTES + 1)
    except OSError as error:
        stop(f"{orders}: {error.strerror}. Accepted: a CSV or XLSX file.", code=EXIT_BAD_INPUT)


def _day(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        stop(f"--on {text!r} is not a day. Accepted: 2026-11-24.", code=EXIT_BAD_INPUT)


def _hour(text: str) -> dt.time:
    try:
        hour = dt.time.fromisoformat(text)
    except ValueError:
        hour = None
    if hour is None or hour.tzinfo is not None:
        stop(f"--from {text!r} is not an hour. Accepted: 14:10.", code=EXIT_BAD_INPUT)
    return hour


class _Telling:
    """A line of progress on a terminal; nothing where nobody watches."""

    def __init__(self, *, quiet: bool) -> None:
        self._quiet = quiet

    def __enter__(self) -> "_Telling":
        from rich.console import Console
        from rich.progress import BarColumn, Progress, TextColumn

        console = Console(stderr=True)
        self._bar = Progress(
            TextColumn("{task.description:<32}"),
            BarColumn(),
            TextColumn("{task.percentage:>3.0f} %"),
            console=console,
            transient=True,
            disable=self._quiet or not console.is_terminal,
        )
        self._bar.start()
        self._task = self._bar.add_task("", total=1.0)
        return self

    def __call__(self, what: str, share: float) -> None:
        self._bar.update(self._task, description=what, completed=share)

    def __exit__(self, *_error: object) -> None:
        self._bar.stop()
