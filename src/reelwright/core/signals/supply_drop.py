"""A supply that travels along a coax to a head or an amplifier: what is left of it at the far end.

Out on the centre, back on the screen. A load behind a series regulator takes one current whatever
its voltage, so the fall is the loop's resistance times that current.
"""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import COPPER
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.resistance import temperature_factor, wire_resistance_ohm_per_m
from reelwright.core.physics.supply import largest_loop_ohm, volts_at_far_end
from reelwright.core.quantities.guard import (
    require_given,
    require_not_negative,
    require_positive,
    require_text,
)
from reelwright.core.quantities.show import show_both, show_both_whole, show_in, show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.answer import not_computed
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

LITTLE = 0.05
"""Share of a supply [1] that any load does without: what supplies vary by (common practice)."""

_ASKED_A = 0.1
# 95 % of all lots lie within this many standard uncertainties.
_BAND = 1.96
_FALL = Source(
    text="loop resistance times current, at the temperature of the run", basis=Basis.COMPUTED
)
_STEEL = Source(
    text="conductivity of copper on steel, 21 to 40 % of that of copper", basis=Basis.COMPUTED
)


@dataclass(frozen=True, kw_only=True)
class SupplyStep:
    """One voltage of a supply: ``source_v`` [V] sent, ``needed_v`` [V] at the far end or None."""

    source_v: float
    needed_v: float | None

    def __post_init__(self) -> None:
        require_positive(self, "source_v")
        require_given(self, "needed_v")

    @property
    def may_fall_v(self) -> float | None:
        """What may be lost on the way [V]; None where it is not known what the load needs."""
        return None if self.needed_v is None else self.source_v - self.needed_v


@dataclass(frozen=True, kw_only=True)
class Supply:
    """A supply sent along the cable.

    ``load`` says what is fed ("head"), ``steps`` the voltages it may run at, ``current_a`` [A]
    what the load takes (None: not known), ``most_current_a`` [A] the most that such a source gives
    (None: not known), ``source`` where voltages and needs come from.
    Raises BadValue for no step, or a current that is not above zero.
    """

    load: str
    steps: tuple[SupplyStep, ...]
    current_a: float | None
    most_current_a: float | None
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "load")
        require_given(self, "current_a", "most_current_a")
        if not self.steps:
            raise BadValue(owner="Supply", field="steps", value=(), accepted="one or more")

    @property
    def name(self) -> str:
        """Name of the check."""
        return f"supply of the {self.load}"

    @property
    def deciding(self) -> SupplyStep:
        """The step that may lose least; at one current all of them lose the same."""
        return min(
            self.steps,
            key=lambda step: step.source_v if step.may_fall_v is None else step.may_fall_v,
        )


@dataclass(frozen=True, kw_only=True)
class _Loop:
    """Ohms [Ω] of centre and screen at the run's temperature, with their uncertainty [Ω]."""

    loop_ohm: float
    uncertainty_ohm: float

    def __post_init__(self) -> None:
        require_positive(self, "loop_ohm")
        require_not_negative(self, "uncertainty_ohm")


def supply_checks(run: Run, supply: Supply) -> tuple[Check, ...]:
    """Return the check of the supply, and a word about a centre of copper on steel."""
    return (_fall(run, supply), *_steel(run, supply))


def _fall(run: Run, supply: Supply) -> Check:
    parts = [_part(run, what) for what in (Stated.CONDUCTOR_RESISTANCE, Stated.SCREEN_RESISTANCE)]
    centre, screen = parts
    if centre is not None and screen is not None:
        loop = _Loop(
            loop_ohm=centre.loop_ohm + screen.loop_ohm,
            uncertainty_ohm=(centre.uncertainty_ohm**2 + screen.uncertainty_ohm**2) ** 0.5,
        )
        if supply.current_a is None:
            return _without_current(run, supply, loop)
        return _with_current(run, supply, loop, supply.current_a)
    if centre is not None and supply.current_a is not None and supply.deciding.may_fall_v:
        lost = centre.loop_ohm * supply.current_a
        if lost > supply.deciding.may_fall_v:
            return _check(
                supply,
                Outcome.BAD,
                (
                    f"The centre of {run.cable.code} alone loses {show_quantity(lost, 'V')} at "
                    f"{_milliamperes(supply.current_a)}, more than the "
                    f"{show_in(supply.deciding.may_fall_v, 'V', decimals=1)} that may be lost on "
                    f"the way to the {supply.load}."
                ),
                lost,
            )
    missing = "the screen" if centre is not None else "the centre"
    return not_computed(
        name=supply.name,
        because=(
            f"how much of the supply of the {supply.load} is lost on the way is not known, since "
            f"the resistance of {missing} of {run.cable.code} is not stated"
        ),
        source=_FALL,
        unit="V",
    )


def _part(run: Run, what: Stated) -> _Loop | None:
    known = known_value(run.cable, run.lot, what)
    if known is None:
        return None
    ohm = known.value * temperature_factor(run.temperature_celsius) * run.length.mean_m
    return _Loop(
        loop_ohm=ohm,
        uncertainty_ohm=ohm
        * (known.relative_uncertainty**2 + run.length_relative_uncertainty**2) ** 0.5,
    )


