"""What nothing else beats in everything at once: the set worth choosing from."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from reelwright.core.advice.change import Change
from reelwright.core.advice.tried import Tried

_Item = TypeVar("_Item")


def dominates(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    """Return whether ``one`` is nowhere larger than ``other`` and somewhere smaller."""
    return one != other and all(a <= b for a, b in zip(one, other, strict=True))


def front(items: Iterable[_Item], costs: Callable[[_Item], tuple[float, ...]]) -> tuple[_Item, ...]:
    """Return the items that no other dominates, in their order; ``costs`` are better when small."""
    priced = [(item, costs(item)) for item in items]
    return tuple(
        item for item, own in priced if not any(dominates(other, own) for _, other in priced)
    )


def costs_of_run(tried: Tried) -> tuple[float, ...]:
    """Return doubt, price per metre, margin turned round, outside diameter [m], mass [kg/m]."""
    price = tried.entry.price_per_m
    return (
        float(tried.doubt),
        float("inf") if price is None else float(price),
        -tried.margin,
        tried.run.cable.jacket.outside_diameter_m,
        tried.run.cable.mass_kg_per_m,
    )


def front_of_runs(tried: Iterable[Tried]) -> tuple[Tried, ...]:
    """Return the runs of one signal that are beaten in nothing or not in everything."""
    return front(tried, costs_of_run)


def costs_of_change(change: Change) -> tuple[float, ...]:
    """Return the size of the change with the costs of its run."""
    return (change.size, *costs_of_run(change.tried))


def front_of_changes(changes: Iterable[Change]) -> tuple[Change, ...]:
    """Return the changes that no other of the same kind and signal dominates, in their order.

    Changes of different kinds ask different things of people and are never held against each other.
    """
    found = list(changes)
    groups = dict.fromkeys((change.kind, change.signal.name) for change in found)
    kept: set[int] = set()
    for group in groups:
        members = [each for each in found if (each.kind, each.signal.name) == group]
        kept |= {id(each) for each in front(members, costs_of_change)}
    return tuple(each for each in found if id(each) in kept)
