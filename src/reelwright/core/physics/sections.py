"""A line of many sections, each of its own length, impedance and propagation: waves, one by one.

The general case that ``layers`` cannot take (unequal delays, complex steps); ten to thirty times
slower, and exact in the same way.
"""

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.two_port import TwoPort

# Frequencies worked on at a time: the eight arrays in work stay in the cache.
_AT_A_TIME = 1024


def sectioned_line(
    *,
    frequency_hz: FloatArray,
    gamma: ComplexArray,
    impedance_ohm: npt.ArrayLike,
    length_m: npt.ArrayLike,
    reference_ohm: float,
) -> TwoPort:
    """Return sections in a row, near end first, between ports of ``reference_ohm`` [Ω].

    ``frequency_hz`` [Hz], shape (n_frequency,); ``gamma`` [1/m], complex, shape (n_frequency,) or
    (n_section, n_frequency); ``impedance_ohm`` [Ω], real or complex, shape (n_section,) where it is
    the same at all frequencies, else (n_section, n_frequency); ``length_m`` [m], shape
    (n_section,). Raises BadValue for shapes that do not fit, a length below zero or a line that
    gains.
    """
    frequency = np.asarray(frequency_hz, dtype=np.float64)
    length = np.asarray(length_m, dtype=np.float64)
    impedance = np.asarray(impedance_ohm)
    if length.ndim != 1 or length.size == 0 or not np.isfinite(length).all() or length.min() < 0:
        raise _refuse("length_m", length.shape, "one axis of finite lengths of zero or more")
    if impedance.shape not in ((length.size,), (length.size, frequency.size)):
        raise _refuse("impedance_ohm", impedance.shape, f"({length.size},) or with frequency last")
    if gamma.shape not in ((frequency.size,), (length.size, frequency.size)):
        raise _refuse("gamma", gamma.shape, f"({frequency.size},) or one row a section")
    if np.min(gamma.real) < 0:
        raise _refuse("gamma", float(np.min(gamma.real)), "a real part of zero or more")
    if impedance.ndim == 1:
        impedance = impedance[:, None]
    answer = {name: np.empty(frequency.size, dtype=np.complex128) for name in ("11", "21", "22")}
    for start in range(0, frequency.size, _AT_A_TIME):
        here = slice(start, min(start + _AT_A_TIME, frequency.size))
        part = _some_frequencies(
            gamma[..., here],
            impedance[:, here] if impedance.shape[1] > 1 else impedance,
            length,
            reference_ohm,
        )
        for name, values in zip(answer, part, strict=True):
            answer[name][here] = values
    return TwoPort(
        frequency_hz=frequency,
        s11=answer["11"],
        s21=answer["21"],
        s22=answer["22"],
        reference_ohm=reference_ohm,
    )


def _some_frequencies(
    gamma: ComplexArray,
    impedance: npt.NDArray[np.inexact],
    length: FloatArray,
    reference: float,
) -> tuple[ComplexArray, ComplexArray, ComplexArray]:
    """Multiply step and section matrices from the left to S11, S21, S22.

    exp(γL) is kept apart, so that nothing grows.
    """
    size = gamma.shape[-1]
    forth, forth_far = np.ones(size, np.complex128), np.zeros(size, np.complex128)
    back, back_far = np.zeros(size, np.complex128), np.ones(size, np.complex128)
    held, room = np.empty(size, np.complex128), np.empty(size, np.complex128)
    through = np.zeros(size, np.complex128)
    passed = np.ones(size, np.complex128)
    before: npt.NDArray[np.inexact] = np.array([reference])
    for place in range(length.size + 1):
        behind = impedance[place] if place < length.size else np.array([reference])
        step = (behind - before) / (behind + before)
        before = behind
        passed *= 1 + step
        for near, far in ((forth, forth_far), (back, back_far)):
            np.multiply(near, step, out=held)
            np.multiply(far, step, out=room)
            np.add(near, room, out=near)
            np.add(far, held, out=far)
        if place < length.size:
            np.multiply(gamma if gamma.ndim == 1 else gamma[place], length[place], out=held)
            through += held
            np.multiply(held, -2, out=held)
            np.exp(held, out=held)
            forth_far *= held
            back_far *= held
    # Transmissions of normalised waves are √(1 − r²) each: 1 + r times the root of a ratio of
    # impedances, and those roots end where they began.
    return back / forth, passed * np.exp(-through) / forth, -forth_far / forth


def _refuse(field: str, value: object, accepted: str) -> BadValue:
    return BadValue(owner="sectioned_line", field=field, value=value, accepted=accepted)
