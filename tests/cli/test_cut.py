"""``reelwright cut`` as it is typed: a plan for people and for programs, bad files, the drawing."""

import json
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from reelwright.cli.main import command_line
from tests.cli.conftest import command, variables

PIECES = """id,item,cut_length,count
A,VID-60 red,10 m,2
B,VID-60 red,4 m,1
"""
REELS = """id,item,lot,length,uncertainty,flaws,received,location
R-1,VID-60 red,L1,30 m,0,11 to 11.5,2026-01-05,A1
R-2,VID-60 red,L2,50 m,0.1 m,,2026-03-05,
"""
RULES = """item,smallest_remnant,swarf,remnant_uses
VID-60 red,3 m,50 mm,"3 m 40 %, 8 m 90 %"
"""


def write(folder: Path, pieces: str = PIECES, reels: str = REELS, rules: str = RULES) -> list[str]:
    """Put the three files into a folder."""
    words = []
    for name, text in (("pieces", pieces), ("reels", reels), ("rules", rules)):
        path = folder / f"{name}.csv"
        path.write_text(text, encoding="utf-8")
        words.append(str(path))
    return words


def cut(*words: str | Path) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(command_line, ["cut", *map(str, words)])


def test_all_served_ends_with_0_and_tells_every_reel(tmp_path: Path) -> None:
    """The answer, what is proven, then the reel from its free end with all that becomes of it."""
    done = cut(*write(tmp_path))
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.replace("\u202f", " ").splitlines() == [
        "All 3 pieces are cut from 1 reel; 0.00 m scrap.",
        "VID-60 red: proven best.",
        "In the rack afterwards: 3 clean lengths, 55.50 m; on average 0.3 of them, 5.55 m, will "
        "not be used in time.",
        "",
        "R-2 · VID-60 red · lot L2: 3 pieces, enough with 100 %",
        "   0.000  10.000 m  A-1",
        "  10.000  10.000 m  A-2",
        "  20.000  4.000 m  B",
        "  24.000  26.000 m  stays on the reel, used again with 90 %",
        "  Stays on the reel: 26.00 m; scrap: 0.00 m.",
        "  Not the older R-1: more would become scrap, or a remnant of less use.",
    ]


def test_something_unserved_ends_with_1_and_what_would_serve_it(tmp_path: Path) -> None:
    """Pieces alike that miss for one reason are told together."""
    done = cut(*write(tmp_path, pieces=PIECES + "C,VID-60 red,25 m,3\n"))
    assert done.exit_code == 1
    told = done.stdout.replace("\u202f", " ")
    assert told.startswith("4 of 6 pieces are cut from 2 reels, 2 not served;")
    assert "Not served: C-2, C-3 (25.000 m of VID-60 red).\n- All that is long enough goes" in told
    assert "2 pieces of 25.000 m missing: served by a length of 50.000 m or more" in told


def test_an_item_that_has_run_out_is_a_no(tmp_path: Path) -> None:
    """An empty rack: everything waits, and the reason says so."""
    done = cut(*write(tmp_path, reels=REELS.splitlines()[0] + "\n"))
    assert done.exit_code == 1
    assert "There is no VID-60 red in stock." in done.stdout


def test_a_surer_plan_cuts_less(tmp_path: Path) -> None:
    """49.8 m on 50 ± 0.1 m: there with 98 % (z = 2.054: up to 49.794 m)? No; with 97 % it is."""
    files = write(tmp_path, pieces="id,item,cut_length\nA,VID-60 red,49.8 m\n")
    assert cut(*files).exit_code == 1
    assert cut(*files, "--chance", "97").exit_code == 0
    assert cut(*files, "--chance", "49").exit_code == 2


