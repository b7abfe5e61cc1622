"""What is entered at the desk, one line at a time: other cables for a run, an order, an offer.

The fields of a page are the columns of an order file of one line, so that desk and file can never
read the same words differently.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.db.models import Max
from django.utils import timezone

from reelwright.core.advice.pareto import front
from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.core.parts.cable import Cable
from reelwright.core.signals.read import read_signal
from reelwright.shop.day.benches_planned import DAY_ENDS, DAY_STARTS
from reelwright.shop.day.judging.price import price_of
from reelwright.shop.day.judging.question import candidates
from reelwright.shop.day.judging.sets import extra_setup_minutes
from reelwright.shop.day.load import load_shelf
from reelwright.shop.day.services import line_accept
from reelwright.shop.orders.answer import ACCEPTED, PriceRow
from reelwright.shop.orders.columns import ReadLine, read_line
from reelwright.shop.orders.models import OrderLine
from reelwright.shop.orders.selectors import line_by_id
from reelwright.shop.people.models import Person, Workshop
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.transactions import write_transaction

DESK = "order desk"


@dataclass(frozen=True, kw_only=True)
class Alternative:
    """A cable that carries the run with both ends released: what is to spare, and its price.

    ``margin`` is in ``margin_unit``; None where what decides has no number. ``outcome`` is that of
    the whole verdict. None of them is beaten by another in price, margin, diameter and mass.
    """

    cable: Cable
    outcome: str
    margin: float | None
    margin_unit: str
    sentence: str
    price: PriceRow
    in_stock: bool


def benches_from(of: Workshop) -> dt.time | None:
    """Return the hour from which the benches still have time today.

    None stands for a whole day: in the demo, which stands still, and outside working hours, when
    what is planned is for the next morning.
    """
    if of.fixed_today is not None:
        return None
    hour = timezone.localtime(timezone=ZoneInfo(of.time_zone)).time().replace(tzinfo=None)
    return hour if DAY_STARTS < hour < DAY_ENDS else None


def read_cells(cells: Mapping[str, str], *, on: dt.date) -> ReadLine:
    """Return a line read from its columns with the catalogue's words; raise InputFaults."""
    return read_line(name=DESK, cells=cells, vocabulary=load_shelf(on).vocabulary)


def alternatives(line: ReadLine, *, on: dt.date) -> tuple[Alternative, ...]:
    """Return the cables worth choosing from that carry the run and have a price, cheapest first."""
    signal = read_signal(line.signal_text).signal
    if signal is None:
        return ()
    shelf = load_shelf(on)
    found = []
    for each in candidates(line, signal, shelf):
        price = price_of(
            shelf=shelf,
            cable_code=each.cable.code,
            end_a=each.end_a,
            end_b=each.end_b,
            quantity=line.quantity,
            finished_mm=round(line.length_m * 1000),
            extra_setup_minutes=extra_setup_minutes(line),
        )
        if price is None:
            continue
        main = each.judgement.verdict.checks[0]
        found.append(
            Alternative(
                cable=each.cable,
                outcome=str(each.judgement.verdict.outcome),
                margin=main.margin,
                margin_unit=main.unit,
                sentence=each.judgement.sentence,
                price=price,
                in_stock=bool(shelf.colours_in_stock(each.cable.code)),
            )
        )
    found.sort(key=lambda each: (float(each.price.unit_price), each.cable.code))
    return front(found, _costs)


def _costs(of: Alternative) -> tuple[float, ...]:
    """Price, margin turned round, outside diameter [m], mass [kg/m]."""
    return (
        float(of.price.unit_price),
        float("inf") if of.margin is None else -of.margin,
        of.cable.jacket.outside_diameter_m,
        of.cable.mass_kg_per_m,
    )


def order_take(
    *, by: Person, cells: Mapping[str, str], on: dt.date, now: dt.time | None = None
) -> int:
    """Enter one line typed at the desk, answer and plan it; return the line's id.

    The same content again changes nothing. Raises InputFaults; ShopRuleBroken ``not_allowed``.
    """
    line = read_cells(cells, on=on)
    result = line_accept(by=by, line=line, on=on, now=now)
    # A run made at the desk holds this line alone.
    return OrderLine.objects.get(day_runs=result.run_id).pk


def offer_take_up(
    *, by: Person, line_id: int, offer: int, on: dt.date, now: dt.time | None = None
) -> int:
    """Enter the line that an offer describes, behind the line it was made for; return its id.

    ``offer`` counts from 1.

    Raises:
        ShopRuleBroken: ``not_allowed``; ``offer_taken`` where one was taken up already;
            ``offer_moot`` where the line itself is accepted; ``offer_open`` where more must be
            known first.
        UnknownCode: no such line, or no such offer on it.
    """
    require_may(by, Action.TAKE_ORDERS)
    with write_transaction():
        view = line_by_id(line_id)
        row = OrderLine.objects.select_for_update().get(pk=line_id)
        taken = OrderLine.objects.filter(follows=row).select_related("order").first()
        if taken is not None:
            raise ShopRuleBroken(
                "offer_taken", f"An offer for {view.label} was taken up already, as line {taken}."
            )
        if view.state == ACCEPTED:
            raise ShopRuleBroken(
                "offer_moot", f"{view.label} is accepted as it stands; no offer replaces it."
            )
        if not 1 <= offer <= len(view.answer.offers):
            raise UnknownCode(kind=f"offer for {view.label}", code=str(offer))
        cells = view.answer.offers[offer - 1].cells
        if cells is None:
            raise ShopRuleBroken(
                "offer_open",
                "More must be known before this offer can be entered: see the questions.",
            )
        last = OrderLine.objects.filter(order=row.order_id).aggregate(last=Max("number"))["last"]
        entered = order_take(by=by, cells={**cells, "line": str(last + 1)}, on=on, now=now)
        OrderLine.objects.filter(pk=entered).update(follows=row)
    return entered
