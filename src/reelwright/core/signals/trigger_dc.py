"""Triggers and small direct-current supplies: what is left of the volts at the far end.

Only for circuits that touch low voltage and little power. Whatever hangs on the mains, and more
than a limited source can give, belongs to local code and to licensed people, and is not judged.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.physics.sheet_line import loop_resistance_ohm_per_m
from reelwright.core.physics.supply import volts_at_far_end, volts_for_power
from reelwright.core.physics.warming import SOURCE as WARMING_SOURCE
from reelwright.core.physics.warming import HeatedBundle
from reelwright.core.quantities.guard import require_between, require_given, require_positive
from reelwright.core.quantities.show import (
    show_both,
    show_both_whole,
    show_in,
    show_plain,
    show_short,
)
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import spread_per_length
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

LIMITED_V, LIMITED_W = 60.0, 100.0
"""Up to so many volts direct current [V] and watts [W] a source may be marked as limited."""

CAUTION_K = 10.0
"""From here up [K] a cable's own warmth is worth a caution. Common practice."""

_NAME = "volts lost on the way"
_SOURCE = Source(text="Ohm's law, out and back; the fall is what you allow", basis=Basis.COMPUTED)
_LIMITED_SOURCE = Source(
    text="NFPA 70 article 725, class 2: 60 V direct current, 100 VA", basis=Basis.FROM_MEMORY
)


