"""How a stretch, and a level of a plan, stand in sentences."""

from reelwright.core.cutting.problem import Stretch
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import show_metres, show_number


def spread(stretch: Stretch, length_mm: int) -> str:
    """Return a length (mm) on that stretch in metres, with its standard uncertainty."""
    metres = show_number(length_mm / 1000, decimals=2)
    uncertain = show_metres(stretch.standard_uncertainty_mm, decimals=2)
    return f"{metres}{NARROW_SPACE}±{NARROW_SPACE}{uncertain}"


def level_shown(name: str, value: int) -> str:
    """Return the value of a level, or of another aim, as people read it."""
    if name == "value lost":
        return f"{show_metres(value / 1000, decimals=2)} of cable"
    if name == "age of the lots used":
        return f"{show_number(value / 1000, decimals=1)}{NARROW_SPACE}m{NARROW_SPACE}× rank"
    return str(value)
