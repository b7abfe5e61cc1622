"""Checks of ends as they are shown: dimensions as a drawing has them."""

from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Check
from reelwright.shop.day.judging.run_judged import check_row
from reelwright.shop.orders.answer import CheckRow
from reelwright.shop.setups.shown.blades import BladesView


def dimension_row(check: Check) -> CheckRow:
    """Return a check as it is shown; dimensions in millimetres, not in the unit that suits."""
    row = check_row(check)
    if check.unit != "mm":
        return row
    value, limit, margin = (
        show_dimension(each / 1e3) if isinstance(each, float) else ""
        for each in (check.value, check.limit, check.margin)
    )
    return CheckRow(
        name=row.name,
        outcome=row.outcome,
        value=value,
        limit=limit,
        margin=margin,
        sentence=row.sentence,
        source=row.source,
    )


def strip_checks(blades: BladesView | None) -> tuple[CheckRow, ...]:
    """Return what an end asks of its strip, as the table of checks shows it."""
    return () if blades is None else tuple(map(dimension_row, blades.checks))
