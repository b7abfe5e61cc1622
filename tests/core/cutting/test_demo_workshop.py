"""The cutting of the demo workshop's day, whose right answers were worked out by hand."""

import pytest

from reelwright.core.cutting import LotGroup, LotRule, SegmentKind, capacity, plan
from tests.core.cutting.checker import complaints
from tests.core.cutting.days import RED, RED_REELS, pieces, problem, racks, reel, stretch


def test_the_red_reels_give_three_and_nine_and_nineteen() -> None:
    """10 ft cables, cut at 3.060 m: 12.2 m gives 3, 28.6 m gives 9, 60.0 m gives 19."""
    rows = capacity(RED_REELS, item=RED, cut_length_mm=3060, chance_of_enough=0.98)
    assert [row.pieces for row in rows] == [3, 9, 19]


def test_four_in_twelve_metres_are_refused_though_they_fit_by_12_mm() -> None:
    """4 × 3.047 m is 12 mm less than 12.2 m, known to 0.25 m: as likely as not too short."""
    short = reel("R-113", RED, stretch(0, 12200, 250))
    made = plan(problem(pieces(4, 3047), (short,)))
    assert len(made.placements) == 3
    (left,) = made.unserved
    assert [reason.code for reason in left.reasons] == ["taken up", "not sure enough"]
    assert "12\u202fmm to spare" in left.reasons[1].sentence
    assert "52\u202f%" in left.reasons[1].sentence


def test_the_third_rack_mixes_lots_and_the_plan_says_so() -> None:
    """Rack 1 is all of one lot, rack 2 of the other, rack 3 is one or two of the first lot."""
    day = racks(3)
    made = plan(day)
    assert complaints(day, made) == []
    assert not made.unserved
    assert made.standings[0].proven_best
    lots = {
        f"rack {number}": sorted(
            place.lot for place in made.placements if place.piece_id.startswith(f"O-12 {number}")
        )
        for number in (1, 2, 3)
    }
    whole = [rack for rack, of in lots.items() if len(set(of)) == 1]
    assert len(whole) == 2
    (mixed,) = set(lots) - set(whole)
    assert lots[mixed].count("L2391") in (1, 2)
    (warning,) = made.warnings
    assert warning.code == "lots mixed"
    assert warning.sentence.startswith(f"{mixed} mixes lots of VID-60 red")


def test_a_fourth_small_rack_lets_every_rack_keep_its_lot() -> None:
    """33 wanted, 31 there: two wait anyway, and then nothing needs to be mixed; quick filling
    alone does not find that."""
    three = racks(3)
    day = problem(
        (*three.pieces, *pieces(3, 3060, order="O-12 4", group="rack 4")),
        RED_REELS,
        groups=(*three.groups, LotGroup(id="rack 4", rule=LotRule.PREFER)),
    )
    made = plan(day)
    assert complaints(day, made) == []
    assert len(made.placements) == 31
    assert made.warnings == ()
    assert dict(plan(day, nodes=0).standings[0].levels)["lots mixed in a group"] == 1


def test_racks_that_must_keep_their_lot_wait_rather_than_mix() -> None:
    """With a hard rule one cable of the third rack waits, and the reason names both lots."""
    day = racks(3, rule=LotRule.SAME)
    made = plan(day)
    assert complaints(day, made) == []
    (left,) = made.unserved
    assert left.reasons[0].code == "would mix lots"
    assert "L2391" in left.reasons[0].sentence
    assert "L2406" in left.reasons[0].sentence


def test_the_clean_end_in_front_of_the_flaw_is_kept() -> None:
    """R-113 gives three pieces in front of its flaw; the 3.02 m behind them are a loose remnant."""
    first = plan(racks(3)).reels[0]
    (loose,) = first.loose_remnants
    assert first.reel_id == "R-113"
    assert (loose.start_mm, loose.length_mm) == (9180, 3020)
    assert first.segments[4].kind is SegmentKind.FLAW


