"""A cut is booked as planned: the right piece, off the right reel, in its turn, once."""

import datetime as dt

import pytest

from reelwright.core.errors import UnknownCode
from reelwright.shop.day.services import day_run
from reelwright.shop.people.permissions import Role
from reelwright.shop.people.services import person_add
from reelwright.shop.reels.selectors import reel_ledger, reel_now
from reelwright.shop.reels.services import flaw_record, reel_cut_book, reel_scrap_book
from reelwright.shop.work.cutting import cut_confirm, cut_take_back
from reelwright.shop.work.models import CutPlan, Piece, PlannedCut
from reelwright.shop.work.selectors import piece
from tests.day_world import DayWorld, good_row, order_file, row_counts
from tests.shop.refusals import refused
from tests.small_world import FLAWED, FULL, SHORT, TODAY

CUT_MM = 3_010  # 3 m at −0/+60 mm with two plugs: what the plan of the day world cuts


def plan(world: DayWorld, **other: str) -> list[PlannedCut]:
    """Take in one order and return its planned cuts, in the order they come off the reel."""
    day_run(by=world.olga, name="o.csv", content=order_file(good_row(**other)), on=TODAY)
    return planned()


def planned() -> list[PlannedCut]:
    """The planned cuts in order."""
    rows = PlannedCut.objects.filter(state=PlannedCut.State.PLANNED)
    return list(rows.select_related("piece", "reel").order_by("reel__code", "sequence"))


def use_up(world: DayWorld, *codes: str) -> None:
    """Scrap all that lies on some reels, so that the plan must take another."""
    for code in codes:
        reel_scrap_book(
            by=world.ben,
            reel_code=code,
            scrapped_mm=reel_now(code).length_mm,
            standard_uncertainty_mm=0.0,
            on=TODAY,
            reason="for the test",
        )


def test_a_confirmed_cut_shortens_the_reel(day_world: DayWorld) -> None:
    """By the length to cut, for that piece, by who cut it; the plan says that it is cut."""
    first, second = plan(day_world)
    assert (first.reel.code, first.piece.cut_length_mm) == (FULL, CUT_MM)
    cut_confirm(by=day_world.ben, code=first.piece.code, reel_code=FULL, on=TODAY)
    assert reel_now(FULL).length_mm == 100_000 - CUT_MM
    last = reel_ledger(FULL)[-1]
    assert (last.kind, last.piece, last.by) == ("cut", first.piece.code, "Ben")
    assert piece(first.piece.code).is_cut
    assert not piece(second.piece.code).is_cut
    assert [cut.pk for cut in planned()] == [second.pk]


@pytest.mark.parametrize("as_scanned", ["code", "small letters", "serial", "spaces"])
def test_a_piece_is_known_however_it_is_scanned(day_world: DayWorld, as_scanned: str) -> None:
    """By its code in any letters, by its serial, with the scanner's spaces around it."""
    first = plan(day_world)[0].piece
    text = {
        "code": first.code,
        "small letters": first.code.lower(),
        "serial": first.serial,
        "spaces": f" {first.code}\r\n",
    }[as_scanned]
    cut_confirm(by=day_world.ben, code=text, reel_code=FULL, on=TODAY)
    assert piece(first.code).is_cut


def test_the_wrong_reel_is_told_with_the_right_one(day_world: DayWorld) -> None:
    """Nothing comes off either reel."""
    first = plan(day_world)[0]
    before = row_counts()
    with refused("wrong_reel") as caught:
        cut_confirm(by=day_world.ben, code=first.piece.code, reel_code=FLAWED, on=TODAY)
    assert f"comes off reel {FULL}, not {FLAWED}" in caught.value.sentence
    assert row_counts() == before


def test_a_piece_out_of_turn_is_told_which_comes_first(day_world: DayWorld) -> None:
    """The plan's places along the reel hold only in its order."""
    first, second = plan(day_world)
    before = row_counts()
    with refused("not_its_turn") as caught:
        cut_confirm(by=day_world.ben, code=second.piece.code, reel_code=FULL, on=TODAY)
    assert caught.value.data["first"] == first.piece.code
    assert row_counts() == before


