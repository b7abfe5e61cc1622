"""Cut, skip, scrap: what comes off a reel."""

import math
from typing import Any

import pytest

from reelwright.core.errors import UnknownCode
from reelwright.shop.reels import services
from reelwright.shop.reels.models import LedgerEntry
from reelwright.shop.reels.selectors import reel_ledger, reel_now
from tests.shop.refusals import refused
from tests.small_world import FLAWED, FULL, LAST_WEEK, SHORT, TODAY, SmallWorld


def cut(world: SmallWorld, piece: str, cut_mm: int, **other: Any) -> LedgerEntry:
    """Book a cut from the full reel, good unless ``other`` says otherwise."""
    fields: dict[str, Any] = {
        "by": world.ben,
        "reel_code": FULL,
        "piece": piece,
        "cut_mm": cut_mm,
        "standard_uncertainty_mm": 3.0,
        "wheel_uncertainty_mm": cut_mm * 0.001,
        "on": TODAY,
    }
    return services.reel_cut_book(**(fields | other))


def test_a_cut_shortens_the_reel(world: SmallWorld) -> None:
    """By exactly what was cut, and the ledger says for which piece and by whom."""
    cut(world, "P-1", 7_643)
    assert reel_now(FULL).length_mm == 100_000 - 7_643
    last = reel_ledger(FULL)[-1]
    assert (last.kind, last.piece, last.by, last.left_mm) == ("cut", "P-1", "Ben", 92_357)


def test_uncertainty_grows_with_each_cut(world: SmallWorld) -> None:
    """Own shares in squares, the wheel's plainly: 600 and 2 x 3 mm, and 2 x 10 mm of the wheel."""
    cut(world, "P-1", 10_000)
    cut(world, "P-2", 10_000)
    expected = math.sqrt(600**2 + 3**2 + 3**2 + (10 + 10) ** 2)
    assert reel_now(FULL).standard_uncertainty_mm == pytest.approx(expected, rel=1e-12)


def test_a_piece_is_cut_once(world: SmallWorld) -> None:
    """The second booking takes nothing, on this reel or another, and tells of the first."""
    first = cut(world, "P-1", 4_000)
    for reel_code in (FULL, SHORT):
        with refused("already_cut") as caught:
            cut(world, "P-1", 4_000, reel_code=reel_code)
        assert caught.value.data["entry"] == first.pk
        assert caught.value.data["reel_code"] == FULL
    assert reel_now(FULL).length_mm == 96_000
    assert reel_now(SHORT).length_mm == 5_000


def test_after_a_reversal_the_piece_may_be_cut_again(world: SmallWorld) -> None:
    """The wrong reel was scanned: take back, book on the right one, and once only."""
    wrong = cut(world, "P-1", 4_000)
    services.entry_reverse(by=world.ada, entry=wrong.pk, on=TODAY, reason="other reel")
    right = cut(world, "P-1", 4_000, reel_code=SHORT)
    assert right.attempt == 2
    assert reel_now(FULL).length_mm == 100_000
    assert reel_now(SHORT).length_mm == 1_000
    with refused("already_cut"):
        cut(world, "P-1", 4_000)


def test_a_ledger_may_be_wrong_by_its_uncertainty_and_no_more(world: SmallWorld) -> None:
    """5.000 m known to 20 mm: 5.040 m may have come off, 5.041 m may not."""
    exact: dict[str, Any] = {
        "reel_code": SHORT,
        "standard_uncertainty_mm": 0.0,
        "wheel_uncertainty_mm": 0.0,
    }
    with refused("not_enough") as caught:
        cut(world, "P-1", 5_041, **exact)
    assert "5.000\u202fm" in caught.value.sentence
    cut(world, "P-1", 5_040, **exact)
    assert reel_now(SHORT).length_mm == -40
    with refused("not_enough"):
        cut(world, "P-2", 1, **exact)


def test_no_piece_holds_a_flaw(world: SmallWorld) -> None:
    """The flaw begins 12.200 m in: so much may be cut, one millimetre more may not."""
    with refused("flaw_in_piece") as caught:
        cut(world, "P-1", 12_201, reel_code=FLAWED)
    assert "crushed" in caught.value.sentence
    cut(world, "P-1", 12_200, reel_code=FLAWED)
    with refused("flaw_in_piece"):
        cut(world, "P-2", 3_000, reel_code=FLAWED)
    services.reel_skip_book(
        by=world.ben,
        reel_code=FLAWED,
        skipped_mm=200,
        standard_uncertainty_mm=2.0,
        on=TODAY,
        reason="past the crushed place",
    )
    cut(world, "P-2", 3_000, reel_code=FLAWED)
    now = reel_now(FLAWED)
    assert (now.length_mm, now.flaws) == (25_600, ())


@pytest.mark.parametrize(
    ("other", "code"),
    [
        ({"cut_mm": 0}, "length_bad"),
        ({"cut_mm": True}, "length_bad"),
        ({"cut_mm": -5}, "length_bad"),
        ({"standard_uncertainty_mm": math.inf}, "uncertainty_bad"),
        ({"wheel_uncertainty_mm": -1.0}, "uncertainty_bad"),
        ({"piece": " "}, "piece_missing"),
        ({"on": LAST_WEEK}, "before_received"),
    ],
)
def test_a_bad_cut_is_refused(world: SmallWorld, other: dict[str, Any], code: str) -> None:
    """Each by its code, and the reel is as long as it was."""
    with refused(code):
        cut(world, **({"piece": "P-1", "cut_mm": 4_000} | other))
    assert reel_now(FULL).length_mm == 100_000


def test_the_office_does_not_book_cuts(world: SmallWorld) -> None:
    """Nor does a viewer; the reel stays as it was."""
    with refused("not_allowed"):
        cut(world, "P-1", 4_000, by=world.vic)
    world.ben.role = "office"
    with refused("not_allowed"):
        cut(world, "P-1", 4_000)
    assert reel_now(FULL).length_mm == 100_000


def test_an_unknown_reel_is_named(world: SmallWorld) -> None:
    """A code that was misread."""
    with pytest.raises(UnknownCode, match="R-77"):
        cut(world, "P-1", 4_000, reel_code="R-77")


def test_scrap_says_why(world: SmallWorld) -> None:
    """With a reason it is booked, without one it is refused."""
    good: dict[str, Any] = {
        "by": world.ben,
        "reel_code": FULL,
        "scrapped_mm": 1_500,
        "standard_uncertainty_mm": 5.0,
        "on": TODAY,
        "reason": "crushed by the cart",
    }
    services.reel_scrap_book(**good)
    assert reel_now(FULL).length_mm == 98_500
    with refused("reason_missing"):
        services.reel_scrap_book(**(good | {"reason": ""}))
    with refused("not_allowed"):
        services.reel_scrap_book(**(good | {"by": world.vic}))
