"""Allowances of the trade that no standard states, in one place, so that all can be seen."""

from reelwright.core.verdicts import Basis, Source

CONNECTOR_LOSS_DB = 0.10
"""Loss [dB] counted for each connector or adapter at video and television frequencies."""

CONNECTOR_LOSS_SPREAD_DB = 0.05
"""Standard uncertainty [dB] of the loss of one connector."""

CONNECTOR_COUNTED_FROM_HZ = 100e6
"""Below this [Hz] a sound connector loses less than is worth counting."""

GUARD_DB = 1.0
"""Held back [dB] from a loss limit before a run is called good."""

PRACTICE_SOURCE = Source(
    text=(
        "0.10 dB for each connector or adapter from 100 MHz up, ±0.05 dB; 1 dB held back as guard"
    ),
    basis=Basis.COMMON_PRACTICE,
)
"""Where the allowances come from."""
