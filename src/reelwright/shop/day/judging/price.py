"""The price of a line from the price list, the quoted minutes and the rates of the day."""

from decimal import Decimal

from reelwright.core.pricing.price import Rates, minutes_each, price_line
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import PriceRow
from reelwright.shop.setups.sheet import SetUpSheet

_MILLIMETRES = Decimal(1000)


def price_of(
    *,
    shelf: Shelf,
    cable_code: str,
    end_a: SetUpSheet,
    end_b: SetUpSheet,
    quantity: int,
    finished_mm: int,
    extra_setup_minutes: Decimal,
) -> PriceRow | None:
    """Return the price, or None where no minutes are quoted for cables of this family."""
    cable = shelf.cables[cable_code]
    times = shelf.family_times.get(cable.family)
    if times is None:
        return None
    length_m = Decimal(finished_mm) / _MILLIMETRES
    pricing = shelf.pricing
    material = shelf.cable_terms[cable_code].price_per_m * length_m
    for end in (end_a, end_b):
        material += shelf.connector_terms[end.connector_code].price
    # The same line of machines is set once; another connector at the other end asks for a second
    # set of test adapters.
    setup = sum((Decimal(str(each)) for each in times.set_up_min.values()), Decimal(0))
    if end_a.connector_code != end_b.connector_code and times.set_up_min:
        setup += Decimal(shelf.change_over.test_adapters_s) / 60
    price = price_line(
        quantity=quantity,
        material_each=material,
        minutes=minutes_each(times.each, length_m=length_m),
        setup_minutes=setup + extra_setup_minutes,
        rates=Rates(
            currency=pricing.currency,
            labour_per_hour=pricing.labour_per_hour,
            order_handling=pricing.order_handling,
            first_pass_yield=pricing.first_pass_yield,
            margin=pricing.gross_margin,
        ),
    )
    return PriceRow(
        currency=price.currency,
        unit_price=str(price.unit_price),
        line_price=str(price.line_price),
        unit_cost=str(price.unit_cost),
        parts=tuple((part.cause, str(part.amount)) for part in price.parts),
    )
