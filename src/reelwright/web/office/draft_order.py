"""The order of the operations on the page of a draft: a number at each, and what is wrong."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.ends.order.laid_down import arranged
from reelwright.core.ends.order.operation import Operation
from reelwright.core.errors import Fault, UnreadableQuantity
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.trials.number_text import read_plain_number
from reelwright.shop.setups.ordering import laid_down, usual_operations, why_not_in_order

_FORM = "the form"
_MOST = 99
_ACCEPTED = "an order in which what comes first has the smaller number"


@dataclass(frozen=True, kw_only=True)
class OrderRow:
    """One operation as the page shows it; ``usual`` is its place when worked out."""

    key: str
    text: str
    because: str
    usual: int
    typed: str
    fault: str


@dataclass(frozen=True, kw_only=True)
class OrderTyped:
    """What the numbers come to: the order to keep (empty: the worked-out one), or the faults."""

    order: tuple[str, ...]
    faults: tuple[Fault, ...]


def key_of(code: str) -> str:
    """Return the name of the field at an operation."""
    return f"order_{code.replace(' ', '_')}"


def order_cells(cable: Cable, connector: Connector, order: Sequence[str]) -> dict[str, str]:
    """Return the numbers that the fields begin with: those of ``order``, else of the usual one."""
    operations = arranged(usual_operations(cable, connector), order)
    return {key_of(each.code): str(place) for place, each in enumerate(operations, start=1)}


def order_rows(
    cable: Cable, connector: Connector, cells: Mapping[str, str], faults: Mapping[str, str]
) -> list[OrderRow]:
    """Return the operations by the numbers that stand at them, so far as these can be read."""
    usual = usual_operations(cable, connector)
    rows = [
        OrderRow(
            key=key_of(each.code),
            text=each.text,
            because=_because(each, usual),
            usual=place,
            typed=cells.get(key_of(each.code), ""),
            fault=faults.get(key_of(each.code), ""),
        )
        for place, each in enumerate(usual, start=1)
    ]
    return sorted(rows, key=lambda row: _place(row.typed) or Decimal(row.usual))


def read_order(cable: Cable, connector: Connector, cells: Mapping[str, str]) -> OrderTyped:
    """Return the order typed, every number of it that cannot be, or why it cannot be carried out.

    Where no number was sent at all, as for a form without them, the worked-out order stands.
    """
    usual = usual_operations(cable, connector)
    typed = {each.code: cells.get(key_of(each.code), "").strip() for each in usual}
    if not any(typed.values()):
        return OrderTyped(order=(), faults=())
    places = {code: _place(told) for code, told in typed.items()}
    faults = list(_unreadable(usual, typed, places))
    if not faults:
        order = sorted(places, key=lambda code: places[code] or Decimal(0))
        against = why_not_in_order(cable, connector, order)
        texts = {each.code: each.text for each in usual}
        faults = [
            _fault(code, typed[code], told.removeprefix(f"{texts[code]}: "), _ACCEPTED)
            for code, told in against.items()
        ]
        if not faults:
            return OrderTyped(order=laid_down(cable, connector, order), faults=())
    return OrderTyped(order=(), faults=tuple(faults))


def lines_left_behind(typed: str) -> Fault:
    """Return what is told of steps in the shop's words that stayed while the order was changed."""
    return Fault(
        file=_FORM,
        row=None,
        field="steps",
        value=typed,
        problem="these lines still tell the order before",
        accepted="the lines in the new order, or none: the sheet then tells the operations itself",
    )


def _because(each: Operation, usual: Sequence[Operation]) -> str:
    """Why an operation stands where it does: what it needs, else why others need it."""
    own = [need.because for need in each.needs if need.must]
    others = [
        need.because
        for other in usual
        for need in other.needs
        if need.must and need.code == each.code
    ]
    return "; ".join(dict.fromkeys(own or others))


def _place(typed: str) -> Decimal | None:
    try:
        value = Decimal(repr(read_plain_number(typed.strip(), unit="")))
    except UnreadableQuantity:
        return None
    return value if 0 < value <= _MOST else None


def _unreadable(
    usual: Sequence[Operation], typed: Mapping[str, str], places: Mapping[str, Decimal | None]
) -> list[Fault]:
    accepted = f"a number above 0, at most {_MOST}, such as 2 or 2.5"
    faults, seen = [], dict[Decimal, str]()
    for each in usual:
        place, told = places[each.code], typed[each.code]
        if place is None:
            problem = f"“{told}” is no place in an order" if told else "nothing stands here"
            faults.append(_fault(each.code, told, problem, accepted))
        elif place in seen:
            problem = f"{told} stands already at: {seen[place]}"
            faults.append(
                _fault(each.code, told, problem, f"a number of its own, such as {told}.5")
            )
        else:
            seen[place] = each.text
    return faults


def _fault(code: str, value: str, problem: str, accepted: str) -> Fault:
    return Fault(
        file=_FORM,
        row=None,
        field=key_of(code),
        value=value,
        problem=problem,
        accepted=accepted,
    )
