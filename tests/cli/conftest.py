"""Workshops on the disk, for commands that run as processes of their own."""

import fcntl
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def built_home(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """The day world in a folder, built once for all workers. Never to be changed: copy it."""
    base = tmp_path_factory.getbasetemp()
    shared = base if worker_id == "master" else base.parent
    home, done = shared / "small-home", shared / "small-home.done"
    with (shared / "small-home.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not done.exists():
            home.mkdir()
            subprocess.run(
                [sys.executable, "-m", "tests.cli.small_home", str(done)],
                env=variables(home),
                cwd=ROOT,
                check=True,
            )
    return home


@pytest.fixture
def new_home(built_home: Path, tmp_path: Path) -> Callable[[str], Path]:
    """Give a copy of the day world, of a name of its own."""

    def copy(name: str) -> Path:
        return Path(shutil.copytree(built_home, tmp_path / name))

    return copy


def variables(home: Path) -> dict[str, str]:
    """The environment of a command on a workshop."""
    kept = {name: text for name, text in os.environ.items() if not name.startswith("REELWRIGHT_")}
    return kept | {
        "REELWRIGHT_HOME": str(home),
        "REELWRIGHT_TEST_HASHER": "1",
        "DJANGO_SETTINGS_MODULE": "reelwright.config.settings",
        "PYTHONPATH": f"{ROOT / 'src'}{os.pathsep}{ROOT}",
        "NO_COLOR": "1",
    }


def command(*arguments: str | Path) -> list[str]:
    """The command line as a process is started with it."""
    return [sys.executable, "-m", "reelwright", *map(str, arguments)]


def run(home: Path, *arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """Run a command on a workshop to its end."""
    return subprocess.run(
        command(*arguments),
        env=variables(home),
        cwd=home,
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