def test_the_white_plenum_reel_gives_five_of_six() -> None:
    """140.0 ± 0.9 m gives five cables of 85 ft and leaves 10.4 m; the sixth has its reason."""
    white = reel("R-131", "VID-70P white", stretch(0, 140_000, 900))
    made = plan(problem(pieces(6, 25_920, item="VID-70P white"), (white,)))
    assert len(made.placements) == 5
    assert made.reels[0].left_on_reel_mm == 10_400
    (left,) = made.unserved
    assert left.reasons[0].code == "taken up"
    assert left.would_serve.startswith("1 piece of 25.920")


def test_the_orange_remnant_gives_two_of_four() -> None:
    """18.60 ± 0.15 m gives two cables of 25 ft and leaves 3.31 m."""
    orange = reel("R-112", "VID-60 orange", stretch(0, 18_600, 150))
    made = plan(problem(pieces(4, 7643, item="VID-60 orange"), (orange,)))
    assert len(made.placements) == 2
    assert made.reels[0].left_on_reel_mm == 3314
    assert [
        row.rest_mm
        for row in capacity(
            (orange,), item="VID-60 orange", cut_length_mm=7643, chance_of_enough=0.98
        )
    ] == [3314]


def test_a_piece_longer_than_every_stretch_names_the_best_one() -> None:
    """The reason says what is needed, how certain, and what the best stretch is."""
    short = reel("R-113", RED, stretch(0, 12200, 250))
    (left,) = plan(problem(pieces(1, 12240), (short,))).unserved
    assert left.reasons[0].sentence == (
        "Needs 12.240\u202fm with 98\u202f% certainty; the best stretch is "
        "12.20\u202f±\u202f0.25\u202fm on R-113, safe for 11.686\u202fm."
    )


def test_an_item_without_a_reel_says_so() -> None:
    """No stock is a reason, not an error."""
    (left,) = plan(problem(pieces(1, 1000, item="VID-70 blue"), ())).unserved
    assert left.reasons[0].sentence == "There is no VID-70 blue in stock."


def test_nothing_wanted_is_an_empty_plan() -> None:
    """A day without pieces cuts nothing."""
    made = plan(problem((), RED_REELS))
    assert (made.reels, made.placements, made.unserved, made.standings) == ((), (), (), ())


def test_the_oldest_lot_goes_first_where_all_else_is_equal() -> None:
    """Two reels that serve as well: the older one is taken, and the reason says so."""
    old = reel("R-2", RED, stretch(0, 50_000, 100), lot="L1", age=0)
    new = reel("R-1", RED, stretch(0, 50_000, 100), lot="L2", age=1)
    (place,) = plan(problem(pieces(1, 10_000), (new, old))).placements
    assert place.reel_id == "R-2"
    assert place.why[0].code == "oldest lot"


def test_a_younger_reel_is_taken_to_spare_an_unusable_end_and_says_why() -> None:
    """The older reel would be left with 1 m: the younger, which keeps 40 m, is better."""
    old = reel("R-1", RED, stretch(0, 11_000, 0), lot="L1", age=0)
    new = reel("R-2", RED, stretch(0, 50_000, 0), lot="L2", age=1)
    (place,) = plan(problem(pieces(1, 10_000), (new, old))).placements
    assert place.reel_id == "R-2"
    assert place.why[0].sentence == "Not the older R-1: it would leave an unusable end there."


@pytest.mark.parametrize("nodes", [0, 400])
def test_a_large_item_has_a_plan_that_claims_no_more_than_it_proves(nodes: int) -> None:
    """Forty lengths over eight reels are too many to search: all are served, not all is proven."""
    wanted = tuple(
        piece
        for number in range(40)
        for piece in pieces(1, 2_050 + 337 * number % 9_000, order=f"O-{number}")
    )
    reels = tuple(
        reel(
            f"R-{number}", RED, stretch(0, 38_000 + 411 * number, 200), lot=f"L{number}", age=number
        )
        for number in range(8)
    )
    day = problem(wanted, reels)
    made = plan(day, nodes=nodes)
    assert complaints(day, made) == []
    assert not made.unserved
    assert made.standings[0].proven[0] == "pieces not served"
    assert not made.standings[0].proven_best
    assert "not proven" in made.standings[0].sentence
