"""Every write of the bins."""

import datetime as dt
from decimal import Decimal

from django.db.models import Sum

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.bins.models import BinItem, BinMovement, MovementKind, PartKind
from reelwright.shop.catalogue.models import ConnectorType
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.transactions import write_transaction


def bin_item_add(
    *,
    by: Person,
    code: str,
    name: str,
    kind: PartKind | str,
    unit_price: Decimal,
    connector_code: str | None = None,
    location: str = "",
) -> BinItem:
    """Enter a kind of counted part; a connector is given with its catalogue code.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``code_bad``, ``kind_unknown``, ``price_bad``,
            ``connector_needed``, ``item_exists``. UnknownCode: of the connector.
    """
    require_may(by, Action.KEEP_CATALOGUE)
    if not code.strip() or len(code) > 40 or not name.strip():
        raise ShopRuleBroken("code_bad", "A part needs a code of up to 40 characters and a name.")
    if kind not in PartKind.values:
        raise ShopRuleBroken(
            "kind_unknown",
            f"{kind!r} is no kind of part. Accepted: {', '.join(PartKind.values)}.",
        )
    if not unit_price.is_finite() or unit_price < 0:
        raise ShopRuleBroken("price_bad", f"A price of {unit_price} is none. Accepted: 0 or more.")
    if (kind == PartKind.CONNECTOR) != (connector_code is not None):
        raise ShopRuleBroken(
            "connector_needed",
            "A connector's bin names the connector of the catalogue; no other bin does.",
        )
    with write_transaction():
        connector = None
        if connector_code is not None:
            connector = ConnectorType.objects.filter(code=connector_code).first()
            if connector is None:
                raise UnknownCode(kind="connector", code=connector_code)
        taken = BinItem.objects.filter(code=code).exists() or (
            connector is not None and BinItem.objects.filter(connector=connector).exists()
        )
        if taken:
            raise ShopRuleBroken(
                "item_exists", f"There is a bin of {code} already.", part_code=code
            )
        return BinItem.objects.create(
            code=code,
            name=name,
            kind=kind,
            connector=connector,
            unit_price=unit_price,
            location=location,
        )


def bin_receive(
    *, by: Person, code: str, quantity: int, on: dt.date, reason: str = ""
) -> BinMovement:
    """Book parts that came in.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``quantity_bad``. UnknownCode: of the part.
    """
    require_may(by, Action.RECEIVE)
    _require_quantity(quantity, least=1)
    with write_transaction():
        item = _locked(code)
        return BinMovement.objects.create(
            item=item, kind=MovementKind.RECEIVED, change=quantity, by=by, on=on, reason=reason
        )


def bin_take(
    *, by: Person, code: str, quantity: int, on: dt.date, used_for: str = "", reason: str = ""
) -> BinMovement:
    """Book parts that were used or thrown away; never more than there are.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``quantity_bad``, ``not_enough``.
        UnknownCode: of the part.
    """
    require_may(by, Action.BOOK_WORK)
    _require_quantity(quantity, least=1)
    with write_transaction():
        item = _locked(code)
        _require_enough(item, quantity)
        return BinMovement.objects.create(
            item=item,
            kind=MovementKind.TAKEN,
            change=-quantity,
            used_for=used_for,
            by=by,
            on=on,
            reason=reason,
        )


def bin_count(*, by: Person, code: str, counted: int, on: dt.date, reason: str) -> BinMovement:
    """Set the count to what was found.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``quantity_bad``, ``reason_missing``.
        UnknownCode: of the part.
    """
    require_may(by, Action.COUNT)
    _require_quantity(counted, least=0)
    _require_reason(reason)
    with write_transaction():
        item = _locked(code)
        return BinMovement.objects.create(
            item=item,
            kind=MovementKind.COUNTED,
            change=counted - _quantity(item),
            by=by,
            on=on,
            reason=reason,
        )


def movement_reverse(*, by: Person, movement: int, on: dt.date, reason: str) -> BinMovement:
    """Take back a movement by a second one that says why; ``movement`` is its number.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``reason_missing``, ``already_reversed``,
            ``is_reversal``, ``counted_since``, ``not_enough``. UnknownCode: no such movement.
    """
    require_may(by, Action.CORRECT)
    _require_reason(reason)
    with write_transaction():
        found = BinMovement.objects.filter(pk=movement).select_related("item").first()
        if found is None:
            raise UnknownCode(kind="movement", code=str(movement))
        item = _locked(found.item.code)
        if found.reverses_id is not None:
            raise ShopRuleBroken(
                "is_reversal", "A reversal is not reversed: book what is right instead."
            )
        if BinMovement.objects.filter(reverses=found).exists():
            raise ShopRuleBroken("already_reversed", "This movement was reversed already.")
        if BinMovement.objects.filter(
            item=item, kind=MovementKind.COUNTED, pk__gt=found.pk, reversed_by__isnull=True
        ).exists():
            raise ShopRuleBroken(
                "counted_since",
                f"{item.code} was counted after this movement, and the count holds what it did. "
                "Reverse the count first, or count again.",
            )
        _require_enough(item, found.change)
        return BinMovement.objects.create(
            item=item,
            kind=MovementKind.REVERSAL,
            change=-found.change,
            by=by,
            on=on,
            reason=reason,
            reverses=found,
        )


def _locked(code: str) -> BinItem:
    """Return the part, locked until the write transaction ends; one must be open."""
    item = BinItem.objects.select_for_update(of=("self",)).filter(code=code).first()
    if item is None:
        raise UnknownCode(kind="part", code=code)
    return item


def _quantity(item: BinItem) -> int:
    return BinMovement.objects.filter(item=item).aggregate(sum=Sum("change"))["sum"] or 0


def _require_enough(item: BinItem, quantity: int) -> None:
    there = _quantity(item)
    if quantity > there:
        raise ShopRuleBroken(
            "not_enough",
            f"There are {there} of {item.code} by the book; {quantity} cannot be taken. "
            "If they were there, count the bin first.",
            part_code=item.code,
            on_hand=there,
            asked=quantity,
        )


def _require_quantity(quantity: int, *, least: int) -> None:
    if not isinstance(quantity, int) or isinstance(quantity, bool) or quantity < least:
        raise ShopRuleBroken(
            "quantity_bad", f"{quantity!r} is no count. Accepted: a whole number, {least} or more."
        )


def _require_reason(reason: str) -> None:
    if not reason.strip() or len(reason) > 200:
        raise ShopRuleBroken("reason_missing", "Say why, in 1 to 200 characters.")
