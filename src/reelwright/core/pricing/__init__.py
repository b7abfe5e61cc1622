"""What a line costs and is sold for."""

from reelwright.core.pricing.price import (
    LinePrice,
    MinutesRule,
    PricePart,
    Rates,
    StationMinutes,
    minutes_each,
    price_line,
    rush_surcharge,
)

__all__ = [
    "LinePrice",
    "MinutesRule",
    "PricePart",
    "Rates",
    "StationMinutes",
    "minutes_each",
    "price_line",
    "rush_surcharge",
]
