"""What leads say of a cable with a connector: written here, and read here as values.

The computed answer is never touched: whoever shows one shows both.
"""

import datetime
from dataclasses import dataclass

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.catalogue.models import CableType, ConnectorType
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reasons import kept_reason
from reelwright.shop.setups.models import FitOverride
from reelwright.shop.setups.states import FitAnswer
from reelwright.shop.transactions import write_transaction

REASON_AT_MOST = 300
"""Characters of a reason."""


@dataclass(frozen=True, kw_only=True)
class FitSaid:
    """One thing a lead said of a pair."""

    answer: FitAnswer
    reason: str
    said_on: datetime.date
    said_by: str


@write_transaction()
def fit_override_record(
    *,
    by: Person,
    cable_code: str,
    connector_code: str,
    answer: str,
    reason: str,
    on: datetime.date,
) -> None:
    """Write down what a lead says of a pair; "as computed" takes back what was said before.

    Raises ShopRuleBroken ``not_allowed``, ``answer_unknown``, ``reason_missing``,
    ``reason_long``, ``nothing_to_take_back``; UnknownCode.
    """
    require_may(by, Action.RELEASE_SETUPS)
    if answer not in list(FitAnswer):
        raise ShopRuleBroken(
            "answer_unknown", f"Accepted: {', '.join(FitAnswer)}.", field="answer", answer=answer
        )
    told = kept_reason(reason, ask="Say why: what was tried or seen.", at_most=REASON_AT_MOST)
    cable = CableType.objects.filter(code=cable_code).first()
    if cable is None:
        raise UnknownCode(kind="cable", code=cable_code)
    connector = ConnectorType.objects.filter(code=connector_code).first()
    if connector is None:
        raise UnknownCode(kind="connector", code=connector_code)
    if answer == FitAnswer.AS_COMPUTED and (cable_code, connector_code) not in fit_overrides():
        raise ShopRuleBroken(
            "nothing_to_take_back",
            f"Nothing is said of {cable_code} with {connector_code}: the computed answer stands.",
            field="answer",
        )
    FitOverride.objects.create(
        cable=cable,
        connector=connector,
        answer=FitAnswer(answer).value,
        reason=told,
        said_on=on,
        said_by=by,
    )


def fit_overrides() -> dict[tuple[str, str], FitSaid]:
    """Return what stands by (cable code, connector code); what was taken back is left out."""
    rows = FitOverride.objects.select_related("cable", "connector", "said_by").order_by("pk")
    newest = {(row.cable.code, row.connector.code): _said(row) for row in rows}
    return {pair: said for pair, said in newest.items() if said.answer is not FitAnswer.AS_COMPUTED}


def fit_override_history(cable_code: str, connector_code: str) -> tuple[FitSaid, ...]:
    """Return all that was ever said of a pair, newest first."""
    rows = FitOverride.objects.filter(
        cable__code=cable_code, connector__code=connector_code
    ).select_related("said_by")
    return tuple(_said(row) for row in rows.order_by("-pk"))


def _said(row: FitOverride) -> FitSaid:
    return FitSaid(
        answer=FitAnswer(row.answer),
        reason=row.reason,
        said_on=row.said_on,
        said_by=row.said_by.display_name,
    )
