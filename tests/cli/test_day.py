"""``reelwright day`` as it is typed: good files, bad files, bad words on the command line."""

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from reelwright.cli.main import command_line
from tests.cli.conftest import run
from tests.day_world import DayWorld, build_day_world, good_row, order_file, row_counts
from tests.shop.orders.test_files import DEFECTS, FILES
from tests.small_world import TODAY

GOOD = FILES / "good.csv"


@pytest.fixture
def day_world(db: None) -> DayWorld:
    """The day world, rolled back afterwards."""
    return build_day_world()


def day(orders: Path, out: Path, *more: str) -> Result:
    """Run the command in this process, on the day world."""
    return CliRunner().invoke(command_line, ["day", str(orders), "--out", str(out), *more])


@pytest.mark.parametrize("stem", sorted(DEFECTS))
def test_a_bad_file_ends_with_2_and_writes_nothing(
    day_world: DayWorld, tmp_path: Path, stem: str
) -> None:
    """Every fault is told on a line of its own; no row, no folder."""
    (path,) = FILES.glob(f"{stem}.*")
    before = row_counts()
    done = day(path, tmp_path / "pack")
    assert done.exit_code == 2
    assert done.stdout == ""
    head, *told = done.stderr.strip().splitlines()
    count = len(DEFECTS[stem])
    assert head == f"{'1 fault' if count == 1 else f'{count} faults'}; nothing was written."
    assert len(told) == count
    for line in told:
        assert line.startswith(f"{path.name}")
        assert " Accepted: " in line
    assert row_counts() == before
    assert list(tmp_path.iterdir()) == []


def test_faults_for_programs(day_world: DayWorld, tmp_path: Path) -> None:
    """With --json standard output holds one object with every fault in its parts."""
    done = day(FILES / "many-faults.csv", tmp_path / "pack", "--json")
    assert done.exit_code == 2
    faults = json.loads(done.stdout)["faults"]
    assert len(faults) == len(DEFECTS["many-faults"])
    assert faults[0].keys() == {"file", "row", "field", "value", "problem", "accepted"}


def test_a_good_file_ends_with_0_and_a_pack(day_world: DayWorld, tmp_path: Path) -> None:
    """What was answered is told in a few lines, and the pack lies where it was asked for."""
    done = day(GOOD, tmp_path / "new" / "pack")
    assert (done.exit_code, done.stderr) == (0, "")
    assert "2 lines, 2 accepted, 0 held, 0 refused" in done.stdout
    assert str(tmp_path / "new" / "pack") in done.stdout.splitlines()[-1]
    assert (tmp_path / "new" / "pack" / "pack.json").is_file()


def test_the_same_file_again_says_so(day_world: DayWorld, tmp_path: Path) -> None:
    """Nothing changes in the records and the pack is the same, byte by byte."""
    first = day(GOOD, tmp_path / "one")
    before = row_counts()
    again = day(FILES / "good-semicolons.csv", tmp_path / "two")
    assert (first.exit_code, again.exit_code) == (0, 0)
    assert "taken in before: nothing changed" in again.stdout
    assert row_counts() == before
    names = sorted(path.name for path in (tmp_path / "one").iterdir())
    assert names == sorted(path.name for path in (tmp_path / "two").iterdir())
    for name in names:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_other_content_under_a_known_number(day_world: DayWorld, tmp_path: Path) -> None:
    """The second file is refused with both contents; the first pack stays as it was."""
    assert day(GOOD, tmp_path / "pack").exit_code == 0
    pack = {path.name: path.read_bytes() for path in (tmp_path / "pack").iterdir()}
    changed = tmp_path / "changed.csv"
    changed.write_bytes(order_file(good_row(quantity="3")))
    before = row_counts()
    done = day(changed, tmp_path / "pack")
    assert done.exit_code == 2
    assert "quantity was '2'; now quantity is '3'" in done.stderr
    assert row_counts() == before
    assert {path.name: path.read_bytes() for path in (tmp_path / "pack").iterdir()} == pack


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (["--on", "2026-02-30"], "--on '2026-02-30' is not a day. Accepted: 2026-11-24."),
        (["--on", "tomorrow"], "--on 'tomorrow' is not a day."),
        (["--from", "25:00"], "--from '25:00' is not an hour. Accepted: 14:10."),
        (["--from", "14:10+02:00"], "is not an hour"),
        (["--on", "2001-01-01"], "2001-01-01"),
        (["--nonesuch"], "No such option"),
    ],
)
def test_bad_words_on_the_command_line(
    day_world: DayWorld, tmp_path: Path, more: list[str], told: str
) -> None:
    """They are said back with what is accepted; nothing is written."""
    before = row_counts()
    done = day(GOOD, tmp_path / "pack", *more)
    assert done.exit_code == 2
    assert told in done.stderr
    assert row_counts() == before
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("what", ["nothing there", "a folder"])
def test_orders_that_are_no_file(day_world: DayWorld, tmp_path: Path, what: str) -> None:
    """A name that is not there, and a folder, are named with what is accepted."""
    orders = tmp_path / "orders"
    if what == "a folder":
        orders.mkdir()
    done = day(orders, tmp_path / "pack")
    assert done.exit_code == 2
    assert str(orders) in done.stderr
    assert "Accepted: a CSV or XLSX file" in done.stderr


