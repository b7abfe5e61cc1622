"""What the guide says of the files of a search is what the code does."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from reelwright.cli.main import command_line
from reelwright.core.errors import InputFaults
from reelwright.core.trials import search_text
from reelwright.core.trials.guess import Peak
from reelwright.core.trials.search_text import SearchText, read_search
from reelwright.core.trials.trials_text import read_trials
from reelwright.shop.tables import read_lines

DOCS = Path(__file__).resolve().parents[2] / "docs"
GUIDE = (DOCS / "guide" / "trials-file.md").read_text(encoding="utf-8")
(SEARCH,) = re.findall(r"```toml\n(.*?)```", GUIDE, re.DOTALL)
(TRIALS,) = re.findall(r"```csv\n(.*?)```", GUIDE, re.DOTALL)


@pytest.fixture
def search() -> SearchText:
    """The guide's search."""
    return read_search(SEARCH, file="search.toml")


def test_the_example_is_a_search_with_its_trials(search: SearchText) -> None:
    """Both files read, the repeats of several columns and rows in one trial."""
    lines = read_lines(name="trials.csv", content=TRIALS.encode(), each="trial")
    found = read_trials(lines, file="trials.csv", frame=search.frame)
    first, last = found[0].trial, found[-1].trial
    assert first.values_of("pull") == (266, 271, 259, 268, 262)
    assert first.values == (300, 2.8)
    seen = first.seen_of("unburnt")
    assert seen is not None
    assert (seen.good, seen.seen_count) == (5, 5)
    assert (last.number, last.failure) == (6, "cut through")


def test_the_first_guess_is_that_of_the_method_page(search: SearchText) -> None:
    """The law of energy through the four gauges gives 301.5 J, as docs/methods/trials.md shows."""
    guess = search.frame.responses[0].guess
    assert isinstance(guess, Peak)
    assert guess.best_at == pytest.approx(301.5, abs=0.05)


def test_the_keys_are_those_of_the_code() -> None:
    """Every key of the table is known to the reader, and none that it knows is left out."""
    named = set(re.findall(r"^\| `([a-z_ ]+)` \|", GUIDE, re.MULTILINE))
    named -= {"number", "failure", "note"}
    expected = {"name", "question", "most_trials"}
    for table, keys in (
        ("setting", search_text._SETTING),
        ("response", search_text._RESPONSE),
        ("looks", search_text._LOOKS),
        ("demand", search_text._DEMAND),
    ):
        expected |= {f"{table} {key}" for key in keys}
    assert named == expected


def test_the_fault_shown_is_the_one_that_is_told(search: SearchText) -> None:
    """A pressure of 7.2 bar in the fourth row is refused in the guide's own words."""
    (shown,) = re.findall(r"```text\n(.*?)```", GUIDE, re.DOTALL)
    content = TRIALS.replace("2,300,2.2,", "2,300,7.2,").encode()
    lines = read_lines(name="trials.csv", content=content, each="trial")
    with pytest.raises(InputFaults) as caught:
        read_trials(lines, file="trials.csv", frame=search.frame)
    assert str(caught.value).replace("\u202f", " ") == shown.strip()


def test_the_command_runs_on_the_example(tmp_path: Path) -> None:
    """The two files of the guide are all that it needs, and it says what comes next."""
    (tmp_path / "s.toml").write_text(SEARCH, encoding="utf-8")
    (tmp_path / "t.csv").write_text(TRIALS, encoding="utf-8")
    done = CliRunner().invoke(
        command_line, ["trial", str(tmp_path / "s.toml"), str(tmp_path / "t.csv")]
    )
    assert done.exit_code in (0, 1), done.output
    assert "6 trials made, 1 of them failed outright." in done.stdout
    assert "Trial: Try energy" in done.stdout


def test_an_area_far_beyond_the_gauges_is_not_guessed() -> None:
    """More than twice the largest gauge: told at its key, with the areas that could be guessed."""
    with pytest.raises(InputFaults) as told:
        read_search(SEARCH.replace("area_mm2 = 4.17", "area_mm2 = 16"), file="search.toml")
    (fault,) = told.value.faults
    assert (fault.field, fault.value) == ("response 1 guess area_mm2", "16")
    assert "twice the largest, 10.5" in fault.accepted
