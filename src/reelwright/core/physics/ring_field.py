"""The field of two or four round wires in each other's neighbourhood, exactly (quasi-static).

Wires of one size stand on a ring, alone or inside a round screen, and carry currents of one size
and alternating sign: a pair, a star quad with opposite wires in parallel. Currents crowd where the
neighbours pull them (proximity). The field is written in cylindrical harmonics around every wire
(Carson, Philosophical Magazine 41 (1921) 607, for two wires); by symmetry all wires share one
set of amplitudes, and per frequency there is one small system of equations

    (T⁻¹ − K)·u = v,    Λ = Λ0 − vᵀ·u,

T how strongly a wire answers a harmonic, K the geometry, Λ0 the field of thin wires. At the high
end Λ is acosh(D/2a) of a bare pair.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from reelwright.core.errors import BadValue
from reelwright.core.physics.arrays import ComplexArray, FloatArray
from reelwright.core.physics.bessel_ray import inward_ratio
from reelwright.core.quantities.guard import require_count, require_positive

_RELATIVE_ERROR = 1e-10
_MOST_HARMONICS = 90
_BLOCK = 64


@dataclass(frozen=True, kw_only=True)
class Ring:
    """``wires`` (2 or 4) of ``wire_radius_m`` a [m] on a ring of ``ring_radius_m`` ρ [m].

    ``screen_radius_m`` b [m] is the inside of a round screen about the ring, ``None`` without.
    Raises BadValue where wires would touch or cut each other or the screen: the metal must be
    apart by 2 % of the wire's diameter at least, or the harmonics no longer converge.
    """

    wires: int
    wire_radius_m: float
    ring_radius_m: float
    screen_radius_m: float | None

    def __post_init__(self) -> None:
        require_count(self, "wires")
        require_positive(self, "wire_radius_m", "ring_radius_m")
        if self.wires not in (2, 4):
            raise self._refuse("wires", "2 or 4")
        nearest = 2 * self.ring_radius_m * math.sin(math.pi / self.wires)
        if nearest < 2.04 * self.wire_radius_m:
            raise self._refuse(
                "ring_radius_m",
                f"{1.02 * self.wire_radius_m / math.sin(math.pi / self.wires):.4g} or more, so "
                "that the wires do not touch",
            )
        if self.screen_radius_m is not None:
            require_positive(self, "screen_radius_m")
            if self.screen_radius_m < self.ring_radius_m + 1.04 * self.wire_radius_m:
                raise self._refuse(
                    "screen_radius_m",
                    f"{self.ring_radius_m + 1.04 * self.wire_radius_m:.4g} or more, outside of the "
                    "wires",
                )

    def _refuse(self, field: str, accepted: str) -> BadValue:
        return BadValue(owner="Ring", field=field, value=getattr(self, field), accepted=accepted)

    @property
    def thin_wire_field(self) -> float:
        """Λ0 [1] of each wire without proximity and without a screen: ln(D/a), ln(D/2a) of a quad.

        Of a quad, D is the diagonal.
        """
        if self.wires == 2:
            return math.log(2 * self.ring_radius_m / self.wire_radius_m)
        return math.log(self.ring_radius_m / self.wire_radius_m)

    @property
    def harmonics(self) -> int:
        """How many harmonics [count] hold the field to 1e-10."""
        nearest = 2 * self.ring_radius_m * math.sin(math.pi / self.wires)
        # Images run together at a point inside: the decay is that of the limit of images.
        decay = math.acosh(nearest / (2 * self.wire_radius_m))
        if self.screen_radius_m is not None:
            wall = self.screen_radius_m - self.ring_radius_m
            decay = min(decay, math.acosh(max(wall / self.wire_radius_m, 1.0 + 1e-9)))
        needed = math.ceil(-math.log(_RELATIVE_ERROR) / (2 * decay)) + 3
        return min(max(needed, 4), _MOST_HARMONICS)


@dataclass(frozen=True, kw_only=True, eq=False)
class ScreenAnswer:
    """How a screen answers each harmonic of the ring: U, shape (n_frequency, harmonics).

    0 lets the field through as if no screen were there, 1 is a perfect conductor.
    """

    orders: tuple[int, ...]
    answer: ComplexArray


def ring_field(ring: Ring, *, depth_ratio: FloatArray, screen: ScreenAnswer | None) -> ComplexArray:
    """Return Λ [1] of each wire, complex, shape of ``depth_ratio`` = a/δ [1], one axis.

    Each wire's impedance is that of a wire alone and jωµ0/(2π)·Λ besides. ``screen`` is given
    where the ring has one, at the same frequencies.
    """
    result = np.empty(depth_ratio.shape, dtype=np.complex128)
    answers = _wire_answers(depth_ratio, ring.harmonics)
    # A few at a time: the matrices of all of them would fall out of the processor's cache.
    for start in range(0, depth_ratio.size, _BLOCK):
        part = slice(start, start + _BLOCK)
        answer = None if screen is None else screen.answer[part]
        orders = () if screen is None else screen.orders
        result[part] = _ring_field(ring, answers[part], orders, answer)
    return result


@lru_cache(maxsize=256)
def perfect_ring_field(ring: Ring) -> float:
    """Return Λ [1] where all is a perfect conductor, the screen too.

    Inductance and capacitance of a line without loss are made of it; acosh(D/2a) of a bare pair.
    """
    orders = screen_orders(ring)
    answer = np.ones((1, len(orders)), dtype=np.complex128) if orders else None
    wires = np.ones((1, ring.harmonics), dtype=np.complex128)
    return float(_ring_field(ring, wires, orders, answer)[0].real)


def _ring_field(
    ring: Ring, answers: ComplexArray, orders: tuple[int, ...], answer: ComplexArray | None
) -> ComplexArray:
    count = ring.harmonics
    coupling, drive = _bare(ring)
    push: ComplexArray = np.tile(drive.astype(np.complex128), (len(answers), 1))
    field = np.full(len(answers), ring.thin_wire_field, dtype=np.complex128)
    if answer is None:
        system = coupling * -answers[:, None, :]
    else:
        shapes, strengths = _screened(ring, orders)
        strength = answer * strengths
        field = field - strength @ shapes[:, 0] ** 2
        push = push - strength @ (shapes[:, :1] * shapes[:, 1:])
        matrix = np.matmul(shapes[:, 1:].T * strength[:, None, :], shapes[:, 1:]) + coupling
        system = matrix * -answers[:, None, :]
    system.reshape(len(answers), -1)[:, :: count + 1] += 1
    crowded = np.linalg.solve(system, push[..., None])[..., 0]
    result: ComplexArray = field - np.einsum("fn,fn,fn->f", push, answers, crowded)
    return result


@lru_cache(maxsize=256)
def _bare(ring: Ring) -> tuple[FloatArray, FloatArray]:
    """K, shape (harmonics, harmonics), and v, shape (harmonics,), of the ring without a screen."""
    order = np.arange(1.0, ring.harmonics + 1)
    across = order[:, None]
    choose = np.exp(_log_choose(order + across - 1, across))
    coupling, drive = np.zeros(choose.shape), np.zeros(order.shape)
    for place in range(1, ring.wires):
        turn = 2 * np.pi * place / ring.wires
        apart = (1 - np.exp(1j * turn)) * ring.ring_radius_m / ring.wire_radius_m
        sign = (-1.0) ** place
        drive += sign * (-1.0) ** order / np.sqrt(order) * (apart ** (-order)).real
        moved = apart ** (-(order + across)) * np.exp(1j * turn * order)
        coupling -= sign * (-1.0) ** across * np.sqrt(across / order) * choose * moved.real
    return coupling, drive


def _log_choose(above: FloatArray, below: FloatArray) -> FloatArray:
    log = np.vectorize(math.lgamma, otypes=[np.float64])
    result: FloatArray = log(above + 1) - log(below + 1) - log(above - below + 1)
    return result


def screen_orders(ring: Ring) -> tuple[int, ...]:
    """Return the orders of harmonics that reach the screen of a ring; none without a screen.

    Of a pair the odd ones, of a quad 2, 6, 10 and so on: all others cancel by symmetry.
    """
    if ring.screen_radius_m is None:
        return ()
    reach = (ring.ring_radius_m + ring.wire_radius_m) / ring.screen_radius_m
    most = min(math.ceil(math.log(_RELATIVE_ERROR) / (2 * math.log(reach))) + 4, 160)
    step = ring.wires
    return tuple(range(step // 2, max(most, 3 * step), step))


def _screened(ring: Ring, orders: tuple[int, ...]) -> tuple[FloatArray, FloatArray]:
    """How each harmonic of the screen is felt by order 0, 1, … of a wire, and its weight."""
    assert ring.screen_radius_m is not None
    order = np.array(orders, dtype=np.float64)[:, None]
    felt = np.arange(ring.harmonics + 1.0)[None, :]
    inside = ring.ring_radius_m / ring.screen_radius_m
    size = ring.wire_radius_m / ring.ring_radius_m
    reaches = felt <= order
    log_size = (
        _log_choose(np.where(reaches, order, felt), felt)
        + order * math.log(inside)
        + felt * math.log(size)
    )
    shapes = np.where(reaches, np.exp(log_size), 0.0) * np.sqrt(np.maximum(felt, 1))
    return shapes, ring.wires / np.array(orders)


def _wire_answers(depth_ratio: FloatArray, count: int) -> ComplexArray:
    """T_n = I_{n+1}/I_{n−1} at z = (1+j)·a/δ, shape (n_frequency, count)."""
    ratios = np.empty((count + 2, depth_ratio.size), dtype=np.complex128)
    argument: ComplexArray = np.multiply(depth_ratio, 1 + 1j, dtype=np.complex128)
    deep = depth_ratio > 2 * count
    if not deep.all():
        _from_above(argument[~deep], ratios, ~deep)
    if deep.any():
        _from_below(depth_ratio[deep], argument[deep], ratios, deep)
    answers: ComplexArray = (ratios[1 : count + 1] * ratios[2 : count + 2]).T
    return answers


def _from_above(
    argument: ComplexArray, ratios: ComplexArray, chosen: npt.NDArray[np.bool_]
) -> None:
    """I_n/I_{n−1} from far above downwards: stable at any argument, but long for a large one."""
    start = int(np.abs(argument).max()) + len(ratios) + 30
    ratio = np.zeros_like(argument)
    for order in range(start, 0, -1):
        ratio = argument / (2 * order + argument * ratio)
        if order < len(ratios):
            ratios[order, chosen] = ratio


def _from_below(
    depth_ratio: FloatArray,
    argument: ComplexArray,
    ratios: ComplexArray,
    chosen: npt.NDArray[np.bool_],
) -> None:
    """I_n/I_{n−1} from the first upwards: as good while the order stays below the argument."""
    ratio = 1 / inward_ratio(depth_ratio)
    for order in range(1, len(ratios)):
        ratios[order, chosen] = ratio
        ratio = 1 / ratio - 2 * order / argument
