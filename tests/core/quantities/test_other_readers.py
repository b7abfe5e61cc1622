"""Readers of everything but length: what they read, what they ask, what they refuse."""

import datetime
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue, UnreadableQuantity
from reelwright.core.quantities.convert import awg_area_m2
from reelwright.core.quantities.count_text import read_count
from reelwright.core.quantities.date_text import read_date
from reelwright.core.quantities.dimension_text import read_dimension
from reelwright.core.quantities.force_text import read_force
from reelwright.core.quantities.gauge_text import read_gauge
from reelwright.core.quantities.money import Money
from reelwright.core.quantities.money_text import read_money
from reelwright.core.quantities.reading import Reading
from reelwright.core.quantities.scaled_text import (
    read_area,
    read_bit_rate,
    read_capacitance_per_length,
    read_frequency,
    read_loss_per_length,
    read_percent,
    read_temperature,
)
from reelwright.core.quantities.show_office import show_date, show_date_short
from reelwright.core.quantities.tolerance_text import LengthTolerance, read_tolerance

Reader = Callable[[str], Reading[Any]]


def read_euros(typed: str) -> Reading[Money]:
    """Read an amount for a workshop that counts in euros."""
    return read_money(typed, currency="EUR")


def read_of_3048(typed: str) -> Reading[LengthTolerance]:
    """Read the tolerance of a cable of 3048 mm."""
    return read_tolerance(typed, nominal_mm=3048)


def read_of_an_end(typed: str) -> Reading[float]:
    """Read a dimension of a part that is no longer than a metre."""
    return read_dimension(typed, at_most_m=1.0)


@pytest.mark.parametrize(
    ("reader", "typed", "value"),
    [
        (read_force, "194 N", 194.0),
        (read_force, "194N", 194.0),
        (read_force, "0,194 kN", 194.0),
        (read_force, "10 lbf", 44.482216152605),
        (read_force, "10 lb", 44.482216152605),
        (read_force, "2 kgf", 19.6133),
        (read_force, "20 kg", None),
        (read_force, "194", None),
        (read_force, "1,200 N", None),
        (read_force, "1.200 N", None),
        (read_of_an_end, "1.62 mm", 1.62e-3),
        (read_of_an_end, "1,62mm", 1.62e-3),
        (read_of_an_end, "1,620 mm", 1.62e-3),
        (read_of_an_end, "0.064 in", 1.6256e-3),
        (read_of_an_end, '1/16"', 1.5875e-3),
        (read_of_an_end, "64 mil", 1.6256e-3),
        (read_of_an_end, "1620 µm", 1.62e-3),
        (read_of_an_end, "1.62", None),
        (read_of_an_end, "1,620 mil", None),
        (read_area, "2.5 mm²", 2.5e-6),
        (read_area, "1,5mm2", 1.5e-6),
        (read_area, "4 sq mm", 4e-6),
        (read_frequency, "1485 MHz", 1.485e9),
        (read_frequency, "1.485GHz", 1.485e9),
        (read_frequency, "6,144 MHz", None),
        (read_frequency, "50 hz", 50.0),
        (read_bit_rate, "2.97 Gb/s", 2.97e9),
        (read_bit_rate, "270 Mbps", 2.7e8),
        (read_bit_rate, "1.485 Gbit/s", 1.485e9),
        (read_loss_per_length, "7.86 dB/100 ft", 7.86 / 30.48),
        (read_loss_per_length, "25.78 dB/100m", 0.2578),
        (read_loss_per_length, "25.78 dB per 100 metres", 0.2578),
        (read_loss_per_length, "0.2 dB/m", 0.2),
        (read_loss_per_length, "7.86 dB/100'", 7.86 / 30.48),
        (read_capacitance_per_length, "16.3 pF/ft", 16.3e-12 / 0.3048),
        (read_capacitance_per_length, "53.6 nF/km", 53.6e-12),
        (read_temperature, "40 °C", 40.0),
        (read_temperature, "104°F", 40.0),
        (read_temperature, "−20 degC", -20.0),
        (read_temperature, "-40 F", -40.0),
        (read_temperature, "293.15 K", 20.0),
        (read_percent, "42 %", 0.42),
        (read_percent, "97.5 per cent", 0.975),
    ],
)
def test_scaled_quantities_read_to_si(reader: Reader, typed: str, value: float | None) -> None:
    """A number with its unit reads to SI; a comma before three digits is asked about."""
    reading = reader(typed)
    if value is None:
        assert reading.question is not None
    else:
        assert reading.value == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(
    ("reader", "typed", "asked"),
    [
        (read_area, "2.5", "in which unit"),
        (read_frequency, "75", "in which unit"),
        (read_bit_rate, "3G", "which bit rate"),
        (read_bit_rate, "100 MB/s", "bits or bytes"),
        (read_loss_per_length, "7.86 dB", "per which length"),
        (read_loss_per_length, "7.86 dB/100", "feet or metres"),
        (read_loss_per_length, "1,234 dB/100 m", "1234 or 1.234"),
        (read_temperature, "20", "in which unit"),
        (read_temperature, "20°", "Celsius or Fahrenheit"),
        (read_percent, "42", "in which unit"),
        (read_count, "3-4", "how many pieces"),
        (read_count, "1.200", "how many pieces"),
        (read_euros, "1,200 EUR", "1200 or 1.2"),
        (read_euros, "12.50 USD", "in EUR"),
        (read_euros, "$12.50", "which dollar"),
        (read_date, "03/04/2026", "3 April or 4 March"),
        (read_date, "3.4.2026", "3 April or 4 March"),
        (read_date, "3 April", "in which year"),
        (read_date, "13/04/26", "which day, month and year"),
        (read_date, "Friday", "on which date"),
        (read_date, "tomorrow", "on which date"),
        (read_date, "April 2026", "on which day"),
        (read_of_3048, "25 mm", "longer only"),
        (read_of_3048, "+2 %", "how much shorter"),
        (read_of_3048, "-0", "how much longer"),
        (read_of_3048, "±25", "millimetres, inches or percent"),
        (read_of_3048, "as close as you can", "how much longer"),
        (read_of_3048, "±0 mm", "cut exactly"),
    ],
)
def test_unclear_quantities_are_asked(reader: Reader, typed: str, asked: str) -> None:
    """What has two meanings, or lacks its unit, comes back with a question and no value."""
    reading = reader(typed)
    assert reading.value is None
    assert asked in str(reading.question)


