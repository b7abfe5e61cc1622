"""What a balanced line for microphones does besides losing treble: its supply and its balance."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.quantities.guard import require_not_negative, require_positive


@dataclass(frozen=True, kw_only=True)
class PhantomSupply:
    """A supply of ``supply_v`` [V] fed to each leg through ``feed_ohm`` [Ω]."""

    supply_v: float
    feed_ohm: float

    def __post_init__(self) -> None:
        require_positive(self, "supply_v", "feed_ohm")

    def microphone_v(
        self,
        *,
        current_a: float,
        leg_ohm_per_m: float,
        screen_ohm_per_m: float,
        length_m: npt.ArrayLike,
    ) -> FloatArray:
        """Return the voltage [V] at the microphone, shape of ``length_m`` [m].

        The current [A] comes half on each leg, so each feed resistor and each leg [Ω/m] drops
        I·R/2, and goes back whole on the screen [Ω/m]: V = U − I·(Rf/2 + (r/2 + s)·L). Below zero:
        the supply cannot give that current. Raises BadValue for a figure below zero.
        """
        length = np.asarray(length_m, dtype=np.float64)
        if min(current_a, leg_ohm_per_m, screen_ohm_per_m, float(length.min())) < 0:
            raise BadValue(
                owner="PhantomSupply",
                field="current_a",
                value=current_a,
                accepted="current, resistances and lengths of zero or more",
            )
        along = (leg_ohm_per_m / 2 + screen_ohm_per_m) * length
        volts: FloatArray = self.supply_v - current_a * (self.feed_ohm / 2 + along)
        return volts


@dataclass(frozen=True, kw_only=True)
class LegUnbalance:
    """How far both legs are from alike, and the input they feed.

    ``resistance_ohm`` ΔR [Ω] of source and cable together, ``capacitance_f`` ΔC [F] of one leg to
    the screen over that of the other; ``source_ohm`` [Ω] leg to leg, ``input_ohm`` [Ω] of each leg
    of the input to the screen.
    """

    resistance_ohm: float
    capacitance_f: float
    source_ohm: float
    input_ohm: float

    def __post_init__(self) -> None:
        require_not_negative(self, "resistance_ohm", "capacitance_f", "source_ohm")
        require_positive(self, "input_ohm")

    def converted_ratio(self, frequency_hz: float) -> float:
        """Return the part of a voltage between screens that becomes signal [1], first order.

        ΔR/Zin + ω·ΔC·Rs/2, added as if in phase: the worst there can be. Both legs carry the same
        voltage, and only what they do otherwise to it is heard.
        """
        through_input = self.resistance_ohm / self.input_ohm
        through_cable = 2 * np.pi * frequency_hz * self.capacitance_f * self.source_ohm / 2
        return float(through_input + through_cable)

    def rejection_db(self, frequency_hz: float) -> float:
        """Return the common-mode rejection [dB] at ``frequency_hz`` [Hz], infinite where alike."""
        ratio = self.converted_ratio(frequency_hz)
        return float("inf") if ratio == 0 else float(-20 * np.log10(ratio))
