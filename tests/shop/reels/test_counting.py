"""Counting a reel, taking entries back, and what both do to flaws."""

import datetime as dt

import pytest

from reelwright.core.errors import UnknownCode
from reelwright.shop.people.permissions import Role
from reelwright.shop.people.services import person_add
from reelwright.shop.reels import services
from reelwright.shop.reels.models import Flaw
from reelwright.shop.reels.selectors import reel_ledger, reel_now
from tests.shop.reels.test_booking import cut
from tests.shop.refusals import refused
from tests.small_world import FLAWED, FULL, SHORT, TODAY, SmallWorld


def count(world: SmallWorld, counted_mm: int, reel_code: str = FULL) -> int:
    """Count a reel to within 100 mm and return the entry's number."""
    return services.reel_count_book(
        by=world.ben,
        reel_code=reel_code,
        counted_mm=counted_mm,
        standard_uncertainty_mm=100.0,
        on=TODAY,
        reason="by weight",
    ).pk


def test_a_count_replaces_length_and_uncertainty(world: SmallWorld) -> None:
    """What was known before no longer counts, what is cut after does."""
    cut(world, "P-1", 10_000)
    count(world, 89_000)
    now = reel_now(FULL)
    assert (now.length_mm, now.standard_uncertainty_mm) == (89_000, 100.0)
    cut(world, "P-2", 1_000, standard_uncertainty_mm=3.0, wheel_uncertainty_mm=4.0)
    assert reel_now(FULL).standard_uncertainty_mm == pytest.approx((100**2 + 3**2 + 4**2) ** 0.5)


def test_a_reel_may_be_counted_empty(world: SmallWorld) -> None:
    """Zero is a count; less is none."""
    count(world, 0)
    assert reel_now(FULL).length_mm == 0
    with refused("length_bad"):
        count(world, -1)


def test_a_viewer_does_not_count(world: SmallWorld) -> None:
    """The count is refused and a count without its method too."""
    with refused("not_allowed"):
        services.reel_count_book(
            by=world.vic,
            reel_code=FULL,
            counted_mm=1,
            standard_uncertainty_mm=1.0,
            on=TODAY,
            reason="by eye",
        )
    with refused("reason_missing"):
        services.reel_count_book(
            by=world.ben,
            reel_code=FULL,
            counted_mm=1,
            standard_uncertainty_mm=1.0,
            on=TODAY,
            reason="",
        )


def test_a_reversed_count_is_as_if_never_made(world: SmallWorld) -> None:
    """Length and uncertainty are again those of the entries before and after it."""
    cut(world, "P-1", 10_000)
    number = count(world, 80_000)
    cut(world, "P-2", 5_000)
    services.entry_reverse(by=world.ada, entry=number, on=TODAY, reason="wrong tare")
    counted_never = reel_now(FULL)
    assert counted_never.length_mm == 85_000
    expected = (600**2 + 3**2 + 3**2 + (10 + 5) ** 2) ** 0.5
    assert counted_never.standard_uncertainty_mm == pytest.approx(expected)
    assert [line.is_reversed for line in reel_ledger(FULL)] == [False, False, True, False, False]


def test_a_cut_before_a_count_stays(world: SmallWorld) -> None:
    """The count saw the reel without that piece: giving it back would count it twice."""
    entry = cut(world, "P-1", 10_000)
    count(world, 90_500)
    with refused("counted_since"):
        services.entry_reverse(by=world.ada, entry=entry.pk, on=TODAY, reason="other reel")
    assert reel_now(FULL).length_mm == 90_500


def test_what_cannot_be_reversed(world: SmallWorld) -> None:
    """A reversal, an entry twice, an unknown one, one without a reason."""
    entry = cut(world, "P-1", 10_000).pk
    with refused("reason_missing"):
        services.entry_reverse(by=world.ada, entry=entry, on=TODAY, reason=" ")
    back = services.entry_reverse(by=world.ada, entry=entry, on=TODAY, reason="other reel").pk
    with refused("already_reversed"):
        services.entry_reverse(by=world.ada, entry=entry, on=TODAY, reason="again")
    with refused("is_reversal"):
        services.entry_reverse(by=world.ada, entry=back, on=TODAY, reason="back again")
    with pytest.raises(UnknownCode):
        services.entry_reverse(by=world.ada, entry=10**9, on=TODAY, reason="what")


def test_the_bench_takes_back_its_own_cut_of_the_day(world: SmallWorld) -> None:
    """A slip at the bench is put right there: the reel is as long as it was."""
    entry = cut(world, "P-1", 10_000).pk
    with refused("reason_missing"):
        services.entry_reverse(by=world.ben, entry=entry, on=TODAY, reason="")
    services.entry_reverse(by=world.ben, entry=entry, on=TODAY, reason="scanned the wrong sheet")
    assert reel_now(FULL).length_mm == 100_000


