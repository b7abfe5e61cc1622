"""The price of a line: what its set-up, order, material, minutes and failures cost, and margin.

    run cost = quantity / yield x (material + minutes x rate)
    unit cost = (set-up + order handling + run cost) / quantity
    unit price = unit cost / (1 − margin)

Common practice, no published source. Cost counts what fails: a yield of 0.97 makes 1/0.97 cables
for each good one. The discount for quantity is nothing but the set-up and the order shared.
"""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count, require_text

CENT = Decimal("0.01")
MINUTES_PER_HOUR = 60


@dataclass(frozen=True, kw_only=True)
class StationMinutes:
    """Minutes of one cable at one station."""

    station: str
    minutes: Decimal

    def __post_init__(self) -> None:
        require_text(self, "station")
        _require_decimal(self, "minutes", low=Decimal(0))


@dataclass(frozen=True, kw_only=True)
class MinutesRule:
    """Minutes of one cable at a station: a fixed part and a part for each metre."""

    station: str
    each_min: Decimal
    per_m_min: Decimal

    def __post_init__(self) -> None:
        require_text(self, "station")
        _require_decimal(self, "each_min", low=Decimal(0))
        _require_decimal(self, "per_m_min", low=Decimal(0))


def minutes_each(
    rules: tuple[MinutesRule, ...], *, length_m: Decimal
) -> tuple[StationMinutes, ...]:
    """Return the minutes of one cable of that length at each station of the rules."""
    return tuple(
        StationMinutes(station=rule.station, minutes=rule.each_min + rule.per_m_min * length_m)
        for rule in rules
    )


@dataclass(frozen=True, kw_only=True)
class Rates:
    """What the workshop reckons with. Money in ``currency``.

    ``first_pass_yield`` above 0, at most 1; ``margin`` is the share of the price that is left
    when the cost is paid, 0 or more and below 1.
    """

    currency: str
    labour_per_hour: Decimal
    order_handling: Decimal
    first_pass_yield: Decimal
    margin: Decimal

    def __post_init__(self) -> None:
        require_text(self, "currency")
        _require_decimal(self, "labour_per_hour", low=Decimal(0))
        _require_decimal(self, "order_handling", low=Decimal(0))
        _require_decimal(self, "first_pass_yield", low=Decimal(0), high=Decimal(1))
        _require_decimal(self, "margin", low=Decimal(0), high=Decimal(1))
        if self.first_pass_yield == 0:
            raise BadValue(
                owner="Rates", field="first_pass_yield", value=0, accepted="above 0, at most 1"
            )
        if self.margin == 1:
            raise BadValue(owner="Rates", field="margin", value=1, accepted="0 or more, below 1")


@dataclass(frozen=True, kw_only=True)
class PricePart:
    """What one cause puts into the price of the whole line."""

    cause: str
    amount: Decimal


@dataclass(frozen=True, kw_only=True)
class LinePrice:
    """The price of one line, in cents of ``currency``; the parts add up to ``line_price``.

    ``line_price`` is the quantity times the rounded unit price, as a customer would reckon it.
    """

    currency: str
    quantity: int
    unit_cost: Decimal
    unit_price: Decimal
    line_price: Decimal
    parts: tuple[PricePart, ...]


def price_line(
    *,
    quantity: int,
    material_each: Decimal,
    minutes: tuple[StationMinutes, ...],
    setup_minutes: Decimal,
    rates: Rates,
) -> LinePrice:
    """Return the price of ``quantity`` equal cables.

    ``material_each``: cable and connectors of one cable; ``minutes``: bench minutes of one
    cable by station; ``setup_minutes``: once for the line. Raises BadValue.
    """
    line = _Line(quantity=quantity, material_each=material_each, setup_minutes=setup_minutes)
    per_minute = rates.labour_per_hour / MINUTES_PER_HOUR
    setup = line.setup_minutes * per_minute
    stations = [(row.station, row.minutes * per_minute * line.quantity) for row in minutes]
    material = line.material_each * line.quantity
    good = material + sum((amount for _, amount in stations), Decimal(0))
    failures = good / rates.first_pass_yield - good
    cost = setup + rates.order_handling + good + failures
    unit_price = _cents(cost / line.quantity / (1 - rates.margin))
    line_price = unit_price * line.quantity
    shown = [
        PricePart(cause="material", amount=_cents(material)),
        *(PricePart(cause=station, amount=_cents(amount)) for station, amount in stations),
        PricePart(cause="set-up", amount=_cents(setup)),
        PricePart(cause="order handling", amount=_cents(rates.order_handling)),
        PricePart(cause="what fails and is made again", amount=_cents(failures)),
    ]
    # The margin takes the rounding, so that the parts a person adds up make the price.
    margin = line_price - sum((part.amount for part in shown), Decimal(0))
    return LinePrice(
        currency=rates.currency,
        quantity=line.quantity,
        unit_cost=_cents(cost / line.quantity),
        unit_price=unit_price,
        line_price=line_price,
        parts=(*shown, PricePart(cause="margin", amount=margin)),
    )


def rush_surcharge(
    *, extra_change_over_minutes: Decimal, disturbance: Decimal, rates: Rates
) -> Decimal:
    """Return what breaking into the running batch adds to a line: the minutes it costs all
    others, plus a flat sum for the disturbance. Never a share of the price."""
    extra = extra_change_over_minutes * rates.labour_per_hour / MINUTES_PER_HOUR
    return _cents(extra + disturbance)


@dataclass(frozen=True, kw_only=True)
class _Line:
    quantity: int
    material_each: Decimal
    setup_minutes: Decimal

    def __post_init__(self) -> None:
        require_count(self, "quantity", at_least=1)
        _require_decimal(self, "material_each", low=Decimal(0))
        _require_decimal(self, "setup_minutes", low=Decimal(0))


def _cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, rounding=ROUND_HALF_UP)


def _require_decimal(
    owner: object, field: str, *, low: Decimal, high: Decimal | None = None
) -> None:
    value = getattr(owner, field)
    accepted = f"a decimal of {low} or more" + ("" if high is None else f", at most {high}")
    if (
        not isinstance(value, Decimal)
        or not value.is_finite()
        or value < low
        or (high is not None and value > high)
    ):
        raise BadValue(
            owner=type(owner).__name__.lstrip("_"), field=field, value=value, accepted=accepted
        )
