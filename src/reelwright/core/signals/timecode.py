"""Longitudinal timecode: slow edges that the capacitance of a cable must not make much slower.

Biphase mark at 80 bits a frame, 2.4 kHz at most, but with edges of 25 µs: not the frequency but the
rise decides, and it comes of the source's resistance into the cable.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.lot_values import KnownValue, Stated, known_value
from reelwright.core.physics.sheet_line import loop_resistance_ohm_per_m
from reelwright.core.quantities.guard import require_given
from reelwright.core.quantities.show import show_both, show_both_whole, show_in, show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import spread_per_length
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_audio import unbalanced_between
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

SENT_RISE_S = 25e-6
"""Rise [s] of the edges as sent, 10 to 90 %: SMPTE ST 12-1, from memory."""

SLOWEST_RISE_S = 30e-6
"""Slowest rise [s] within its tolerance of 5 µs."""

ASSUMED_SOURCE_OHM = 600.0
"""Output resistance [Ω] of old equipment, the highest that is usual (common practice)."""

LOAD_OHM = 10_000.0
"""A reader's input [Ω] (common practice)."""

WEAKEST_V = 0.5
"""Weakest launch [V peak to peak]: 0.5 to 4.5 V, SMPTE ST 12-1, from memory."""

NEEDED_V = 0.2
"""What readers take [V peak to peak] (common practice)."""

_RISE_SOURCE = Source(
    text="SMPTE ST 12-1: edges of 25 µs ± 5 µs, so 30 µs at the far end", basis=Basis.FROM_MEMORY
)
_LEVEL_SOURCE = Source(
    text="0.5 V at least launched, readers take 0.2 V", basis=Basis.COMMON_PRACTICE
)
_NAME = "rise at the far end"
# 10 to 90 % of an edge through one resistance and one capacitance, over their product.
_RISE_OVER_RC = 2.1972


@dataclass(frozen=True, kw_only=True)
class Timecode(JudgedSignal):
    """Longitudinal timecode; ``source_ohm`` [Ω] is None where the customer did not state it."""

    balanced: bool
    source_ohm: float | None

    check_name = _NAME
    check_source = _RISE_SOURCE
    margin_unit = "µs"
    """Microseconds of rise."""

    def __post_init__(self) -> None:
        require_given(self, "source_ohm")

    @property
    def needs(self) -> SignalNeeds:
        """One conductor or two, and a screen."""
        return SignalNeeds(
            legs=2 if self.balanced else 1,
            balanced=self.balanced,
            phantom_power=False,
            screen=True,
            impedance_ohm=None,
        )

    @property
    def families(self) -> tuple[Family, ...]:
        """Pairs; unbalanced coax as well."""
        return (Family.PAIR,) if self.balanced else (Family.COAX, Family.PAIR)

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A reader of 10\u202fkΩ or more that gets 0.2\u202fV or more, with edges that rise "
            "within 30\u202fµs."
        )

    @property
    def name(self) -> str:
        """Timecode, balanced or not."""
        return f"{'balanced' if self.balanced else 'unbalanced'} timecode"

    @property
    def resistance_ohm(self) -> float:
        """What feeds the cable [Ω]: as stated, else the highest that is usual."""
        return ASSUMED_SOURCE_OHM if self.source_ohm is None else self.source_ohm

    def between(self, cable: Cable) -> Stated:
        """Return which capacitance the source sees: core to core of a balanced pair."""
        return Stated.CAPACITANCE if self.balanced else unbalanced_between(cable)

    def _capacitance(self, run: Run) -> KnownValue | None:
        return known_value(run.cable, run.lot, self.between(run.cable))

    def budget(self, run: Run) -> Budget | Reason:
        """Return the rise at the far end against the slowest within the tolerance.

        The sent edge and that of the line, 2.2·(R·C + ½·r·C·l) with r the loop [Ω/m], added by
        their squares: the first moment of a line fed through a resistance (Elmore 1948).
        """
        known = self._capacitance(run)
        if known is None:
            return Reason(
                code="capacitance-missing",
                sentence=f"the capacitance of {run.cable.code} is not stated",
            )
        loop = loop_resistance_ohm_per_m(run.cable, run.lot) or 0.0
        per_metre, source = known.value, self.resistance_ohm

        def used(lengths_m: FloatArray) -> FloatArray:
            moment_s = (source + loop * lengths_m / 2) * per_metre * lengths_m
            rise: FloatArray = 1e6 * np.hypot(SENT_RISE_S, _RISE_OVER_RC * moment_s)
            return rise

        return Budget(
            limit=1e6 * SLOWEST_RISE_S,
            used=used,
            spread=spread_per_length(used, spread=known.relative_uncertainty),
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the rise."""
        used, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
        known = self._capacitance(run)
        capacitance = show_quantity(
            (0.0 if known is None else known.value) * run.length.mean_m, "F"
        )
        source = show_in(self.resistance_ohm, "Ω", decimals=0)
        if self.source_ohm is None:
            source += " (assumed: the highest that is usual)"
        longest = budget.length_at_m(0.5)
        allowed = show_plain(budget.limit, "µs")
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"{show_both(run.length.mean_m)} of {run.cable.code} has {capacitance}; from a "
                f"source of {source} the edges of the timecode rise within "
                f"{show_in(used, 'µs', decimals=1)} instead of "
                f"{show_plain(1e6 * SENT_RISE_S, 'µs')}, "
                + (
                    f"and up to {allowed} are allowed."
                    if margin >= 0
                    else f"more than the {allowed} allowed."
                    + (
                        ""
                        if longest is None
                        else f" It holds up to {show_both_whole(longest)}; a line amplifier of low "
                        "output resistance carries it further."
                    )
                )
            ),
            source=_RISE_SOURCE,
            value=used,
            limit=budget.limit,
            margin=margin,
            unit="µs",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return the level at the reader."""
        loop = loop_resistance_ohm_per_m(run.cable, run.lot) or 0.0
        level = WEAKEST_V * LOAD_OHM / (LOAD_OHM + self.resistance_ohm + loop * run.length.mean_m)
        margin = level - NEEDED_V
        return (
            Check(
                name="level at the far end",
                outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
                sentence=(
                    f"Of the weakest launch, {show_plain(WEAKEST_V, 'V')}, a reader of "
                    f"10\u202fkΩ gets {show_quantity(level, 'V')}; readers take "
                    f"{show_plain(NEEDED_V, 'V')}."
                ),
                source=_LEVEL_SOURCE,
                value=level,
                limit=NEEDED_V,
                margin=margin,
                unit="V",
            ),
        )
