"""How far one lot may lie from the data sheet: book values, until lots are measured."""

from reelwright.core.verdicts import Basis, Source

BOOK_LOSS_SPREAD = 0.03
"""Standard uncertainty of a lot's loss over its stated loss [1]."""

BOOK_CAPACITANCE_SPREAD = 0.03
"""Standard uncertainty of a lot's capacitance over its stated capacitance [1]."""

BOOK_RESISTANCE_SPREAD = 0.02
"""Standard uncertainty of a lot's resistance over its stated resistance [1]."""

BOOK_DELAY_SPREAD = 0.005
"""Standard uncertainty of a lot's delay over its stated delay [1]."""

BOOK_SPREAD_SOURCE = Source(
    text="spread from lot to lot: loss 3 %, capacitance 3 %, resistance 2 %, delay 0.5 %",
    basis=Basis.COMMON_PRACTICE,
)
"""Where the four book spreads come from."""
