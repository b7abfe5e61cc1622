"""Connectors and joints as two-ports: a short section of another impedance, or lumped parts."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.two_port import TwoPort, cascade, line_of, series, shunt
from reelwright.core.quantities.guard import require_not_negative, require_positive


@dataclass(frozen=True, kw_only=True)
class ShortSection:
    """A connector as a short line: ``impedance_ohm`` [Ω] over ``delay_s`` [s].

    ``loss_at_1_ghz_db`` [dB] grows with the root of frequency, as of thin skin.
    """

    impedance_ohm: float
    delay_s: float
    loss_at_1_ghz_db: float

    def __post_init__(self) -> None:
        require_positive(self, "impedance_ohm")
        require_not_negative(self, "delay_s", "loss_at_1_ghz_db")

    def two_port(self, *, frequency_hz: FloatArray, reference_ohm: float) -> TwoPort:
        """Return the section over ``frequency_hz`` [Hz] between ports of ``reference_ohm`` [Ω]."""
        frequency = np.asarray(frequency_hz, dtype=np.float64)
        neper = self.loss_at_1_ghz_db * np.log(10) / 20 * np.sqrt(frequency / 1e9)
        return line_of(
            frequency_hz=frequency,
            gamma=neper + 2j * np.pi * frequency * self.delay_s,
            impedance_ohm=self.impedance_ohm,
            length_m=1.0,
            reference_ohm=reference_ohm,
        )


@dataclass(frozen=True, kw_only=True)
class LumpedJoint:
    """A joint as lumped parts: half of what lies in series, what lies across, the other half.

    ``contact_ohm`` [Ω] and an inductance in henries in series, ``capacitance_f`` [F] across. True
    while it is short against the wavelength.
    """

    contact_ohm: float
    inductance_h: float
    capacitance_f: float

    def __post_init__(self) -> None:
        require_not_negative(self, "contact_ohm", "inductance_h", "capacitance_f")

    def two_port(self, *, frequency_hz: FloatArray, reference_ohm: float) -> TwoPort:
        """Return the joint over ``frequency_hz`` [Hz] between ports of ``reference_ohm`` [Ω]."""
        frequency = np.asarray(frequency_hz, dtype=np.float64)
        angular = 2 * np.pi * frequency
        half = series(
            frequency_hz=frequency,
            impedance_ohm=(self.contact_ohm + 1j * angular * self.inductance_h) / 2,
            reference_ohm=reference_ohm,
        )
        across = shunt(
            frequency_hz=frequency,
            admittance_siemens=1j * angular * self.capacitance_f,
            reference_ohm=reference_ohm,
        )
        return cascade(half, across, half)
