"""Every read of customers, orders and answers. Values come out, never rows."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Q, QuerySet

from reelwright.core.errors import UnknownCode
from reelwright.shop.orders.answer import LineAnswer
from reelwright.shop.orders.models import Answer, OrderLine


@dataclass(frozen=True, kw_only=True)
class LineView:
    """One order line as it stands, with the last answer."""

    id: int
    order: str
    number: int
    customer_number: int
    customer_name: str
    received_on: dt.date
    cells: Mapping[str, str]
    state: str
    answer: LineAnswer

    @property
    def label(self) -> str:
        """Order and line, as the shop says it: O-04, or O-04/2 from the second line on."""
        return self.order if self.number == 1 else f"{self.order}/{self.number}"

    @property
    def customer_code(self) -> str:
        """The customer by number, for papers that leave the office."""
        return f"C-{self.customer_number:04d}"


def _views(rows: QuerySet[OrderLine]) -> list[LineView]:
    found = list(
        rows.select_related("order__customer__details").order_by(
            "order__received_on", "order__number", "number"
        )
    )
    last: dict[int, Answer] = {}
    for answer in Answer.objects.filter(line__in=[row.pk for row in found]).order_by("sequence"):
        last[answer.line_id] = answer
    return [
        LineView(
            id=row.pk,
            order=row.order.number,
            number=row.number,
            customer_number=row.order.customer.number,
            customer_name=(
                row.order.customer.details.name
                if hasattr(row.order.customer, "details")
                else f"C-{row.order.customer.number:04d}"
            ),
            received_on=row.order.received_on,
            cells=row.cells,
            state=row.state,
            answer=LineAnswer.from_json(last[row.pk].content),
        )
        for row in found
    ]


def lines_by_id(ids: Iterable[int]) -> list[LineView]:
    """Return lines by their ids, in the order of their orders."""
    return _views(OrderLine.objects.filter(pk__in=list(ids)))


def line_by_id(line_id: int) -> LineView:
    """Return one line. Raises UnknownCode."""
    found = _views(OrderLine.objects.filter(pk=line_id))
    if not found:
        raise UnknownCode(kind="order line", code=str(line_id))
    return found[0]


def lines_received(*, on: dt.date) -> list[LineView]:
    """Return the lines of the orders received on a day."""
    return _views(OrderLine.objects.filter(order__received_on=on))


def followers_of(line_ids: Iterable[int]) -> dict[int, tuple[int, str]]:
    """Return, for each line whose offer was taken up, the id and label of the line that did."""
    rows = OrderLine.objects.filter(follows__in=list(line_ids)).select_related("order")
    return {
        row.follows_id: (row.pk, f"{row.order.number}/{row.number}")
        for row in rows.order_by("-pk")
        if row.follows_id is not None
    }


def lines_matching(text: str, *, at_most: int = 50) -> list[LineView]:
    """Return lines whose order number, customer or typed text holds ``text``."""
    wanted = text.strip()
    if not wanted:
        return []
    rows = OrderLine.objects.filter(
        Q(order__number__icontains=wanted)
        | Q(order__customer__details__name__icontains=wanted)
        | Q(cells__typed__icontains=wanted)
    )
    return _views(rows)[:at_most]


def lengths_written_before() -> dict[str, list[str]]:
    """Return what each customer, by name, wrote as lengths so far, oldest first."""
    written: dict[str, list[str]] = {}
    rows = OrderLine.objects.select_related("order__customer__details").order_by("pk")
    for row in rows:
        if hasattr(row.order.customer, "details"):
            written.setdefault(row.order.customer.details.name, []).append(
                row.cells.get("length", "")
            )
    return written
