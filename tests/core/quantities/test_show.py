"""How quantities look: spaces, signs, digits, prefixes."""

import datetime
import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.quantities import show, show_scaled, words
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.core.quantities.measured import Measured
from reelwright.core.quantities.money import Money
from reelwright.core.quantities.scaled_text import (
    read_frequency,
    read_loss_per_length,
    read_percent,
    read_temperature,
)
from reelwright.core.quantities.show_office import (
    show_date,
    show_date_short,
    show_minus_plus,
    show_money,
    show_reading,
    show_tolerance,
)
from reelwright.core.quantities.tolerance_text import LengthTolerance, read_tolerance

THIN = "\u202f"


def plain(shown: str) -> str:
    """Return what was shown with ordinary spaces, so that a test can be read."""
    return shown.replace(THIN, " ")


@pytest.mark.parametrize(
    ("length_m", "shown"),
    [
        (137.16, "450 ft"),
        (10.16, "33 ft 4 in"),
        (10.1727, "33 ft 4 1/2 in"),
        (0.0127, "1/2 in"),
        (0.9144, "3 ft"),
        (0.3047, "1 ft"),
        (0.2785, "10 15/16 in"),
        (0.0, "0 in"),
        (-0.3048, "−1 ft"),
    ],
)
def test_feet_and_inches_as_people_who_cut_read_them(length_m: float, shown: str) -> None:
    """Lengths round to the nearest sixteenth, carry over at 12 in and reduce their fraction."""
    assert plain(show.show_feet_inches(length_m)) == shown


