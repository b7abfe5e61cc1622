"""Run every check there is and count the results. Standard library only; called by start.py.

A check that is not pytest counts as one, passed or failed. The last line printed is
``N passed, N failed, N skipped``.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree

import start
from tests import postgresql, wheel_check

ROOT = start.ROOT
LOGS = ROOT / "build" / "logs"
IN_CI = os.environ.get("CI") == "true"
TESTED_PYTHONS = ("3.11", "3.13")
TAIL_LINES = 80


@dataclass
class Tally:
    """What passed, failed and was skipped so far."""

    passed: int = 0
    failed: int = 0
    skipped: int = 0

    def skip(self, name: str, why: str, *, fails_in_ci: bool) -> None:
        """Count one thing that could not be run here; in CI some of these are failures."""
        failed = fails_in_ci and IN_CI
        self.failed += failed
        self.skipped += not failed
        start.say(f"{'FAILED' if failed else 'skipped'}  {name}: {why}")

    def check(self, name: str, *command: str | Path) -> bool:
        """Run one check as a command; its output is shown only where it fails."""
        began = time.monotonic()
        log = LOGS / f"{name.replace(' ', '-').replace('/', '-')}.txt"
        with log.open("w") as output:
            done = subprocess.run(
                [str(part) for part in command],
                cwd=ROOT,
                stdin=subprocess.DEVNULL,
                stdout=output,
                stderr=subprocess.STDOUT,
                check=False,
            )
        self.record(name, done.returncode == 0, began)
        if done.returncode != 0:
            show_tail(log)
        return done.returncode == 0

    def record(self, name: str, passed: bool, began: float) -> None:
        """Count one check and print its line."""
        self.passed += passed
        self.failed += not passed
        word = "passed" if passed else "FAILED"
        start.say(f"{word}   {name}  ({time.monotonic() - began:.1f} s)")

    def pytest(
        self, name: str, python: Path, *arguments: str, extra: dict[str, str] | None = None
    ) -> None:
        """Run pytest, its output on screen, and add its counts."""
        start.say(f"\n— {name}")
        report = LOGS / f"{name.replace(' ', '-').replace('/', '-')}.xml"
        report.unlink(missing_ok=True)
        command = [str(python), "-m", "pytest", "-q", f"--junitxml={report}", *arguments]
        environment = {**os.environ, **(extra or {})}
        done = subprocess.run(
            command, cwd=ROOT, env=environment, stdin=subprocess.DEVNULL, check=False
        )
        passed, failed, skipped = counts(report)
        if failed == 0 and done.returncode != 0:
            failed = 1  # It broke before or after the tests, or found none.
        if failed == 0 and passed == 0:
            start.say(f"FAILED   {name}: no test ran")
            failed = 1
        self.passed += passed
        self.failed += failed
        self.skipped += skipped


def show_tail(log: Path) -> None:
    """Print the end of a failed check's output, set off from our own lines."""
    lines = log.read_text(errors="replace").splitlines()
    for line in lines[-TAIL_LINES:]:
        start.say(f"    | {line}")


def counts(report: Path) -> tuple[int, int, int]:
    """Read pytest's own report: passed, failed (errors too), skipped."""
    if not report.is_file():
        return 0, 0, 0
    suites = ElementTree.parse(report).getroot().iter("testsuite")
    total = failed = skipped = 0
    for suite in suites:
        total += int(suite.get("tests", 0))
        failed += int(suite.get("failures", 0)) + int(suite.get("errors", 0))
        skipped += int(suite.get("skipped", 0))
    # A test that passes and then breaks in its clean-up is reported twice, so never below zero.
    return max(0, total - failed - skipped), failed, skipped


def lint(tally: Tally, python: Path) -> None:
    """Style, types, import directions, declared dependencies."""
    tools = python.parent
    tally.check("ruff check", tools / "ruff", "check", ".")
    tally.check("ruff format", tools / "ruff", "format", "--check", ".")
    tally.check("mypy", python, "-m", "mypy")
    tally.check("lint-imports", tools / "lint-imports")
    tally.check("deptry", tools / "deptry", "src")


def names_of(python: Path, folder: str) -> list[str]:
    """Every test in a folder, by name."""
    command = [str(python), "-m", "pytest", "--collect-only", "-q", "--no-header", folder]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    return [line for line in done.stdout.splitlines() if "::" in line]