def _with_current(run: Run, supply: Supply, loop: _Loop, current_a: float) -> Check:
    step = supply.deciding
    left = volts_at_far_end(source_v=step.source_v, loop_ohm=loop.loop_ohm, current_a=current_a)
    lost = step.source_v - left
    start = (
        f"Out and back {show_both(run.length.mean_m)} of {run.cable.code} have "
        f"{show_quantity(loop.loop_ohm, 'Ω')}: at {_milliamperes(current_a)} "
        f"{show_quantity(lost, 'V')} are lost, "
    )
    if left <= 0:
        return _check(
            supply,
            Outcome.BAD,
            start + f"and a source of {show_plain(step.source_v, 'V')} cannot drive that.",
            lost,
        )
    arrives = (
        f"so of {show_plain(step.source_v, 'V')} {show_in(left, 'V', decimals=2)} reach the "
        f"{supply.load}"
    )
    if step.needed_v is None:
        little = lost <= LITTLE * step.source_v
        return _check(
            supply,
            Outcome.GOOD if little else Outcome.CAUTION,
            start + arrives + ("." if little else ". Which is the least voltage it works at?"),
            lost,
        )
    margin = left - step.needed_v
    needs = f"it needs {show_plain(step.needed_v, 'V')}"
    if margin < 0:
        longest_m = (
            run.length.mean_m
            * largest_loop_ohm(source_v=step.source_v, needed_v=step.needed_v, current_a=current_a)
            / loop.loop_ohm
        )
        told = (
            f" On this cable it goes as far as {show_both_whole(math.floor(longest_m))}."
            if longest_m >= 1
            else ""
        )
        return _check(supply, Outcome.BAD, f"{start}{arrives}, and {needs}.{told}", lost)
    sure = margin >= _BAND * loop.uncertainty_ohm * current_a
    return _check(
        supply,
        Outcome.GOOD if sure else Outcome.CAUTION,
        f"{start}{arrives}; {needs}"
        + ("." if sure else ", so near that another reel of the same cable might not do."),
        lost,
    )


def _without_current(run: Run, supply: Supply, loop: _Loop) -> Check:
    step, most_a = supply.deciding, supply.most_current_a
    each = (
        f"Each {_milliamperes(_ASKED_A)} that the {supply.load} takes loses "
        f"{show_quantity(_ASKED_A * loop.loop_ohm, 'V')} over {show_both(run.length.mean_m)} of "
        f"{run.cable.code}"
    )
    if step.needed_v is None:
        return _check(
            supply,
            Outcome.CAUTION,
            f"{each}. How many milliamperes does it take, and at which least voltage?",
            None,
        )
    allowed_a = (step.source_v - step.needed_v) / (loop.loop_ohm + _BAND * loop.uncertainty_ohm)
    if allowed_a <= 0:
        return _check(
            supply,
            Outcome.BAD,
            (
                f"The {supply.load} needs {show_plain(step.needed_v, 'V')}, and "
                f"{show_plain(step.source_v, 'V')} are sent: nothing is left for the cable."
            ),
            None,
        )
    if most_a is not None and allowed_a >= most_a:
        return _check(
            supply,
            Outcome.GOOD,
            (
                f"{each}: even at {_milliamperes(most_a)}, the most that such a source gives, the "
                f"{supply.load} gets what it needs."
            ),
            None,
        )
    return _check(
        supply,
        Outcome.CAUTION,
        (
            f"{each}, so it may take up to {_milliamperes(allowed_a)} here. How many does it "
            "take? The figure stands on it or in its papers."
        ),
        None,
    )


def _check(supply: Supply, outcome: Outcome, sentence: str, lost_v: float | None) -> Check:
    may_fall = supply.deciding.may_fall_v
    return Check(
        name=supply.name,
        outcome=outcome,
        sentence=sentence,
        source=supply.source,
        value=lost_v,
        limit=may_fall,
        margin=None if lost_v is None or may_fall is None else may_fall - lost_v,
        unit="V",
    )


def _milliamperes(current_a: float) -> str:
    # Downwards: what may be taken is never rounded up.
    return show_in(int(current_a * 1e3 + 1e-6), "mA", decimals=0)


def _steel(run: Run, supply: Supply) -> tuple[Check, ...]:
    centre = run.cable.layer(LayerRole.CONDUCTOR)
    if centre is None or "steel" not in centre.material.casefold():
        return ()
    times = _over_copper(run, centre)
    return (
        Check(
            name="direct current in copper on steel",
            outcome=Outcome.CAUTION,
            sentence=(
                f"The centre of {run.cable.code} is copper on steel. It carries the signal as well "
                "as copper does, but direct current goes through the steel as well: "
                + (
                    f"it has {show_in(times, 'times', decimals=1)} the resistance of copper, "
                    if times is not None
                    else "its resistance is several times that of copper, "
                )
                + f"and less is left for the {supply.load} than over a centre of copper."
            ),
            source=_STEEL,
            value=times,
            limit=1.0,
            margin=None,
            unit="1",
        ),
    )


def _over_copper(run: Run, centre: Layer) -> float | None:
    stated = known_value(run.cable, run.lot, Stated.CONDUCTOR_RESISTANCE)
    if stated is None:
        return None
    copper = wire_resistance_ohm_per_m(
        diameter_m=centre.outside_diameter_m, metal=COPPER, lay_factor=1.0
    )
    return stated.value / copper
