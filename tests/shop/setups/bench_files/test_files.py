"""Files of readings: one defect each, told by file, row and field; the good ones once and whole."""

from decimal import Decimal
from pathlib import Path

import pytest

from reelwright.core.errors import InputFaults
from reelwright.shop.setups.bench_files.services import FileTaken, bench_file_read
from reelwright.shop.setups.models import BenchFile, EndDimension, Pull
from reelwright.shop.setups.readings.selectors import dimensions_read, files_read, pulls_read
from reelwright.shop.setups.readings.services import PULL, reading_take_back
from tests.shop.refusals import refused
from tests.small_world import TODAY, SmallWorld

FILES = Path(__file__).parent / "files"

# What must be told of each file: row, field, value, words of the problem, words of the accepted.
Told = tuple[int | None, str | None, str | None, str, str]
DEFECTS: dict[str, list[Told]] = {
    "set-up-unknown": [(3, "set_up", "S-9", "no such set-up", "T-02")],
    "set-up-missing": [(3, "set_up", None, "no such set-up", "T-02")],
    "revision-unknown": [(3, "revision", "Z", "no such revision", "A, B")],
    "revision-drafted": [(3, "revision", "A", "S-1 rev A is drafted", "on trial")],
    "date-unreadable": [(3, "date", "2027-02-30", "not a date", "2026-04-03")],
    "date-in-two-ways": [(3, "date", "03/02/2027", "3 February or 2 March?", "3 April 2026")],
    "date-to-come": [(3, "date", "2027-03-03", "no end of this revision", "to 2027-03-02")],
    "date-before-the-draft": [(3, "date", "2027-03-01", "no end of", "when it was drafted")],
    "end-missing": [(3, "end", None, "nothing here", "its serial")],
    "end-too-long": [(3, "end", "x" * 41, "names no end", "1 to 40 characters")],
    "end-twice": [(3, "end", "1", "stands in row 2 already with 194.0\u202fN", "once")],
    "end-contradicted": [(3, "end", "1", "stands in row 2 already with 194.0\u202fN", "once")],
    "what-unknown": [(3, "what", "boot", "not measured of an end", "pull, pin crimp")],
    "value-missing": [(3, "value", None, "nothing is written", "194 N")],
    "value-without-unit": [(3, "value", "194", "in which unit (N, lbf, kgf)?", "43.6 lbf")],
    "value-in-two-ways": [(3, "value", "1,200 N", "is it 1200 or 1.2?", "194 N")],
    "value-of-another-quantity": [(3, "value", "1.62 mm", "not a force", "194 N")],
    "value-negative": [(3, "value", "-194 N", "not a force", "above zero")],
    "pull-too-strong": [
        (3, "value", "1940.0\u202fN", "more than 5 times the least pull", "at most 450\u202fN")
    ],
    "height-far-off": [
        (3, "value", "41.148\u202fmm", "the cavity is 1.60\u202fmm", "1.10\u202fmm to 2.10\u202fmm")
    ],
    "part-not-there": [(3, "what", "c", "an end of S-1 rev B has none", "pull, pin crimp")],
    "gave-way-unknown": [(3, "gave_way", "exploded", "not known", "conductor broke, ")],
    "gave-way-missing": [(3, "gave_way", None, "nothing here", "jacket slipped")],
    "gave-way-of-a-height": [(3, "gave_way", "conductor broke", "only a pulled end", "nothing")],
    "before-missing": [(3, "before", None, "needs the length before", "such as")],
    "before-of-a-height": [(3, "before", "1.60 mm", "only the growth of a pin", "nothing")],
    "before-unreadable": [(3, "before", "soon", "not a dimension", "such as")],
    "growth-without-its-gauge": [(3, "instrument", None, "no instrument is named", "both")],
    "growth-exchanged": [
        (3, "value", "17.900\u202fmm", "0.162\u202fmm shorter", "17.962\u202fmm to 19.062\u202fmm")
    ],
    "growth-contradicted": [
        (3, "end", "1", "row 2 already with 17.900\u202fmm to 17.962\u202fmm", "once")
    ],
    "person-unknown": [(3, "person", "zoe", "nobody here", "or nothing")],
    "instrument-unknown": [(3, "instrument", "I-9", "no instrument", "I-1, I-2")],
    "cavity-unknown": [(3, "cavity", "F-9", "no cavity", "F-1, P-1")],
    "cavity-of-the-other-use": [(3, "cavity", "F-1", "closes on a ferrule", "closed the pin")],
    "closings-half": [(3, "closings", "3400.5", "no count of closings", "a whole number")],
    "remark-too-long": [(3, "remark", "x" * 201, "cannot be kept", "at most 200 characters")],
    "column-missing": [(1, "value", None, "missing", "a header row with set_up, revision")],
    "column-unknown": [(1, "remarks", None, "not known", "closings, remark")],
    "column-twice": [(1, "what", None, "twice", "each column once")],
    "empty": [(None, None, None, "the file is empty", "one row for each reading")],
    "header-only": [(None, None, None, "no row below it", "one row for each reading")],
    "binary": [(None, None, None, "binary data", "CSV or XLSX")],
    "not-utf-8": [(2, None, "0xE9", "is not UTF-8", "saved as UTF-8")],
    "cells-too-many": [(2, None, None, "13 cells under 12 columns", "in quotes")],
    "quote-not-closed": [(3, None, None, "quoted cell is not closed", "quotes doubled")],
    # What a row says and what the records say of another row are told in one go.
    "many-faults": [
        (3, "set_up", "S-9", "no such set-up", "T-02"),
        (3, "date", "soon", "in two ways", "2026-04-03"),
        (3, "end", None, "nothing here", "its serial"),
        (3, "what", "lid", "not measured of an end", "pull"),
        (3, "person", "zoe", "nobody here", "or nothing"),
        (3, "closings", "many", "no count", "a whole number"),
        (4, "value", "1940.0\u202fN", "more than 5 times", "at most 450\u202fN"),
        (4, "instrument", "I-9", "no instrument", "I-1, I-2"),
    ],
}


