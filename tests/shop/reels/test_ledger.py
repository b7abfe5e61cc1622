"""The sums of the ledger, without a database."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.shop.reels.ledger import (
    Entry,
    FlawMark,
    FlawNow,
    flaws_now,
    good_stretches,
    remaining,
    standing,
)


def entry(number: int, kind: str, change_mm: int, *, reverses: int | None = None) -> Entry:
    """An entry whose uncertainties follow from its number, so that they differ."""
    return Entry(
        number=number,
        kind=kind,
        change_mm=change_mm,
        standard_uncertainty_mm=0.0 if kind == "reversal" else float(number),
        wheel_uncertainty_mm=number / 10 if kind == "cut" else 0.0,
        reverses=reverses,
    )


@st.composite
def histories(draw: st.DrawFn) -> list[Entry]:
    """A received reel, then cuts, counts, and reversals that no standing count forbids."""
    entries = [entry(1, "received", draw(st.integers(10_000, 500_000)))]
    for number in range(2, draw(st.integers(2, 14)) + 1):
        left = remaining(entries).length_mm
        last_count = max((e.number for e in standing(entries) if e.kind == "counted"), default=0)
        open_entries = [e for e in standing(entries) if e.number >= max(last_count, 2)]
        kind = draw(st.sampled_from(["cut", "scrapped", "counted", "reversal"]))
        if kind == "reversal" and open_entries:
            undone = draw(st.sampled_from(open_entries))
            entries.append(entry(number, kind, -undone.change_mm, reverses=undone.number))
        elif kind == "counted":
            entries.append(entry(number, kind, draw(st.integers(0, 500_000)) - left))
        elif left > 0:
            kind = "cut" if kind == "reversal" else kind
            entries.append(entry(number, kind, -draw(st.integers(1, left))))
    return entries


@given(histories())
def test_the_length_is_what_the_standing_entries_sum_to(entries: list[Entry]) -> None:
    """An entry and its reversal cancel to nothing, whatever else happened."""
    assert remaining(entries).length_mm == sum(e.change_mm for e in standing(entries))


@given(histories(), st.integers(0, 500_000))
def test_a_count_tells_the_length_and_its_uncertainty(entries: list[Entry], mm: int) -> None:
    """After a count the past does not matter."""
    counted = entry(99, "counted", mm - remaining(entries).length_mm)
    now = remaining([*entries, counted])
    assert (now.length_mm, now.standard_uncertainty_mm) == (mm, 99.0)


@given(histories())
def test_a_reversal_restores_length_and_uncertainty(entries: list[Entry]) -> None:
    """Cut and taken back: the same as never cut."""
    cut = entry(98, "cut", -5)
    back = entry(99, "reversal", 5, reverses=98)
    before, after = remaining(entries), remaining([*entries, cut, back])
    assert after.length_mm == before.length_mm
    assert after.standard_uncertainty_mm == pytest.approx(before.standard_uncertainty_mm)


@given(histories(), st.integers(1, 200))
def test_each_cut_makes_the_length_less_sure(entries: list[Entry], taken_mm: int) -> None:
    """Uncertainty never falls without a count, and never rises above the plain sum."""
    before = remaining(entries).standard_uncertainty_mm
    after = remaining([*entries, entry(99, "cut", -taken_mm)]).standard_uncertainty_mm
    assert before < after <= before + 99.0 + 9.9 + 1e-9


def test_wheel_shares_add_plainly() -> None:
    """Thirty cuts with 3 mm of the wheel each are unsure by 90 mm, not by 16 mm."""
    cuts = [
        Entry(
            number=n,
            kind="cut",
            change_mm=-3_060,
            standard_uncertainty_mm=0.0,
            wheel_uncertainty_mm=3.0,
            reverses=None,
        )
        for n in range(30)
    ]
    assert remaining(cuts).standard_uncertainty_mm == pytest.approx(90.0)
    own = [
        Entry(
            number=n,
            kind="cut",
            change_mm=-3_060,
            standard_uncertainty_mm=3.0,
            wheel_uncertainty_mm=0.0,
            reverses=None,
        )
        for n in range(30)
    ]
    assert remaining(own).standard_uncertainty_mm == pytest.approx(3.0 * math.sqrt(30))


MARKS = st.lists(
    st.builds(
        FlawMark,
        start_from_inner_mm=st.integers(0, 60_000),
        length_mm=st.integers(1, 9_000),
        after=st.just(1),
        note=st.just("dent"),
    ),
    max_size=6,
)


@given(st.integers(1, 60_000), MARKS)
def test_stretches_and_flaws_fill_the_reel(length_mm: int, marks: list[FlawMark]) -> None:
    """Every millimetre is either flawed or in exactly one stretch, and stretches never touch."""
    flaws = flaws_now(marks, [entry(1, "received", length_mm)])
    stretches = good_stretches(length_mm, flaws)
    flawed = {mm for flaw in flaws for mm in (flaw.start_mm, flaw.end_mm - 1)}
    at_mm = -1
    for start, length in stretches:
        assert start > at_mm
        at_mm = start + length
        assert not flawed & set(range(start, at_mm))
    assert at_mm <= length_mm
    covered = sum(length for _, length in stretches)
    union: set[int] = set()
    for flaw in flaws:
        union |= set(range(flaw.start_mm, flaw.end_mm))
    assert covered + len(union) == length_mm


@given(MARKS, st.integers(1, 59_000))
def test_a_cut_brings_flaws_nearer_and_never_moves_them_inwards(
    marks: list[FlawMark], cut_mm: int
) -> None:
    """What was in the cut is gone; all else is nearer by exactly the cut."""
    before = flaws_now(marks, [entry(1, "received", 60_000)])
    after = flaws_now(marks, [entry(1, "received", 60_000), entry(2, "cut", -cut_mm)])
    moved = [
        (max(0, flaw.start_mm - cut_mm), flaw.end_mm - cut_mm)
        for flaw in before
        if flaw.end_mm > cut_mm
    ]
    assert sorted((flaw.start_mm, flaw.end_mm) for flaw in after) == sorted(moved)


def test_a_flawed_reel_has_two_stretches() -> None:
    """41 m with a flaw of 0.2 m after 12.2 m: 12.2 m and 28.6 m are usable."""
    flaw = FlawNow(start_mm=12_200, length_mm=200, note="crushed")
    assert good_stretches(41_000, [flaw]) == ((0, 12_200), (12_400, 28_600))
    assert good_stretches(0, []) == ()
