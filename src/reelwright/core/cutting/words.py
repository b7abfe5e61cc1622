"""How lengths stand in the sentences of a cut plan."""

from reelwright.core.cutting.problem import Stretch
from reelwright.core.quantities.show import show_length_m

SPACE = "\N{NARROW NO-BREAK SPACE}"


def metres(length_mm: int) -> str:
    """Return the length in metres, to the millimetre."""
    return show_length_m(length_mm / 1000)


def spread(stretch: Stretch, length_mm: int) -> str:
    """Return a length on that stretch with its standard uncertainty."""
    return (
        f"{length_mm / 1000:.2f}{SPACE}±{SPACE}{stretch.standard_uncertainty_mm / 1000:.2f}{SPACE}m"
    )


def percent(chance: float) -> str:
    """Return a chance in whole per cent; never "100 %" or "0 %" for what is not sure."""
    whole = min(99, max(1, round(chance * 100))) if 0 < chance < 1 else round(chance * 100)
    return f"{whole}{SPACE}%"


def pieces(count: int) -> str:
    """Return "1 piece" or "3 pieces"."""
    return "1 piece" if count == 1 else f"{count} pieces"
