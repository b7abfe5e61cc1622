"""The checks of a pin's tip against its window, each with its sentence."""

from collections.abc import Iterator

from reelwright.core.ends.dies.pin_growth import PINS_TO_MEASURE, MeasuredGrowth
from reelwright.core.ends.stack import LinearStack, Simulated, Window
from reelwright.core.ends.tip.parts import TipParts
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import (
    decimals_for,
    show_dimension,
    show_in,
    show_number,
    show_share,
)
from reelwright.core.statistics.capability import CAPABLE_RATIO
from reelwright.core.statistics.normal import chance_below
from reelwright.core.verdicts import Basis, Check, Outcome, Source

CAPABLE_SHARE = 2 * chance_below(limit=-3 * CAPABLE_RATIO, mean=0.0, deviation=1.0)
"""What a centred process of Cpk 1.33 leaves outside [1]: about 66 in a million, normal tails."""

_AIM = Source(text=f"aim of Cpk {CAPABLE_RATIO}", basis=Basis.COMMON_PRACTICE)


def check_tip(
    *,
    stack: LinearStack,
    drawn: Simulated,
    window: Window,
    window_source: Source,
    bottoming_chance: float | None,
    parts: TipParts,
) -> tuple[Check, ...]:
    """Return the checks, worst case first.

    Pins that may land outside are a caution as long as their mean lies inside, for a gauge sorts
    them out; a mean outside is bad: most pins would be scrap.
    """
    lands = window.low <= drawn.mean <= window.high
    return (
        _check_worst(stack, window, window_source, lands=lands),
        _check_cpk(stack, window, lands=lands),
        _check_share(stack, drawn, window, lands=lands),
        *_check_growth(parts, window),
        *_check_bottoming(bottoming_chance, parts),
    )


def _outcome(*, good: bool, lands: bool) -> Outcome:
    if not lands:
        return Outcome.BAD
    return Outcome.GOOD if good else Outcome.CAUTION


def _check_worst(stack: LinearStack, window: Window, source: Source, *, lands: bool) -> Check:
    ends = (stack.mean - stack.worst_case, stack.mean + stack.worst_case)
    spares = (ends[0] - window.low, window.high - ends[1])
    side = spares.index(min(spares))
    good = min(spares) >= 0
    within = f"{show_dimension(window.low)} to {show_dimension(window.high)}"
    sentence = (
        f"with every part at its worst the tip lands between {show_dimension(ends[0])} and "
        f"{show_dimension(ends[1])} in front of the reference plane; allowed {within}"
    )
    if not good:
        sentence += f", so it may be {show_dimension(-min(spares))} outside"
    return Check(
        name="pin tip at the worst",
        outcome=_outcome(good=good, lands=lands),
        sentence=sentence,
        source=source,
        value=ends[side] * 1e3,
        limit=(window.low, window.high)[side] * 1e3,
        margin=min(spares) * 1e3,
        unit="mm",
    )


def _check_cpk(stack: LinearStack, window: Window, *, lands: bool) -> Check:
    cpk, cp = stack.cpk(window), stack.cp(window)
    return Check(
        name="Cpk of the pin tip",
        outcome=_outcome(good=cpk >= CAPABLE_RATIO, lands=lands),
        sentence=(
            f"the tip lands at {show_dimension(stack.mean)} ± "
            f"{show_dimension(3 * stack.deviation)} (three standard deviations): Cpk "
            f"{show_number(cpk, decimals=2)}, {show_number(cp, decimals=2)} if the mean lay in the "
            f"middle; aim {CAPABLE_RATIO}"
        ),
        source=_AIM,
        value=cpk,
        limit=CAPABLE_RATIO,
        margin=cpk - CAPABLE_RATIO,
        unit="",
    )


