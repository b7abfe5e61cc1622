"""Everything that is wrong with the three tables is told at once, with its place."""

import pytest

from reelwright.core.cutting.written import WrittenTable, read_problem
from reelwright.core.errors import Fault, InputFaults
from tests.core.cutting.written.tables import PIECES, REELS, RULES, faults, read, table, told

HEAD = "id,item,cut_length,count,due,priority,group,group_rule\n"
MORE = "id,item,cut_length,longer_by_lot,only_reel\n"
RACK = "id,item,lot,length,uncertainty,flaws,received,age,location\n"


@pytest.mark.parametrize(
    ("row", "field", "words"),
    [
        ("A,red,0 m,,,,,", "cut_length", "above zero"),
        ("A,red,-3 m,,,,,", "cut_length", "'-3 m'"),
        ("A,red,3,,,,,", "cut_length", "feet, inches, metres"),
        ('A,red,"1,200 m",,,,,', "cut_length", "1200 m or 1.2 m"),
        ("A,red,1e3 m,,,,,", "cut_length", "a length with its unit"),
        ("A,red,400 km,,,,,", "cut_length", "up to 100 km"),
        ("A,red,,,,,,", "cut_length", "there is nothing here"),
        ("A,rad,3 m,,,,,", "item", "red, white"),
        (",red,3 m,,,,,", "id", "there is nothing here"),
        (f"{'x' * 81},red,3 m,,,,,", "id", "1 to 80 printable characters"),
        ("A,red,3 m,0,,,,", "count", "1 to 2000"),
        ("A,red,3 m,2.5,,,,", "count", "1 to 2000"),
        ("A,red,3 m,2001,,,,", "count", "too many for one row"),
        ("A,red,3 m,,31 February 2026,,,", "due", "a date such as"),
        ("A,red,3 m,,03/04/2026,,,", "due", "3 April or 4 March?"),
        ("A,red,3 m,,,-1,,", "priority", "0 for ordinary"),
        ("A,red,3 m,,,,g,both", "group_rule", "same lot, same reel, one lot preferred"),
        ("A,red,3 m,,,,g,", "group_rule", "nothing says how group g holds"),
        ("A,red,3 m,,,,,same lot", "group_rule", "a rule without a group"),
        ("A,red,60.001 m,,,,,", "cut_length", "up to 60.000 m (R-1;"),
        ("A,red,3 m,,,,,,,", None, "10 cells under 8 columns"),
    ],
)
def test_a_row_of_pieces_that_cannot_be(row: str, field: str | None, words: str) -> None:
    """One fault, in its row and column, saying what would be accepted."""
    pieces = f"{HEAD}Z,red,3 m,,,,,\n{row}\n"
    assert faults(pieces) == [("pieces", 3, field)]
    assert words in told(pieces)


@pytest.mark.parametrize(
    ("row", "field", "words"),
    [
        ("R,red,L,0 m,0,,,,", "length", "above zero"),
        ("R,red,L,-5 m,0,,,,", "length", "'-5 m'"),
        ("R,red,L,5 m,,,,,", "uncertainty", "or 0"),
        ("R,red,L,5 m,-1 m,,,,", "uncertainty", "0.6 %"),
        ("R,red,L,5 m,0,4 to 5.001,,,", "flaws", "the flaw 4.000 m to 5.001 m is not on the reel"),
        ("R,red,L,5 m,0,6 to 7,,,", "flaws", "from 0 to its length, 5.000 m"),
        ("R,red,L,5 m,0,1 to 2; 1.9 to 3,,,", "flaws", "1.000 m to 2.000 m and 1.900 m to 3.000 m"),
        ("R,red,L,5 m,0,1 to 3; 2 to 2.5,,,", "flaws", "overlap"),
        ("R,red,L,5 m,0,3 to 2,,,", "flaws", "in metres from the free end"),
        ("R,red,L,5 m,0,2,,,", "flaws", "in metres from the free end"),
        ("R,red,,5 m,0,,,,", "lot", "some text"),
        ("R,blue,L,5 m,0,,,,", "item", "red, white"),
        ("R-0,red,L,5 m,0,,,,", "id", "row 2 is a reel of this id"),
        ("R,red,L,5 m,0,,24/11,,", "received", "which day, month and year?"),
        ("R,red,L,5 m,0,,,old,", "age", "0 for the oldest lot"),
        ("R,red,L,5 m,0,,,1,", "received", "row 2 tells the age of red by nothing"),
        ("R,white,L,5 m,0,,2026-01-02,1,", "age", "one of the two"),
    ],
)
def test_a_row_of_reels_that_cannot_be(row: str, field: str, words: str) -> None:
    """One fault, in its row and column, saying what would be accepted."""
    reels = f"{RACK}R-0,red,L,60 m,0,,,,\n{row}\n"
    pieces = "id,item,cut_length\nA,red,3 m\n"
    assert faults(pieces, reels) == [("reels", 3, field)]
    assert words in told(pieces, reels)


