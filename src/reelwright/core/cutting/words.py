"""How a stretch stands in the sentences of a cut plan."""

from reelwright.core.cutting.problem import Stretch
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import show_metres, show_number


def spread(stretch: Stretch, length_mm: int) -> str:
    """Return a length (mm) on that stretch in metres, with its standard uncertainty."""
    metres = show_number(length_mm / 1000, decimals=2)
    uncertain = show_metres(stretch.standard_uncertainty_mm, decimals=2)
    return f"{metres}{NARROW_SPACE}±{NARROW_SPACE}{uncertain}"