def on_postgresql(tally: Tally, python: Path, workers: list[str]) -> None:
    """Run the shop's tests again on a PostgreSQL server of our own."""
    folder = "tests/shop"
    if not (ROOT / folder).is_dir():
        return
    tools = postgresql.find() or (start.apt_install("postgresql") and postgresql.find()) or None
    if tools is None:
        for test in names_of(python, folder):
            tally.skip(f"{test} on PostgreSQL", "PostgreSQL is not installed", fails_in_ci=True)
        return
    with postgresql.cluster(tools) as url:
        extra = {"REELWRIGHT_DATABASE_URL": url}
        tally.pytest("shop on PostgreSQL", python, *workers, folder, extra=extra)


def quietly(*command: str) -> subprocess.CompletedProcess[str]:
    """Run a command that must succeed, its output kept."""
    return subprocess.run(command, capture_output=True, text=True, check=True, timeout=60)


def find_python(version: str) -> str | None:
    """An interpreter of that version which really answers and can make environments.

    A name on the path proves nothing: it may be a version manager's shim that only fails.
    """
    name = f"python{version}"
    kept = Path.home() / ".pyenv" / "versions"
    places = [shutil.which(name), f"/usr/bin/{name}", f"/usr/local/bin/{name}"]
    places += [str(found) for found in sorted(kept.glob(f"{version}.*/bin/python"))]
    for place in filter(None, places):
        try:
            answer = quietly(place, "--version")
            if answer.stdout.startswith(f"Python {version}."):
                quietly(place, "-c", "import venv, ensurepip")
                return place
        except (OSError, subprocess.SubprocessError):
            continue
    return None


def on_other_pythons(tally: Tally, wheels: Path | None, workers: list[str]) -> None:
    """Run the core, reference and command tests on the other supported versions."""
    own = f"{sys.version_info[0]}.{sys.version_info[1]}"
    folders = [f"tests/{name}" for name in ("core", "references", "cli")]
    folders = [folder for folder in folders if (ROOT / folder).is_dir()]
    for version in TESTED_PYTHONS:
        if version == own:
            continue
        name = f"core, reference and command tests on Python {version}"
        base = find_python(version)
        if base is None:
            tally.skip(name, "no such interpreter answers here", fails_in_ci=False)
            continue
        folder = ROOT / "build" / f"python{version}"
        environment = start.Environment(folder, base=base, wheels=wheels)
        try:
            environment.make("test")
        except start.Stop as reason:
            if wheels is None:
                start.say(f"    | {reason}")
                tally.record(name, False, time.monotonic())
            else:
                tally.skip(name, "its wheels are not in the wheel folder", fails_in_ci=False)
            continue
        tally.pytest(f"Python {version}", environment.python, *workers, *folders)


def provide_chromium() -> None:
    """Install Debian's Chromium where it is missing and allowed; the tests look for it."""
    if not shutil.which("chromium") and (ROOT / "tests" / "browser").is_dir():
        start.apt_install("chromium")


def main(environment: start.Environment) -> int:
    """Run everything; 0 where something ran and nothing failed."""
    began = time.monotonic()
    LOGS.mkdir(parents=True, exist_ok=True)
    tally = Tally()
    workers = ["-n", str(min(4, os.cpu_count() or 1))]
    with tempfile.TemporaryDirectory(prefix="reelwright-tests-") as home:
        # No test may meet the workshop of whoever runs it.
        os.environ["REELWRIGHT_HOME"] = home
        os.environ.pop("REELWRIGHT_DATABASE_URL", None)
        os.environ["REELWRIGHT_TEST_HASHER"] = "1"
        os.environ["NO_COLOR"] = "1"
        provide_chromium()
        lint(tally, environment.python)
        wheel_check.run(tally, environment)
        tally.pytest("all tests", environment.python, *workers)
        on_postgresql(tally, environment.python, workers)
        on_other_pythons(tally, environment.wheels, workers)
    if tally.passed + tally.failed == 0:
        tally.failed = 1
    start.say(f"\n{time.monotonic() - began:.0f} s")
    start.say(f"{tally.passed} passed, {tally.failed} failed, {tally.skipped} skipped")
    return 1 if tally.failed else 0