def test_a_cut_is_booked_once(day_world: DayWorld) -> None:
    """A scan sent twice takes nothing twice."""
    first = plan(day_world)[0].piece
    cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    before = row_counts()
    with refused("already_cut"):
        cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    assert row_counts() == before
    assert reel_now(FULL).length_mm == 100_000 - CUT_MM


def test_a_piece_without_a_plan_is_not_cut(day_world: DayWorld) -> None:
    """Where the plan that held it was replaced and none holds it now."""
    first = plan(day_world)[0].piece
    PlannedCut.objects.update(state=PlannedCut.State.REPLACED)
    with refused("not_planned"):
        cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)


@pytest.mark.parametrize("code", ["W-9-1", "270302-00010", ""])
def test_an_unknown_piece_is_named(day_world: DayWorld, code: str) -> None:
    """A code that was misread, a serial with a wrong check digit, nothing at all."""
    plan(day_world)
    with pytest.raises(UnknownCode, match="no piece"):
        cut_confirm(by=day_world.ben, code=code, reel_code=FULL, on=TODAY)
    with pytest.raises(UnknownCode, match="no piece"):
        cut_take_back(by=day_world.ben, code=code, on=TODAY, reason="a slip")


@pytest.mark.parametrize("who", ["olga", "vic"])
def test_only_who_books_work_confirms(day_world: DayWorld, who: str) -> None:
    """Neither office nor viewer; nothing is written."""
    first = plan(day_world)[0].piece
    before = row_counts()
    with refused("not_allowed"):
        cut_confirm(by=getattr(day_world, who), code=first.code, reel_code=FULL, on=TODAY)
    assert row_counts() == before


def test_a_reel_that_proves_too_short_is_told(day_world: DayWorld) -> None:
    """Somebody cut from it past the plan: the booking is refused and the piece stays planned."""
    first = plan(day_world)[0].piece
    use_up(day_world, FULL)
    reel_before = reel_ledger(FULL)
    with refused("not_enough"):
        # 600 mm of doubt remain on an empty ledger, twice that is granted; 3 m are not.
        cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    assert reel_ledger(FULL) == reel_before
    assert piece(first.code).state == Piece.State.PLANNED


def test_a_flaw_in_front_is_cut_away_and_booked(day_world: DayWorld) -> None:
    """The flaw lies 1.5 m in, the piece takes 3 m: 1.7 m come off first, none worth keeping."""
    use_up(day_world, FULL, SHORT)
    reel_cut_book(
        by=day_world.ben,
        reel_code=FLAWED,
        piece="earlier",
        cut_mm=10_700,
        standard_uncertainty_mm=2.0,
        wheel_uncertainty_mm=1.0,
        on=TODAY,
    )
    first, _second = plan(day_world)
    assert (first.reel.code, first.start_mm) == (FLAWED, 1_700)
    reels_before = row_counts()["reels_reel"]
    cut_confirm(by=day_world.ben, code=first.piece.code, reel_code=FLAWED, on=TODAY)
    skip, cut = reel_ledger(FLAWED)[-2:]
    assert (skip.kind, skip.change_mm) == ("skipped", -1_700)
    assert first.piece.code in skip.reason
    assert (cut.kind, cut.change_mm) == ("cut", -CUT_MM)
    assert reel_now(FLAWED).flaws == ()
    # A metre and a half is shorter than the smallest remnant worth a place in the rack, 2 m.
    assert row_counts()["reels_reel"] == reels_before


def test_what_lies_in_front_of_a_flaw_is_kept_where_it_is_of_use(day_world: DayWorld) -> None:
    """2.9 m in front of the flaw become a loose reel of the same lot, with their own code."""
    use_up(day_world, FULL, SHORT)
    reel_cut_book(
        by=day_world.ben,
        reel_code=FLAWED,
        piece="earlier",
        cut_mm=9_300,
        standard_uncertainty_mm=2.0,
        wheel_uncertainty_mm=1.0,
        on=TODAY,
    )
    first, _second = plan(day_world)
    assert (first.reel.code, first.start_mm) == (FLAWED, 3_100)
    cut_confirm(by=day_world.ben, code=first.piece.code, reel_code=FLAWED, on=TODAY)
    loose = reel_now(f"{FLAWED}-1")
    assert (loose.length_mm, loose.lot_code, loose.colour) == (2_900, "L-2", "BK")
    assert loose.standard_uncertainty_mm > 0
    assert reel_now(FLAWED).length_mm == 41_000 - 9_300 - 3_100 - CUT_MM


