"""A direct-current supply over a loop: what arrives, and whether anything does.

A load takes either a steady current, as most heads and amplifiers with a series regulator do, or a
steady power, as a switching supply does. The second draws more current the less voltage is left,
so over too long a loop it gets nothing at all. Resistance inside the source belongs to the loop.
Source: Ohm's law, Kirchhoff's voltage law and the matched-load theorem.
"""

import math

from reelwright.core.errors import BadValue


def volts_at_far_end(*, source_v: float, loop_ohm: float, current_a: float) -> float:
    """Return the voltage [V] behind ``loop_ohm`` [Ω] for a load of ``current_a`` [A]: V − R·I.

    Zero or below means that the source cannot drive that current through the loop at all.
    Raises BadValue for a source that is not above zero, or a loop or current below zero.
    """
    _require("volts_at_far_end", source_v=source_v)
    _require("volts_at_far_end", or_zero=True, loop_ohm=loop_ohm, current_a=current_a)
    return source_v - loop_ohm * current_a


def volts_for_power(*, source_v: float, loop_ohm: float, power_w: float) -> float | None:
    """Return the voltage [V] at a load that takes ``power_w`` [W] whatever its voltage.

    U² − V·U + R·P = 0 has two answers; the higher is the one a load settles at when it is switched
    on: U = V/2 + √(V²/4 − R·P). None where R·P is above V²/4: no source gives more than that
    through its loop. Raises BadValue as :func:`volts_at_far_end` does.
    """
    _require("volts_for_power", source_v=source_v)
    _require("volts_for_power", or_zero=True, loop_ohm=loop_ohm, power_w=power_w)
    under_root = source_v * source_v / 4 - loop_ohm * power_w
    return None if under_root < 0 else source_v / 2 + math.sqrt(under_root)


def largest_power_w(*, source_v: float, loop_ohm: float) -> float:
    """Return the most power [W] that any load can take behind the loop: V²/(4·R).

    Endless without a loop. Raises BadValue as :func:`volts_at_far_end` does.
    """
    _require("largest_power_w", source_v=source_v)
    _require("largest_power_w", or_zero=True, loop_ohm=loop_ohm)
    return math.inf if loop_ohm == 0 else source_v * source_v / (4 * loop_ohm)


def largest_loop_ohm(*, source_v: float, needed_v: float, current_a: float) -> float:
    """Return the largest loop [Ω] that leaves ``needed_v`` [V] at ``current_a`` [A]: (V − U)/I.

    Below zero where the source itself has less. Raises BadValue unless all are above zero.
    """
    _require("largest_loop_ohm", source_v=source_v, needed_v=needed_v, current_a=current_a)
    return (source_v - needed_v) / current_a


def largest_loop_for_power_ohm(*, source_v: float, needed_v: float, power_w: float) -> float:
    """Return the largest loop [Ω] that leaves ``needed_v`` [V] to a load of ``power_w`` [W].

    U·(V − U)/P, and never more than V²/(4·P), since a load that needs less than half the source's
    voltage still falls over at half. Below zero where the source itself has less than needed.
    Raises BadValue unless all are above zero.
    """
    _require("largest_loop_for_power_ohm", source_v=source_v, needed_v=needed_v, power_w=power_w)
    lowest_v = max(needed_v, source_v / 2)
    return lowest_v * (source_v - lowest_v) / power_w


def _require(owner: str, *, or_zero: bool = False, **values: float) -> None:
    for field, value in values.items():
        if not (math.isfinite(value) and (value > 0 or (or_zero and value == 0))):
            accepted = "zero or more" if or_zero else "a finite number above zero"
            raise BadValue(owner=owner, field=field, value=value, accepted=accepted)