@pytest.mark.parametrize(
    ("shown", "expected"),
    [
        (show.show_length_m(3.6576), "3.658 m"),
        (show.show_length_mm(16.95, decimals=2), "16.95 mm"),
        (show.show_metres(3658), "3.658 m"),
        (show.show_metres(-40, decimals=2), "−0.04 m"),
        (show.show_dimension(0.00762), "7.62 mm"),
        (show.show_both(10.1727), "10.17 m (33 ft 4 1/2 in)"),
        (show.show_both(7.62), "7.62 m (25 ft)"),
        (show.show_both(3.048), "3.05 m (10 ft)"),
        (show.show_both(15.2), "15.2 m (49 ft 10 in)"),
        (show.show_both(0.3048), "0.305 m (1 ft)"),
        (show.show_both(0.5), "0.5 m (1 ft 7 3/4 in)"),
        (show.show_both(2.0), "2 m (6 ft 7 in)"),
        (show.show_both(100), "100 m (328 ft 1 in)"),
        (show.show_both_whole(72.9), "73 m (239 ft)"),
        (show.show_plain(70.7, "V"), "70.7 V"),
        (show.show_plain(8.0, "Ω"), "8 Ω"),
        (show.show_short(-19.97, "VA"), "−20.0 VA"),
        (show.show_short(0.0, "dB"), "0.00 dB"),
        (show.show_db(18.44), "18.4 dB"),
        (show.show_db(0.367), "0.37 dB"),
        (show.show_db(0.95), "0.9 dB"),
        (show.show_db(0.000494), "less than 0.01 dB"),
        (show.show_digits(-20.0), "−20.0"),
        (show.show_digits(0.00012345), "0.000123"),
        (show.show_digits(12345.0), "12300"),
        (show.show_chance(0.9999), "99 %"),
        (show.show_chance(0.0001), "1 %"),
        (show.show_chance(1.0), "100 %"),
        (show.show_percent(0.0514), "5.1 %"),
        (show_scaled.show_quantity(0.0207, "1"), "0.0207"),
        (show_scaled.show_quantity(0.000494, "dB"), "less than 0.01 dB"),
        (show_scaled.show_quantity(-20.0, "VA"), "−20.0 VA"),
        (show_scaled.show_quantity(45.72, "m"), "45.7 m"),
        (show_scaled.show_quantity(162e-12, "s"), "162 ps"),
        (show_scaled.show_megahertz(1.485e9), "1485 MHz"),
        (show.show_db(-0.3), "−0.30 dB"),
        (show.show_db(-0.001), "0.00 dB"),
        (show_scaled.show_dbm(-19), "−19.0 dBm"),
        (show_scaled.show_quantity(0.00829, "Ω"), "8.29 mΩ"),
        (show_scaled.show_quantity(75, "Ω"), "75.0 Ω"),
        (show_scaled.show_quantity(0.0, "Ω"), "0 Ω"),
        (show_scaled.show_quantity(153e-12, "F"), "153 pF"),
        (show_scaled.show_quantity(1361.4e-12, "F"), "1.36 nF"),
        (show_scaled.show_quantity(999.96e-9, "F", digits=4), "1.000 µF"),
        (show_scaled.show_time_s(61.101e-9), "61.10 ns"),
        (show_scaled.show_time_s(191e-12, digits=3), "191 ps"),
        (show_scaled.show_frequency_hz(1.485e9), "1.485 GHz"),
        (show_scaled.show_frequency_hz(6.144e6), "6.144 MHz"),
        (show_scaled.show_quantity(2.97e9, "b/s"), "2.97 Gb/s"),
        (show_scaled.show_loss_per_100m(0.2578), "25.78 dB/100 m"),
        (show_scaled.show_area_m2(2.081e-6), "2.08 mm²"),
        (show_scaled.show_awg(14), "14 AWG"),
        (show_scaled.show_awg(-3), "4/0 AWG"),
        (show_scaled.show_temperature_celsius(-20), "−20 °C"),
        (show.show_percent(0.97), "97 %"),
        (show_money(Money(amount=Decimal("706.585"), currency="EUR")), "706.58 EUR"),
        (show_money(Money(amount=Decimal("-5.70"), currency="EUR")), "−5.70 EUR"),
        (show_date(datetime.date(2026, 3, 3)), "Tuesday 3 March 2026"),
        (show_date_short(datetime.date(2026, 3, 3)), "3 Mar 2026"),
        (show_tolerance(LengthTolerance(minus_mm=0, plus_mm=60.96, assumed=True)),
         "−0/+61.0 mm (assumed)"),
        (show_tolerance(LengthTolerance(minus_mm=25, plus_mm=25, assumed=False)), "±25 mm"),
        (show_minus_plus(0, 61), "−0/+61 mm"),
        (words.listed(["a", "b", "c"]), "a, b and c"),
        (words.listed([]), ""),
        (words.counted(1, "piece"), "1 piece"),
        (words.counted(2, "batch", "batches"), "2 batches"),
        (words.sentence(" which colour? "), "Which colour?"),
        (words.sentence("cut it"), "Cut it."),
        (words.sentence(""), ""),
    ],
)  # fmt: skip
def test_each_quantity_looks_as_the_house_writes_it(shown: str, expected: str) -> None:
    """Each quantity has its unit, the digits that mean something, and a real minus sign."""
    assert plain(shown) == expected


@pytest.mark.parametrize(
    ("value", "spread", "shown"),
    [
        (20.0512, 0.123, "20.05 ± 0.12 N"),
        (20.0512, 0.00996, "20.051 ± 0.010 N"),
        (248.0, 13.5, "248 ± 14 N"),
        (12_345.0, 420.0, "12340 ± 420 N"),
        (20.0512, None, "20.1 N"),
        (0.0, 0.25, "0.00 ± 0.25 N"),
        (-1.0, 0.25, "−1.00 ± 0.25 N"),
        (0.0, None, "0 N"),
    ],
)
def test_a_spread_decides_how_many_digits_are_shown(
    value: float, spread: float | None, shown: str
) -> None:
    """The spread has two digits and the value ends at the same place."""
    measured = Measured(value=value, standard_uncertainty=spread, unit="N")
    assert plain(show_scaled.show_measured(measured)) == shown


def test_a_measured_value_takes_the_prefix_that_suits_it() -> None:
    """Value and spread share one prefix and end at one place; an unknown spread stays unsaid."""
    known = Measured(value=0.0082896, standard_uncertainty=0.000014, unit="Ω")
    assert plain(show_scaled.show_measured(known)) == "8.290 ± 0.014 mΩ"
    unknown = Measured(value=153.4e-12, standard_uncertainty=None, unit="F")
    assert [plain(part) for part in show_scaled.show_value_and_spread(unknown)] == ["153 pF", ""]


