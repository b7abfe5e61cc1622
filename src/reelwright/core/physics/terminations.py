"""A two-port between a source and a load: what is lost, what comes back at either end."""

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.two_port import TwoPort

NO_REFLECTION_DB = 400.0
"""Return loss [dB] shown where nothing at all comes back: no figure is larger than this."""


def reflection_of(impedance_ohm: npt.ArrayLike, *, reference_ohm: float) -> ComplexArray:
    """Return the complex reflection [1] of ``impedance_ohm`` [Ω] on ``reference_ohm`` [Ω].

    An infinite impedance is an open end, +1. Raises BadValue where the real part is below zero.
    """
    impedance = np.asarray(impedance_ohm, dtype=np.complex128)
    if (impedance.real < 0).any():
        raise BadValue(
            owner="reflection_of",
            field="impedance_ohm",
            value=float(impedance.real.min()),
            accepted="a real part of zero or more",
        )
    open_end = np.isinf(impedance.real)
    closed = np.where(open_end, 0, impedance)
    reflection: ComplexArray = np.where(
        open_end, 1.0, (closed - reference_ohm) / (closed + reference_ohm)
    )
    return reflection


def near_reflection(two_port: TwoPort, *, load_ohm: npt.ArrayLike) -> ComplexArray:
    """Return what comes back at the near end [1] with ``load_ohm`` [Ω] at the far one.

    S11 + S21²Γ/(1 − S22Γ), against the two-port's own reference; shape (..., n_frequency).
    """
    load = reflection_of(load_ohm, reference_ohm=two_port.reference_ohm)
    back: ComplexArray = two_port.s11 + two_port.s21**2 * load / (1 - two_port.s22 * load)
    return back


def far_reflection(two_port: TwoPort, *, source_ohm: npt.ArrayLike) -> ComplexArray:
    """Return what comes back at the far end [1] with ``source_ohm`` [Ω] at the near one."""
    return near_reflection(two_port.turned, load_ohm=source_ohm)


def return_loss(reflection: ComplexArray) -> FloatArray:
    """Return the return loss [dB] of complex reflections, −20 log10|Γ|, of the same shape.

    Where nothing comes back it is NO_REFLECTION_DB.
    """
    floor = 10 ** (-NO_REFLECTION_DB / 20)
    loss: FloatArray = -20 * np.log10(np.maximum(np.abs(reflection), floor))
    return loss


def input_impedance_ohm(two_port: TwoPort, *, load_ohm: npt.ArrayLike) -> ComplexArray:
    """Return the impedance [Ω] seen at the near end with ``load_ohm`` [Ω] at the far one."""
    back = near_reflection(two_port, load_ohm=load_ohm)
    impedance: ComplexArray = two_port.reference_ohm * (1 + back) / (1 - back)
    return impedance


def voltage_ratio(
    two_port: TwoPort, *, source_ohm: npt.ArrayLike, load_ohm: npt.ArrayLike
) -> ComplexArray:
    """Return V(load)/V(source open) [1], complex, shape (..., n_frequency).

    ``source_ohm`` [Ω] stands in series with the source, ``load_ohm`` [Ω] across the far end; either
    may be complex, the load infinite (open). Source: signal flow from source to load, as in any
    text on scattering parameters.
    """
    reference = two_port.reference_ohm
    source = reflection_of(source_ohm, reference_ohm=reference)
    load = reflection_of(load_ohm, reference_ohm=reference)
    launched = (1 - source) / 2
    loop = (1 - two_port.s11 * source) * (1 - two_port.s22 * load)
    loop = loop - two_port.s21**2 * source * load
    ratio: ComplexArray = launched * two_port.s21 * (1 + load) / loop
    return ratio


def insertion_loss_db(
    two_port: TwoPort, *, source_ohm: npt.ArrayLike, load_ohm: npt.ArrayLike
) -> FloatArray:
    """Return the loss [dB] of putting the two-port between source and load [Ω], both finite.

    The level at the load without it over that with it; below zero where it helps the match.
    """
    source, load = np.asarray(source_ohm), np.asarray(load_ohm)
    direct = load / (source + load)
    with_it = voltage_ratio(two_port, source_ohm=source_ohm, load_ohm=load_ohm)
    loss: FloatArray = 20 * np.log10(np.abs(direct) / np.abs(with_it))
    return loss
