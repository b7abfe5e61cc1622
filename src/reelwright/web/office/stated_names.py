"""What a person reads for each value that a data sheet states or a lot was measured for."""

from reelwright.core.physics.lot_values import Stated
from reelwright.core.quantities.show_scaled import show_quantity

STATED_NAMES = {
    Stated.IMPEDANCE: "Impedance",
    Stated.DELAY: "Delay",
    Stated.CAPACITANCE: "Capacitance",
    Stated.CAPACITANCE_TO_REST: "Capacitance, one core to all the rest",
    Stated.CONDUCTOR_RESISTANCE: "Resistance of a conductor",
    Stated.SCREEN_RESISTANCE: "Resistance of the screen",
}

_UNITS = {
    Stated.IMPEDANCE: ("Ω", ""),
    Stated.DELAY: ("s", "/m"),
    Stated.CAPACITANCE: ("F", "/m"),
    Stated.CAPACITANCE_TO_REST: ("F", "/m"),
    Stated.CONDUCTOR_RESISTANCE: ("Ω", "/m"),
    Stated.SCREEN_RESISTANCE: ("Ω", "/m"),
}


def show_stated(what: Stated, value: float) -> str:
    """Return a value in the unit it is stated in, to four digits."""
    unit, per = _UNITS[what]
    return show_quantity(value, unit, digits=4) + per
