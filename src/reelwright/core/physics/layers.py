"""A line of many sections of equal delay: exact, by polynomials in the delay of one section.

Sections that differ in impedance only have real reflections r between them, and one factor
q = exp(−2γ·dl) for the way to and fro through a section. The matrix of the whole is then made of
two polynomials in q with real coefficients (and the same two reversed): those are worked out once,
and evaluated at the q of every frequency. Nothing is left out: all re-reflections are in it.

Source: the layer recursion of layered media (Robinson, Multichannel Time Series Analysis with
Digital Computer Programs, 1967, from memory); checked against 2×2 products in many digits.
"""

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.line_parameters import LineParameters
from reelwright.core.physics.two_port import TwoPort

# Powers of q held at a time, and frequencies worked on at a time: both sized for the cache.
_POWERS = 48
_AT_A_TIME = 1024
# Shorter stretches are joined all at once, longer ones one by one by convolution.
_JOINED_AT_ONCE = 32
# Above this, transforms are quicker than the plain product of polynomials, and as good to 1e-15.
_CONVOLVED_PLAINLY = 2048


def layered_line(
    *,
    parameters: LineParameters,
    section_m: float,
    relative_impedance_ratio: npt.ArrayLike,
    reference_ohm: float,
) -> TwoPort:
    """Return a line of equal sections whose impedances vary about that of ``parameters``.

    Each of the sections is ``section_m`` [m] long and has the impedance of the line (of one cable,
    shape (n_frequency,)) times its own entry of ``relative_impedance_ratio`` [1], shape
    (n_section,), near end first; γ is the same in all. Ends on ``reference_ohm`` [Ω]. Raises
    BadValue for a length or a ratio that is not above zero, or a batch of lines.
    """
    ratio = np.asarray(relative_impedance_ratio, dtype=np.float64)
    if ratio.ndim != 1 or ratio.size == 0 or not (np.isfinite(ratio) & (ratio > 0)).all():
        raise _refuse(
            "relative_impedance_ratio", ratio.shape, "one axis of finite ratios above zero"
        )
    if not (np.isfinite(section_m) and section_m > 0):
        raise _refuse("section_m", section_m, "a finite length above zero")
    if len(parameters.shape) != 1:
        raise _refuse("parameters", parameters.shape, "one line, without batch axes")
    around = np.concatenate(([1.0], ratio, [1.0]))
    steps = (around[1:] - around[:-1]) / (around[1:] + around[:-1])
    through = parameters.gamma * section_m
    forth, back, reversed_back = evaluate(np.stack(_with_reversed(steps)), np.exp(-2 * through))
    whole = np.exp(-ratio.size * through)
    passed = float(np.prod(1 - steps * steps))
    # Column two of the matrix from the determinant, a sum, so that the ends can be put on a
    # reference which the line itself does not have.
    reversed_forth = (passed * whole * whole + back * reversed_back) / forth
    end = (reference_ohm - parameters.impedance_ohm) / (reference_ohm + parameters.impedance_ohm)
    first = (forth - end * back, back - end * forth)
    second = (reversed_back - end * reversed_forth, reversed_forth - end * reversed_back)
    common = first[0] + end * second[0]
    return TwoPort(
        frequency_hz=parameters.frequency_hz,
        s11=(first[1] + end * second[1]) / common,
        s21=np.sqrt(passed) * (1 - end * end) * whole / common,
        s22=-(end * first[0] + second[0]) / common,
        reference_ohm=reference_ohm,
    )