def test_the_bench_takes_back_nothing_else(world: SmallWorld) -> None:
    """Not a colleague's cut, not its own of another day, not scrap, not as a viewer."""
    cat = person_add(
        by=world.ada, user_name="cat", display_name="Cat", role=Role.BENCH, password=None
    )
    entry = cut(world, "P-1", 10_000).pk
    scrap = services.reel_scrap_book(
        by=world.ben,
        reel_code=FULL,
        scrapped_mm=1_000,
        standard_uncertainty_mm=1.0,
        on=TODAY,
        reason="crushed",
    ).pk
    tomorrow = TODAY + dt.timedelta(days=1)
    viewer = person_add(
        by=world.ada, user_name="vim", display_name="Vim", role=Role.VIEWER, password=None
    )
    for by, number, on in (
        (cat, entry, TODAY),
        (world.ben, entry, tomorrow),
        (world.ben, scrap, TODAY),
        (viewer, entry, TODAY),
        (world.ben, 10**9, TODAY),
    ):
        with refused("not_allowed"):
            services.entry_reverse(by=by, entry=number, on=on, reason="a slip")
    world.ben.role = Role.VIEWER
    with refused("not_allowed"):
        services.entry_reverse(by=world.ben, entry=entry, on=TODAY, reason="a slip")
    assert reel_now(FULL).length_mm == 89_000


def test_what_was_received_stays_once_cut_from(world: SmallWorld) -> None:
    """Taking back the receipt would leave less than nothing."""
    opening = reel_ledger(FULL)[0].entry
    cut(world, "P-1", 10_000)
    with refused("not_enough"):
        services.entry_reverse(by=world.ada, entry=opening, on=TODAY, reason="never came")


def test_a_count_does_not_move_a_flaw_from_the_outer_end(world: SmallWorld) -> None:
    """The reel proves 2 m shorter at its inner end; the flaw is still met after 12.200 m."""
    number = count(world, 39_000, reel_code=FLAWED)
    (flaw,) = reel_now(FLAWED).flaws
    assert (flaw.start_mm, flaw.length_mm) == (12_200, 200)
    services.entry_reverse(by=world.ada, entry=number, on=TODAY, reason="wrong tare")
    (flaw,) = reel_now(FLAWED).flaws
    assert flaw.start_mm == 12_200


def test_a_reversed_cut_moves_a_flaw_only_where_it_was_found_after(world: SmallWorld) -> None:
    """Found before a cut it comes near and goes back; found after, it was measured from there."""
    entry = cut(world, "P-1", 4_000, reel_code=FLAWED)
    services.flaw_record(
        by=world.ben, reel_code=FLAWED, from_outer_mm=20_000, length_mm=50, note="dent", on=TODAY
    )
    assert [flaw.start_mm for flaw in reel_now(FLAWED).flaws] == [8_200, 20_000]
    services.entry_reverse(by=world.ada, entry=entry.pk, on=TODAY, reason="other reel")
    assert [flaw.start_mm for flaw in reel_now(FLAWED).flaws] == [12_200, 20_000]


def test_flaws_are_refused_off_the_reel(world: SmallWorld) -> None:
    """5 m hold no flaw that ends beyond them; one without a note or length is none."""
    good = {"by": world.ben, "reel_code": SHORT, "note": "dent", "on": TODAY}
    services.flaw_record(from_outer_mm=4_000, length_mm=1_000, **good)  # type: ignore[arg-type]
    with refused("flaw_off_the_reel"):
        services.flaw_record(from_outer_mm=4_000, length_mm=1_001, **good)  # type: ignore[arg-type]
    with refused("length_bad"):
        services.flaw_record(from_outer_mm=4_000, length_mm=0, **good)  # type: ignore[arg-type]
    with refused("reason_missing"):
        services.flaw_record(from_outer_mm=1, length_mm=1, **(good | {"note": ""}))  # type: ignore[arg-type]
    with refused("not_allowed"):
        services.flaw_record(from_outer_mm=1, length_mm=1, **(good | {"by": world.vic}))  # type: ignore[arg-type]


def test_a_withdrawn_flaw_is_in_nobodys_way(world: SmallWorld) -> None:
    """The lead withdraws it once, with a reason; then a piece may hold the place."""
    number = Flaw.objects.get(reel__code=FLAWED).pk
    with refused("not_allowed"):
        services.flaw_withdraw(by=world.ben, flaw=number, on=TODAY, reason="only dirt")
    services.flaw_withdraw(by=world.ada, flaw=number, on=TODAY, reason="only dirt")
    with refused("already_withdrawn"):
        services.flaw_withdraw(by=world.ada, flaw=number, on=TODAY, reason="only dirt")
    cut(world, "P-1", 15_000, reel_code=FLAWED)
    assert reel_now(FLAWED).flaws == ()
