"""Prices of the demo workshop, worked out by hand from the same formula."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.pricing import (
    MinutesRule,
    Rates,
    StationMinutes,
    minutes_each,
    price_line,
    rush_surcharge,
)

RATES = Rates(
    currency="CU",
    labour_per_hour=Decimal("38.00"),
    order_handling=Decimal("4.20"),
    first_pass_yield=Decimal("0.97"),
    margin=Decimal("0.42"),
)


def fixed(station: str, minutes: str) -> MinutesRule:
    """A station whose minutes do not grow with the length."""
    return MinutesRule(station=station, each_min=Decimal(minutes), per_m_min=Decimal(0))


CUT = MinutesRule(station="cut", each_min=Decimal("0.6"), per_m_min=Decimal("0.02"))
COAX = (
    CUT,
    fixed("strip", "0.5"),
    fixed("press", "1.9"),
    fixed("dress", "0.4"),
    fixed("inspect", "0.8"),
    fixed("test", "1.6"),
    fixed("label", "0.5"),
    fixed("pack", "1.2"),
)
# The demo's table says 12.6 min for 18.45 m; its price comes out with the 12.569 behind that.
BALANCED = (CUT, fixed("solder", "6.0"), fixed("all other stations", "5.6"))

QUOTES = {
    "O-02": (COAX, 6, "25.908", "68.30", "13", "77.72", "134.00", "804.01"),
    "O-03": (COAX, 1, "3.658", "10.90", "13", "28.62", "49.34", "49.34"),
    "O-04": (COAX, 4, "7.620", "12.35", "13", "20.84", "35.93", "143.71"),
    "O-05": (COAX, 5, "15.200", "13.59", "18", "22.23", "38.32", "191.62"),
    "O-07": (BALANCED, 12, "18.450", "23.13", "25", "33.72", "58.13", "697.60"),
    "O-08": (COAX, 1, "15.000", "20.88", "13", "39.05", "67.32", "67.32"),
    "O-09": (COAX, 2, "15.240", "25.40", "17", "38.76", "66.83", "133.66"),
    "O-10": (COAX, 1, "10.160", "14.73", "13", "32.65", "56.30", "56.30"),
    "O-12": (COAX, 30, "3.048", "8.06", "13", "13.66", "23.55", "706.59"),
}


@pytest.mark.parametrize("order", QUOTES)
def test_the_quote_table_of_the_demo_comes_out(order: str) -> None:
    """Unit cost and price to 0.03 and the line to 0.5, since the table's inputs are rounded."""
    rules, quantity, length, material, setup, cost, price, line = QUOTES[order]
    made = price_line(
        quantity=quantity,
        material_each=Decimal(material),
        minutes=minutes_each(rules, length_m=Decimal(length)),
        setup_minutes=Decimal(setup),
        rates=RATES,
    )
    assert abs(made.unit_cost - Decimal(cost)) <= Decimal("0.03")
    assert abs(made.unit_price - Decimal(price)) <= Decimal("0.03")
    assert abs(made.line_price - Decimal(line)) <= Decimal("0.5")


@pytest.mark.parametrize(
    ("quantity", "price"),
    [(1, "44.28"), (2, "33.56"), (4, "28.20"), (10, "24.98"), (30, "23.55"), (100, "23.05")],
)
def test_the_price_falls_with_the_quantity_as_the_set_up_is_shared(
    quantity: int, price: str
) -> None:
    """A 10 ft coax with 13 min of set-up, from one to a hundred, each to 0.03."""
    made = price_line(
        quantity=quantity,
        material_each=Decimal("8.06"),
        minutes=minutes_each(COAX, length_m=Decimal("3.048")),
        setup_minutes=Decimal(13),
        rates=RATES,
    )
    assert abs(made.unit_price - Decimal(price)) <= Decimal("0.03")


def test_a_rush_pays_the_minutes_it_costs_and_the_disturbance() -> None:
    """Nine minutes more change-over at 38.00 an hour are 5.70, the disturbance 25.00."""
    nine = rush_surcharge(extra_change_over_minutes=Decimal(9), disturbance=Decimal(0), rates=RATES)
    both = rush_surcharge(
        extra_change_over_minutes=Decimal(9), disturbance=Decimal(25), rates=RATES
    )
    assert (nine, both) == (Decimal("5.70"), Decimal("30.70"))


money = st.decimals(min_value=0, max_value=1000, places=2)


@given(st.integers(1, 200), money, st.decimals(min_value=0, max_value=60, places=1), money)
def test_the_parts_add_up_to_what_the_customer_pays(
    quantity: int, material: Decimal, minutes: Decimal, setup: Decimal
) -> None:
    """Parts sum to the line, the line is quantity × unit price, and more is never dearer each."""

    def made(count: int) -> tuple[Decimal, Decimal, Decimal]:
        price = price_line(
            quantity=count,
            material_each=material,
            minutes=(StationMinutes(station="press", minutes=minutes),),
            setup_minutes=setup,
            rates=RATES,
        )
        return (
            price.unit_price,
            price.line_price,
            sum((part.amount for part in price.parts), Decimal(0)),
        )

    unit, line, parts = made(quantity)
    assert line == parts == unit * quantity
    assert made(quantity + 1)[0] <= unit


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("first_pass_yield", Decimal(0)),
        ("first_pass_yield", Decimal("1.01")),
        ("margin", Decimal(1)),
        ("margin", Decimal("NaN")),
        ("labour_per_hour", Decimal(-1)),
        ("order_handling", 4.2),
        ("currency", " "),
    ],
)
def test_rates_that_make_no_sense_are_refused(field: str, value: object) -> None:
    """No good cable, nothing but margin, a negative wage, a float for money: refused by name."""
    given_rates: dict[str, object] = {
        "currency": "CU",
        "labour_per_hour": Decimal(38),
        "order_handling": Decimal("4.20"),
        "first_pass_yield": Decimal("0.97"),
        "margin": Decimal("0.42"),
        field: value,
    }
    with pytest.raises(BadValue) as caught:
        Rates(**given_rates)  # type: ignore[arg-type]
    assert caught.value.field == field


def test_no_cable_has_no_price() -> None:
    """A quantity of nothing is refused."""
    with pytest.raises(BadValue, match="quantity"):
        price_line(
            quantity=0,
            material_each=Decimal(1),
            minutes=(),
            setup_minutes=Decimal(0),
            rates=RATES,
        )
