"""Lengths as typed: the rows the demo workshop must read, and the ones it must ask about."""

import pytest

from reelwright.core.errors import BadValue, UnreadableQuantity
from reelwright.core.quantities.length_text import LengthContext, read_length

NOTHING_KNOWN = LengthContext()

ROWS = [
    ("450'", 137.16),
    ("33'4\"", 10.16),
    ("33 ft 4 1/2 in", 10.1727),
    ("100ft", 30.48),
    ("12 foot", 3.6576),
    ("18m", 18.0),
    ("18,5 m", 18.5),
    ("1.5 meters", 1.5),
    ('36"', 0.9144),
    ("6' 6", 1.9812),
    ("1/2 inch", 0.0127),
    ("25-ft x 4", 7.62),
    ("15.2m", 15.2),
    ("2500mm", 2.5),
    ("3 yards", 2.7432),
]


@pytest.mark.parametrize(("typed", "length_m"), ROWS)
def test_each_row_of_the_trade_table_reads_to_its_value(typed: str, length_m: float) -> None:
    """Each customer spelling of the trade table reads to the SI value printed there, unrounded."""
    reading = read_length(typed, context=NOTHING_KNOWN)
    assert reading.question is None
    assert reading.length_m == length_m
    assert reading.typed == typed


@pytest.mark.parametrize(
    ("typed", "length_m"),
    [
        ("10 ft 6 in", 3.2004),
        ("10'6\"", 3.2004),
        ("3,05 m", 3.05),
    ],
)
def test_the_three_traps_of_common_parsers(typed: str, length_m: float) -> None:
    """A product of units, a lost inch and a swallowed comma: none of them happens here."""
    assert read_length(typed, context=NOTHING_KNOWN).length_m == length_m


@pytest.mark.parametrize(
    ("typed", "length_m"),
    [
        ("33′4″", 10.16),
        ("33’4”", 10.16),
        ("33'4''", 10.16),
        ("33'-4\"", 10.16),
        ("33 ft 4½ in", 10.1727),
        ("33 ft 4\u00a0½ in", 10.1727),
        ("33\u202fft 4 1\u20442 in", 10.1727),
        ("33ft. 4in.", 10.16),
        ("3-1/2 in", 0.0889),
        ("twelve foot", 3.6576),
        ("twenty-five feet", 7.62),
        ("one hundred and five ft", 32.004),
        ("a hundred feet", 30.48),
        ("twelve and a half feet", 3.81),
        ("half a metre", 0.5),
        ("1 m 20 cm", 1.2),
        ("2 yd 1 ft 6 in", 2.286),
        ("0,500 m", 0.5),
        ("1.234,5 mm", 1.2345),
        ("1,234.5 mm", 1.2345),
        ("3.048 m", 3.048),
        (".5 m", 0.5),
        ("12 foot lead", 3.6576),
        ("450 ft (137 m)", 137.16),
        ("450 ft = 137.16 m", 137.16),
        ("18 M", 18.0),
    ],
)
def test_other_shapes_of_the_same_marks(typed: str, length_m: float) -> None:
    """Primes, curly quotes, fraction characters, odd spaces and number words are all read."""
    assert read_length(typed, context=NOTHING_KNOWN).length_m == length_m


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("12", "feet, inches, metres"),
        ("1,200 mm", "1200 mm or 1.2 mm"),
        ("1.200 mm", "1200 mm or 1.200 mm"),
        ("1,200 m", "1200 m or 1.2 m"),
        ("1 200 mm", "one number or two"),
        ("4 25 ft", "one number or two"),
        ("100 ft total, 4 cables", "7.62\u202fm each"),
        ("100 ft, 4 cables", "of each, or of all together"),
        ("4 cables, 100 ft", "of each, or of all together"),
        ("same as last time", "which length"),
        ("the usual", "which length"),
        ("10-12 ft", "which one length"),
        ("10 to 12 ft", "which one length"),
        ("5 m or 6 m", "which one length"),
        ("10' - 12'", "two lengths"),
        ("6' - 10", "inches more, or up to 10 feet"),
        ("10'6\" - 12'", "which one length"),
        ("five or six feet", "which one length"),
        ("5m60", "what does 60 stand for"),
        ("11/2 in", "11 divided by 2, or 1 1/2"),
        ("10'6'", "10 ft 6 in"),
        ("10 ft 14 in", "is that meant"),
        ("10.5 ft 6 in", "is that meant"),
        ("6 ft 6", "inches, or 6 pieces"),
        ("5 m 3 in", "mixes feet and metres"),
        ("5/6 m", "which length"),
        ("450 ft (140 m)", "not the same length"),
        ("at least 12 ft", "as a limit"),
        ("30 m max", "as a limit"),
        ("10 m plus connectors", "tip to tip"),
        ("10 m excluding connectors", "tip to tip"),
        ("5000 km", "is that meant"),
        ("2 mm", "is that meant"),
    ],
)
def test_what_means_two_things_is_asked(typed: str, asked: str) -> None:
    """Text with two meanings has no length and a question that names both."""
    reading = read_length(typed, context=NOTHING_KNOWN)
    assert reading.length_m is None
    assert reading.question is not None
    assert asked in reading.question