@pytest.mark.parametrize(
    ("value_db", "spread_db", "shown"),
    [
        (0.0735, 0.0022, "0.07 ± 0.01 dB"),
        (0.964, 0.03, "0.96 ± 0.03 dB"),
        (0.964, 0.0301, "0.96 ± 0.04 dB"),
        (20.66, 0.62, "20.66 ± 0.62 dB"),
    ],
)
def test_decibels_stop_at_a_hundredth(value_db: float, spread_db: float, shown: str) -> None:
    """Nobody measures the third decimal of a decibel; its spread is rounded up to the second."""
    measured = Measured(value=value_db, standard_uncertainty=spread_db, unit="dB")
    assert plain(show_scaled.show_measured(measured)) == shown


def test_the_unit_never_breaks_from_its_number() -> None:
    """A narrow no-break space stands before the unit, and no ordinary hyphen is a minus."""
    assert show.show_db(-3.0) == f"\u22123.0{THIN}dB"


def test_what_was_read_is_read_back() -> None:
    """A reading is read back in the writer's unit and in metres; a question cannot be."""
    known = LengthContext()
    assert plain(show_reading(read_length("450'", context=known))) == "450 ft = 137.160 m"
    about = show_reading(read_length("about 12 feet", context=known))
    assert plain(about) == "about 12 ft = 3.658 m"
    with pytest.raises(BadValue):
        show_reading(read_length("12", context=known))


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_no_number_is_not_shown(value: float) -> None:
    """A value that is no number is refused, not printed."""
    for shown in (show.show_db, show.show_digits, show.show_feet_inches, show.show_both):
        with pytest.raises(BadValue):
            shown(value)


@given(value=st.floats(1e-14, 1e10), digits=st.integers(2, 6))
def test_prefixes_keep_the_digits(value: float, digits: int) -> None:
    """A value shown with a prefix is the value to the digits asked for, below a thousand."""
    number, unit = show_scaled.show_quantity(value, "Ω", digits=digits).split(THIN)
    size = {"f": 1e-15, "p": 1e-12, "n": 1e-9, "µ": 1e-6, "m": 1e-3, "": 1.0, "k": 1e3,
            "M": 1e6, "G": 1e9}[unit.removesuffix("Ω")]  # fmt: skip
    assert float(number) * size == pytest.approx(value, rel=0.51 * 10 ** (1 - digits))
    assert 1 <= float(number) < 1000


@given(
    loss_db_per_m=st.floats(1e-4, 10),
    frequency_hz=st.floats(1, 1e11),
    temperature_celsius=st.floats(-200, 200),
    fraction=st.floats(0, 1),
)
def test_what_is_shown_can_be_typed_back(
    loss_db_per_m: float, frequency_hz: float, temperature_celsius: float, fraction: float
) -> None:
    """Loss, frequency, temperature and percent read back to within the digits shown."""
    loss = read_loss_per_length(show_scaled.show_loss_per_100m(loss_db_per_m)).value
    assert loss == pytest.approx(loss_db_per_m, abs=0.5001e-4)
    frequency = read_frequency(show_scaled.show_frequency_hz(frequency_hz, digits=6)).value
    assert frequency == pytest.approx(frequency_hz, rel=0.51e-5)
    shown = show_scaled.show_temperature_celsius(temperature_celsius, decimals=1)
    assert read_temperature(shown).value == pytest.approx(temperature_celsius, abs=0.0501)
    percent = read_percent(show.show_percent(fraction, decimals=1)).value
    assert percent == pytest.approx(fraction, abs=0.000501)


@given(minus_mm=st.integers(0, 50), plus_mm=st.integers(1, 200))
def test_tolerances_come_back(minus_mm: int, plus_mm: int) -> None:
    """A tolerance in whole millimetres, shown and read again, is the same."""
    tolerance = LengthTolerance(minus_mm=minus_mm, plus_mm=plus_mm, assumed=False)
    assert read_tolerance(show_tolerance(tolerance), nominal_mm=3048).value == tolerance