@pytest.mark.parametrize(
    ("reader", "typed"),
    [
        (read_area, "-2 mm²"),
        (read_area, "2.5 mm"),
        (read_force, "194 Nm"),
        (read_force, "-3 N"),
        (read_force, "0 N"),
        (read_force, "hard"),
        (read_of_an_end, "0 mm"),
        (read_of_an_end, "1001 mm"),
        (read_of_an_end, "1.62 furlongs"),
        (read_frequency, "0 Hz"),
        (read_frequency, "75 ohm"),
        (read_bit_rate, "fast"),
        (read_loss_per_length, "-1 dB/m"),
        (read_loss_per_length, "7 dB/0 m"),
        (read_capacitance_per_length, "50 pF/kg"),
        (read_temperature, "-300 °C"),
        (read_percent, "42 %%"),
        (read_count, "0"),
        (read_count, "-3"),
        (read_count, "4.5"),
        (read_count, "many"),
        (read_euros, "-5"),
        (read_euros, "EUR"),
        (read_date, "2026-02-30"),
        (read_date, "31 April 2026"),
        (read_date, "banana"),
        (read_date, "2026-13-01"),
        (read_of_3048, "banana 3"),
        (read_of_3048, "±4 m"),
        (read_of_3048, "+1 in +2 in"),
    ],
)
def test_nonsense_is_refused(reader: Reader, typed: str) -> None:
    """What is not the quantity is refused with what would be accepted."""
    with pytest.raises(UnreadableQuantity) as refusal:
        reader(typed)
    assert "such as" in refusal.value.accepted


@pytest.mark.parametrize(
    ("typed", "count"),
    [("4", 4), ("four", 4), ("4 pcs", 4), ("30 x", 30), ("a dozen", 12), ("1,200", 1200)],
)
def test_counts(typed: str, count: int) -> None:
    """Whole numbers of pieces are read in figures and in words."""
    assert read_count(typed).value == count


@pytest.mark.parametrize(
    ("typed", "awg"),
    [("14 AWG", 14), ("14 gauge", 14), ("14-gauge", 14), ("AWG 24", 24), ("#12", 12), ("14ga", 14),
     ("4/0", -3), ("0000 AWG", -3), ("1/0 AWG", 0), ("0 AWG", 0)],
)  # fmt: skip
def test_gauges(typed: str, awg: int) -> None:
    """Gauge numbers are read in the ways the trade writes them, with the area of solid wire."""
    reading = read_gauge(typed)
    assert (reading.awg, reading.area_m2) == (awg, awg_area_m2(awg))


def test_a_metric_size_is_not_a_gauge() -> None:
    """2.5 mm² stays what it is and gets no gauge number."""
    reading = read_gauge("2.5 mm²")
    assert (reading.awg, reading.area_m2) == (None, 2.5e-6)


@pytest.mark.parametrize(
    ("typed", "asked"), [("14", "14 AWG, or 14 mm²"), ("14/2", "2 conductors of 14 AWG")]
)
def test_unclear_gauges_are_asked(typed: str, asked: str) -> None:
    """A bare number, and a gauge with a number of conductors, are asked about."""
    assert asked in str(read_gauge(typed).question)


