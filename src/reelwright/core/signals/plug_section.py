"""The section of line that a plug in its socket is."""

from reelwright.core.parts.connector import Connector
from reelwright.core.physics.coax import impedance_ohm
from reelwright.core.physics.joint import ShortSection
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S

# A phono plug in its socket: a pin of 3.2 mm inside a ring of 7.5 mm, filled with a plastic
# (permittivity 2.5), 30 mm from cable to circuit. Diameters IEC 60603-14, all from memory.
_PLUG_VELOCITY = 2.5**-0.5
PHONO_OHM = impedance_ohm(inner_m=3.2e-3, outer_m=7.5e-3, velocity_factor=_PLUG_VELOCITY)
"""Impedance [Ω] of a phono plug in its socket: about 32 Ω, far from 75."""

PLUG_DELAY_S = 30e-3 / (_PLUG_VELOCITY * SPEED_OF_LIGHT_M_PER_S)
"""Delay [s] through a plug and its socket."""


def plug_ohm(connector: Connector) -> float:
    """Return the impedance [Ω] of a connector's body, as stated, as made to, or of a phono plug."""
    if connector.body is not None:
        return connector.body.impedance_ohm
    return PHONO_OHM if connector.impedance_ohm is None else connector.impedance_ohm


def plug_section(connector: Connector) -> ShortSection:
    """Return the section a connector is: its own body, else its impedance over a plug's length."""
    delay_s = PLUG_DELAY_S if connector.body is None else connector.body.delay_s
    return ShortSection(impedance_ohm=plug_ohm(connector), delay_s=delay_s, loss_at_1_ghz_db=0.0)
