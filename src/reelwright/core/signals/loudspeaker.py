"""A loudspeaker at the end of a pair, low impedance: at its nominal ohms and as it really is."""

import math
from dataclasses import dataclass

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.driver import Driver
from reelwright.core.physics.lot_values import Stated
from reelwright.core.physics.loudspeaker import level_loss_db
from reelwright.core.quantities.guard import require_given, require_positive
from reelwright.core.quantities.show import (
    show_both,
    show_both_whole,
    show_db,
    show_in,
    show_percent,
    show_plain,
)
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import (
    relative_spread,
    spread_per_length,
    warm_conductor_ohm_per_m,
)
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.loudspeaker_checks import (
    LoudspeakerLoad,
    judge_damping,
    load_of,
    lowest_checks,
    response_checks,
)
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

LOOP_LIMIT_FRACTION = 0.05
"""Largest loop resistance over the nominal load [1] (common practice)."""

_SOURCE = Source(
    text="loop resistance at most 5 % of the nominal load, which is 0.42 dB",
    basis=Basis.COMMON_PRACTICE,
)
_NAME = "level lost in the cable"


@dataclass(frozen=True, kw_only=True)
class Loudspeaker(JudgedSignal):
    """One loudspeaker (or several in parallel) of ``nominal_ohm`` [Ω] in all.

    ``lowest_ohm`` [Ω] is the lowest its impedance falls to, ``driver`` what its impedance is over
    frequency; both are None where the customer did not state them. A loudspeaker whose impedance
    never falls below its nominal ohms is not refused: ``lowest_ohm`` may be larger.
    """

    nominal_ohm: float
    lowest_ohm: float | None
    driver: Driver | None

    check_name = _NAME
    check_source = _SOURCE

    needs = SignalNeeds(
        legs=2, balanced=False, phantom_power=False, screen=False, impedance_ohm=None
    )
    """Two conductors, out and back."""

    families = (Family.LOUDSPEAKER,)
    """Loudspeaker pairs only."""

    def __post_init__(self) -> None:
        require_positive(self, "nominal_ohm")
        require_given(self, "lowest_ohm")

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A loudspeaker that gets nearly all of the level and is held by an amplifier of low "
            "resistance."
        )

    @property
    def name(self) -> str:
        """Loudspeaker with its nominal impedance."""
        return f"loudspeaker {self.nominal_ohm:g} ohm"

    @property
    def load(self) -> LoudspeakerLoad:
        """Its impedance over frequency, and whose it is."""
        return load_of(nominal_ohm=self.nominal_ohm, lowest_ohm=self.lowest_ohm, driver=self.driver)

    @property
    def _judged_at_ohm(self) -> float:
        """The lowest impedance where it was stated; the nominal ohms, as is usual, where not."""
        return self.load.lowest_ohm if self.load.lowest_stated else self.nominal_ohm

    def budget(self, run: Run) -> Budget | Reason:
        """Return the level lost against what a loop of 5 % of the load loses."""
        conductor = warm_conductor_ohm_per_m(run)
        if isinstance(conductor, Reason):
            return conductor

        load_ohm = self._judged_at_ohm

        def used(lengths_m: FloatArray) -> FloatArray:
            return level_loss_db(loop_ohm=2 * conductor * lengths_m, nominal_ohm=load_ohm)

        return Budget(
            limit=20 * math.log10(1 + LOOP_LIMIT_FRACTION),
            used=used,
            spread=spread_per_length(
                used, spread=relative_spread(run, Stated.CONDUCTOR_RESISTANCE)
            ),
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the level lost, in decibels and in parts of the power."""
        lost = budget.used_at(run.length.mean_m)
        margin = budget.margin_at(run.length.mean_m)
        power = 1 - 10 ** (-lost / 10)
        loop_ohm = self._judged_at_ohm * (10 ** (lost / 20) - 1)
        there = ""
        if self.load.lowest_stated:
            there = f" that falls to {show_in(self.load.lowest_ohm, 'Ω', decimals=1)}"
        start = (
            f"Over {show_both(run.length.mean_m)} the loop of {run.cable.code} has "
            f"{show_in(loop_ohm, 'Ω', decimals=2)}: a loudspeaker of "
            f"{show_plain(self.nominal_ohm, 'Ω')}{there} gets {show_db(lost)} less, "
            f"{show_percent(power)} of the power. "
        )
        longest = budget.length_at_m(0.5)
        rest = (
            f"The usual limit is {show_db(budget.limit)}, so there is {show_db(margin)} to spare."
            if margin >= 0
            else (
                f"That is above the usual limit of {show_db(budget.limit)}; "
                + (
                    ""
                    if longest is None
                    else f"this cable keeps it up to {show_both_whole(longest)}, and "
                )
                + "a thicker one goes further."
            )
        )
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=start + rest,
            source=_SOURCE,
            value=lost,
            limit=budget.limit,
            margin=margin,
            unit="dB",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return the level at its lowest impedance, its damping, and the error of its response."""
        conductor = warm_conductor_ohm_per_m(run)
        if isinstance(conductor, Reason):
            return ()
        loop_ohm = 2 * conductor * run.length.mean_m
        return (
            *lowest_checks(run, self.load, loop_ohm=loop_ohm, fraction=LOOP_LIMIT_FRACTION),
            judge_damping(self.nominal_ohm, loop_ohm=loop_ohm),
            *response_checks(run, self.load),
        )
