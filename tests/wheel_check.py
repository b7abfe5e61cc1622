"""Build the wheel, install it where nothing else is, and use it. Standard library only."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import time
import zipfile
from pathlib import Path
from typing import Protocol

import start

BUILD = start.ROOT / "build"
SOURCE = start.ROOT / "src"


class Counts(Protocol):
    """What this file asks of the tally."""

    def check(self, name: str, *command: str | Path) -> bool: ...

    def record(self, name: str, passed: bool, began: float) -> None: ...


def missing_from(wheel: Path) -> list[str]:
    """Files of the package which the wheel lacks: templates and migrations are easily left out."""
    with zipfile.ZipFile(wheel) as archive:
        packed = set(archive.namelist())
    ours = [path for path in SOURCE.rglob("*") if path.is_file() and path.suffix != ".pyc"]
    return sorted({path.relative_to(SOURCE).as_posix() for path in ours} - packed)


def use(python: Path) -> str:
    """Run the installed package from an empty folder; return what went wrong, or nothing."""
    folder = BUILD / "wheel-use"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    program = python.parent / "reelwright"
    environment = {**os.environ, "REELWRIGHT_HOME": str(folder / "home"), "CI": "true"}

    def call(*arguments: str) -> subprocess.CompletedProcess[str]:
        command = [str(program), *arguments]
        return subprocess.run(
            command,
            cwd=folder,
            env=environment,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
        )

    steps = [("--version",), ("day", "--help")]
    for step in steps:
        done = call(*step)
        if done.returncode != 0 or not done.stdout.strip():
            return f"reelwright {' '.join(step)}: {done.returncode}\n{done.stdout}{done.stderr}"
    if (SOURCE / "reelwright" / "demo").is_dir():
        demo = call("demo", "--json")
        if demo.returncode != 0:
            return f"reelwright demo: {demo.returncode}\n{demo.stdout}{demo.stderr}"
        pack = folder / "pack"
        day = call("day", json.loads(demo.stdout)["orders"], "--out", str(pack))
        if day.returncode not in (0, 1) or not (pack / "pack.json").is_file():
            return f"reelwright day: {day.returncode}\n{day.stdout}{day.stderr}"
    return ""


def run(tally: Counts, environment: start.Environment) -> None:
    """Three checks: it builds, it is whole, it works alone."""
    out = BUILD / "wheel"
    shutil.rmtree(out, ignore_errors=True)
    build = ("-m", "build", "--wheel", "--no-isolation", "--outdir", out, start.ROOT)
    if not tally.check("wheel builds", environment.python, *build):
        return
    began = time.monotonic()
    wheel = next(out.glob("*.whl"))
    missing = missing_from(wheel)
    tally.record("wheel holds every file of the package", not missing, began)
    for name in missing:
        start.say(f"    | missing: {name}")
    began = time.monotonic()
    try:
        alone = start.Environment(BUILD / "wheel-alone", wheels=environment.wheels)
        shutil.rmtree(alone.folder, ignore_errors=True)
        alone.make("run", project=False)
        alone.install("--no-index", wheel)
        problem = use(alone.python)
    except start.Stop as reason:
        problem = str(reason)
    tally.record("wheel works in an empty environment", not problem, began)
    if problem:
        start.say("    | " + problem.replace("\n", "\n    | "))