@pytest.mark.parametrize(
    ("row", "field", "words"),
    [
        ("black,50 mm,50 mm,,", "smallest_remnant", "more than the swarf, 0.050 m"),
        ("black,0 m,0,,", "smallest_remnant", "above zero"),
        ("black,3 m,-1 mm,,", "swarf", "'-1 mm'"),
        ("black,3 m,50 mm,3 m 140 %,", "remnant_uses", "3 m 40 %, 7 m 90 %"),
        ('black,3 m,50 mm,"3 m 40 %, 3 m 90 %",', "remnant_uses", "list with each length once"),
        ("red,3 m,50 mm,,", "item", "row 2 has rules for it"),
        (",3 m,50 mm,,", "item", "some text"),
    ],
)
def test_a_row_of_rules_that_cannot_be(row: str, field: str, words: str) -> None:
    """One fault, in its row and column, saying what would be accepted."""
    rules = (
        "item,smallest_remnant,swarf,remnant_uses,longest_reel\nred,3 m,50 mm,,\n"
        f"white,3 m,50 mm,,\n{row}\n"
    )
    assert faults(rules=rules) == [("rules", 4, field)]
    assert words in told(rules=rules)


@pytest.mark.parametrize(
    ("row", "field", "words"),
    [
        ("A,red,3 m,31 mm,", "longer_by_lot", "each lot once with how much longer"),
        ("A,red,3 m,L1 31,", "longer_by_lot", "such as L2414 31 mm"),
        ("A,red,3 m,L1 1 mm; L1 2 mm,", "longer_by_lot", "each lot once"),
        ("A,red,3 m,L2 31 mm,", "longer_by_lot", "no reel of this lot of red. Accepted: L1"),
        ("A,red,3 m,L1 -3 m,", "longer_by_lot", "nothing would be left to cut"),
        ("A,red,3 m,,R-2", "only_reel", "no such reel of red. Accepted: R-1"),
    ],
)
def test_lots_and_reels_that_the_item_has_not(row: str, field: str, words: str) -> None:
    """One fault, in its row and column, saying what would be accepted."""
    assert faults(f"{MORE}{row}\n") == [("pieces", 2, field)]
    assert words in told(f"{MORE}{row}\n")


def test_a_piece_too_long_from_one_lot_may_come_from_another() -> None:
    """61 m are longer than any reel, but from L1 the cut is 2 m shorter."""
    assert faults(f"{MORE}A,red,61 m,L1 -2 m,\n") == []
    assert faults(f"{MORE}A,red,63 m,L1 -2 m,\n") == [("pieces", 2, "cut_length")]


def test_groups_that_contradict_themselves() -> None:
    """Two rules for one group, and one group over two items: each in the row that contradicts."""
    pieces = (
        f"{HEAD}A,red,3 m,,,,g,same lot\nB,red,3 m,,,,g,same reel\nC,white,3 m,,,,g,\n"
        "D,red,3 m,,,,g,same lot\n"
    )
    assert faults(pieces) == [("pieces", 3, "group_rule"), ("pieces", 4, "group")]
    assert "row 2 says “same lot” of group g" in told(pieces)
    assert "row 2 has red in this group, here it is white" in told(pieces)


def test_ids_that_stand_there_twice_also_through_a_count() -> None:
    """A row of two is A-1 and A-2; a piece called A-2 is then one too many."""
    pieces = "id,item,cut_length,count\nA,red,3 m,2\nA-2,red,3 m,\nA,red,3 m,2\n"
    assert faults(pieces) == [("pieces", 3, "id"), ("pieces", 4, "id")]


def test_a_piece_is_held_against_the_longest_reel_of_its_own_item() -> None:
    """70 m of red is a fault though a white reel has 140 m; 60 m, as long as the reel, is none."""
    assert faults("id,item,cut_length\nA,red,70 m\n") == [("pieces", 2, "cut_length")]
    assert faults("id,item,cut_length\nA,red,60 m\n") == []


