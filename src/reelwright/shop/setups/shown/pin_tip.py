"""What the set-up page shows of the pin's tip."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.core.ends.strip.plan import StripPlan
from reelwright.core.ends.tip.parts import COMMON_PRACTICE
from reelwright.core.ends.tip.pin_tip import PinTip, judge_pin_tip
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Reason
from reelwright.drawings.tip import TipPart, TipView, draw_tip, tip_table
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.to_core import strip_value

_DRAWS = 100_000
_SEED = 61169
"""Any fixed number: the page shows the same share each time it is opened."""


def pin_tip_view(
    sheet: SetUpSheet, cable: Cable, connector: Connector, *, growth: MeasuredGrowth | None
) -> Mapping[str, Any] | None:
    """Return the section's content; ``None``: this kind of end has no pin that could land wrong.

    ``growth``: of the pins of this revision that were measured before and after.

    ``missing`` alone where it is not computed, with what is missing.
    """
    if connector.method not in (Method.CRIMP_CRIMP, Method.COMPRESSION):
        return None
    strip = strip_value(sheet)
    if not isinstance(strip, StripPlan):
        return {"missing": "the set-up does not give its strip yet: not computed"}
    found = judge_pin_tip(
        cable,
        connector,
        strip=strip,
        pin_across_flats_m=_metres(sheet.numbers.pin_die_mm),
        practice=COMMON_PRACTICE,
        growth=growth,
        draw_count=_DRAWS,
        seed=_SEED,
    )
    if isinstance(found, Reason):
        return {"missing": found.sentence}
    view = _drawn(sheet, found)
    named = {check.name: check for check in found.verdict.checks}
    gauge = None
    if found.gauge_least_m is not None and found.gauge_most_m is not None:
        gauge = f"{show_dimension(found.gauge_least_m)} to {show_dimension(found.gauge_most_m)}"
    return {
        "outcome": found.verdict.outcome,
        "headline": named["pins outside the window"].sentence,
        "checks": [each for each in found.verdict.checks if each.name != "pins outside the window"],
        "window": f"{show_dimension(found.window.low)} to {show_dimension(found.window.high)}",
        "window_source": found.window_source,
        "gauge": gauge,
        "gauge_source": COMMON_PRACTICE.gauge.source,
        "worth": found.worth,
        "svg": draw_tip(view),
        "rows": tip_table(view),
        "sources": sorted({str(each.source) for each in found.stack.contributors}),
    }


def _drawn(sheet: SetUpSheet, tip: PinTip) -> TipView:
    stack = tip.stack
    shares = dict(zip(stack.contributors, stack.spread_shares, strict=True))
    # The sum's own mean, unless pins that are held off move the drawn one beyond its uncertainty.
    held_off = abs(tip.drawn.mean - stack.mean) > 4 * tip.drawn.mean_uncertainty
    ranked = sorted(stack.contributors, key=lambda each: -shares[each])
    return TipView(
        title=f"Where the pin tip of {sheet.name} lands",
        least_m=tip.window.low,
        most_m=tip.window.high,
        mean_m=tip.drawn.mean if held_off else stack.mean,
        worst_least_m=stack.mean - stack.worst_case,
        worst_most_m=stack.mean + stack.worst_case,
        shares_from_m=tip.drawn.histogram_low,
        shares_to_m=tip.drawn.histogram_high,
        shares=tip.drawn.histogram,
        parts=tuple(
            TipPart(
                name=each.name,
                tolerance_m=each.tolerance,
                spread_share=shares[each],
                keeper=str(each.keeper),
            )
            for each in ranked
        ),
    )


def _metres(value_mm: Decimal | None) -> float | None:
    return None if value_mm is None else float(value_mm) / 1e3