@pytest.mark.parametrize("typed", ["60 AWG", "00000", "5/0 AWG x", "thick", "-2 AWG"])
def test_no_such_gauge(typed: str) -> None:
    """A gauge outside 4/0 to 56 is refused."""
    with pytest.raises(UnreadableQuantity):
        read_gauge(typed)


@pytest.mark.parametrize(
    ("typed", "amount"),
    [
        ("38.00", "38"),
        ("38,50 EUR", "38.5"),
        ("€ 4.20", "4.2"),
        ("1.234,56 €", "1234.56"),
        ("0", "0"),
    ],
)
def test_money(typed: str, amount: str) -> None:
    """Amounts are read as exact decimals in the workshop's currency."""
    assert read_euros(typed).value == Money(amount=Decimal(amount), currency="EUR")


def test_money_is_never_a_float() -> None:
    """Money refuses a float, an infinity and a currency that is no code."""
    for amount, currency in ((1.5, "EUR"), (Decimal("Infinity"), "EUR"), (Decimal(1), "euro")):
        with pytest.raises(BadValue):
            Money(amount=amount, currency=currency)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "typed",
    ["2026-04-13", "20260413", "13 April 2026", "13 Apr 2026", "13th April 2026", "April 13, 2026",
     "Apr 13 2026", "13/04/2026", "04/13/2026", "13.4.2026", "13. April 2026", "13-Apr-2026",
     "Monday 13 April 2026", "Mon, 13 Apr. 2026", "2026/04/13"],
)  # fmt: skip
def test_dates(typed: str) -> None:
    """Every spelling that has one meaning reads to that day."""
    assert read_date(typed).value == datetime.date(2026, 4, 13)


@given(date=st.dates(datetime.date(1990, 1, 1), datetime.date(2199, 12, 31)))
def test_dates_come_back(date: datetime.date) -> None:
    """A date shown to a person, long or short or by the standard, reads back to the same day."""
    for shown in (show_date(date), show_date_short(date), date.isoformat()):
        assert read_date(shown).value == date


@pytest.mark.parametrize(
    ("typed", "minus_mm", "plus_mm"),
    [
        ("−0/+2 %", 0.0, 60.96),
        ("-0/+2%", 0.0, 60.96),
        ("+2 % / -0", 0.0, 60.96),
        ("±25 mm", 25.0, 25.0),
        ("+/- 25 mm", 25.0, 25.0),
        ("plus or minus 1 in", 25.4, 25.4),
        ("+1 in -0", 0.0, 25.4),
        ("-5/+25 mm", 5.0, 25.0),
        ("0/+25 mm", 0.0, 25.0),
        ("+25 mm, -0 mm", 0.0, 25.0),
        ("-1/4 in +1/2 in", 6.35, 12.7),
        ("± 1 %", 30.48, 30.48),
    ],
)
def test_tolerances(typed: str, minus_mm: float, plus_mm: float) -> None:
    """Two-sided, one-sided and percent tolerances of a 3048 mm cable read to millimetres."""
    tolerance = LengthTolerance(minus_mm=minus_mm, plus_mm=plus_mm, assumed=False)
    assert read_of_3048(typed).value == tolerance


@pytest.mark.parametrize(("nominal_mm", "plus_mm"), [(3048, 60.96), (1000, 25.0), (1250, 25.0)])
def test_an_unstated_tolerance_is_assumed_and_says_so(nominal_mm: int, plus_mm: float) -> None:
    """Nothing said gives −0 and the larger of 2 % and 25 mm, marked as assumed."""
    expected = LengthTolerance(minus_mm=0.0, plus_mm=plus_mm, assumed=True)
    for typed in (None, "", "  "):
        assert read_tolerance(typed, nominal_mm=nominal_mm).value == expected


def test_no_cable_is_cut_exactly() -> None:
    """A tolerance of nothing at all cannot be built."""
    with pytest.raises(BadValue, match="no cable is cut exactly"):
        LengthTolerance(minus_mm=0.0, plus_mm=0.0, assumed=False)


@given(typed=st.text(max_size=24))
def test_wild_text_never_breaks_a_reader(typed: str) -> None:
    """No text makes any reader fail in another way than by refusing it."""
    readers: list[Callable[[str], object]] = [
        read_area, read_frequency, read_bit_rate, read_loss_per_length, read_temperature,
        read_capacitance_per_length, read_percent, read_count, read_euros, read_date,
        read_of_3048, read_gauge,
    ]  # fmt: skip
    for reader in readers:
        try:
            answer = reader(typed)
        except UnreadableQuantity as refusal:
            answer = refusal
        assert getattr(answer, "typed", None) == typed


@given(
    typed=st.text("0123456789 .,/+-−±%mingatowfdBHzpFC°²", max_size=14),
)
def test_likely_text_never_breaks_a_reader(typed: str) -> None:
    """The same for text made of the characters that quantities are written with."""
    test_wild_text_never_breaks_a_reader.hypothesis.inner_test(typed)  # type: ignore[attr-defined]
