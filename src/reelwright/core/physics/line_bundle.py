"""Several lines in one sheath or loom: what they do to the timing between each other.

Lines in a bundle are laid up in a spiral, so each is longer than the cable; a line in the middle is
not. Coupling between the lines is not computed: screened lines have next to none, and for bare
pairs it follows from the twists, which no data sheet states.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.quantities.guard import require_not_negative, require_text


@dataclass(frozen=True, kw_only=True)
class BundledLine:
    """One line of a bundle, its centre ``off_axis_m`` [m] from the middle of it."""

    name: str
    line: LineParameters
    off_axis_m: float

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_not_negative(self, "off_axis_m")


@dataclass(frozen=True, kw_only=True)
class LineBundle:
    """Lines laid up with ``turns_per_m`` [1/m]; all at the same frequencies.

    Raises BadValue for fewer than two lines, a name given twice, or different frequencies.
    """

    lines: tuple[BundledLine, ...]
    turns_per_m: float

    def __post_init__(self) -> None:
        require_not_negative(self, "turns_per_m")
        names = [one.name for one in self.lines]
        if len(names) < 2 or len(set(names)) != len(names):
            raise BadValue(
                owner="LineBundle",
                field="lines",
                value=names,
                accepted="two or more lines, each under its own name",
            )
        first = self.lines[0].line.frequency_hz
        for one in self.lines[1:]:
            if not np.array_equal(first, one.line.frequency_hz):
                raise BadValue(
                    owner="LineBundle",
                    field="lines",
                    value=one.name,
                    accepted="the frequencies of the first line",
                )

    def path_factor(self, line: BundledLine) -> float:
        """Return the length of a line over that of the bundle [1]: √(1 + (2π·r·turns)²)."""
        return math.hypot(1.0, 2 * math.pi * line.off_axis_m * self.turns_per_m)

    def along(self, name: str) -> LineParameters:
        """Return the line of that name per metre of bundle; BadValue for a name not there."""
        for one in self.lines:
            if one.name == name:
                longer = self.path_factor(one)
                return replace(
                    one.line,
                    resistance_ohm_per_m=one.line.resistance_ohm_per_m * longer,
                    inductance_h_per_m=one.line.inductance_h_per_m * longer,
                    conductance_siemens_per_m=one.line.conductance_siemens_per_m * longer,
                    capacitance_f_per_m=one.line.capacitance_f_per_m * longer,
                )
        raise BadValue(
            owner="LineBundle",
            field="name",
            value=name,
            accepted=" or ".join(one.name for one in self.lines),
        )

    @property
    def skew_s_per_m(self) -> FloatArray:
        """Largest difference of delays [s/m] per metre of bundle, shape (..., n_frequency)."""
        delays = np.stack([self.along(one.name).delay_s_per_m for one in self.lines])
        skew: FloatArray = delays.max(axis=0) - delays.min(axis=0)
        return skew
