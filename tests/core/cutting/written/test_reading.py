"""What the three tables may say, and how it is read."""

import datetime

import pytest

from reelwright.core.cutting import LotRule, RemnantUse
from tests.core.cutting.written.tables import REELS, faults, read


def test_a_row_of_several_is_that_many_pieces() -> None:
    """A count of three makes three ids; without a count the id stays as it is."""
    made = read("id,item,cut_length,count\nA,red,3.06 m,3\nB,red,2 m,\nC,red,2 m,1\n")
    assert [piece.id for piece in made.pieces] == ["A-1", "A-2", "A-3", "B", "C"]
    assert {piece.cut_length_mm for piece in made.pieces[:3]} == {3060}


@pytest.mark.parametrize(
    ("header", "typed", "length_mm"),
    [
        ("cut_length", "3.06 m", 3060),
        ("cut_length", "3060 mm", 3060),
        ("cut_length", "3,06 m", 3060),
        ("cut_length", "10 ft", 3048),
        ("cut_length", "33'4\"", 10160),
        ("cut_length [mm]", "3060", 3060),
        ("Cut length (m)", "3.06", 3060),
        ("cut_length [m]", "3060 mm", 3060),
        ("cut_length", "1 in", 26),
    ],
)
def test_lengths_are_read_in_their_units(header: str, typed: str, length_mm: int) -> None:
    """The unit stands in the cell or in the header; 25.4 mm wanted are 26 mm to be cut."""
    quoted = '"' + typed.replace('"', '""') + '"'
    made = read(f"id,item,{header}\nA,red,{quoted}\n")
    assert made.pieces[0].cut_length_mm == length_mm


def test_what_is_there_is_rounded_down_and_a_flaw_outwards() -> None:
    """50 ft is 15 240 mm; a flaw from 1 ft to 2 ft hides 304.8 to 609.6 mm."""
    made = read(
        "id,item,cut_length\nA,red,1 m\n",
        "id,item,lot,length,uncertainty,flaws\nR,red,L,50.01 ft,1 %,1 to 2 ft\n",
    )
    first, second = made.reels[0].stretches
    assert (first.start_mm, first.end_mm) == (0, 304)
    assert (second.start_mm, second.end_mm) == (610, 15243)
    assert first.standard_uncertainty_mm == pytest.approx(152.43)


@pytest.mark.parametrize(
    ("typed", "stretches"),
    [
        ("", [(0, 60_000)]),
        ("12.2 to 12.4", [(0, 12_200), (12_400, 60_000)]),
        ("12.2-12.4; 30 m to 30.1 m", [(0, 12_200), (12_400, 30_000), (30_100, 60_000)]),
        ("30 30.1 and 12200 mm to 12.4", [(0, 12_200), (12_400, 30_000), (30_100, 60_000)]),
        ("0 to 0.05", [(50, 60_000)]),
        ("59 to 60", [(0, 59_000)]),
        ("5 to 6; 6 to 7", [(0, 5_000), (7_000, 60_000)]),
        ("0 to 60", []),
    ],
)
def test_flaws_leave_the_stretches_between_them(
    typed: str, stretches: list[tuple[int, int]]
) -> None:
    """At either end, one behind the other, in any order: what is between is cable."""
    made = read(
        "id,item,cut_length\nA,red,1 m\n",
        f"id,item,lot,length,uncertainty,flaws\nR,red,L,60 m,0,{typed}\n",
    )
    assert [(each.start_mm, each.end_mm) for each in made.reels[0].stretches] == stretches


def test_days_received_give_the_ages_of_each_item() -> None:
    """The oldest day is 0; reels of one day are of one age; items count on their own."""
    made = read(
        reels="id,item,lot,length,uncertainty,received\n"
        "R-1,red,L3,60 m,0,2026-03-02\nR-2,red,L1,60 m,0,2 January 2026\n"
        "R-3,red,L2,60 m,0,2026-03-02\nR-4,white,L9,60 m,0,2026-06-01\n"
    )
    assert [reel.age_rank for reel in made.reels] == [1, 0, 1, 0]


def test_ages_are_taken_as_stated_and_none_is_all_alike() -> None:
    """An age is the rank itself; where nothing is said no reel is older than another."""
    stated = read(reels=REELS.replace("uncertainty\n", "uncertainty,age\n").replace("0.4 m", "0,3"))
    assert [reel.age_rank for reel in stated.reels] == [3, 0]
    assert {reel.age_rank for reel in read().reels} == {0}


def test_groups_take_their_rule_from_any_of_their_rows() -> None:
    """One row that states it is enough, in any case of letters."""
    made = read(
        "id,item,cut_length,count,group,group_rule,due,priority\n"
        "A,red,3 m,2,rack 1,,2026-11-27,2\nB,red,2 m,1,rack 1,Same Reel,,\nC,red,2 m,,,,,\n"
    )
    (group,) = made.groups
    assert (group.id, group.rule) == ("rack 1", LotRule.SAME_REEL)
    assert [piece.lot_group for piece in made.pieces] == ["rack 1", "rack 1", "rack 1", None]
    assert (made.pieces[0].due_day, made.pieces[0].priority) == (datetime.date(2026, 11, 27), 2)


@pytest.mark.parametrize("typed", ["3 m 40 %, 7 m 90 %", "7 m 90%; 3000 mm 40%", "3 m 40 %,7 m 90"])
def test_uses_of_remnants_stand_shortest_first(typed: str) -> None:
    """Sorted as the rules want them; a share without its sign is refused."""
    rules = f'item,smallest_remnant,swarf,remnant_uses\nred,3 m,0,"{typed}"\n'
    pieces, reels = "id,item,cut_length\nA,red,1 m\n", "id,item,lot,length,uncertainty\n"
    if typed.endswith("90"):
        assert faults(pieces, reels, rules) == [("rules", 2, "remnant_uses")]
        return
    assert read(pieces, reels, rules).rules[0].remnant_uses == (
        RemnantUse(at_least_mm=3000, use_chance=0.4),
        RemnantUse(at_least_mm=7000, use_chance=0.9),
    )


def test_a_piece_longer_by_lot_and_reserved_on_a_reel() -> None:
    """Each lot with its sign, the minus typed or set; half a millimetre is cut longer."""
    made = read(
        "id,item,cut_length,longer_by_lot [mm],only_reel\n"
        "A,red,3 m,L1 31; L 9 \N{MINUS SIGN}4.5,R-1\n",
        REELS + "R-3,red,L 9,60 m,0\n",
    )
    assert made.pieces[0].longer_by_lot_mm == (("L1", 31), ("L 9", -4))
    assert made.pieces[0].only_reel == "R-1"


def test_an_empty_rack_is_a_rack() -> None:
    """A header alone is no fault of the reels: what is wanted is then not served."""
    assert read(reels="id,item,lot,length,uncertainty\n").reels == ()