def test_every_flaw_in_front_is_passed(day_world: DayWorld) -> None:
    """Two flaws within the piece: both are cut away before it."""
    use_up(day_world, FULL, SHORT)
    for start_mm in (1_000, 2_500):
        flaw_record(
            by=day_world.ben,
            reel_code=FLAWED,
            from_outer_mm=start_mm,
            length_mm=100,
            note="nick",
            on=TODAY,
        )
    first, _second = plan(day_world)
    assert (first.reel.code, first.start_mm) == (FLAWED, 2_600)
    cut_confirm(by=day_world.ben, code=first.piece.code, reel_code=FLAWED, on=TODAY)
    kinds = [line.kind for line in reel_ledger(FLAWED)[-3:]]
    assert kinds == ["skipped", "skipped", "cut"]
    assert reel_now(FLAWED).length_mm == 41_000 - 2_600 - CUT_MM


def test_a_cut_is_taken_back_by_who_made_it(day_world: DayWorld) -> None:
    """The reel is as long as before, the piece is planned again and may be cut again."""
    first = plan(day_world)[0].piece
    cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    cut_take_back(by=day_world.ben, code=first.serial, on=TODAY, reason="scanned the wrong sheet")
    assert reel_now(FULL).length_mm == 100_000
    assert piece(first.code).state == Piece.State.PLANNED
    last = reel_ledger(FULL)[-1]
    assert (last.kind, last.reason) == ("reversal", "scanned the wrong sheet")
    cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    assert reel_now(FULL).length_mm == 100_000 - CUT_MM


def test_a_cut_taken_back_after_a_new_plan_waits_for_the_next(day_world: DayWorld) -> None:
    """The newer plan knows nothing of the piece, so it is not smuggled into an old one."""
    first = plan(day_world)[0].piece
    cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    plan(day_world, order="W-2", quantity="1")
    assert CutPlan.objects.count() == 2
    cut_take_back(by=day_world.ben, code=first.code, on=TODAY, reason="a slip")
    assert piece(first.code).state == Piece.State.WAITING
    with refused("not_planned"):
        cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    plan(day_world, order="W-3", quantity="1")
    assert first.code in {cut.piece.code for cut in planned()}


def test_a_colleagues_cut_is_taken_back_by_the_lead(day_world: DayWorld) -> None:
    """Another bench may not, nor its own hand the day after; the lead may, and must say why."""
    cat = person_add(
        by=day_world.ada, user_name="cat", display_name="Cat", role=Role.BENCH, password=None
    )
    first = plan(day_world)[0].piece
    cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    tomorrow = TODAY + dt.timedelta(days=1)
    for by, on in ((cat, TODAY), (day_world.ben, tomorrow), (day_world.olga, TODAY)):
        before = row_counts()
        with refused("not_allowed"):
            cut_take_back(by=by, code=first.code, on=on, reason="a slip")
        assert row_counts() == before
        assert piece(first.code).is_cut
    with refused("reason_missing"):
        cut_take_back(by=day_world.ada, code=first.code, on=tomorrow, reason=" ")
    cut_take_back(by=day_world.ada, code=first.code, on=tomorrow, reason="cut from R-2")
    assert piece(first.code).state == Piece.State.PLANNED


def test_what_is_not_cut_is_not_taken_back(day_world: DayWorld) -> None:
    """Nor twice."""
    first = plan(day_world)[0].piece
    with refused("not_cut"):
        cut_take_back(by=day_world.ben, code=first.code, on=TODAY, reason="a slip")
    cut_confirm(by=day_world.ben, code=first.code, reel_code=FULL, on=TODAY)
    cut_take_back(by=day_world.ben, code=first.code, on=TODAY, reason="a slip")
    with refused("not_cut"):
        cut_take_back(by=day_world.ben, code=first.code, on=TODAY, reason="a slip")