def test_the_object_for_programs_accounts_for_every_millimetre(tmp_path: Path) -> None:
    """The parts of each reel leave no gap and end where it ends; the sums agree with them."""
    done = cut(*write(tmp_path, pieces=PIECES + "C,VID-60 red,25 m,2\n"), "--json")
    found = json.loads(done.stdout)
    assert (done.exit_code, found["wanted"], found["served"]) == (1, 5, 4)
    length = {"R-1": 30_000, "R-2": 50_000}
    assert found["reels"]
    for reel in found["reels"]:
        ends = [0, *(part["end_mm"] for part in reel["parts"])]
        assert [part["start_mm"] for part in reel["parts"]] == ends[:-1]
        assert ends[-1] == length[reel["id"]]
        stays = [part for part in reel["parts"] if part["stays_on_reel"]]
        assert sum(part["end_mm"] - part["start_mm"] for part in stays) == reel["left_on_reel_mm"]
        assert reel["why"]
    assert [one["piece"] for one in found["unserved"]] == ["C-2"]
    assert found["standings"][0]["levels"]["pieces not served"] == 1
    kept = [part for reel in found["reels"] for part in reel["parts"] if "kept" in part["kind"]]
    kept += [part for reel in found["reels"] for part in reel["parts"] if "stays" in part["kind"]]
    assert sorted(each["length_mm"] for each in found["rack_after"]) == sorted(
        part["end_mm"] - part["start_mm"] for part in kept
    )
    assert (found["spares"], found["beside"], found["drawing"]) == ([], [], None)


def test_beside_the_plain_rules(tmp_path: Path) -> None:
    """Three lines counted alike: best fit spoils the old reel, the plan and the count say so."""
    done = cut(*write(tmp_path), "--beside")
    told = [line for line in done.stdout.replace("\u202f", " ").splitlines() if "touched" in line]
    assert told[0] == (
        "This plan: 3 pieces served, 0 unusable ends, 0.00 m scrap, 1 reel touched, 1 open remnant."
    )
    assert told[1] == (
        "Longest first, tightest stretch: 3 pieces served, 1 unusable end, 1.50 m scrap, "
        "1 reel touched, 1 open remnant."
    )
    found = json.loads(cut(*write(tmp_path), "--beside", "--json").stdout)["beside"]
    assert [one["levels"]["unusable ends"] for one in found] == [0, 1, 1]
    assert [one["scrap_mm"] for one in found] == [0, 1500, 1500]


def test_the_drawing_is_an_svg_of_all_reels(tmp_path: Path) -> None:
    """It is written, told of, and may be written again; nothing else is ever replaced."""
    files = write(tmp_path)
    out = tmp_path / "plan.svg"
    assert f"Drawn: {out}" in cut(*files, "--out", out).stdout
    assert ET.parse(out).getroot().tag.endswith("svg")
    assert "R-2 · VID-60 red · lot L2" in out.read_text(encoding="utf-8")
    assert cut(*files, "--out", out).exit_code == 0
    done = cut(*files, "--out", files[0])
    assert done.exit_code == 2
    assert "is no drawing; it stays as it is" in done.stderr
    assert Path(files[0]).read_text(encoding="utf-8") == PIECES


def test_a_bad_file_is_planned_by_nothing(tmp_path: Path) -> None:
    """All faults of all files, exit code 2, no plan and no drawing."""
    files = write(
        tmp_path,
        pieces=PIECES + "A,VID-60 rad,-1 m,\n",
        reels=REELS.replace("11 to 11.5", "29.9 to 30.1"),
        rules=RULES.replace("3 m,50 mm", "3 m,4 m"),
    )
    out = tmp_path / "plan.svg"
    done = cut(*files, "--out", out)
    assert (done.exit_code, done.stdout, out.exists()) == (2, "", False)
    assert done.stderr.startswith("4 faults; nothing was written.\n")
    found = json.loads(cut(*files, "--json").stdout)["faults"]
    assert [(fault["file"], fault["row"], fault["field"]) for fault in found] == [
        ("pieces.csv", 4, "cut_length"),
        ("pieces.csv", 4, "item"),
        ("reels.csv", 2, "flaws"),
        ("rules.csv", 2, "smallest_remnant"),
    ]


def test_a_file_that_is_no_table_comes_with_the_faults_of_the_others(tmp_path: Path) -> None:
    """Bytes that are no text in one file, a length of nothing in another: both at once."""
    files = write(tmp_path, pieces=PIECES.replace("4 m", "0 m"))
    Path(files[1]).write_bytes(b"id,item\n\xff\xfe")
    done = cut(*files)
    assert done.exit_code == 2
    assert "pieces.csv, row 3, cut_length: '0 m'" in done.stderr
    assert "reels.csv, row 2: '0xFF'" in done.stderr


