"""``reelwright end``: a sheet written and told, a pair judged, and each way of asking wrongly."""

import dataclasses
import json
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from reelwright.cli.main import command_line
from reelwright.documents.set_up_sheet import TipPrint, Told
from reelwright.shop.setups.readings.given import Given
from reelwright.shop.setups.readings.services import readings_record
from reelwright.shop.setups.selectors import set_up_sheets
from reelwright.shop.setups.states import Part
from tests.cli.conftest import run
from tests.day_world import DayWorld, build_day_world, row_counts
from tests.documents import pdfs
from tests.shop.setups.conftest import COMPLETE
from tests.small_world import TODAY


@pytest.fixture
def day_world(db: None) -> DayWorld:
    """The day world, rolled back afterwards."""
    return build_day_world()


def end(*arguments: str | Path) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(command_line, ["end", *map(str, arguments)])


def draft_b(world: DayWorld) -> None:
    """Draft revision B of S-1, which lacks its adapter."""
    from dataclasses import replace

    from reelwright.shop.setups import services

    services.revision_draft(
        by=world.ben,
        set_up_code="S-1",
        letter="B",
        numbers=replace(COMPLETE, test_adapter=""),
        on=TODAY,
    )


def test_an_order_laid_down_is_told_with_its_operations(
    day_world: DayWorld, tmp_path: Path
) -> None:
    """Beside the shop's words: whose order it is, and the operations in it; for programs too."""
    from dataclasses import replace

    from reelwright.shop.setups import services

    rest = ("tin", "solder", "clamp", "boot home")
    order = ("strip", "thread boot", "thread shell and clamp", *rest)
    numbers = replace(COMPLETE, order=order)
    services.revision_draft(
        by=day_world.ben, set_up_code="S-1", letter="B", numbers=numbers, on=TODAY
    )
    told = end("S-1", "--out", tmp_path).stdout
    assert "This order is laid down by rev B; worked out it would be another." in told
    assert "Operation 2: Boot, then shell and clamp, onto the cable: right way round" in told
    read = json.loads(end("S-1", "--out", tmp_path, "--json").stdout)
    assert read["order_told"].startswith("This order is laid down by rev B")
    assert len(read["operations"]) == 6
    read = json.loads(end("S-1", "--rev", "A", "--out", tmp_path, "--json").stdout)
    assert (read["order_told"], read["operations"]) == (None, [])


def test_a_released_sheet_is_written_and_told(day_world: DayWorld, tmp_path: Path) -> None:
    """Exit 0; strip, steps, machines, pulls, cautions in words; the PDF where it was asked for."""
    place = tmp_path / "sheet.pdf"
    before = row_counts()
    done = end("S-1", "--out", place)
    assert (done.exit_code, done.stderr) == (0, "")
    for told in (
        "S-1 rev A, SW-60 in SW-PLUG: released",
        "Strip a, bared conductor: 5.0 ±0.5 mm, cut at 5.0",
        "Before anything else: Slide the boot on.",
        "2. Solder by the map.",
        "Test adapter: video",
        "Take care: Fume extraction on.",
        f"Sheet: {place}",
    ):
        assert told in done.stdout, told
    assert "not for orders" not in done.stdout
    assert "SW-60 in SW-PLUG: released" in pdfs.texts(place.read_bytes())[0]
    assert row_counts() == before


def test_what_is_not_released_ends_with_1_and_says_what_is_missing(
    day_world: DayWorld, tmp_path: Path
) -> None:
    """The newest revision is the draft; its sheet is written and says so; rev A is still there."""
    draft_b(day_world)
    done = end("S-1", "--out", tmp_path)
    assert done.exit_code == 1
    assert "Not released: not for orders." in done.stdout
    assert "Missing before it is on trial:\n- Missing: the test adapter." in done.stdout
    assert (tmp_path / "S-1-rev-B.pdf").is_file()
    assert end("S-1", "--rev", "A", "--out", tmp_path).exit_code == 0
    assert (tmp_path / "S-1-rev-A.pdf").is_file()


def test_measured_strips_are_told_with_their_capability(
    day_world: DayWorld, tmp_path: Path
) -> None:
    """Three strips on a line with their Cpk, what is missing to thirty, and both for programs."""
    revision = set_up_sheets("S-1")[0].revision_id
    readings_record(
        by=day_world.ben,
        given=[
            Given(
                revision_id=revision,
                on=TODAY,
                end=str(number),
                part=Part.CORES_BARED,
                length_mm=Decimal(length),
            )
            for number, length in enumerate(("4.9", "5.0", "5.1"), start=1)
        ],
        on=TODAY,
    )
    told = end("S-1", "--out", tmp_path).stdout
    # s = 0.1 mm in ±0.5 mm: Cpk 1.667, its bound 1.667 − 1.645 √(1/27 + 1.667²/4).
    assert (
        "Measured, cores bared: 3 of 5.000\u202fmm, s 0.100\u202fmm, outside 5.00 ± 0.50\u202fmm: "
        "none; Cpk 1.67, at least 0.26 with 95\u202f% confidence, less than 1 in a million would "
        "lie outside" in told
    )
    assert "good so far; measure 27 more to tell." in told
    found = json.loads(end("S-1", "--out", tmp_path, "--json").stdout)
    (part,) = found["measured"]
    assert (part["name"], part["cpk"], part["cpk_least"]) == ("cores bared", "1.67", "0.26")
    assert "measure 27 more to tell" in found["measured_told"][0]


