"""Every write of customers, orders and answers."""

import datetime as dt
import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Max

from reelwright.core.errors import Fault, InputFaults, ShopRuleBroken
from reelwright.shop.orders.answer import LineAnswer
from reelwright.shop.orders.columns import COLUMNS, ReadLine
from reelwright.shop.orders.models import (
    Answer,
    Customer,
    CustomerDetails,
    LineState,
    Order,
    OrderLine,
)
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.transactions import write_transaction


@dataclass(frozen=True, kw_only=True)
class KnownLines:
    """Which lines of a file are new, and which stand in the books already, unchanged."""

    new: tuple[ReadLine, ...]
    known: tuple[OrderLine, ...]


def line_digest(cells: Mapping[str, str]) -> str:
    """Return the digest of a line's columns; spaces around and between words do not count."""
    canonical = {column: " ".join(cells.get(column, "").split()) for column in COLUMNS}
    # The number a line got by its place in the file is no content of it.
    del canonical["line"]
    # Columns that came later: a line that leaves them empty is the line it was before them.
    for column in ("adapters", "temperature"):
        if not canonical[column]:
            del canonical[column]
    return hashlib.sha256(json.dumps(canonical, sort_keys=True).encode()).hexdigest()


def lines_sort_out(*, file: str, lines: Iterable[ReadLine]) -> KnownLines:
    """Return which lines are new; raise InputFaults where a known number brings other content.

    A write transaction must be open, so that nobody enters the same order meanwhile.
    """
    new: list[ReadLine] = []
    known: list[OrderLine] = []
    faults: list[Fault] = []
    wanted = list(lines)
    books = _books({line.order for line in wanted})
    for line in wanted:
        found = books.get((line.customer.casefold(), line.order, line.number))
        if found is None:
            new.append(line)
        elif found.digest == line_digest(line.cells):
            known.append(found)
        else:
            faults.append(_other_content(file, line, found))
    if faults:
        raise InputFaults(faults)
    return KnownLines(new=tuple(new), known=tuple(known))


def _books(orders: Iterable[str]) -> dict[tuple[str, str, int], OrderLine]:
    rows = OrderLine.objects.filter(order__number__in=set(orders)).select_related(
        "order__customer__details"
    )
    return {
        (row.order.customer.details.name.casefold(), row.order.number, row.number): row
        for row in rows
        if hasattr(row.order.customer, "details")
    }


def _other_content(file: str, line: ReadLine, found: OrderLine) -> Fault:
    differs = [
        column
        for column in COLUMNS
        if column != "line"
        and found.cells.get(column, "").split() != line.cells.get(column, "").split()
    ]
    was = "; ".join(f"{column} was {found.cells.get(column, '')!r}" for column in differs)
    now = "; ".join(f"{column} is {line.cells[column]!r}" for column in differs)
    return Fault(
        file=file,
        row=line.row,
        field=", ".join(differs),
        value=f"{line.order}/{line.number}",
        problem=(
            f"order {line.order} line {line.number} of {line.customer} was taken in on "
            f"{found.order.received_on:%Y-%m-%d} with other content: {was}; now {now}"
        ),
        accepted="the same content again, or a line number of its own for what is new",
    )


def line_take(*, by: Person, line: ReadLine, answer: LineAnswer, on: dt.date) -> OrderLine:
    """Enter one new line of an order with the answer it got.

    Raises ShopRuleBroken ``not_allowed``. A write transaction must be open.
    """
    require_may(by, Action.TAKE_ORDERS)
    order, _ = Order.objects.get_or_create(
        customer=_customer(line.customer), number=line.order, defaults={"received_on": on}
    )
    row = OrderLine.objects.create(
        order=order,
        number=line.number,
        cells=dict(line.cells),
        digest=line_digest(line.cells),
        state=answer.state,
    )
    _append(row, answer, on)
    return row


def _customer(name: str) -> Customer:
    there = CustomerDetails.objects.select_related("customer")
    # Databases disagree on the small and capital letters of other alphabets.
    rows = there.filter(name__iexact=name) if name.isascii() else there.all()
    for details in rows:
        if details.name.casefold() == name.casefold():
            return details.customer
    last = Customer.objects.aggregate(last=Max("number"))["last"] or 0
    customer = Customer.objects.create(number=last + 1)
    CustomerDetails.objects.create(customer=customer, name=name)
    return customer


def _append(row: OrderLine, answer: LineAnswer, on: dt.date) -> None:
    last = row.answers.aggregate(last=Max("sequence"))["last"] or 0
    Answer.objects.create(
        line=row, sequence=last + 1, state=answer.state, content=answer.to_json(), answered_on=on
    )


def answer_again(*, by: Person, line_id: int, old: str, answer: LineAnswer, on: dt.date) -> None:
    """Give a line another answer than the last, which must have been ``old``.

    Raises:
        ShopRuleBroken: ``not_allowed``; ``answered_meanwhile`` where its state is another by now.
    """
    require_may(by, Action.TAKE_ORDERS)
    with write_transaction():
        moved = OrderLine.objects.filter(pk=line_id, state=old).update(state=answer.state)
        row = OrderLine.objects.get(pk=line_id)
        if moved != 1:
            raise ShopRuleBroken(
                "answered_meanwhile",
                f"Line {row} was {LineState(row.state).label} meanwhile; look at it again.",
            )
        _append(row, answer, on)


def customer_erase(*, by: Person, number: int, when: dt.datetime) -> None:
    """Erase who a customer was; their orders stand on under the number.

    Raises ShopRuleBroken ``not_allowed``, ``no_customer``.
    """
    require_may(by, Action.KEEP_PEOPLE)
    with write_transaction():
        erased = Customer.objects.filter(number=number, erased_at=None).update(erased_at=when)
        if erased != 1:
            raise ShopRuleBroken("no_customer", f"There is no customer {number} to erase.")
        CustomerDetails.objects.filter(customer__number=number).delete()
        for line in OrderLine.objects.filter(order__customer__number=number):
            cells = {**line.cells, "customer": f"C-{number:04d}", "typed": ""}
            OrderLine.objects.filter(pk=line.pk).update(cells=cells)
