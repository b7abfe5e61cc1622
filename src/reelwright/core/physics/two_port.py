"""Two-ports as scattering parameters: lines, lumped parts, and what stands in a row.

Everything here is made of passive parts without direction, so S12 = S21 and only S21 is kept. Lines
are built from travelling waves and never from cosh and sinh: nothing overflows on a long line, and
nothing cancels on a short one or on one with an impedance of thousands of ohms at 50 Hz.
"""

from dataclasses import dataclass
from functools import reduce

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.quantities.guard import require_positive


@dataclass(frozen=True, kw_only=True, eq=False)
class TwoPort:
    """Scattering parameters of a two-port without direction, both ports on one reference.

    ``frequency_hz`` [Hz], shape (n_frequency,); ``s11``, ``s21`` (= S12) and ``s22`` complex [1],
    shape (..., n_frequency), batch axes first; ``reference_ohm`` [Ω], real.

    Raises BadValue for a reference that is not above zero, for shapes that do not fit or for a
    number that is not finite.
    """

    frequency_hz: FloatArray
    s11: ComplexArray
    s21: ComplexArray
    s22: ComplexArray
    reference_ohm: float

    def __post_init__(self) -> None:
        require_positive(self, "reference_ohm")
        size = _frequencies(self.frequency_hz).size
        for name in ("s11", "s21", "s22"):
            values = getattr(self, name)
            if values.ndim == 0 or values.shape[-1] != size:
                raise _refuse(name, values.shape, f"shape (..., {size}), frequency last")
            if name == "s22" and values is self.s11:
                continue
            if not np.isfinite(values).all():
                raise _refuse(name, "not finite", "finite numbers")

    @property
    def turned(self) -> "TwoPort":
        """The same two-port with its ends exchanged."""
        return TwoPort(
            frequency_hz=self.frequency_hz,
            s11=self.s22,
            s21=self.s21,
            s22=self.s11,
            reference_ohm=self.reference_ohm,
        )

    def then(self, other: "TwoPort") -> "TwoPort":
        """Return this two-port followed by another (Redheffer's star product; Redheffer 1962).

        Raises BadValue where reference or frequencies differ.
        """
        if other.reference_ohm != self.reference_ohm:
            raise _refuse("reference_ohm", other.reference_ohm, f"{self.reference_ohm}, as before")
        if not np.array_equal(other.frequency_hz, self.frequency_hz):
            raise _refuse("frequency_hz", other.frequency_hz.shape, "the frequencies of the first")
        loop = 1 - self.s22 * other.s11
        return TwoPort(
            frequency_hz=self.frequency_hz,
            s11=self.s11 + self.s21 * self.s21 * other.s11 / loop,
            s21=self.s21 * other.s21 / loop,
            s22=other.s22 + other.s21 * other.s21 * self.s22 / loop,
            reference_ohm=self.reference_ohm,
        )


def cascade(*parts: TwoPort) -> TwoPort:
    """Return two-ports one after the other, the first at the near end. Raises BadValue for none."""
    if not parts:
        raise _refuse("parts", (), "one two-port or more")
    return reduce(TwoPort.then, parts)


def line(*, parameters: LineParameters, length_m: npt.ArrayLike, reference_ohm: float) -> TwoPort:
    """Return a length of a uniform line between ports of ``reference_ohm`` [Ω].

    ``length_m`` [m] is a number or has the batch shape (...); the answer has the shape
    (..., n_frequency) that it and the line broadcast to. Raises BadValue for a length below zero.

    With e = exp(−γL) and ρ = (Zc − R)/(Zc + R): S11 = ρ(1 − e²)/(1 − ρ²e²),
    S21 = (1 − ρ²)e/(1 − ρ²e²). Source: any text on lines.
    """
    return line_of(
        frequency_hz=parameters.frequency_hz,
        gamma=parameters.gamma,
        impedance_ohm=parameters.impedance_ohm,
        length_m=length_m,
        reference_ohm=reference_ohm,
    )


def line_of(
    *,
    frequency_hz: FloatArray,
    gamma: ComplexArray,
    impedance_ohm: npt.ArrayLike,
    length_m: npt.ArrayLike,
    reference_ohm: float,
) -> TwoPort:
    """Return a length of line from γ [1/m] and Zc [Ω] as they are, both complex.

    ``frequency_hz`` [Hz], shape (n_frequency,), may hold anything that γ was computed at;
    ``length_m`` [m] has the batch shape. Raises BadValue as :func:`line` does, and for a γ that
    grows along the line.
    """
    length = np.asarray(length_m, dtype=np.float64)[..., None]
    if not np.isfinite(length).all() or length.min() < 0:
        raise _refuse("length_m", _worst(length), "finite, zero or more")
    if np.min(gamma.real) < 0:
        raise _refuse("gamma", float(np.min(gamma.real)), "a real part of zero or more")
    impedance = _passive("impedance_ohm", impedance_ohm)
    _reference(reference_ohm)
    frequency = _frequencies(frequency_hz)
    shape = np.broadcast_shapes(gamma.shape, impedance.shape, length.shape, frequency.shape)
    s11, s21 = np.empty(shape, dtype=np.complex128), np.empty(shape, dtype=np.complex128)

    def axes(values: ComplexArray | FloatArray) -> ComplexArray | FloatArray:
        return values.reshape((1,) * (len(shape) - values.ndim) + values.shape)

    _fill_line(axes(gamma), axes(impedance), axes(length), float(reference_ohm), s11, s21)
    return TwoPort(frequency_hz=frequency, s11=s11, s21=s21, s22=s11, reference_ohm=reference_ohm)