def test_where_the_tip_lands_is_told_with_its_basis(
    day_world: DayWorld, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What the sheet prints of the tip is what the command says; an end without a pin has none."""
    assert json.loads(end("S-1", "--out", tmp_path, "--json").stdout)["pin_tip"] is None
    basis = "5 measured pins grew by 0.062\u202fmm ± 0.024\u202fmm."
    print_ = TipPrint(told=(Told(mark="good", sentence=basis),), window="", gauge="", missing="")
    monkeypatch.setattr("reelwright.shop.setups.paper.tip", lambda *_, **__: print_)
    assert f"Pin tip: {basis}\n" in end("S-1", "--out", tmp_path).stdout
    assert json.loads(end("S-1", "--out", tmp_path, "--json").stdout)["pin_tip"] == [basis]
    missing = dataclasses.replace(print_, missing="The drawing gives no bore: not computed.")
    monkeypatch.setattr("reelwright.shop.setups.paper.tip", lambda *_, **__: missing)
    assert (
        "Pin tip: The drawing gives no bore: not computed.\n"
        in end("S-1", "--out", tmp_path).stdout
    )


def test_for_programs_it_is_one_object(day_world: DayWorld, tmp_path: Path) -> None:
    """With --json every part has its name, and the exit code stays the same."""
    draft_b(day_world)
    done = end("S-1", "--out", tmp_path, "--json")
    assert done.exit_code == 1
    told = json.loads(done.stdout)
    assert (told["set_up"], told["revision"], told["released"]) == ("S-1", "B", False)
    assert told["missing"] == ["Missing: the test adapter."]
    assert told["strip"][0]["length"] == "5.0 ±0.5"
    assert told["sheet"] == str(tmp_path / "S-1-rev-B.pdf")


def test_the_same_sheet_again_is_the_same_file(day_world: DayWorld, tmp_path: Path) -> None:
    """An earlier sheet is replaced, by the same bytes."""
    place = tmp_path / "sheet.pdf"
    assert end("S-1", "--out", place).exit_code == 0
    first = place.read_bytes()
    assert end("S-1", "--out", place).exit_code == 0
    assert place.read_bytes() == first


def test_a_place_that_holds_another_file_is_left_alone(day_world: DayWorld, tmp_path: Path) -> None:
    """Another file is never written over, and a folder that is not there is named."""
    letter = tmp_path / "letter.txt"
    letter.write_text("kept")
    done = end("S-1", "--out", letter)
    assert done.exit_code == 2
    assert "no PDF" in done.stderr
    assert letter.read_text() == "kept"
    done = end("S-1", "--out", tmp_path / "none" / "sheet.pdf")
    assert done.exit_code == 2
    assert "there is no folder" in done.stderr


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["S-2"], "near it: S-1"),
        (["s-1"], "near it: S-1"),
        (["S-1", "--rev", "Q"], "near it: A"),
        ([], "Name a set-up, or a cable with a connector"),
        (["--cable", "SW-60"], "Name a set-up, or a cable with a connector"),
        (["S-1", "--cable", "SW-60"], "Name a set-up, or a cable with a connector"),
        (["--cable", "SW-60", "--connector", "SW-PLUG", "--rev", "A"], "not with a pair"),
        (["--cable", "SW-61", "--connector", "SW-PLUG"], "near it: SW-60"),
        (["--cable", "SW-60", "--connector", "NONE"], "SW-PLUG"),
        (["S-1", "--nonesuch"], "No such option"),
    ],
)
def test_asked_wrongly_it_says_what_is_near(
    day_world: DayWorld,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    arguments: list[str],
    told: str,
) -> None:
    """Exit 2, on standard error, and nothing is written."""
    monkeypatch.chdir(tmp_path)
    done = end(*arguments)
    assert list(tmp_path.iterdir()) == []
    assert done.exit_code == 2
    assert done.stdout == ""
    assert told in done.stderr


def test_a_pair_that_goes_together(day_world: DayWorld) -> None:
    """Exit 0, its set-up and why no strip in levels is proposed."""
    done = end("--cable", "SW-60", "--connector", "SW-PLUG")
    assert done.exit_code == 0
    assert "SW-60 in SW-PLUG. Possible, and S-1 rev A is released." in done.stdout
    assert "none proposed: an end that is soldered is not stripped in levels" in done.stdout


def test_a_pair_that_does_not_go_together(day_world: DayWorld) -> None:
    """Exit 1 with every reason; for programs the same as one object."""
    done = end("--cable", "SW-60", "--connector", "SW-LIGHT")
    assert done.exit_code == 1
    assert "SW-60 in SW-LIGHT. Impossible: " in done.stdout
    told = json.loads(end("--cable", "SW-60", "--connector", "SW-LIGHT", "--json").stdout)
    assert (told["possible"], told["state"], told["set_up"]) == (False, "impossible", None)
    assert told["against"]


def test_the_real_command(new_home: Callable[[str], Path], tmp_path: Path) -> None:
    """As a process of its own, from another folder: the PDF lies where it was started."""
    home = new_home("home")
    done = run(home, "end", "S-1", "--out", tmp_path / "s.pdf")
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "s.pdf").read_bytes().startswith(b"%PDF-")
    assert run(tmp_path / "home", "end", "X").returncode == 2
