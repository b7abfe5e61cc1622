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

SAME_CLASS_FRACTION = 0.05
"""An impedance this close [1] to the nominal one is of the same class."""

NEAR_CLASS_FRACTION = 0.10
"""Up to this distance [1] an impedance is doubtful; beyond it is another class."""

IMPEDANCE_CLASS_SOURCE = Source(
    text="a line and its ends belong to one class: within 5 % of the nominal impedance",
    basis=Basis.COMMON_PRACTICE,
)
"""Where the impedance classes come from."""
