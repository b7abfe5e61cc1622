"""Reels to the stock that a cut plan is made from; lots to the values that predictions take."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable

from reelwright.core.cutting.problem import ReelStock, Stretch
from reelwright.core.parts.cable import LossPoint, LotMeasure
from reelwright.core.parts.cable import Lot as LotValue
from reelwright.shop.reels.ledger import good_stretches
from reelwright.shop.reels.models import Lot
from reelwright.shop.reels.models import LotValue as Measured
from reelwright.shop.reels.selectors import ReelNow, lots, reels_now


def lot_value(row: Lot) -> LotValue:
    """Return the core value of a lot row; cable and measurements must be loaded with it.

    Of every value the newest measurement counts; a delay entered with the lot is the oldest.
    """
    newest = {(each.what, each.frequency_hz): each for each in row.measurements.all()}
    losses = sorted(
        (each for (what, _), each in newest.items() if what == Measured.LOSS),
        key=lambda each: each.frequency_hz,
    )

    def measured(what: str) -> LotMeasure | None:
        found = newest.get((what, None))
        if found is None:
            return None
        return LotMeasure(value=found.value, relative_uncertainty=found.relative_uncertainty)

    return LotValue(
        code=row.code,
        cable_code=row.cable.code,
        colour=row.colour,
        impedance_ohm=measured(Measured.IMPEDANCE),
        delay_s_per_m=measured(Measured.DELAY)
        or (
            None
            if row.delay_s_per_m is None or row.delay_relative_uncertainty is None
            else LotMeasure(
                value=row.delay_s_per_m, relative_uncertainty=row.delay_relative_uncertainty
            )
        ),
        capacitance_f_per_m=measured(Measured.CAPACITANCE),
        resistance_conductor_ohm_per_m=measured(Measured.CONDUCTOR),
        resistance_screen_ohm_per_m=measured(Measured.SCREEN),
        loss_points=tuple(
            LossPoint(frequency_hz=each.frequency_hz, loss_db_per_m=each.value) for each in losses
        ),
        # One spread for the curve: the least sure of its points.
        loss_relative_uncertainty=max((each.relative_uncertainty for each in losses), default=None),
    )


def lot_values() -> dict[str, LotValue]:
    """Return the core values of all lots by code; two queries."""
    return {row.code: lot_value(row) for row in lots()}


def reel_stock(reel: ReelNow, *, age_rank: int) -> ReelStock:
    """Return a reel as a plan takes it.

    Each stretch carries the uncertainty of the whole reel: where a flaw lies is known no better
    than how much is left.
    """
    return ReelStock(
        id=reel.code,
        item=reel.item,
        lot=reel.lot_code,
        location=reel.location or None,
        stretches=tuple(
            Stretch(
                start_mm=start,
                length_mm=length,
                standard_uncertainty_mm=reel.standard_uncertainty_mm,
            )
            for start, length in good_stretches(reel.length_mm, reel.flaws)
        ),
        age_rank=age_rank,
    )


def stock_for_plan(*, items: Iterable[str] | None = None) -> tuple[ReelStock, ...]:
    """Return all reels that hold something, by code; ``items`` as ``selectors.item_of`` names.

    ``age_rank`` counts the lots of one item from the oldest, those of one day by code.
    """
    wanted = None if items is None else set(items)
    held = [
        reel
        for reel in reels_now()
        if reel.length_mm > 0 and (wanted is None or reel.item in wanted)
    ]
    ages: dict[str, set[tuple[dt.date, str]]] = defaultdict(set)
    for reel in held:
        ages[reel.item].add((reel.lot_received_on, reel.lot_code))
    oldest_first = {item: sorted(each) for item, each in ages.items()}
    return tuple(
        reel_stock(
            reel,
            age_rank=oldest_first[reel.item].index((reel.lot_received_on, reel.lot_code)),
        )
        for reel in held
    )
