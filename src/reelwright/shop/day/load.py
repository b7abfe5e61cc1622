"""The shelf of a day, read from the records in a handful of queries."""

import datetime as dt

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.parts.connector import Method
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.shop.catalogue import selectors as catalogue
from reelwright.shop.day.judging.judge import Habits
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import Vocabulary
from reelwright.shop.orders.selectors import lengths_written_before
from reelwright.shop.reels.selectors import reels_now
from reelwright.shop.reels.to_core import lot_values, stock_for_plan
from reelwright.shop.setups.selectors import (
    change_over_rule_on,
    family_times,
    newest_set_ups,
    released_set_ups,
)
from reelwright.shop.tools.to_core import wheel_on


def load_shelf(today: dt.date) -> Shelf:
    """Return what the workshop has and knows on a day."""
    connectors = catalogue.connectors()
    return Shelf(
        today=today,
        cables=catalogue.cables(),
        cable_terms=catalogue.cable_terms(),
        connectors=connectors,
        connector_terms=catalogue.connector_terms(),
        set_ups=released_set_ups(),
        unreleased=newest_set_ups(),
        lots=lot_values(),
        reels=tuple(reels_now()),
        stock=stock_for_plan(),
        family_times=family_times(),
        change_over=change_over_rule_on(today),
        pricing=catalogue.pricing_on(today),
        wheel=wheel_on(today),
        vocabulary=Vocabulary(
            cables=catalogue.cable_words(),
            connectors=catalogue.connector_words(),
            light_connectors=frozenset(
                code for code, each in connectors.items() if each.method is Method.POLISH
            ),
        ),
    )


def load_habits() -> Habits:
    """Return in which units each customer wrote last."""
    units: dict[str, str] = {}
    for customer, texts in lengths_written_before().items():
        for text in texts:
            try:
                reading = read_length(text, context=LengthContext())
            except UnreadableQuantity:
                continue
            if reading.unit_written is not None:
                feet = reading.unit_written in ("ft", "in", "yd")
                units[customer] = "ft" if feet else "m"
    return Habits(units_before=units)
