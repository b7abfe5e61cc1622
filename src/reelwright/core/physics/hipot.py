"""What a high-voltage test asks of the tester: current through the capacitance, energy held."""

import math


def capacitive_current_a(*, voltage_v: float, frequency_hz: float, capacitance_f: float) -> float:
    """Return the current [A] a test voltage [V, rms] drives through a capacitance [F]: 2π·f·C·V."""
    return 2 * math.pi * frequency_hz * capacitance_f * voltage_v


def stored_energy_j(*, voltage_v: float, capacitance_f: float) -> float:
    """Return the energy [J] held at a direct voltage [V]: ½·C·V²."""
    return 0.5 * capacitance_f * voltage_v**2