def test_inches_between_racks_are_asked() -> None:
    """Ten inches between two places is asked about; the same mark without a route is not."""
    between = LengthContext(route="between racks")
    for typed in ('10"', "10 in", "10''"):
        reading = read_length(typed, context=between)
        assert reading.length_m is None
        assert reading.question is not None
        assert "10 inches" in reading.question
        assert "10 feet" in reading.question
    assert read_length('10"', context=NOTHING_KNOWN).length_m == 0.254
    assert read_length("10'", context=between).length_m == 3.048


def test_another_unit_than_before_is_asked() -> None:
    """Metres from a customer who wrote feet are asked about, and the other way round."""
    feet, metres = LengthContext(unit_used_before="ft"), LengthContext(unit_used_before="m")
    assert "is 16.4\u202fft; you wrote feet before" in str(
        read_length("5 m", context=feet).question
    )
    assert read_length("5 ft", context=feet).length_m == 1.524
    assert "metres before" in str(read_length("5 ft", context=metres).question)
    assert read_length("5 m", context=metres).length_m == 5.0


def test_a_length_that_does_not_fit_its_route_is_asked() -> None:
    """450 ft on a route of 45 m is asked about, and so is 45 ft; 45 m and its slack are read."""
    route = LengthContext(expected_m=45.0)
    assert "a digit too many" in str(read_length("450'", context=route).question)
    assert "45 m meant" in str(read_length("45'", context=route).question)
    assert read_length("45 m", context=route).length_m == 45.0
    assert read_length("50 m", context=route).length_m == 50.0
    assert "which one is right" in str(read_length("101 m", context=route).question)


def test_about_is_read_and_marked() -> None:
    """About twelve feet is twelve feet, and known to be approximate."""
    for typed in (
        "about 12 feet",
        "~12 ft",
        "12 ft or so",
        "12ish feet",
        "approx. 12 ft",
        "c. 12'",
    ):
        reading = read_length(typed, context=NOTHING_KNOWN)
        assert (reading.length_m, reading.approximate) == (3.6576, True)
    assert read_length("12 feet", context=NOTHING_KNOWN).approximate is False


@pytest.mark.parametrize(
    ("typed", "count"),
    [
        ("25-ft x 4", 4),
        ("4 x 25 ft", 4),
        ("4x25ft", 4),
        ("4 × 25'", 4),
        ("4 off 25 ft each", 4),
        ("4 cables of 25 ft", 4),
        ("25 ft each, 4 cables", 4),
        ("four cables of twenty-five feet", 4),
        ("12 x 25 ft", 12),
        ("25 ft", None),
    ],
)
def test_how_many_is_kept_apart_from_how_long(typed: str, count: int | None) -> None:
    """The count beside a length is read as a count and never multiplies it."""
    reading = read_length(typed, context=NOTHING_KNOWN)
    assert (reading.length_m, reading.count) == (7.62, count)


@pytest.mark.parametrize(
    "typed",
    ["-5 m", "−5 m", "0 m", "0'", "0 x 5 m", "", "  ", "banana", "10 furlongs", "nan m", "inf m",
     "1e3 m", "5 mH", "٣ m", "1/0 in", "1,23,4 m", "25' x 4\"", "5 m 'quoted'", "5;DROP",
     "12 ft" * 60, "2.5 x 5 m"],
)  # fmt: skip
def test_nonsense_is_refused_with_what_is_accepted(typed: str) -> None:
    """Text that is no length above zero is refused, naming what was typed and what would do."""
    with pytest.raises(UnreadableQuantity) as refusal:
        read_length(typed, context=NOTHING_KNOWN)
    assert refusal.value.typed == typed
    assert "10 ft 6 in" in refusal.value.accepted


def test_where_it_is_measured_is_kept() -> None:
    """ "Tip to tip" is kept beside the length."""
    reading = read_length("33 ft 4 in from pin tip to pin tip", context=NOTHING_KNOWN)
    assert (reading.length_m, reading.over) == (10.16, "from pin tip to pin tip")


def test_a_context_refuses_nonsense() -> None:
    """A context with a unit nobody writes, or a route of no length, cannot be built."""
    with pytest.raises(BadValue):
        LengthContext(unit_used_before="furlong")
    with pytest.raises(BadValue):
        LengthContext(expected_m=0.0)