def read(world: SmallWorld, name: str) -> FileTaken:
    """Ben reads in a file of this folder today."""
    content = (FILES / name).read_bytes()
    return bench_file_read(by=world.ben, name=name, content=content, on=TODAY)


def kept(revision_id: int) -> set[tuple[object, ...]]:
    """What the records say of a revision's ends, whoever read it and whenever."""
    pulls = {
        (row.end, round(row.force_n, 6), row.failure_mode, row.by, row.instrument, row.cavity)
        for row in pulls_read(revision_id)
    }
    return pulls | {
        (row.end, row.part, row.length_mm, row.by, row.instrument, row.cavity, row.tool_count)
        for row in dimensions_read(revision_id)
    }


def test_each_defect_has_its_file_and_each_file_its_defect() -> None:
    """No file lies here that no test reads, and no defect is told of a file that is not there."""
    there = {path.stem for path in FILES.iterdir()}
    assert {name for name in there if not name.startswith("good")} == set(DEFECTS)


@pytest.mark.parametrize("stem", sorted(DEFECTS))
def test_a_defect_is_told_with_its_place_and_nothing_is_half_read(
    world: SmallWorld, on_trial: int, stem: str
) -> None:
    """File, row, field and value are named, what is right too, and the good row is not kept."""
    with pytest.raises(InputFaults) as caught:
        read(world, f"{stem}.csv")
    places = [(fault.row, fault.field, fault.value) for fault in caught.value.faults]
    assert places == [each[:3] for each in DEFECTS[stem]]
    for fault, (_, _, _, problem, accepted) in zip(caught.value.faults, DEFECTS[stem], strict=True):
        assert fault.file == f"{stem}.csv"
        assert problem in fault.problem
        assert accepted in fault.accepted
    assert not Pull.objects.exists()
    assert not EndDimension.objects.exists()
    assert not BenchFile.objects.exists()


def test_a_good_file_is_read_as_it_says(world: SmallWorld, on_trial: int) -> None:
    """Newtons, pounds, decimal commas and inches; who is not named is who reads it in."""
    done = read(world, "good.csv")
    assert (done.new, done.known, done.sentence) == (4, 0, "good.csv: 4 readings taken in.")
    assert kept(on_trial) == {
        ("1", 194.0, "conductor broke", "Ben", "I-1", "F-1"),
        ("2", 193.942462, "jacket slipped", "Ben", "I-1", ""),
        ("1", "pin crimp", Decimal("1.62"), "Ada", "I-2", "P-1", 1200),
        ("1", "a", Decimal("4.191"), "Ben", "", "", None),
    }
    assert {row.file for row in pulls_read(on_trial)} == {"good.csv"}
    assert pulls_read(on_trial)[0].remark == "pulled slowly"