def test_a_place_that_cannot_hold_the_pack(day_world: DayWorld, tmp_path: Path) -> None:
    """A file, a place below a file, a folder with other things in it: told before anything runs."""
    (tmp_path / "file").write_text("kept")
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter.txt").write_text("kept")
    before = row_counts()
    for out in (tmp_path / "file", tmp_path / "file" / "pack", tmp_path / "full"):
        done = day(GOOD, out)
        assert done.exit_code == 2
        assert str(out) in done.stderr
    assert row_counts() == before
    assert (tmp_path / "full" / "letter.txt").read_text() == "kept"


@pytest.mark.parametrize(
    "name", ["unit-unknown.csv", "not-utf-8.csv", "workbook-broken.xlsx", "empty.csv"]
)
def test_the_real_command_on_a_bad_file(
    new_home: Callable[[str], Path], tmp_path: Path, name: str
) -> None:
    """As a process of its own: exit 2, words and no traceback, and the workshop is as it was."""
    home = new_home("home")
    before = (home / "workshop.sqlite3").read_bytes()
    done = run(home, "day", FILES / name, "--out", tmp_path / "pack", "--on", TODAY.isoformat())
    assert (done.returncode, done.stdout) == (2, "")
    assert name in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "pack").exists()
    assert (home / "workshop.sqlite3").read_bytes() == before
    assert not (home / "workshop.sqlite3-wal").exists()


@pytest.mark.parametrize("size", ["bytes", "rows"])
def test_the_real_command_on_a_file_over_the_limits(
    new_home: Callable[[str], Path], tmp_path: Path, size: str
) -> None:
    """20 MB and 20,000 rows are the most; more is refused within seconds."""
    content = order_file(good_row())
    content += b"x" * 20_000_001 if size == "bytes" else content.splitlines()[1] + b"\n"
    if size == "rows":
        content = content + (content.splitlines()[1] + b"\n") * 20_000
    (tmp_path / "large.csv").write_bytes(content)
    done = run(new_home("home"), "day", tmp_path / "large.csv", "--out", tmp_path / "pack")
    assert done.returncode == 2
    assert {"bytes": "at most 20 MB", "rows": "at most 20000 rows"}[size] in done.stderr
    assert not (tmp_path / "pack").exists()


@pytest.mark.parametrize("there", ["no folder", "an empty folder"])
def test_no_workshop_yet(tmp_path: Path, there: str) -> None:
    """The command says how to get one, ends with 2 and makes nothing."""
    home = tmp_path / "home"
    if there == "an empty folder":
        home.mkdir()
    done = run_at(home, tmp_path)
    assert done[0] == 2
    assert "reelwright demo" in done[1]
    assert "Traceback" not in done[1]
    assert not home.exists() or os.listdir(home) == []


def run_at(home: Path, folder: Path) -> tuple[int, str]:
    """Run the command on a home that may not be there, from another folder."""
    import subprocess

    from tests.cli.conftest import command, variables

    done = subprocess.run(
        command("day", GOOD, "--out", folder / "pack"),
        env=variables(home),
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stderr
