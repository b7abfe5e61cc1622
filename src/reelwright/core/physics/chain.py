"""Two-ports as chain (ABCD) parameters: what a source and a load of any impedance see.

V1 = A·V2 + B·I2 and I1 = C·V2 + D·I2, I2 flowing out. For lines of up to some hundred decibels; the
scattering parameters of ``two_port`` have no such limit.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.physics.two_port import TwoPort

MOST_NEPER = 300.0
"""Attenuation [Np] of a section up to which its cosh and sinh are held: 2600 dB."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Chain:
    """Chain parameters over ``frequency_hz`` [Hz], shape (n_frequency,).

    ``a`` [1], ``b_ohm`` [Ω], ``c_siemens`` [S] and ``d`` [1] are complex, shape (..., n_frequency).
    """

    frequency_hz: FloatArray
    a: ComplexArray
    b_ohm: ComplexArray
    c_siemens: ComplexArray
    d: ComplexArray

    def __matmul__(self, other: "Chain") -> "Chain":
        """Return this followed by another. Raises BadValue where the frequencies differ."""
        if not np.array_equal(self.frequency_hz, other.frequency_hz):
            raise _refuse("frequency_hz", other.frequency_hz.shape, "the frequencies of the first")
        return Chain(
            frequency_hz=self.frequency_hz,
            a=self.a * other.a + self.b_ohm * other.c_siemens,
            b_ohm=self.a * other.b_ohm + self.b_ohm * other.d,
            c_siemens=self.c_siemens * other.a + self.d * other.c_siemens,
            d=self.c_siemens * other.b_ohm + self.d * other.d,
        )

    @property
    def determinant(self) -> ComplexArray:
        """AD − BC [1], shape (..., n_frequency): 1 for any two-port without direction."""
        return self.a * self.d - self.b_ohm * self.c_siemens


def line_chain(*, parameters: LineParameters, length_m: npt.ArrayLike) -> Chain:
    """Return the chain of a length of uniform line: cosh γL, Zc·sinh γL, sinh γL/Zc, cosh γL.

    ``length_m`` [m] is a number or has the batch shape. Raises BadValue for a length below zero or
    for more than MOST_NEPER of attenuation.
    """
    length = np.asarray(length_m, dtype=np.float64)[..., None]
    if not np.isfinite(length).all() or length.min() < 0:
        raise _refuse("length_m", length_m, "finite, zero or more")
    through = parameters.gamma * length
    if through.real.max() > MOST_NEPER:
        raise _refuse("length_m", length_m, f"a length of at most {MOST_NEPER:g} Np")
    straight, cross = np.cosh(through), np.sinh(through)
    return Chain(
        frequency_hz=parameters.frequency_hz,
        a=straight,
        b_ohm=parameters.impedance_ohm * cross,
        c_siemens=cross / parameters.impedance_ohm,
        d=straight,
    )


def chain_of(two_port: TwoPort) -> Chain:
    """Return the chain parameters of scattering parameters (any text on two-ports)."""
    s11, s21, s22 = two_port.s11, two_port.s21, two_port.s22
    reference = two_port.reference_ohm
    return Chain(
        frequency_hz=two_port.frequency_hz,
        a=((1 + s11) * (1 - s22) + s21 * s21) / (2 * s21),
        b_ohm=reference * ((1 + s11) * (1 + s22) - s21 * s21) / (2 * s21),
        c_siemens=((1 - s11) * (1 - s22) - s21 * s21) / (2 * s21) / reference,
        d=((1 - s11) * (1 + s22) + s21 * s21) / (2 * s21),
    )


def two_port_of(chain: Chain, *, reference_ohm: float) -> TwoPort:
    """Return the scattering parameters between ports of ``reference_ohm`` [Ω].

    S12 is taken equal to S21: AD − BC = 1, which rounding would spoil on a long line.
    """
    series, cross = chain.b_ohm / reference_ohm, chain.c_siemens * reference_ohm
    sum_of_all = chain.a + series + cross + chain.d
    return TwoPort(
        frequency_hz=chain.frequency_hz,
        s11=(chain.a + series - cross - chain.d) / sum_of_all,
        s21=2 / sum_of_all,
        s22=(-chain.a + series - cross + chain.d) / sum_of_all,
        reference_ohm=reference_ohm,
    )


def _refuse(field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner="Chain", field=field, value=value, accepted=accepted)