def test_the_same_file_again_changes_nothing_and_says_who_read_it(
    world: SmallWorld, on_trial: int
) -> None:
    """Also under another name; the day and the person of the first time are told."""
    read(world, "good.csv")
    before = kept(on_trial)
    again = read(world, "good.csv")
    assert again.sentence == "good.csv was read on 2027-03-02 by Ben already; nothing changed."
    content = (FILES / "good.csv").read_bytes()
    other = bench_file_read(by=world.ada, name="b.csv", content=content, on=TODAY)
    assert other.sentence == (
        "b.csv was read as good.csv on 2027-03-02 by Ben already; nothing changed."
    )
    assert (kept(on_trial), BenchFile.objects.count()) == (before, 1)


@pytest.mark.parametrize("name", sorted(path.name for path in FILES.glob("good-*")))
def test_the_form_of_the_file_does_not_matter(world: SmallWorld, on_trial: int, name: str) -> None:
    """Other rows first, other columns first, other dividers: the same readings, and then known."""
    assert read(world, name).new == 4
    form = kept(on_trial)
    done = read(world, "good.csv")
    assert done.sentence == ("good.csv: 4 readings stood in the records already; nothing changed.")
    assert kept(on_trial) == form


def test_a_longer_edition_brings_only_what_is_new(world: SmallWorld, on_trial: int) -> None:
    """The rows that stood there stay as they are, and one that was taken back stays so."""
    read(world, "good.csv")
    first = next(row for row in pulls_read(on_trial) if row.end == "1")
    reading_take_back(by=world.ben, kind=PULL, number=first.number, on=TODAY, reason="jerked")
    longer = (FILES / "good.csv").read_bytes() + (
        b"S-1,B,2027-03-02,3,pull,201 N,conductor broke,,,,,\n"
    )
    done = bench_file_read(by=world.ben, name="longer.csv", content=longer, on=TODAY)
    assert done.sentence == (
        "longer.csv: 1 reading taken in. 4 readings stood in the records already, 1 of them "
        "taken back, which stays."
    )
    assert [row.end for row in pulls_read(on_trial) if not row.withdrawn] == ["3", "2"]
    assert [(row.name, row.new_rows, row.known_rows) for row in files_read(most=9)] == [
        ("longer.csv", 1, 4),
        ("good.csv", 4, 0),
    ]


def test_other_content_for_a_known_end_is_a_fault(world: SmallWorld, on_trial: int) -> None:
    """A second file that says another force of end 1 is refused whole, naming both forces."""
    read(world, "good.csv")
    header, first = (FILES / "good.csv").read_text().splitlines()[:2]
    content = "\n".join([header, first.replace("194 N", "149 N"), first.replace(",1,", ",9,")])
    with pytest.raises(InputFaults) as caught:
        bench_file_read(by=world.ben, name="b.csv", content=content.encode(), on=TODAY)
    (fault,) = caught.value.faults
    assert (fault.row, fault.field) == (2, "end")
    assert "194.0\u202fN, conductor broke; now 149.0\u202fN, conductor broke" in fault.problem
    assert Pull.objects.count() == 2


def test_a_workbook_is_read_as_its_text_is(world: SmallWorld, on_trial: int) -> None:
    """The first sheet of an XLSX file, dates as dates."""
    import csv

    from tests.shop.orders.test_files import workbook

    rows = list(csv.reader((FILES / "good.csv").read_text().splitlines()))
    done = bench_file_read(by=world.ben, name="g.xlsx", content=workbook(rows), on=TODAY)
    assert done.new == 4
    assert read(world, "good.csv").known == 4


def test_a_file_is_for_who_works_at_the_benches(world: SmallWorld, on_trial: int) -> None:
    """The viewer is refused, also where the file was read before."""
    for _ in range(2):
        content = (FILES / "good.csv").read_bytes()
        with refused("not_allowed"):
            bench_file_read(by=world.vic, name="good.csv", content=content, on=TODAY)
        read(world, "good.csv")
