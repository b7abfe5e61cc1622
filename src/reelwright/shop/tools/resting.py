"""Cavities laid to rest and put back into service, each time with its reason."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from django.db.models import F

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.tools.models import Cavity, CavityMove
from reelwright.shop.tools.services import require_reason
from reelwright.shop.transactions import write_transaction


@dataclass(frozen=True, kw_only=True)
class MoveNow:
    """One entry of a cavity's history."""

    on: dt.date
    into_service: bool
    serviced: bool
    closings_then: int
    reason: str
    by: str


def cavity_rest(*, by: Person, code: str, reason: str, on: dt.date) -> None:
    """Take a cavity out of service.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``not_in_service``; UnknownCode.
    """
    _move(by=by, code=code, reason=reason, on=on, back=False, serviced=False)


def cavity_return(*, by: Person, code: str, reason: str, on: dt.date, serviced: bool) -> None:
    """Put a cavity back; where it was ``serviced``, its count begins again and gaugings lapse.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``in_service``; UnknownCode.
    """
    _move(by=by, code=code, reason=reason, on=on, back=True, serviced=serviced)


def cavity_moves(code: str) -> tuple[MoveNow, ...]:
    """Return when a cavity rested and came back, newest first."""
    rows = CavityMove.objects.filter(cavity__code=code).select_related("by").order_by("-pk")
    return tuple(
        MoveNow(
            on=row.on,
            into_service=row.into_service,
            serviced=row.serviced,
            closings_then=row.closings_then,
            reason=row.reason,
            by=row.by.display_name,
        )
        for row in rows
    )


def _move(*, by: Person, code: str, reason: str, on: dt.date, back: bool, serviced: bool) -> None:
    require_may(by, Action.KEEP_TOOLS)
    told = require_reason(reason)
    now: dict[str, Any] = {"in_service": back}
    if serviced:
        now |= {"closings": 0, "services": F("services") + 1}
    with write_transaction():
        # The row is held from here on: closings booked meanwhile wait, and are counted once.
        cavity = Cavity.objects.select_for_update().filter(code=code).first()
        if cavity is None:
            raise UnknownCode(kind="cavity", code=code)
        if Cavity.objects.filter(pk=cavity.pk, in_service=not back).update(**now) != 1:
            raise ShopRuleBroken(
                "in_service" if back else "not_in_service",
                f"Cavity {code} is {'in service already' if back else 'not in service'}.",
                cavity_code=code,
            )
        CavityMove.objects.create(
            cavity=cavity,
            into_service=back,
            serviced=serviced,
            closings_then=cavity.closings,
            reason=told,
            by=by,
            on=on,
        )