def _check_share(stack: LinearStack, drawn: Simulated, window: Window, *, lands: bool) -> Check:
    share, unsure = drawn.outside_share or 0.0, drawn.outside_share_uncertainty or 0.0
    outcome = _outcome(good=share <= CAPABLE_SHARE, lands=lands)
    told = {
        Outcome.CAUTION: ": gauge every pin",
        Outcome.BAD: ": no gauge helps, the mean itself lies outside",
    }.get(outcome, "")
    draws = f"{drawn.draw_count:,}".replace(",", NARROW_SPACE)
    return Check(
        name="pins outside the window",
        outcome=outcome,
        sentence=(
            f"{_show_doubtful(share, unsure)} of the pins land outside{told} (by {draws} draws; "
            f"{show_share(stack.outside_share(window))} if every part were normal)"
        ),
        source=_AIM,
        value=share * 100,
        limit=CAPABLE_SHARE * 100,
        margin=(CAPABLE_SHARE - share) * 100,
        unit="%",
    )


def _check_growth(parts: TipParts, window: Window) -> Iterator[Check]:
    """Which basis the stack rests on, measured pins or the reckoned range, and what it says."""
    most_m, measured = parts.growth_most_m, parts.measured
    if measured is not None and parts.growth_measured:
        yield _check_measured(measured, most_m, window)
        return
    if most_m is None:
        return
    told = (
        f"the hexagon lengthens the pin by up to {show_dimension(most_m)} on a window of "
        f"{show_dimension(window.width)}; how much of it goes forwards is not known, so any part "
        "from none to all counts as likely"
    )
    if measured is None:
        told += f": measure {PINS_TO_MEASURE} pins before and after"
    else:
        told += f": {measured.lacking}"
    yield Check(
        name="growth of the pin in the crimp",
        outcome=Outcome.CAUTION if most_m else Outcome.GOOD,
        sentence=told,
        source=Source(text="conservation of volume in the hexagon", basis=Basis.COMPUTED),
        value=most_m * 1e3,
        limit=window.width * 1e3,
        margin=(window.width - most_m) * 1e3,
        unit="mm",
    )


def _check_measured(measured: MeasuredGrowth, most_m: float | None, window: Window) -> Check:
    """A mean that volume forbids says that pins or readings were mixed up."""
    width_m = 2 * measured.tolerance_m
    told = f"{measured.told}; the stack counts with that"
    possible = measured.mean_m + measured.tolerance_m >= 0
    if not possible:
        told += ", but no crimp shortens a pin: look at the readings"
    if most_m is not None:
        told += f" and not with the reckoned none to {show_dimension(most_m)}"
        if measured.mean_m - measured.tolerance_m > most_m:
            possible = False
            told += ", but volume allows no more than that: look at the readings and at the die"
    return Check(
        name="growth of the pin in the crimp",
        outcome=Outcome.GOOD if possible else Outcome.CAUTION,
        sentence=told,
        source=measured.source,
        value=width_m * 1e3,
        limit=window.width * 1e3,
        margin=(window.width - width_m) * 1e3,
        unit="mm",
    )


def _check_bottoming(chance: float | None, parts: TipParts) -> Iterator[Check]:
    if chance is None or parts.conductor is None or parts.barrel is None:
        return
    spare_m = parts.barrel.mean - parts.conductor.mean
    good = chance <= CAPABLE_SHARE
    told = (
        f"the bare conductor ends {show_dimension(spare_m)} before the bottom of the pin"
        if spare_m >= 0
        else f"the bare conductor is {show_dimension(-spare_m)} longer than the pin is deep"
    )
    yield Check(
        name="conductor at the bottom of the pin",
        outcome=Outcome.GOOD if good else Outcome.CAUTION,
        sentence=(
            f"{told}; {show_share(chance)} of the pins are held off by it and stand proud"
            + ("" if good else ": strip shorter")
        ),
        source=_AIM,
        value=chance * 100,
        limit=CAPABLE_SHARE * 100,
        margin=(CAPABLE_SHARE - chance) * 100,
        unit="%",
    )


def _show_doubtful(share: float, unsure: float) -> str:
    """A share with what the draws leave open: "1.75 ± 0.03 %", "none (± 5 in a million)"."""
    if share < 0.001:
        return f"{show_share(share)} (± {show_share(unsure)})"
    places = max(1, decimals_for(unsure * 100, 1))
    told = show_number(share * 100, decimals=places)
    return f"{told} ± {show_in(unsure * 100, '%', decimals=places)}"