def test_a_piece_longer_than_any_reel(tmp_path: Path) -> None:
    """A digit too many is a fault; where such reels are bought it is a piece not served."""
    pieces = PIECES.replace("4 m", "400 m")
    done = cut(*write(tmp_path, pieces=pieces))
    assert done.exit_code == 2
    assert "row 3, cut_length: '400 m': longer than any reel of VID-60 red" in done.stderr
    header, row = RULES.splitlines()
    rules = f"{header},longest_reel\n{row},500 m\n"
    done = cut(*write(tmp_path, pieces=pieces, rules=rules))
    assert done.exit_code == 1
    assert "Not served: B (400.000\u202fm of VID-60 red)." in done.stdout


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    """It is named, with exit code 2 and no traceback."""
    files = write(tmp_path)
    done = cut(files[0], tmp_path / "none.csv", files[2])
    assert done.exit_code == 2
    assert "none.csv" in done.stderr


def test_the_rows_may_stand_in_any_order(tmp_path: Path) -> None:
    """Shuffled files have the same plan to the letter."""
    first = cut(*write(tmp_path), "--json").stdout

    def turned(text: str) -> str:
        head, *rows = text.splitlines()
        return "\n".join([head, *reversed(rows)])

    assert cut(*write(tmp_path, turned(PIECES), turned(REELS)), "--json").stdout == first


@pytest.mark.parametrize("seconds", ["0", "30"])
def test_a_limit_of_time_has_a_whole_plan_all_the_same(tmp_path: Path, seconds: str) -> None:
    """At once or in half a minute everything is served; only what is proven may be less."""
    done = cut(*write(tmp_path), "--seconds", seconds, "--json")
    found = json.loads(done.stdout)
    assert (done.exit_code, found["served"]) == (0, 3)
    assert found["standings"][0]["proven_best"] or seconds == "0"


def test_the_command_never_loads_the_records(tmp_path: Path) -> None:
    """As a process of its own it answers without Django and without a workshop."""
    write(tmp_path)
    names = ["pieces.csv", "reels.csv", "rules.csv"]
    probe = (
        "import sys; from reelwright.cli.main import command_line\n"
        f"try: command_line(['cut', *{names}])\n"
        "except SystemExit as end: print(end.code)\n"
        "print('django' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", probe],
        env=variables(tmp_path / "home"),
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.splitlines()[-2:] == ["0", "False"]
    real = subprocess.run(
        command("cut", *names),
        env=variables(tmp_path / "home"),
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (real.returncode, real.stderr) == (0, "")
    assert not (tmp_path / "home").exists()


@pytest.mark.parametrize(
    ("option", "value"),
    [("--yield", "49"), ("--yield", "101"), ("--chance", "100"), ("--seconds", "-1")],
)
def test_an_option_out_of_its_range_is_bad_input(tmp_path: Path, option: str, value: str) -> None:
    """Nothing is read, and the range is told."""
    done = cut(*write(tmp_path), option, value)
    assert done.exit_code == 2
    assert "is not in the range" in done.stderr


def test_semicolons_and_decimal_commas_have_the_same_plan(tmp_path: Path) -> None:
    """A table as other countries write it, with a byte-order mark in front."""
    first = cut(*write(tmp_path), "--json").stdout
    files = write(
        tmp_path,
        "\ufeff" + PIECES.replace(",", ";").replace("4 m", "4,0 m"),
        REELS.replace(",", ";").replace("11 to 11.5", "11,0 to 11,5").replace("0.1 m", "0,1 m"),
        RULES.replace(",", ";").replace("%; 8", "%, 8").replace("3 m;", "3,0 m;"),
    )
    assert cut(*files, "--json").stdout == first


def test_whoever_watches_is_told_how_far_it_is(tmp_path: Path) -> None:
    """On a terminal the items are counted on standard error; the plan itself stays the same."""
    files = write(tmp_path)
    watched = CliRunner().invoke(command_line, ["cut", *files], env={"FORCE_COLOR": "1"})
    assert "0 of 1 item planned" in watched.stderr
    assert watched.stdout == cut(*files).stdout
