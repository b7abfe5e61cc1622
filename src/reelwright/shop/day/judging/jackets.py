"""Which cables may lie where the run goes."""

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.jacket import Space, class_needed, may_stand_in


def stands_in(cable: Cable, space: Space | None) -> bool:
    """Return whether the cable's jacket class is enough for the space, as far as the order says.

    A space that was not named, or that the order says nothing of, excludes no cable here; the
    check of the space tells the customer.
    """
    needed = None if space is None else class_needed(space)
    return needed is None or may_stand_in(cable.jacket_class, needed)