@dataclass(frozen=True, kw_only=True)
class DirectSupply(JudgedSignal):
    """``source_v`` [V] for a load that takes ``current_a`` [A] or ``power_w`` [W], one of both.

    ``fall_fraction`` [1] of the volts may be lost on the way. ``trigger``: it only switches
    something on. Raises BadValue for no load, for two, or a fall of half the volts or more.
    """

    source_v: float
    current_a: float | None
    power_w: float | None
    fall_fraction: float
    trigger: bool

    check_name = _NAME
    check_source = _SOURCE
    margin_unit = "V"
    """Volts."""

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=False, impedance_ohm=None
    )
    """One conductor out; back on another, or on a coax's screen."""

    families = (Family.COAX, Family.PAIR, Family.LOUDSPEAKER, Family.DATA)
    """Whatever is made of metal."""

    def __post_init__(self) -> None:
        require_positive(self, "source_v")
        require_given(self, "current_a", "power_w")
        require_between(self, "fall_fraction", low=0.001, high=0.499)
        if (self.current_a is None) == (self.power_w is None):
            raise BadValue(
                owner="DirectSupply",
                field="current_a",
                value=self.current_a,
                accepted="a current or a power, not both and not neither",
            )

    @property
    def load_w(self) -> float:
        """What the source gives at its own volts [W]."""
        return self.power_w or self.source_v * (self.current_a or 0.0)

    @property
    def name(self) -> str:
        """The trigger or the supply with its volts."""
        return f"{'trigger voltage' if self.trigger else 'direct current'} of {self.source_v:g} V"

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        least = self.source_v * (1 - self.fall_fraction)
        return f"{show_short(least, 'V')} or more while it takes {self._load}."

    @property
    def _load(self) -> str:
        if self.power_w is not None:
            return show_quantity(self.power_w, "W")
        return show_quantity(self.current_a or 0.0, "A")

    def far_v(self, loop_ohm: float) -> float | None:
        """Return the volts [V] behind a loop of that resistance [Ω]; None where they break down."""
        if self.power_w is not None:
            return volts_for_power(source_v=self.source_v, loop_ohm=loop_ohm, power_w=self.power_w)
        left = volts_at_far_end(
            source_v=self.source_v, loop_ohm=loop_ohm, current_a=self.current_a or 0.0
        )
        return left if left > 0 else None

    def _fall_v(self, loop_ohm: FloatArray) -> FloatArray:
        """The volts lost; where nothing settles any more, as much as was lost last."""
        if self.power_w is None:
            lost: FloatArray = loop_ohm * (self.current_a or 0.0)
            return lost
        under_root = np.maximum(self.source_v**2 / 4 - loop_ohm * self.power_w, 0.0)
        return self.source_v / 2 - np.sqrt(under_root)

    def budget(self, run: Run) -> Budget | Reason:
        """Return the volts lost over the loop against the fall allowed."""
        cold = loop_resistance_ohm_per_m(run.cable, run.lot)
        known = known_value(run.cable, run.lot, Stated.CONDUCTOR_RESISTANCE)
        if cold is None or known is None:
            return Reason(
                code="resistance-missing",
                sentence=(
                    f"the resistance of {run.cable.code} out and back is not stated"
                    + (" (conductor and screen)" if run.cable.family is Family.COAX else "")
                ),
            )
        per_metre = cold * temperature_factor(run.temperature_celsius)

        def used(lengths_m: FloatArray) -> FloatArray:
            return self._fall_v(per_metre * lengths_m)

        return Budget(
            limit=self.fall_fraction * self.source_v,
            used=used,
            spread=spread_per_length(used, spread=known.relative_uncertainty),
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the volts lost."""
        length_m = run.length.mean_m
        margin = budget.margin_at(length_m)
        per_metre = loop_resistance_ohm_per_m(run.cable, run.lot) or 0.0
        loop = per_metre * length_m * temperature_factor(run.temperature_celsius)
        left = self.far_v(loop)
        longest = budget.length_at_m(0.95)
        start = (
            f"Over {show_both(length_m)} of {run.cable.code} ({show_short(loop, 'Ω')} out and "
            f"back) {show_short(left, 'V')} of {show_plain(self.source_v, 'V')} arrive with "
            f"{self._load}"
            if left is not None
            else f"Over {show_both(length_m)} of {run.cable.code} ({show_quantity(loop, 'Ω')} out "
            f"and back) the volts break down with {self._load}"
        )
        reach = "" if longest is None or longest < 1 else f"; {show_both_whole(longest)} would do"
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"{start}; {show_short(budget.limit, 'V')} may be lost"
                + (
                    f", so there is {show_short(margin, 'V')} to spare."
                    if margin >= 0
                    else f": it is too thin for that length{reach}."
                )
            ),
            source=_SOURCE,
            value=budget.used_at(length_m),
            limit=budget.limit,
            margin=margin,
            unit="V",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return the class of the circuit and how warm the cable gets."""
        return (self._class(), *self._warmth(run))

    def _class(self) -> Check:
        over = self.load_w > LIMITED_W or self.source_v > LIMITED_V
        return Check(
            name="class of the circuit",
            outcome=Outcome.NOT_COMPUTED if over else Outcome.GOOD,
            sentence=(
                "Not computed: above 60\u202fV or 100\u202fW local code decides which wiring is "
                "allowed, and a licensed person builds it. What is marked on the supply, and who "
                "installs it?"
                if over
                else "This holds for a limited source with nothing of the mains in its cable; the "
                "authority having jurisdiction decides."
            ),
            source=_LIMITED_SOURCE,
            value=self.load_w,
            limit=LIMITED_W,
            margin=LIMITED_W - self.load_w,
            unit="W",
        )

    def _warmth(self, run: Run) -> tuple[Check, ...]:
        per_metre = loop_resistance_ohm_per_m(run.cable, run.lot)
        if per_metre is None:
            return ()
        loop = per_metre * run.length.mean_m * temperature_factor(run.temperature_celsius)
        left = self.far_v(loop)
        current = self.current_a
        if current is None:
            current = (self.power_w or 0.0) / (left or self.source_v / 2)
        # All the heat of the loop, as if one conductor made it.
        one = HeatedBundle(
            cable_diameter_m=run.cable.jacket.outside_diameter_m,
            cable_count=1,
            conductors=1,
            conductor_ohm_per_m=per_metre,
            current_a=current,
        )
        rise = one.rise_k(ambient_celsius=run.temperature_celsius)
        if rise is None:
            outcome, told = Outcome.BAD, "it would get ever hotter: it must not be used so"
        elif rise > CAUTION_K:
            outcome = Outcome.CAUTION
            told = (
                f"it gets about {show_in(rise, '°C', decimals=0)} warmer than the air around, and "
                "in a bundle or in insulation more (an estimate, and no design value)"
            )
        else:
            outcome = Outcome.GOOD
            told = "it stays cool in open air (an estimate, and no design value)"
        return (
            Check(
                name="warmth of the cable",
                outcome=outcome,
                sentence=f"With {show_quantity(current, 'A')} in {run.cable.code} {told}.",
                source=WARMING_SOURCE,
                value=rise,
                limit=CAUTION_K,
                margin=None if rise is None else CAUTION_K - rise,
                unit="K",
            ),
        )
