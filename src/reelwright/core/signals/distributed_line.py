"""A 25 V, 70 V or 100 V loudspeaker line: any taps at any spacing, solved as an exact ladder."""

import math
from dataclasses import dataclass, replace
from itertools import groupby

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.ladder import ladder_voltages_v
from reelwright.core.physics.lot_values import Stated
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_both, show_db, show_in, show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.quantities.words import counted, listed
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import (
    relative_spread,
    spread_by_change,
    warm_conductor_ohm_per_m,
)
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

DROP_LIMIT_FRACTION = 0.10
"""Largest fall of the voltage to the last loudspeaker [1] (common practice)."""

SPREAD_LIMIT_DB = 0.5
"""Largest difference [dB] between the first loudspeaker and the last (common practice)."""

AMPLIFIER_HEADROOM = 1.25
"""Power of the amplifier over the sum of the taps [1] (common practice)."""

WIRING_CLASS_LIMIT_VA = 100.0
"""Above this [VA] the marking of the amplifier's output decides the wiring class (from memory)."""

_DROP = Source(text="at most 10 % of the voltage", basis=Basis.COMMON_PRACTICE)
_SPREAD = Source(text="at most 0.5 dB between loudspeakers", basis=Basis.COMMON_PRACTICE)
_WIRING = Source(
    text="NFPA 70 article 640: the marking of the amplifier's output decides the wiring class",
    basis=Basis.FROM_MEMORY,
)
_NAME = "level at the last loudspeaker"


