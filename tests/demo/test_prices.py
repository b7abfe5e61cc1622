"""The demo's price list and minutes give the quotes worked out apart from this code."""

from decimal import Decimal

import pytest

from reelwright.core.parts.cable import Family
from reelwright.core.pricing.price import Rates, StationMinutes, price_line
from reelwright.demo import rates
from reelwright.demo.cables import coax_entries
from reelwright.demo.connectors import connector_entries
from reelwright.demo.other_cables import other_entries
from reelwright.demo.people import CURRENCY

PER_M = {entry.cable.code: entry.price_per_m for entry in (*coax_entries(), *other_entries())}
EACH = {entry.connector.code: entry.price for entry in connector_entries()}

# Order, quantity, length in m, cable, ends, set-up minutes; material and price worked by hand from
# unit = [set-up + order + q/yield·(material + labour)]/q and price = unit/(1 − margin).
QUOTES = (
    ("O-02", 6, "25.908", "VID-70P", ("BNC-70P", "BNC-70P"), 13, "68.30", "134.00"),
    ("O-03", 1, "3.658", "PHO-61", ("RCA-60", "RCA-60"), 13, "10.90", "49.34"),
    ("O-04", 4, "7.620", "VID-60", ("BNC-60", "BNC-60"), 13, "12.35", "35.93"),
    ("O-05", 5, "15.200", "VID-40", ("BNC-40", "BNC-40"), 18, "13.59", "38.32"),
    ("O-07", 12, "18.450", "AUD-BP", ("XLR3F", "PLUG-635"), 25, "23.13", "58.13"),
    ("O-08", 1, "15.000", "VID-60", ("RCA-60", "RCA-60"), 13, "20.88", "67.32"),
    ("O-09", 2, "15.240", "VID-70", ("BNC-70", "F-70"), 17, "25.40", "66.83"),
    ("O-10", 1, "10.160", "VID-60", ("BNC-60", "BNC-60"), 13, "14.73", "56.30"),
    ("O-12", 30, "3.048", "VID-60", ("BNC-60", "BNC-60"), 13, "8.06", "23.55"),
)


@pytest.mark.parametrize("quote", QUOTES, ids=lambda quote: quote[0])
def test_the_quotes_come_out(
    quote: tuple[str, int, str, str, tuple[str, str], int, str, str],
) -> None:
    """Material within a cent and price within three of the table: its inputs are rounded."""
    _, quantity, length, cable, ends, setup, material_wanted, price_wanted = quote
    length_m = Decimal(length)
    material = PER_M[cable] * length_m + sum((EACH[end] for end in ends), Decimal(0))
    assert abs(material - Decimal(material_wanted)) <= Decimal("0.01")
    family = Family.PAIR if cable == "AUD-BP" else Family.COAX
    price = price_line(
        quantity=quantity,
        material_each=material,
        minutes=tuple(
            StationMinutes(station=row.station, minutes=row.each + row.per_metre * length_m)
            for row in rates.WORK[family]
        ),
        setup_minutes=Decimal(setup),
        rates=Rates(
            currency=CURRENCY,
            labour_per_hour=rates.LABOUR_PER_HOUR,
            order_handling=rates.ORDER_HANDLING,
            first_pass_yield=rates.FIRST_PASS_YIELD,
            margin=rates.GROSS_MARGIN,
        ),
    )
    assert abs(price.unit_price - Decimal(price_wanted)) <= Decimal("0.03")


def test_set_ups_add_up_to_the_quoted_ones() -> None:
    """13 minutes for a line of coax; 21 for pairs, and 4 more where the two ends differ."""
    assert sum(row.once for row in rates.WORK[Family.COAX]) == Decimal(13)
    assert sum(row.once for row in rates.WORK[Family.PAIR]) + rates.TEST_ADAPTERS_MIN == 25


def test_every_family_has_its_minutes() -> None:
    """No accepted cable is without a price for want of minutes."""
    assert set(rates.WORK) == set(Family)


def test_plenum_costs_about_twice_as_much() -> None:
    """1.6 to 2.5 times the same cable in PVC (common practice, no published source)."""
    for plenum, plain in (("VID-70P", "VID-70"), ("VID-60P", "VID-60")):
        assert Decimal("1.6") <= PER_M[plenum] / PER_M[plain] <= Decimal("2.5")