# As many points as stay near the processor while they are worked on.
_BLOCK = 1 << 16
# Below this |γL| a difference would cost digits of 1 − e², and a longer way is gone.
_SHORT = 0.25


def _fill_line(  # noqa: PLR0917 - what goes in, then what is filled
    gamma: ComplexArray | FloatArray,
    impedance: ComplexArray | FloatArray,
    length: ComplexArray | FloatArray,
    reference_ohm: float,
    s11: ComplexArray,
    s21: ComplexArray,
) -> None:
    """Fill S11 and S21, row by row of the first axis where they are large."""
    if s11.ndim > 1 and s11.size > _BLOCK:
        for row in range(s11.shape[0]):
            gamma_of, impedance_of, length_of = (
                each[row if each.shape[0] > 1 else 0] for each in (gamma, impedance, length)
            )
            _fill_line(gamma_of, impedance_of, length_of, reference_ohm, s11[row], s21[row])
        return
    mismatch = (impedance - reference_ohm) / (impedance + reference_ohm)
    passed = 4 * reference_ohm * impedance / (impedance + reference_ohm) ** 2
    # The answers hold what lies between until it is theirs: fresh memory costs as much as the sums.
    np.multiply(gamma, length, out=s21)
    short = (s21.imag < _SHORT) & (s21.real < _SHORT)
    few = s21[short]
    np.negative(s21, out=s21)
    np.exp(s21, out=s21)
    # 1 − e² and 1 − ρ² each without a difference: both vanish on a short line at a low frequency.
    np.multiply(s21, s21, out=s11)
    np.subtract(1, s11, out=s11)
    s11[short] = -np.expm1(-2 * few)
    loop = mismatch * mismatch * s11
    loop += passed
    np.divide(1, loop, out=loop)
    s21 *= passed
    s21 *= loop
    s11 *= mismatch
    s11 *= loop


def series(
    *, frequency_hz: FloatArray, impedance_ohm: npt.ArrayLike, reference_ohm: float
) -> TwoPort:
    """Return a part in series, complex ``impedance_ohm`` [Ω], shape (..., n_frequency).

    Raises BadValue for one that is not finite or whose real part is below zero.
    """
    frequency = _frequencies(frequency_hz)
    impedance = _passive("impedance_ohm", impedance_ohm)
    ratio = impedance / _reference(reference_ohm) + 0 * frequency
    return TwoPort(
        frequency_hz=frequency,
        s11=ratio / (2 + ratio),
        s21=2 / (2 + ratio),
        s22=ratio / (2 + ratio),
        reference_ohm=reference_ohm,
    )


def shunt(
    *, frequency_hz: FloatArray, admittance_siemens: npt.ArrayLike, reference_ohm: float
) -> TwoPort:
    """Return a part across the line, complex ``admittance_siemens`` [S], (..., n_frequency).

    Raises BadValue for one that is not finite or whose real part is below zero.
    """
    frequency = _frequencies(frequency_hz)
    admittance = _passive("admittance_siemens", admittance_siemens)
    ratio = admittance * _reference(reference_ohm) + 0 * frequency
    return TwoPort(
        frequency_hz=frequency,
        s11=-ratio / (2 + ratio),
        s21=2 / (2 + ratio),
        s22=-ratio / (2 + ratio),
        reference_ohm=reference_ohm,
    )


def greatest_gain(two_port: TwoPort) -> FloatArray:
    """Return the largest singular value of S [1], shape (..., n_frequency): at most 1 if passive.

    The root of the larger eigenvalue of SᴴS, its discriminant taken as a sum of squares.
    """
    near = np.abs(two_port.s11) ** 2 + np.abs(two_port.s21) ** 2
    far = np.abs(two_port.s22) ** 2 + np.abs(two_port.s21) ** 2
    cross = np.conj(two_port.s11) * two_port.s21 + np.conj(two_port.s21) * two_port.s22
    gain: FloatArray = np.sqrt((near + far + np.hypot(near - far, 2 * np.abs(cross))) / 2)
    return gain


def _frequencies(frequency_hz: FloatArray) -> FloatArray:
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    if frequency.ndim != 1 or frequency.size == 0:
        raise _refuse("frequency_hz", frequency.shape, "one axis with one frequency or more")
    if not np.isfinite(frequency).all() or frequency.min() < 0:
        raise _refuse("frequency_hz", _worst(frequency), "finite, zero or more")
    return frequency


def _passive(field: str, values: npt.ArrayLike) -> ComplexArray:
    given: ComplexArray = np.asarray(values, dtype=np.complex128)
    if not np.isfinite(given).all() or (given.real < 0).any():
        raise _refuse(field, complex(given.flat[0]), "finite, with a real part of zero or more")
    return given


def _reference(reference_ohm: float) -> float:
    if not (np.isfinite(reference_ohm) and reference_ohm > 0):
        raise _refuse("reference_ohm", reference_ohm, "finite, above zero")
    return reference_ohm


def _worst(values: FloatArray) -> float:
    odd = values[~np.isfinite(values)]
    return float(odd[0] if odd.size else values.min())


def _refuse(field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner="TwoPort", field=field, value=value, accepted=accepted)
