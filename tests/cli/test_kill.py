"""Killed in the middle of the day and started again: the same rows and the same pack."""

import fcntl
import random
import signal
import sqlite3
import subprocess
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from tests.cli.conftest import command, run, variables
from tests.day_world import good_row, order_file
from tests.small_world import TODAY

ORDERS = order_file(
    good_row(),
    good_row(
        order="W-2", customer="Orla Finch", typed="one of 12 ft", quantity="1", length="12 ft"
    ),
    good_row(order="W-3", typed="five of 4 m, one lot", quantity="5", length="4 m", set="same lot"),
    good_row(order="W-4", customer="Pia Moss", typed="3 m, I think", length="4 m"),
    good_row(order="W-5", customer="Pia Moss", typed="", length="95 m", quantity="1"),
    good_row(order="W-6", typed="", length="1.5 m", quantity="8", due=TODAY.isoformat()),
)

Moment = Callable[[Path, Path], bool]


def recording(home: Path, _pack: Path) -> bool:
    """Whether the write transaction is open: its lock is held from its begin to its end."""
    with (home / "workshop.lock").open("a") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return True
    return False


def writing(files: int) -> Moment:
    """Whether so many files lie in the folder that is being written."""

    def moment(_home: Path, pack: Path) -> bool:
        aside = pack.with_name(f".{pack.name}.being-written")
        return aside.is_dir() and sum(1 for _ in aside.iterdir()) >= files

    return moment


def written(_home: Path, pack: Path) -> bool:
    """Whether the pack has just appeared."""
    return pack.is_dir()


def after(seconds: float) -> Moment:
    """Whether so much time has passed since the first question."""
    began: list[float] = []

    def moment(_home: Path, _pack: Path) -> bool:
        began.append(time.monotonic())
        return began[-1] - began[0] >= seconds

    return moment


def later(moment: Moment, seconds: float) -> Moment:
    """Whether so much time has passed since a moment first came."""
    since: list[float] = []

    def later_moment(home: Path, pack: Path) -> bool:
        if not since and moment(home, pack):
            since.append(time.monotonic())
        return bool(since) and time.monotonic() - since[0] >= seconds

    return later_moment


def arguments(folder: Path) -> tuple[str | Path, ...]:
    """The command, the same each time; its order file lies in the folder."""
    orders = folder / "orders.csv"
    if not orders.exists():
        orders.write_bytes(ORDERS)
    return ("day", orders, "--out", folder / "pack", "--on", TODAY.isoformat())


def kill_at(home: Path, folder: Path, moment: Moment) -> int:
    """Start the command, kill it at a moment and return how it ended."""
    with subprocess.Popen(
        command(*arguments(folder)),
        env=variables(home),
        cwd=folder,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    ) as process:
        until = time.monotonic() + 60
        while process.poll() is None and not moment(home, folder / "pack"):
            assert time.monotonic() < until
            time.sleep(0.002)
        process.send_signal(signal.SIGKILL)
        return process.wait()


def rows(home: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table by its id; the moments of recording left out."""
    found = {}
    with closing(
        sqlite3.connect(f"file:{home / 'workshop.sqlite3'}?mode=ro", uri=True)
    ) as database:
        names = [
            name
            for (name,) in database.execute(
                "SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"
            )
        ]
        for name in names:
            columns = [row[1] for row in database.execute(f'PRAGMA table_info("{name}")')]
            kept = ", ".join(f'"{each}"' for each in columns if each != "recorded_at")
            found[name] = database.execute(f'SELECT {kept} FROM "{name}" ORDER BY 1, 2').fetchall()
    return found


def files(folder: Path) -> dict[str, bytes]:
    """Every file of a folder by name."""
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


@pytest.fixture(scope="module")
def uninterrupted(
    built_home: Path, tmp_path_factory: pytest.TempPathFactory
) -> tuple[dict[str, list[tuple[object, ...]]], dict[str, bytes]]:
    """The rows and the pack of a run that nobody disturbs."""
    import shutil

    folder = tmp_path_factory.mktemp("uninterrupted")
    home = Path(shutil.copytree(built_home, folder / "home"))
    done = run(home, *arguments(folder))
    assert done.returncode == 0, done.stderr
    found = rows(home)
    assert len(found["work_piece"]) >= 16
    return found, files(folder / "pack")


def test_the_run_that_is_compared_has_every_kind_of_answer(
    uninterrupted: tuple[dict[str, list[tuple[object, ...]]], dict[str, bytes]],
) -> None:
    """Accepted, held and refused lines, cuts, benches, travellers, and a pack with its papers."""
    found, pack = uninterrupted
    states = {value for row in found["orders_orderline"] for value in row}
    assert {"accepted", "held", "refused"} <= states
    for table in ("work_plannedcut", "work_benchplan", "work_traveller", "day_dayrun"):
        assert found[table]
    assert {"summary.pdf", "travellers.pdf", "cut-list.csv", "pack.json"} <= set(pack)


_CHANCE = random.Random(20270302)


@pytest.mark.parametrize(
    ("moment", "leaves_rows"),
    [
        pytest.param(recording, False, id="while the records are written"),
        pytest.param(later(recording, 0.1), None, id="0.1 s into the recording"),
        pytest.param(writing(3), True, id="in the middle of the papers"),
        pytest.param(written, True, id="as the pack appears"),
        *[
            pytest.param(after(seconds), None, id=f"after {seconds:.2f} s")
            for seconds in (_CHANCE.uniform(0.3, 4.0) for _ in range(1))
        ],
    ],
)
def test_killed_and_run_again(
    moment: Moment,
    leaves_rows: bool | None,
    new_home: Callable[[str], Path],
    tmp_path: Path,
    uninterrupted: tuple[dict[str, list[tuple[object, ...]]], dict[str, bytes]],
) -> None:
    """Either all rows of the day stand after the kill or none; the second run makes them equal."""
    home = new_home("home")
    ended = kill_at(home, tmp_path, moment)
    assert ended in (0, -signal.SIGKILL)
    expected_rows, expected_pack = uninterrupted
    recorded = len(rows(home)["work_piece"])
    assert recorded in (0, len(expected_rows["work_piece"]))
    if leaves_rows is not None:
        assert bool(recorded) is leaves_rows
        assert ended == -signal.SIGKILL or moment is written
    done = run(home, *arguments(tmp_path))
    assert done.returncode == 0, done.stderr
    assert rows(home) == expected_rows
    assert files(tmp_path / "pack") == expected_pack
    assert {path.name for path in tmp_path.iterdir()} == {"home", "orders.csv", "pack"}


def test_killed_twice_and_run_again(
    new_home: Callable[[str], Path],
    tmp_path: Path,
    uninterrupted: tuple[dict[str, list[tuple[object, ...]]], dict[str, bytes]],
) -> None:
    """Once while recording, once in the middle of the papers: the third run ends as ever."""
    home = new_home("home")
    for moment in (recording, writing(2)):
        assert kill_at(home, tmp_path, moment) == -signal.SIGKILL
    done = run(home, *arguments(tmp_path))
    assert done.returncode == 0, done.stderr
    assert (rows(home), files(tmp_path / "pack")) == uninterrupted
