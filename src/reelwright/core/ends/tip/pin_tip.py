"""Where the tip of a pin lands in its window: the stack of one pair with its set-up."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.core.ends.stack import (
    LinearStack,
    Simulated,
    Window,
    simulate,
    worth_working_on,
)
from reelwright.core.ends.strip.plan import StripPlan
from reelwright.core.ends.tip.checks import check_tip
from reelwright.core.ends.tip.parts import Practice, TipParts, tip_parts
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.mating_face import mating_face
from reelwright.core.quantities.show import show_dimension, show_number
from reelwright.core.statistics.capability import CAPABLE_RATIO
from reelwright.core.statistics.normal import chance_above
from reelwright.core.verdicts import Reason, Source, Verdict


@dataclass(frozen=True, kw_only=True)
class PinTip:
    """Where the tip lands, in metres in front of the reference plane, and what to do about it.

    ``stack`` holds what is always there; ``drawn`` adds to it the pins that a conductor which is
    too long stands off (``bottoming_chance`` [1]; None where the end has no barrel). A pin is
    accepted from ``gauge_least_m`` to ``gauge_most_m``: the window, drawn in by what the gauge may
    be off; both None where nothing is left of it. ``worth`` names the one thing to work on.
    """

    window: Window
    window_source: Source
    stack: LinearStack
    drawn: Simulated
    bottoming_chance: float | None
    growth_most_m: float | None
    gauge_least_m: float | None
    gauge_most_m: float | None
    worth: str
    verdict: Verdict


def judge_pin_tip(
    cable: Cable,
    connector: Connector,
    *,
    strip: StripPlan,
    pin_across_flats_m: float | None,
    practice: Practice,
    growth: MeasuredGrowth | None = None,
    draw_count: int,
    seed: int,
) -> PinTip | Reason:
    """Return where the pins of a set-up land, or the reason why that cannot be told.

    Crimped: shoulder to tip − plane to seat, by hand, with the dielectric's creep and the growth of
    the pin in the crimp, of which anything from none to all is taken to go forwards until pins
    enough were measured. Compressed: bare conductor − floor to plane. Geometry;
    ``docs/methods/pin-tip.md``.
    """
    window = tip_window(connector)
    if isinstance(window, Reason):
        return window
    parts = tip_parts(
        cable,
        connector,
        strip=strip,
        pin_across_flats_m=pin_across_flats_m,
        practice=practice,
        growth=growth,
    )
    if isinstance(parts, Reason):
        return parts
    held, source = window
    stack = LinearStack(contributors=parts.contributors)
    drawn = _draw(parts, stack, window=held, draw_count=draw_count, seed=seed)
    bottoming = _bottoming_chance(parts)
    inset_m = practice.gauge.tolerance_m
    gauges = held.width > 2 * inset_m
    return PinTip(
        window=held,
        window_source=source,
        stack=stack,
        drawn=drawn,
        bottoming_chance=bottoming,
        growth_most_m=parts.growth_most_m,
        gauge_least_m=held.low + inset_m if gauges else None,
        gauge_most_m=held.high - inset_m if gauges else None,
        worth=_worth(stack, held),
        verdict=Verdict(
            checks=check_tip(
                stack=stack,
                drawn=drawn,
                window=held,
                window_source=source,
                bottoming_chance=bottoming,
                parts=parts,
            )
        ),
    )


def _worth(stack: LinearStack, window: Window) -> str:
    cpk = stack.cpk(window)
    if cpk >= CAPABLE_RATIO:
        return f"nothing: Cpk {show_number(cpk, decimals=2)} is above the aim of {CAPABLE_RATIO}"
    return worth_working_on(stack, window, show=show_dimension)


def tip_window(connector: Connector) -> tuple[Window, Source] | Reason:
    """Return where the tip may lie [m] and who says so: the drawing, else the mating face."""
    drawing, face = connector.drawing, mating_face(connector)
    if drawing is not None and drawing.tip_least_m is not None and drawing.tip_most_m is not None:
        return Window(low=drawing.tip_least_m, high=drawing.tip_most_m), drawing.source
    tip = None if face is None else face.tip
    if tip is None or tip.least_m is None or tip.most_m is None:
        return Reason(
            code="pin_tip_not_computed",
            sentence=(
                f"neither the drawing of {connector.code} nor its mating face "
                f"({connector.mating}) says where the tip may lie: not computed"
            ),
        )
    return Window(low=tip.least_m, high=tip.most_m), tip.source


def _draw(
    parts: TipParts, stack: LinearStack, *, window: Window, draw_count: int, seed: int
) -> Simulated:
    if parts.conductor is None or parts.barrel is None:
        return simulate(stack.contributors, window=window, draw_count=draw_count, seed=seed)
    weights = np.array([each.sensitivity for each in stack.contributors])

    def outcome(values: NDArray[np.float64]) -> NDArray[np.float64]:
        # A conductor longer than the barrel is deep holds the pin off by the difference.
        proud: NDArray[np.float64] = np.maximum(0.0, values[-2] - values[-1])
        placed: NDArray[np.float64] = weights @ values[:-2]
        return placed + proud

    return simulate(
        (*stack.contributors, parts.conductor, parts.barrel),
        window=window,
        draw_count=draw_count,
        seed=seed,
        outcome=outcome,
    )


def _bottoming_chance(parts: TipParts) -> float | None:
    if parts.conductor is None or parts.barrel is None:
        return None
    longer_m = parts.conductor.mean - parts.barrel.mean
    deviation_m = float(np.hypot(parts.conductor.deviation, parts.barrel.deviation))
    if deviation_m == 0:
        return 1.0 if longer_m > 0 else 0.0
    return chance_above(limit=0.0, mean=longer_m, deviation=deviation_m)
