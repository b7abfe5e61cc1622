"""``reelwright trial`` as it is typed: where a search stands, bad files, classical designs."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from reelwright.cli.main import command_line
from tests.cli.conftest import command, variables
from tests.docs.test_trials_guide import SEARCH, TRIALS

ROWS = TRIALS.splitlines()


def write(folder: Path, search: str = SEARCH, trials: str = TRIALS) -> tuple[Path, Path]:
    """Put both files into a folder."""
    paths = folder / "s.toml", folder / "t.csv"
    for path, text in zip(paths, (search, trials), strict=True):
        path.write_text(text, encoding="utf-8")
    return paths


def trial(*words: str | Path) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(command_line, ["trial", *map(str, words)])


def faults(done: Result) -> list[str]:
    """The faults told, after the line that counts them; nothing else is printed."""
    assert done.exit_code == 2
    assert done.stdout == ""
    head, *told = done.stderr.strip().splitlines()
    assert head.startswith("1 fault;" if len(told) == 1 else f"{len(told)} faults;")
    assert all(" Accepted: " in line for line in told)
    return told


def test_a_proven_window_ends_with_0(tmp_path: Path) -> None:
    """The large sentence first, then each claim, how far each setting may go, what is next."""
    done = trial(*write(tmp_path))
    assert (done.exit_code, done.stderr) == (0, "")
    lines = done.stdout.splitlines()
    assert lines[0] == "Weld on 4.17 mm²: 6 trials made, 1 of them failed outright."
    assert lines[1].startswith("The window is proven: energy 300\u202fJ, pressure 2.6\u202fbar.")
    assert any(line.startswith("- Energy alone may go from ") for line in lines)
    assert any(line.startswith("Trial: Try energy ") for line in lines)


def test_before_the_first_trial_the_first_guess_comes_next(tmp_path: Path) -> None:
    """Without a file of trials it ends with 1 and proposes the energy that the gauges give."""
    search, _ = write(tmp_path)
    done = trial(search)
    assert done.exit_code == 1
    assert "Next: energy 300\u202fJ, pressure 2.7\u202fbar." in done.stdout


def test_no_window_yet_ends_with_1_and_its_reasons(tmp_path: Path) -> None:
    """Two trials far below the limit prove nothing, and the reason names limit and bound."""
    rows = [ROWS[0], "1,200,1.6,101,112,108,3/3,,", "2,220,1.8,120,131,127,3/3,,"]
    done = trial(*write(tmp_path, trials="\n".join(rows)), "--next", "2")
    assert done.exit_code == 1
    assert "above 223\u202fN is asked for" in done.stdout
    assert done.stdout.count("Trial: Try energy") == 2


def test_nothing_safe_is_a_no_with_its_reason(tmp_path: Path) -> None:
    """Trials that mostly fail outright leave no setting safe enough, and the safest is named."""
    rows = [
        ROWS[0],
        "1,300,2.7,241,252,247,3/3,,",
        *(
            f"{n},{energy},{pressure},,,,,cut through,"
            for n, (energy, pressure) in enumerate(
                [(200, 1.6), (400, 1.6), (200, 3.8), (400, 3.8), (260, 2.7), (340, 2.7)], start=2
            )
        ),
    ]
    done = trial(*write(tmp_path, trials="\n".join(rows)))
    assert done.exit_code == 1
    assert "No setting is safe enough to try." in done.stdout
    assert re.search(r"harms with a chance of \d+%, and 10% is allowed", done.stdout)


def test_as_many_trials_as_allowed_end_the_search(tmp_path: Path) -> None:
    """With most_trials reached and no window, it says so and ends with 1."""
    rows = [ROWS[0], "1,200,1.6,101,112,108,3/3,,", "2,220,1.8,120,131,127,3/3,,"]
    search = SEARCH.replace('name = "Weld', 'most_trials = 2\nname = "Weld', 1)
    done = trial(*write(tmp_path, search, "\n".join(rows)))
    assert done.exit_code == 1
    assert "No window yet: 2 trials were made, as many as were allowed." in done.stdout


def test_json_holds_the_same_for_programs(tmp_path: Path) -> None:
    """One object: window with centre and spans, the next trial with its chances and sentence."""
    done = trial(*write(tmp_path), "--json")
    told = json.loads(done.stdout)
    assert told["found"] is True
    assert told["window"]["centre"] == {"energy": 300.0, "pressure": 2.6}
    low, high = told["window"]["spans"]["energy"]
    assert low < 300 < high
    (one,) = told["next"]
    assert set(one["settings"]) == {"energy", "pressure"}
    assert one["sentence"].startswith("Try energy")
    assert 0.9 <= one["safe_chance"] <= 1


def test_the_plot_is_drawn_into_a_file(tmp_path: Path) -> None:
    """An SVG with a title and no script."""
    done = trial(*write(tmp_path), "--plot", tmp_path / "w.svg")
    assert done.exit_code == 0
    drawn = (tmp_path / "w.svg").read_text(encoding="utf-8")
    assert drawn.startswith("<svg")
    assert "<title>Trials, and the window they prove</title>" in drawn


def test_every_fault_of_the_search_is_told_with_its_key(tmp_path: Path) -> None:
    """An unknown key, a text for a number, limits the wrong way round, a share above one."""
    bad = (
        SEARCH.replace("low = 180", 'low = "low"\ncolour = "red"')
        .replace("lower_limit = 223", "lower_limit = 223\nupper_limit = 200")
        .replace("coverage = 0.95", "coverage = 2")
        .replace("least_share = 0.6", "")
        .replace("drift = 0.05", "drift = -1")
    )
    told = faults(trial(*write(tmp_path, bad)))
    assert [line.split(":")[0] for line in told] == [
        "s.toml, setting 1 colour",
        "s.toml, setting 1 low",
        "s.toml, setting 2 drift",
        "s.toml, response 1 lower_limit",
        "s.toml, looks 1 least_share",
        "s.toml, demand coverage",
    ]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (("[demand]", "[demands]"), "demand: this is missing"),
        (("[[setting]]", "[setting]"), "this is not TOML"),
        (('name = "energy"', 'name = "note"'), "setting 1 name: 'note'"),
        (('name = "energy"', 'name = "pressure"'), "this setting is there twice"),
        (("low = 180", "low = 418"), "two steps of 5 or more"),
        (("ratio_factor = 1.5", "ratio_factor = 1"), "response 1 guess ratio_factor: '1'"),
        (('kind = "peak"', 'kind = "hill"'), "'hill': no such first guess"),
        (("[[1.31, 96], ", "[[1.31, 0], "), "energy_j"),
        (("[[1.31, 96], [2.08, 149], [3.31, 243], [5.26, 378]]", "[[1, 90]]"), "two gauges"),
        (('setting = "energy"', 'setting = "time"'), "rests on a setting it cannot use"),
        (("name = ", "name = 7 #"), "this is no text"),
        (("question = ", "most_trials = 0 #"), "a whole number, 1 or more"),
    ],
)
def test_each_fault_of_a_search(tmp_path: Path, change: tuple[str, str], told: str) -> None:
    """It is refused with what is wrong; nothing is computed."""
    search, trials = write(tmp_path, SEARCH.replace(*change, 1))
    assert any(told in line for line in faults(trial(search, trials)))


def test_every_fault_of_the_trials_is_told_with_row_and_column(tmp_path: Path) -> None:
    """No number, no figure, nothing there, out of range, another setting of the same trial."""
    rows = [
        ROWS[0],
        "1,300,2.8,266,271,259,3/3,,",
        "x,300,2.2,242,251,247,3/3,,",
        "3,3OO,2.8,235,244,240,2/3,,",
        "4,260,,239,232,243,3/3,,",
        "5,300,7,246,240,251,3/3,,",
        '6,310,3.0,"1,246",240,251,4/3,,',
        "1,305,2.8,266,271,259,3/3,,",
    ]
    told = faults(trial(*write(tmp_path, trials="\n".join(rows))))
    assert [line.split(":")[0] for line in told] == [
        "t.csv, row 3, number",
        "t.csv, row 4, energy",
        "t.csv, row 5, pressure",
        "t.csv, row 6, pressure",
        "t.csv, row 7, pull",
        "t.csv, row 7, unburnt",
        "t.csv, row 8, number",
    ]


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        (["1,300,2.8,266,,,,,", "2,310,2.8,260,,,,,"], "no reading was ever repeated"),
        (["1,300,2.8,266,271,259,3/3,burst,"], "row 2, failure: 'burst'"),
        (["1,300,2.8,,,,,,"], "nothing was written down of this trial"),
        (["1,300,2.8,900,20,510,,,", "2,310,2.8,880,15,430,,,"], "under the noise of one reading"),
        (
            ["1,300,2.8,266,271,259,,,", "2,310,2.8,262,268,265,,,", "3,290,2.8,26.6,271,259,,,"],
            "row 4, pull: '26.6 N, 271 N, 259 N': these repeats contradict",
        ),
        (
            ["1,300,2.8,266,271,259,,,", "2,310,2.8,262,268,265,,,", "3,300,2.8,126,131,119,,,"],
            "row 4, pull: '125 N': set the same as an earlier trial",
        ),
        (["1,300,2.8,266,271,259,,,,9"], "10 cells under 9 columns"),
        ([], "there is a header but no row below it"),
    ],
)
def test_trials_that_cannot_be_are_refused(tmp_path: Path, rows: list[str], told: str) -> None:
    """Each is refused with the row it stands in, by the trials or by what they say together."""
    done = trial(*write(tmp_path, trials="\n".join([ROWS[0], *rows])))
    assert any(told in line for line in faults(done)), done.stderr


@pytest.mark.parametrize(
    ("header", "told"),
    [
        ("number,energy,pull", "row 1, pressure: this column is missing"),
        ("number,energy,pressure,energy", "row 1, energy: this column stands there twice"),
        ("number,energy,pressure,peel", "row 1, peel: this column is not known"),
        ("number,energy [kJ],pressure", "row 1, energy: 'kJ': another unit than the search has"),
    ],
)
def test_a_header_that_does_not_fit_the_search(tmp_path: Path, header: str, told: str) -> None:
    """It names the column and what is accepted."""
    done = trial(*write(tmp_path, trials=f"{header}\n1,300,2.8,1\n"))
    assert any(told in line for line in faults(done))


def test_a_missing_column_does_not_hide_what_the_rows_have_wrong(tmp_path: Path) -> None:
    """The column is told once, and beside it a setting out of range and a word for a number."""
    rows = "number,energy,pull\n1,900,266\nx,300,strong\n2,300,260\n"
    told = faults(trial(*write(tmp_path, trials=rows)))
    assert [line.split(": ")[0] for line in told if "row" in line] == [
        "t.csv, row 1, pressure",
        "t.csv, row 2, energy",
        "t.csv, row 3, number",
    ]


def test_repeats_in_columns_rows_and_cells_are_the_same_trials(tmp_path: Path) -> None:
    """Numbered columns, several rows, one cell: semicolons and decimal commas change nothing."""
    told = [trial(*write(tmp_path), "--json").stdout]
    header = "number;energy;pressure;pull 1;pull 2;pull 3;unburnt;failure"
    rows = [line.rsplit(",", 1)[0].replace(",", ";").replace(".", ",") for line in ROWS[1:]]
    told.append(trial(*write(tmp_path, trials="\n".join([header, *rows])), "--json").stdout)
    cells = [
        "number,energy,pressure,pull,unburnt,failure",
        "1,300,2.8,266 271 259 268 262,5/5,",
        *(
            ",".join([*row.split(",")[:3], " ".join(row.split(",")[3:6]), *row.split(",")[6:8]])
            for row in ROWS[3:]
        ),
    ]
    told.append(trial(*write(tmp_path, trials="\n".join(cells)), "--json").stdout)
    assert json.loads(told[0])["trials"] == 6
    assert told[0] == told[1] == told[2]


def test_a_classical_design_is_printed_instead(tmp_path: Path) -> None:
    """Four corners at the ends, thirteen runs of the composite, no fraction of two settings."""
    search, trials = write(tmp_path)
    full = trial(search, trials, "--design", "full", "--json")
    runs = json.loads(full.stdout)["runs"]
    assert {(run["settings"]["energy"], run["settings"]["pressure"]) for run in runs} == {
        (180, 1.5),
        (420, 1.5),
        (180, 4.0),
        (420, 4.0),
    }
    central = trial(search, trials, "--design", "central")
    assert central.exit_code == 0
    assert central.stdout.count("Run ") == 13
    assert "A surface straight in every setting explains" in central.stdout
    fraction = trial(search, "--design", "fraction")
    assert fraction.exit_code == 1
    assert "take the full design" in fraction.stdout


def test_faults_for_programs(tmp_path: Path) -> None:
    """With --json standard output holds one object with every fault in its parts."""
    done = trial(*write(tmp_path, trials="number,energy\n"), "--json")
    assert done.exit_code == 2
    found = json.loads(done.stdout)["faults"]
    assert [(fault["file"], fault["row"], fault["field"]) for fault in found] == [
        ("t.csv", 1, "pressure"),
        ("t.csv", None, None),
    ]


@pytest.mark.parametrize("name", ["none.toml", "none.csv"])
def test_a_file_that_is_not_there(tmp_path: Path, name: str) -> None:
    """It is named, with exit code 2 and no traceback."""
    search, trials = write(tmp_path)
    words = [tmp_path / name, trials] if name.endswith("toml") else [search, tmp_path / name]
    done = trial(*words)
    assert done.exit_code == 2
    assert name in done.stderr


def test_the_command_never_loads_the_records(tmp_path: Path) -> None:
    """As a process of its own it answers without Django and without a workshop."""
    write(tmp_path)
    probe = (
        "import sys; from reelwright.cli.main import command_line\n"
        "try: command_line(['trial', 's.toml', 't.csv', '--design', 'full'])\n"
        "except SystemExit: pass\n"
        "print('django' in sys.modules, 'scipy' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", probe],
        env=variables(tmp_path / "home"),
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.splitlines()[-1].startswith("False")
    real = subprocess.run(
        command("trial", "s.toml"),
        env=variables(tmp_path / "home"),
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (real.returncode, real.stderr) == (1, "")
    assert not (tmp_path / "home").exists()


def test_a_design_made_tells_its_effects(tmp_path: Path) -> None:
    """With the corners as trials, --design prints the effects, and gives them to programs."""
    rows = "number,energy,pressure,pull,pull\n1,240,2,198,202\n2,360,2,238,242\n"
    rows += "3,240,3,208,212\n4,360,3,288,292\n"
    files = write(tmp_path, trials=rows)
    told = trial(*files, "--design", "full").output
    assert "- energy: +60 ± 2 N from the low to the high end; by chance 0%." in told
    assert "- energy × pressure: +20 ± 2 N" in told
    found = json.loads(trial(*files, "--design", "full", "--json").output)["effects"]
    assert [one["name"] for one in found[0]["effects"]] == [
        "energy",
        "pressure",
        "energy × pressure",
    ]
