"""The set-up refuses in words, changes nothing when it does, and does nothing twice."""

import importlib.util
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

import start
from tests import postgresql, run_all


@pytest.fixture
def environment(tmp_path: Path) -> start.Environment:
    """An environment that is not made yet."""
    return start.Environment(tmp_path / "env", wheels=None)


def pretend_made(environment: start.Environment, lock: str) -> None:
    """Leave what a finished set-up leaves."""
    environment.python.parent.mkdir(parents=True)
    environment.python.touch()
    environment.stamp.write_text(json.dumps(environment.wanted(lock)))


def forbid_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let no step of a set-up run."""

    def no_step(*_: Any) -> None:
        raise AssertionError("a step ran")

    monkeypatch.setattr(start.Environment, "run", no_step)


def test_without_the_venv_module_one_line_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where environments cannot be made nor installed, the message is the one line that helps."""
    monkeypatch.setattr(importlib.util, "find_spec", lambda _: None)
    monkeypatch.setattr(start, "apt_install", lambda *_: False)
    with pytest.raises(start.Stop, match=r"sudo apt-get install -y python3\.\d+-venv"):
        start.require_venv_module()


def test_a_second_set_up_runs_nothing(
    environment: start.Environment, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the stamp says that the lock is there, no step runs."""
    pretend_made(environment, "run")
    forbid_steps(monkeypatch)
    environment.make("run")


def test_an_environment_of_the_tests_serves_the_workshop(
    environment: start.Environment, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was set up for the tests is not set up again for use, but not the other way round."""
    pretend_made(environment, "test")
    forbid_steps(monkeypatch)
    environment.make("run")
    environment.stamp.write_text(json.dumps(environment.wanted("run")))
    with pytest.raises(AssertionError, match="a step ran"):
        environment.make("test")


@pytest.mark.parametrize("stamp", ["", "{", '{"base": "3.9"}'])
def test_a_stamp_that_says_something_else_is_no_stamp(
    environment: start.Environment, monkeypatch: pytest.MonkeyPatch, stamp: str
) -> None:
    """An empty, a broken and a foreign stamp all lead to a new set-up."""
    pretend_made(environment, "run")
    environment.stamp.write_text(stamp)
    forbid_steps(monkeypatch)
    with pytest.raises(AssertionError, match="a step ran"):
        environment.make("run")


def test_a_step_that_fails_tells_its_own_words(environment: start.Environment) -> None:
    """The output of a failing step is part of the message."""
    with pytest.raises(start.Stop, match="no such mirror"):
        environment.run(sys.executable, "-c", "raise SystemExit('no such mirror')")


def test_a_wheel_folder_keeps_every_installer_off_the_network(tmp_path: Path) -> None:
    """With a wheel folder no index is asked."""
    offline = start.Environment(tmp_path / "env", wheels=tmp_path)
    assert offline.sources() == ["--no-index", "--find-links", str(tmp_path)]


def test_a_missing_wheel_folder_is_told_and_ends_with_2(tmp_path: Path) -> None:
    """A wheel folder that is not there ends the set-up with 2 before anything is made."""
    done = subprocess.run(
        [sys.executable, start.__file__, "--wheels", str(tmp_path / "none")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert "is not there" in done.stderr


def test_a_port_in_use_is_passed_over() -> None:
    """Where another program listens, the next free port is taken."""
    import socket

    with socket.socket() as other:
        other.bind((start.HOST, 0))
        other.listen()
        taken = other.getsockname()[1]
        assert start.answers(taken)
        assert start.free_port(taken) > taken


REPORT = """<testsuites><testsuite tests="{tests}" failures="{failures}" errors="{errors}"
skipped="{skipped}"/></testsuites>"""


@pytest.mark.parametrize(
    ("given", "counted"),
    [
        ({"tests": 5, "failures": 0, "errors": 0, "skipped": 0}, (5, 0, 0)),
        ({"tests": 5, "failures": 1, "errors": 1, "skipped": 2}, (1, 2, 2)),
        ({"tests": 1, "failures": 1, "errors": 1, "skipped": 0}, (0, 2, 0)),
    ],
)
def test_the_report_of_the_tests_is_counted(
    tmp_path: Path, given: dict[str, int], counted: tuple[int, int, int]
) -> None:
    """Errors count as failures, skips apart, and what is left has passed."""
    report = tmp_path / "report.xml"
    report.write_text(REPORT.format(**given))
    assert run_all.counts(report) == counted


def test_a_folder_without_tests_is_a_failure(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Tests that are asked for and not found count as failed."""
    monkeypatch.setattr(run_all, "LOGS", tmp_path)
    tally = run_all.Tally()
    tally.pytest("nothing", Path(sys.executable), "-p", "no:cacheprovider", str(tmp_path))
    assert (tally.passed, tally.failed) == (0, 1)


@pytest.mark.parametrize(("code", "counted"), [("pass", (1, 0)), ("raise SystemExit(3)", (0, 1))])
def test_a_check_counts_as_one(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    code: str,
    counted: tuple[int, int],
) -> None:
    """A command that ends with 0 has passed, any other end has failed and its output is shown."""
    monkeypatch.setattr(run_all, "LOGS", tmp_path)
    tally = run_all.Tally()
    tally.check("a check", sys.executable, "-c", f"print('its words'); {code}")
    assert (tally.passed, tally.failed) == counted
    assert ("its words" in capsys.readouterr().out) == bool(tally.failed)


@pytest.mark.parametrize(("in_ci", "counted"), [(False, (0, 1)), (True, (1, 0))])
def test_what_ci_must_have_fails_there_when_missing(
    monkeypatch: pytest.MonkeyPatch, in_ci: bool, counted: tuple[int, int]
) -> None:
    """A missing PostgreSQL is a skip at the desk and a failure in CI."""
    monkeypatch.setattr(run_all, "IN_CI", in_ci)
    tally = run_all.Tally()
    tally.skip("shop on PostgreSQL", "not installed", fails_in_ci=True)
    assert (tally.failed, tally.skipped) == counted


def test_without_postgresql_each_test_is_skipped_by_name(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where no server can be had, every test that would use it is named and counted."""
    monkeypatch.setattr(postgresql, "find", lambda: None)
    monkeypatch.setattr(start, "apt_install", lambda *_: False)
    monkeypatch.setattr(run_all, "IN_CI", False)
    tally = run_all.Tally()
    run_all.on_postgresql(tally, Path(sys.executable), [])
    told = capsys.readouterr().out.splitlines()
    assert tally.skipped == len(told) > 1
    assert all(line.startswith("skipped  tests/shop/") and "::test_" in line for line in told)


def test_a_name_on_the_path_that_only_fails_is_no_interpreter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A version manager's shim that answers with an error is passed over."""
    shim = tmp_path / "python9.9"
    shim.write_text("#!/bin/sh\necho 'command not found' >&2\nexit 127\n")
    shim.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}{os.pathsep}{os.environ['PATH']}")
    assert run_all.find_python("9.9") is None


def test_this_very_interpreter_is_found() -> None:
    """The version that runs the tests is found, unless it can make no environments."""
    version = f"{sys.version_info[0]}.{sys.version_info[1]}"
    found = run_all.find_python(version)
    if found is None:
        pytest.skip(f"no Python {version} outside an environment is known by name")
    answer = subprocess.run([found, "--version"], capture_output=True, text=True, check=True)
    assert answer.stdout.startswith(f"Python {version}.")
