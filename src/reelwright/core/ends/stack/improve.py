"""What to do about a stack: the one dimension worth tightening, or the mean worth moving."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from reelwright.core.ends.stack.contributor import Keeper
from reelwright.core.ends.stack.linear import LinearStack, Window
from reelwright.core.quantities.show import show_number

RE_CENTRE = "re-centring"
"""The name of the improvement that moves the mean to the middle of the window."""


@dataclass(frozen=True, kw_only=True)
class Improvement:
    """One change and the Cpk [1] it gives. ``keeper`` is None for re-centring.

    ``centred_cpk_ratio`` is what the same change gives with the mean moved to the middle as well.
    """

    name: str
    keeper: Keeper | None
    cpk_ratio: float
    centred_cpk_ratio: float
    gain_ratio: float


def improvements(stack: LinearStack, window: Window) -> tuple[Improvement, ...]:
    """Return what halving each contributor's tolerance gives, and what re-centring, best first.

    The mean stays where it is while a tolerance is halved. Arithmetic on the stack, no source.
    """
    now = stack.cpk(window)
    found = [
        Improvement(
            name=RE_CENTRE,
            keeper=None,
            cpk_ratio=stack.cp(window),
            centred_cpk_ratio=stack.cp(window),
            gain_ratio=stack.cp(window) - now,
        )
    ]
    for place, each in enumerate(stack.contributors):
        if each.tolerance == 0:
            continue
        halved = replace(
            stack,
            contributors=(
                *stack.contributors[:place],
                replace(each, tolerance=each.tolerance / 2),
                *stack.contributors[place + 1 :],
            ),
        )
        found.append(
            Improvement(
                name=each.name,
                keeper=each.keeper,
                cpk_ratio=halved.cpk(window),
                centred_cpk_ratio=halved.cp(window),
                gain_ratio=halved.cpk(window) - now,
            )
        )
    # Re-centring wins a tie: to move a mean costs less than to narrow a spread.
    return tuple(sorted(found, key=lambda each: -each.gain_ratio))


def worth_working_on(stack: LinearStack, window: Window, *, show: Callable[[float], str]) -> str:
    """Return the sentence that names the one thing to work on and what it would give.

    ``show`` tells a length of the stack's unit to a person. What only the maker can change is
    named where it would give most, beside the best that the workshop can do itself.
    """
    now, found = stack.cpk(window), improvements(stack, window)
    off = window.middle - stack.mean
    move = f"the mean moved by {'+' if off > 0 else ''}{show(off)}"
    ours = next(each for each in found if each.keeper is not Keeper.MAKER)
    if ours.name == RE_CENTRE:
        if ours.gain_ratio <= 0:
            first = "the mean lies in the middle and no tolerance is the workshop's own"
        else:
            first = f"re-centring: {move} brings Cpk from {_ratio(now)} to {_ratio(ours.cpk_ratio)}"
    else:
        first = f"{ours.name}: halved, it brings Cpk from {_ratio(now)} to {_ratio(ours.cpk_ratio)}"
        if ours.centred_cpk_ratio - ours.cpk_ratio >= _TELLS and show(abs(off)) != show(0.0):
            first += f", with {move} as well to {_ratio(ours.centred_cpk_ratio)}"
    best = found[0]
    if best.keeper is Keeper.MAKER and best.gain_ratio - ours.gain_ratio >= _TELLS:
        first += (
            f"; {best.name} would give more ({_ratio(best.cpk_ratio)}) and is the maker's to change"
        )
    return first


_TELLS = 0.005  # less does not show in a Cpk of two decimals


def _ratio(value: float) -> str:
    return show_number(value, decimals=2)