@dataclass(frozen=True, kw_only=True)
class DistributedLine(JudgedSignal):
    """Loudspeakers with transformers on a line of ``line_v`` [V], the amplifier's end first.

    ``taps_w`` [W] is what each is set to, ``between_m`` [m] the way from each to the next, one way
    less than taps; the run's whole length less those is the way to the first.
    """

    line_v: float
    taps_w: tuple[float, ...]
    between_m: tuple[float, ...]

    check_name = _NAME
    check_source = _DROP

    needs = SignalNeeds(
        legs=2, balanced=False, phantom_power=False, screen=False, impedance_ohm=None
    )
    """Two conductors, out and back."""

    families = (Family.LOUDSPEAKER,)
    """Loudspeaker pairs only."""

    def __post_init__(self) -> None:
        require_positive(self, "line_v")
        if not self.taps_w or not all(math.isfinite(tap) and tap > 0 for tap in self.taps_w):
            raise BadValue(
                owner="DistributedLine",
                field="taps_w",
                value=self.taps_w,
                accepted="one tap or more, each a number of watts above zero",
            )
        ways = len(self.taps_w) - 1
        if len(self.between_m) != ways or not all(
            math.isfinite(way) and way >= 0 for way in self.between_m
        ):
            raise BadValue(
                owner="DistributedLine",
                field="between_m",
                value=self.between_m,
                accepted=f"{ways} ways, each a number of metres of zero or more",
            )

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return "Loudspeakers with transformers that all get nearly the full line voltage."

    @property
    def name(self) -> str:
        """The line with its taps."""
        # 70.7 V is said, and sold, as 70 V.
        return f"{self.line_v:.0f} V loudspeaker line".replace("71 V", "70 V") + (
            ", " + " + ".join(f"{count} × {tap:g} W" for count, tap in self._stretches)
        )

    @property
    def _stretches(self) -> tuple[tuple[int, float], ...]:
        """Loudspeakers alike that follow each other: how many, and of how many watts."""
        return tuple((len(list(alike)), tap) for tap, alike in groupby(self.taps_w))

    @property
    def total_w(self) -> float:
        """The sum of the taps [W]."""
        return sum(self.taps_w)

    @property
    def between_first_and_last_m(self) -> float:
        """The way [m] from the first loudspeaker to the last."""
        return sum(self.between_m)

    def with_line_v(self, line_v: float) -> "DistributedLine":
        """Return the same loudspeakers, set to the same watts, on a line of ``line_v`` [V].

        That is what one more volt on the line does for its reach: each transformer is set to the
        tap that takes the same power from the new line, and the current falls.
        """
        return replace(self, line_v=line_v)

    def voltages_v(self, lengths_m: FloatArray, *, conductor_ohm_per_m: float) -> FloatArray:
        """Return the voltage [V] at every loudspeaker, shape (n_length, n_tap).

        ``lengths_m`` [m] is the whole line, ``conductor_ohm_per_m`` [Ω/m] one conductor, warm.
        """
        return ladder_voltages_v(
            line_v=self.line_v,
            taps_w=self.taps_w,
            first_m=np.maximum(0.0, lengths_m - self.between_first_and_last_m),
            between_m=self.between_m,
            conductor_ohm_per_m=conductor_ohm_per_m,
        )

    def budget(self, run: Run) -> Budget | Reason:
        """Return the fall to the last loudspeaker against 10 % of the voltage."""
        conductor = warm_conductor_ohm_per_m(run)
        if isinstance(conductor, Reason):
            return conductor
        if run.length.mean_m < self.between_first_and_last_m:
            return Reason(
                code="line-shorter-than-its-taps",
                sentence=(
                    f"the whole line is {show_both(run.length.mean_m)}, but from the first "
                    f"loudspeaker to the last it is already "
                    f"{show_both(self.between_first_and_last_m)}"
                ),
            )

        def fall_db(lengths_m: FloatArray, conductor_ohm_per_m: float) -> FloatArray:
            voltages = self.voltages_v(lengths_m, conductor_ohm_per_m=conductor_ohm_per_m)
            fall: FloatArray = 20 * np.log10(self.line_v / voltages[:, -1])
            return fall

        def used(lengths_m: FloatArray) -> FloatArray:
            return fall_db(lengths_m, conductor)

        def spread(lengths_m: FloatArray) -> FloatArray:
            return spread_by_change(
                used(lengths_m),
                fall_db(lengths_m, 1.001 * conductor),
                relative_change=0.001,
                spread=relative_spread(run, Stated.CONDUCTOR_RESISTANCE),
            )

        return Budget(
            limit=-20 * float(np.log10(1 - DROP_LIMIT_FRACTION)),
            used=used,
            spread=spread,
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the level at the last loudspeaker."""
        used, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
        last_v = self.line_v * 10 ** (-used / 20)
        good = margin >= 0
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if good else Outcome.BAD,
            sentence=(
                f"With {self._loudspeakers()} over "
                f"{show_both(run.length.mean_m)} of {run.cable.code} the last one gets "
                f"{show_quantity(last_v, 'V')} of {show_plain(self.line_v, 'V')}, "
                f"{show_db(used)} less; {show_db(budget.limit)} "
                "(10\u202f% of the voltage) is the usual limit, "
                + ("so the conductor is thick enough." if good else "so a thicker one is needed.")
            ),
            source=_DROP,
            value=used,
            limit=budget.limit,
            margin=margin,
            unit="dB",
        )

    def _loudspeakers(self) -> str:
        kinds = [
            f"{counted(count, 'loudspeaker')} of {show_plain(tap, 'W')}"
            for count, tap in self._stretches
        ]
        return listed(kinds)

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return spread between loudspeakers, power of the amplifier, wiring class."""
        conductor = warm_conductor_ohm_per_m(run)
        if isinstance(conductor, Reason):
            return (self._wiring_class(),)
        voltages = self.voltages_v(np.array([run.length.mean_m]), conductor_ohm_per_m=conductor)[0]
        between = float(20 * np.log10(voltages[0] / voltages[-1]))
        good = between <= SPREAD_LIMIT_DB
        return (
            Check(
                name="difference between loudspeakers",
                outcome=Outcome.GOOD if good else Outcome.BAD,
                sentence=(
                    f"The first loudspeaker gets {show_quantity(float(voltages[0]), 'V')} and "
                    f"the last {show_quantity(float(voltages[-1]), 'V')}, a difference of "
                    f"{show_db(between)}"
                    + (": nobody will hear it." if good else ": the far end will sound weaker.")
                ),
                source=_SPREAD,
                value=between,
                limit=SPREAD_LIMIT_DB,
                margin=SPREAD_LIMIT_DB - between,
                unit="dB",
            ),
            self._wiring_class(),
        )

    def _wiring_class(self) -> Check:
        over = self.total_w > WIRING_CLASS_LIMIT_VA
        needed = self.total_w * AMPLIFIER_HEADROOM
        amplifier = (
            f"The loudspeakers take {show_plain(self.total_w, 'W')} together; use an amplifier of "
            f"{show_in(needed, 'W', decimals=0)} or more. "
        )
        return Check(
            name="wiring class",
            outcome=Outcome.NOT_COMPUTED if over else Outcome.GOOD,
            sentence=amplifier
            + (
                "Not computed: above 100\u202fVA the marking on the amplifier's output decides "
                "whether this type of cable may be used, so please read it to us; the authority "
                "having jurisdiction decides."
                if over
                else "The authority having jurisdiction decides on the wiring class."
            ),
            source=_WIRING,
            value=self.total_w,
            limit=WIRING_CLASS_LIMIT_VA,
            margin=WIRING_CLASS_LIMIT_VA - self.total_w,
            unit="VA",
        )


def even_line(*, line_v: float, taps: int, tap_w: float, spacing_m: float) -> DistributedLine:
    """Return a line of ``taps`` loudspeakers alike [count], [W] each, ``spacing_m`` [m] apart.

    Raises BadValue as DistributedLine does.
    """
    return DistributedLine(
        line_v=line_v, taps_w=(tap_w,) * taps, between_m=(spacing_m,) * max(0, taps - 1)
    )
