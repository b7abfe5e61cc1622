"""Properties of reading and showing lengths, over many of them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.convert import LENGTH_IN_M, ft_to_m, m_to_ft
from reelwright.core.quantities.length_text import LengthContext, LengthReading, read_length
from reelwright.core.quantities.show import show_both, show_feet_inches, show_length_m
from reelwright.core.quantities.tokens import tokenize

NOTHING_KNOWN = LengthContext()
SPACES = st.sampled_from(["", " ", "  ", "\u00a0", "\u202f", "\t"])
feet = st.integers(1, 2000)
inches = st.integers(1, 11)
sixteenths = st.integers(1, 15)
lengths_m = st.floats(0.02, 1999, allow_nan=False)

texts = st.one_of(
    st.builds("{}'{}\"".format, feet, inches),
    st.builds("{} ft {} in".format, feet, inches),
    st.builds("{} ft {} {}/16 in".format, feet, inches, sixteenths),
    st.builds("{},{:02d} m".format, feet, st.integers(0, 99)),
    st.builds("{}.{:03d} m".format, feet, st.integers(0, 999)),
    st.builds("{} x {}ft".format, st.integers(1, 40), feet),
    st.builds("about {} {}".format, feet, st.sampled_from(["feet", "m", "mm", "yards", "'"])),
    st.builds("{}{} {}{}".format, feet, st.sampled_from("'′"), inches, st.sampled_from(["", '"'])),
    st.text("0123456789 .,'\"/xftminc½-", min_size=1, max_size=14),
)


def read_or_none(typed: str) -> LengthReading | None:
    """Return the reading, or None where the text is refused."""
    try:
        return read_length(typed, context=NOTHING_KNOWN)
    except UnreadableQuantity:
        return None


@given(length_m=lengths_m)
def test_metres_come_back_within_the_digits_shown(length_m: float) -> None:
    """What is shown in metres reads back to within half a millimetre."""
    back_m = read_length(show_length_m(length_m), context=NOTHING_KNOWN).length_m
    assert back_m == pytest.approx(length_m, abs=0.0005 + 1e-9)


@given(length_m=lengths_m)
def test_feet_and_inches_come_back_within_the_digits_shown(length_m: float) -> None:
    """What is shown in feet and inches reads back to within 1/32 in."""
    back_m = read_length(show_feet_inches(length_m), context=NOTHING_KNOWN).length_m
    assert back_m == pytest.approx(length_m, abs=0.0254 / 32 + 1e-9)


@given(length_m=lengths_m)
def test_showing_what_was_read_shows_the_same(length_m: float) -> None:
    """Reading what was shown and showing it again changes nothing, in either unit."""
    for show in (show_length_m, show_feet_inches):
        shown = show(length_m)
        back_m = read_length(shown, context=NOTHING_KNOWN).length_m
        assert back_m is not None
        assert show(back_m) == shown


@given(length_m=st.floats(0.5, 1999))
def test_both_units_together_are_one_length(length_m: float) -> None:
    """What is shown in both units is read as one length, not as two."""
    back_m = read_length(show_both(length_m), context=NOTHING_KNOWN).length_m
    shown_to_m = 0.01 if length_m >= 1 else 0.001
    assert back_m == pytest.approx(length_m, abs=shown_to_m / 2 + 1e-9)


@given(count=st.integers(1, 40), whole=feet, part=inches, eighths=st.integers(0, 7))
def test_equal_spellings_read_equal(count: int, whole: int, part: int, eighths: int) -> None:
    """The same length in marks, words, decimals of an inch and inches alone is the same number."""
    exact_m = float((whole * 12 + part + Fraction(eighths, 8)) * LENGTH_IN_M["in"])
    fraction = f" {eighths}/8" if eighths else ""
    decimals = f"{part + eighths / 8}"
    spellings = [
        f"{whole}'{part}{fraction}\"",
        f"{whole} ft {part}{fraction} in",
        f"{whole} feet and {part}{fraction} inches",
        f"{whole}′ {decimals}″",
        f"{count} x {whole}'{part}{fraction}\"",
        f"{whole * 12 + part}{fraction} in",
    ]
    for typed in spellings:
        assert read_length(typed, context=NOTHING_KNOWN).length_m == exact_m, typed


@given(thousandths=st.integers(20, 1_999_000))
def test_metric_units_are_powers_of_ten(thousandths: int) -> None:
    """Millimetres, centimetres and metres with point or comma give one and the same float."""
    metres = f"{thousandths // 1000}.{thousandths % 1000:03d}0"
    spellings = [
        f"{thousandths} mm",
        f"{thousandths // 10}.{thousandths % 10} cm",
        f"{metres} m",
        f"{metres.replace('.', ',')} m",
    ]
    for typed in spellings:
        assert read_length(typed, context=NOTHING_KNOWN).length_m == thousandths / 1000, typed


@given(typed=texts, data=st.data())
def test_more_spaces_never_change_the_value(typed: str, data: st.DataObject) -> None:
    """Spaces between the parts of a text may make it a question, but never another length."""
    before = read_or_none(typed)
    if before is None or before.length_m is None:
        return
    spaced = "".join(
        ("" if token.glued else " ") + data.draw(SPACES) + token.text for token in tokenize(typed)
    )
    after = read_or_none(spaced)
    if after is not None and after.length_m is not None:
        assert after.length_m == before.length_m
        assert after.count == before.count


@given(typed=texts)
def test_any_text_reads_asks_or_is_refused(typed: str) -> None:
    """Whatever is typed ends in a positive length, a question or a refusal, and always the same."""
    reading = read_or_none(typed)
    assert reading == read_or_none(typed)
    if reading is not None:
        assert (reading.length_m is None) != (reading.question is None)
        assert reading.length_m is None or reading.length_m > 0


@given(typed=st.text(max_size=40))
def test_wild_text_never_breaks_the_reader(typed: str) -> None:
    """No text at all makes the reader fail in any other way than by refusing it."""
    reading = read_or_none(typed)
    assert reading is None or reading.typed == typed


@given(length_m=st.floats(1e-3, 1e5))
def test_feet_and_back_is_the_same(length_m: float) -> None:
    """Metres to feet and back loses no more than the last digits of a float."""
    assert ft_to_m(m_to_ft(length_m)) == pytest.approx(length_m, rel=4e-16)
