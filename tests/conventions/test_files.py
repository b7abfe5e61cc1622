"""Small files, locks without an address, and the papers of the project in their place."""

import re
from pathlib import Path

import pytest

from tests.conventions.reading import ROOT

LONGEST = 600
WRITTEN = {".py", ".html", ".css", ".js", ".typ", ".toml"}
FOLDERS = ("src", "tests", "benchmarks")
ADDRESS = re.compile(r"\w+://|^\s*-(?:i|f)\b|--(?:extra-)?index-url|--find-links| @ ", re.MULTILINE)


def too_long(files: list[Path]) -> list[str]:
    """Files of more lines than a person keeps in mind."""
    counts = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in files}
    return [f"{path.name}: {count} lines" for path, count in counts.items() if count > LONGEST]


def addresses(text: str) -> list[str]:
    """Addresses and index options in a lock."""
    return ADDRESS.findall(text)


def unpinned(text: str) -> list[str]:
    """Packages of a lock without exact version or without digest."""
    entries = re.findall(r"^[A-Za-z0-9].*(?:\n\s+.*)*", text, re.MULTILINE)
    return [entry.split()[0] for entry in entries if "==" not in entry or "sha256:" not in entry]


def test_no_file_is_longer_than_a_person_keeps_in_mind() -> None:
    """No source file has more than 600 lines."""
    files = [path for name in FOLDERS for path in (ROOT / name).rglob("*")]
    # A migration is written by the framework and read by it.
    files = [path for path in files if path.suffix in WRITTEN and path.parent.name != "migrations"]
    assert not too_long([*files, ROOT / "start.py"])


def test_a_file_that_is_too_long_is_found(tmp_path: Path) -> None:
    """601 lines are too many and 600 are not."""
    (tmp_path / "long.py").write_text("x = 1\n" * 601)
    (tmp_path / "short.py").write_text("x = 1\n" * 600)
    assert too_long(sorted(tmp_path.iterdir())) == ["long.py: 601 lines"]


@pytest.mark.parametrize("name", ["run.txt", "test.txt", "uv.txt"])
def test_locks_hold_digests_and_no_address(name: str) -> None:
    """Every package of a lock has its exact version and a digest, and nothing says where from."""
    text = (ROOT / "requirements" / name).read_text()
    assert not addresses(text)
    assert not unpinned(text)


@pytest.mark.parametrize(
    "line",
    ["x @ https://example.org/x.whl", "--index-url host", "-i host", "x==1 # from http://a"],
)
def test_an_address_in_a_lock_is_found(line: str) -> None:
    """A download address and each option that names an index are found."""
    assert addresses(line)


def test_a_package_without_digest_is_found() -> None:
    """A bare pin and a loose one are found, a full one is not."""
    text = "a==1 \\\n    --hash=sha256:00\nb==2\nc>=3 \\\n    --hash=sha256:00\n"
    assert unpinned(text) == ["b==2", "c>=3"]


def test_what_runs_is_locked_the_same_for_use_and_for_test() -> None:
    """Each package of the run lock stands in the test lock at the same version."""

    def pins(name: str) -> set[str]:
        text = (ROOT / "requirements" / name).read_text()
        return set(re.findall(r"^[A-Za-z0-9_.-]+==[^ ;]+", text, re.MULTILINE))

    assert pins("uv.txt") < pins("run.txt") < pins("test.txt")


@pytest.mark.parametrize("name", ["LICENSE", "README.md", "CONTRIBUTING.md"])
def test_the_papers_of_the_project_are_there(name: str) -> None:
    """Licence, readme and the guide for contributors exist and say something."""
    assert len((ROOT / name).read_text(encoding="utf-8")) > 500