def test_a_longer_reel_that_is_bought_makes_it_a_result() -> None:
    """With longest_reel of 305 m the 70 m are to be planned, and 306 m are still a fault."""
    rules = "item,smallest_remnant,swarf,longest_reel\nred,3 m,50 mm,305 m\nwhite,3 m,50 mm,\n"
    assert faults("id,item,cut_length\nA,red,70 m\n", rules=rules) == []
    assert "up to 305.000 m (as rules.csv says)" in told(
        "id,item,cut_length\nA,red,306 m\n", rules=rules
    )


def test_a_length_that_could_not_be_read_makes_no_second_fault() -> None:
    """Where a reel's own length is misread, no piece of its item is told to be too long."""
    reels = REELS.replace("60 m", "60")
    assert faults("id,item,cut_length\nA,red,70 m\n", reels) == [("reels", 2, "length")]


def test_an_item_that_has_run_out_is_no_fault() -> None:
    """No reel of red at all: the piece is to be planned, and not served."""
    reels = "id,item,lot,length,uncertainty\nR-2,white,L2,140 m,0.9 m\n"
    assert len(read(reels=reels).pieces) == 2


def test_the_faults_of_all_three_files_come_together() -> None:
    """Pieces, reels, rules, each by row, however many."""
    assert faults(
        f"{PIECES}C,red,0 m\nA,red,x\n",
        f"{REELS}R-1,red,L,-1 m,0\n",
        f"{RULES}red,3 m,0\nblue,1 mm,5 mm\n",
    ) == [
        ("pieces", 4, "cut_length"),
        ("pieces", 5, "cut_length"),
        ("pieces", 5, "id"),
        ("reels", 4, "length"),
        ("reels", 4, "id"),
        ("rules", 4, "item"),
        ("rules", 5, "smallest_remnant"),
    ]


def test_a_missing_column_does_not_hide_what_the_rows_have_wrong() -> None:
    """It is told once, at the header; beside it an unknown column, one that stands twice, rows."""
    assert faults("id,item,colour,id\nA,red,x,B\nB,rad,x,C\n") == [
        ("pieces", 1, "colour"),
        ("pieces", 1, "cut_length"),
        ("pieces", 1, "id"),
        ("pieces", 3, "item"),
    ]


@pytest.mark.parametrize("heading", ["cut_length [kg]", "count [mm]"])
def test_a_unit_that_is_none_of_the_column(heading: str) -> None:
    """Only lengths have a unit, and it must be one."""
    name, _, _ = heading.partition(" ")
    other = "" if name == "cut_length" else ",cut_length"
    assert faults(f"id,item{other},{heading}\nA,red,3 m,1\n")[0] == ("pieces", 1, name)


def test_files_without_rows() -> None:
    """No row of pieces or of rules leaves nothing to plan; empty files are told as such."""
    assert faults("id,item,cut_length\n", rules="item,smallest_remnant,swarf\n") == [
        ("pieces", None, None),
        ("rules", None, None),
    ]
    assert told(pieces="") == (
        "pieces.csv: the file is empty. Accepted: a header and one row for each length."
    )


def test_a_file_that_could_not_be_split_does_not_hide_the_others() -> None:
    """Its own fault comes along with those of the pieces and the rules."""
    why = Fault(
        file="reels.csv", row=3, field=None, value=None, problem="not UTF-8", accepted="UTF-8"
    )
    with pytest.raises(InputFaults) as caught:
        read_problem(
            pieces=table("pieces.csv", PIECES.replace("3.06 m", "0 m")),
            reels=WrittenTable(file="reels.csv", lines=(), faults=(why,)),
            rules=table("rules.csv", RULES.replace("50 mm", "x")),
            chance_of_enough=0.98,
        )
    assert [fault.file for fault in caught.value.faults] == [
        "pieces.csv",
        "reels.csv",
        "rules.csv",
        "rules.csv",
    ]


def test_many_items_are_told_by_the_ones_most_alike() -> None:
    """Of nine known items those near to the one typed are named."""
    rules = RULES + "".join(f"VID-60 {colour},3 m,0\n" for colour in "abcdefg")
    assert "one of the 9 known, such as VID-60 g" in told(
        "id,item,cut_length\nA,VID-60g,3 m\n", rules=rules
    )


def test_more_pieces_than_a_day_can_have() -> None:
    """Twenty thousand are read, one more is refused."""
    rows = "".join(f"{letter},red,3 m,2000\n" for letter in "ABCDEFGHIJ")
    head = "id,item,cut_length,count\n"
    assert len(read(head + rows).pieces) == 20_000
    assert faults(f"{head}{rows}K,red,3 m,1\n") == [("pieces", None, "count")]