def layer_polynomials(step_reflection: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the two polynomials [1] of a stack with ``step_reflection`` [1] at its n + 1 steps.

    Coefficients of q⁰ to qⁿ, shape (n + 1,) each: ``forth`` (its value is 1/S21 but for the
    delay) and ``back`` (S11 = back/forth). S22 = −(back reversed)/forth. With a step r in front,
    forth ← forth + r·back and back ← r·forth + back, and back times q for each section.
    Raises BadValue for a reflection of 1 or more.
    """
    steps = np.asarray(step_reflection, dtype=np.float64)
    if steps.ndim != 1 or steps.size == 0 or not (np.abs(steps) < 1).all():
        raise _refuse("step_reflection", steps.shape, "one axis of reflections between -1 and 1")
    parts = _join_alike(steps[:-1])
    while len(parts) > 1:
        joined = [_join(*parts[at], *parts[at + 1]) for at in range(0, len(parts) - 1, 2)]
        parts = joined + parts[len(parts) & ~1 :]
    forth, back = parts[0] if parts else (np.ones(1), np.zeros(1))
    last = steps[-1]
    # A filling of no steps and no length was put at the end to have equal stretches.
    forth, back = forth[: steps.size], back[: steps.size]
    return forth + last * _reversed(back, steps.size), back + last * _reversed(forth, steps.size)


def evaluate(coefficient_factor: FloatArray, at: ComplexArray) -> ComplexArray:
    """Return real polynomials at complex places, shape (n_polynomial, n_place).

    ``coefficient_factor`` [1] holds them from the power 0 up, shape (n_polynomial, n_power).
    Powers of the place up to some dozens are formed once and all stretches of that many
    coefficients come out of one real matrix product; Horner's rule joins the stretches.
    """
    count, size = coefficient_factor.shape
    stretches = -(-size // _POWERS)
    padded = np.zeros((count, stretches * _POWERS))
    padded[:, :size] = coefficient_factor
    matrix = padded.reshape(count * stretches, _POWERS)
    values = np.empty((count, at.size), dtype=np.complex128)
    # The same memory for every part: fresh pages would cost as much as the arithmetic.
    width = min(_AT_A_TIME, at.size)
    power_room = np.empty((_POWERS + 1) * width, dtype=np.complex128)
    product_room = np.empty(matrix.shape[0] * 2 * width)
    for start in range(0, at.size, width):
        place = at[start : start + width]
        powers = power_room[: (_POWERS + 1) * place.size].reshape(_POWERS + 1, place.size)
        powers[0], powers[1] = 1, place
        known = 1
        while known < _POWERS:
            more = min(known, _POWERS - known)
            np.multiply(
                powers[1 : more + 1], powers[known], out=powers[known + 1 : known + more + 1]
            )
            known += more
        product = product_room[: matrix.shape[0] * 2 * place.size].reshape(matrix.shape[0], -1)
        np.matmul(matrix, powers[:_POWERS].view(np.float64), out=product)
        terms = product.view(np.complex128).reshape(count, stretches, place.size)
        total = terms[:, -1]
        for stretch in range(stretches - 2, -1, -1):
            total *= powers[_POWERS]
            total += terms[:, stretch]
        values[:, start : start + width] = total
    return values


def _with_reversed(steps: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    forth, back = layer_polynomials(steps)
    return forth, back, back[::-1]


def _reversed(polynomial: FloatArray, size: int) -> FloatArray:
    out = np.zeros(size)
    out[: polynomial.size] = polynomial
    return out[::-1]


def _join(
    forth: FloatArray, back: FloatArray, next_forth: FloatArray, next_back: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Multiply two stretches; each matrix is [[forth, back reversed], [back, forth reversed]]."""
    return (
        _times(forth, next_forth) + _times(back[::-1], next_back),
        _times(back, next_forth) + _times(forth[::-1], next_back),
    )


def _times(first: FloatArray, second: FloatArray) -> FloatArray:
    if min(first.size, second.size) <= _CONVOLVED_PLAINLY:
        return np.convolve(first, second)
    size = first.size + second.size - 1
    product: FloatArray = np.fft.irfft(np.fft.rfft(first, size) * np.fft.rfft(second, size), size)
    return product


def _join_alike(steps: FloatArray) -> list[tuple[FloatArray, FloatArray]]:
    """Return stretches of equal length, worked out side by side, section by section from behind.

    The last stretch is padded with sections without a step, whose matrix only shifts.
    """
    if steps.size == 0:
        return []
    stretch = min(_JOINED_AT_ONCE, steps.size)
    count = -(-steps.size // stretch)
    padded = np.zeros(count * stretch)
    padded[: steps.size] = steps
    ahead = padded.reshape(count, stretch)
    forth = np.zeros((count, stretch + 1))
    back = np.zeros((count, stretch + 1))
    forth[:, 0] = 1
    for place in range(stretch - 1, -1, -1):
        step = ahead[:, place, None]
        new = step * forth
        new[:, 1:] += back[:, :-1]
        forth[:, 1:] += step * back[:, :-1]
        back = new
    return [(forth[row], back[row]) for row in range(count)]


def _refuse(field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner="layered_line", field=field, value=value, accepted=accepted)
