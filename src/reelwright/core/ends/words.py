"""How a dimension reads in this room's sentences."""


def millimetres(length_m: float, *, decimals: int = 2) -> str:
    """Return a length in metres as millimetres with a narrow no-break space: ``7.62 mm``."""
    return f"{length_m * 1e3:.{decimals}f}\u202fmm".replace("-", "\u2212")


def percent(fraction: float, *, decimals: int = 0) -> str:
    """Return a fraction as a percentage with a narrow no-break space: ``7 %``."""
    return f"{fraction * 100:.{decimals}f}\u202f%".replace("-", "\u2212")
