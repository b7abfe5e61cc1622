"""How far one lot may lie from the data sheet: book values, until lots are measured."""

from reelwright.core.verdicts import Basis, Source

BOOK_LOSS_SPREAD = 0.03
"""Standard uncertainty of a lot's loss over its stated loss [1]."""

BOOK_CAPACITANCE_SPREAD = 0.03
"""Standard uncertainty of a lot's capacitance over its stated capacitance [1]."""

BOOK_RESISTANCE_SPREAD = 0.02
"""Standard uncertainty of a lot's resistance over its stated resistance [1]."""

BOOK_IMPEDANCE_SPREAD = 0.02
"""Standard uncertainty of a lot's impedance over its stated impedance [1]."""

BOOK_DELAY_SPREAD = 0.005
"""Standard uncertainty of a lot's delay over its stated delay [1]."""


def book_spread_source(relative_spread: float) -> Source:
    """Return where a book spread [1] comes from, with its size."""
    return Source(
        text=f"spread from lot to lot {relative_spread * 100:g}\u202f%", basis=Basis.COMMON_PRACTICE
    )
