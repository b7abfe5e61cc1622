"""What a welder and a plug can take, and how dense a welded joint is."""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.connector import Band
from reelwright.core.quantities.convert import awg_area_m2
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.quantities.show import show_dimension, show_in, show_percent
from reelwright.core.quantities.show_scaled import show_area_m2
from reelwright.core.verdicts import Basis, Check, Outcome, Source

COMPACTION_AIM = (0.75, 0.85)
"""The strands' metal over the area of the welded joint; common practice, no published source."""

BUNDLE_FILL_SHARE = 19 / 5**2
"""Fill [1] of 19 equal strands of diameter d in their circle of 5·d: geometry."""

_COMPACTION = Source(text="aim for welded strands, of solid metal", basis=Basis.COMMON_PRACTICE)


@dataclass(frozen=True, kw_only=True)
class Welder:
    """An ultrasonic welder: the most energy [J] of one weld, the power [W] it gives, the longest
    weld [s] it allows, each as its maker states it."""

    code: str
    most_energy_j: float
    most_power_w: float
    longest_s: float

    def __post_init__(self) -> None:
        require_text(self, "code")
        require_positive(self, "most_energy_j", "most_power_w", "longest_s")

    @property
    def reach_j(self) -> float:
        """The most energy [J] it can bring into a joint: its limit, or all its power to the end."""
        return min(self.most_energy_j, self.most_power_w * self.longest_s)


def judge_welder(welder: Welder, *, energy_j: float, area_m2: float) -> Check:
    """Return whether the welder brings ``energy_j`` [J] into a conductor of ``area_m2`` [m²]."""
    _positive("judge_welder", energy_j=energy_j, area_m2=area_m2)
    spare_j = welder.reach_j - energy_j
    wants = f"{show_area_m2(area_m2)} wants {_joules(energy_j)}"
    by_power = welder.reach_j < welder.most_energy_j
    gives = (
        f"{welder.code} gives {show_in(welder.most_power_w, 'W', decimals=0)} for "
        f"{show_in(welder.longest_s, 's', decimals=1)}, {_joules(welder.reach_j)}"
        if by_power
        else f"{welder.code} gives at most {_joules(welder.reach_j)}"
    )
    ending = f"{_joules(abs(spare_j))} {'to spare' if spare_j >= 0 else 'short'}"
    return Check(
        name="energy of the welder",
        outcome=Outcome.GOOD if spare_j >= 0 else Outcome.BAD,
        sentence=f"{wants}, {gives}: {ending}",
        source=Source(text=f"limits of {welder.code}", basis=Basis.DATA_SHEET),
        value=energy_j,
        limit=welder.reach_j,
        margin=spare_j,
        unit="J",
    )


def judge_barrel(*, conductor_m: float, takes: Band) -> Check:
    """Return whether a bared conductor of ``conductor_m`` [m] suits what the plug takes."""
    _positive("judge_barrel", conductor_m=conductor_m)
    above_m, below_m = takes.high_m - conductor_m, conductor_m - takes.low_m
    upper = above_m <= below_m
    spare_m, limit_m = (above_m, takes.high_m) if upper else (below_m, takes.low_m)
    away = show_dimension(abs(spare_m))
    told = f"{away} to spare" if spare_m >= 0 else f"{away} too {'thick' if upper else 'thin'}"
    return Check(
        name="conductor in the plug",
        outcome=Outcome.GOOD if spare_m >= 0 else Outcome.BAD,
        sentence=(
            f"conductor {show_dimension(conductor_m)}, plug takes {show_dimension(takes.low_m)} to "
            f"{show_dimension(takes.high_m)}: {told}"
        ),
        source=Source(text="accepted range of the connector", basis=Basis.DATA_SHEET),
        value=conductor_m * 1e3,
        limit=limit_m * 1e3,
        margin=spare_m * 1e3,
        unit="mm",
    )


def bundle_m(area_m2: float) -> float:
    """Return the diameter [m] of a round bundle of strands with ``area_m2`` [m²] of metal.

    As 19 equal strands lie, which fill ``BUNDLE_FILL_SHARE`` of their circle; finer ones lie much
    the same.
    """
    _positive("bundle_m", area_m2=area_m2)
    return math.sqrt(4 * area_m2 / (math.pi * BUNDLE_FILL_SHARE))


@dataclass(frozen=True, kw_only=True)
class GaugeWelded:
    """One gauge ``awg`` (0 is 1/0) against a welder and a plug; ``energy_j`` [J] as guessed."""

    awg: int
    area_m2: float
    energy_j: float | None
    checks: tuple[Check, ...]

    @property
    def possible(self) -> bool:
        """Whether nothing is against it; what was not computed is."""
        return all(check.outcome in (Outcome.GOOD, Outcome.CAUTION) for check in self.checks)


def judge_gauges(
    welder: Welder,
    takes: Band,
    energy_of_j: Callable[[float], float | None],
    *,
    gauges: Iterable[int],
) -> tuple[GaugeWelded, ...]:
    """Return each of ``gauges`` (AWG numbers) against the welder's limits and the plug's bore.

    ``energy_of_j`` gives the energy [J] that an area [m²] wants, ``None`` where it is not computed.
    """
    found = []
    for awg in gauges:
        area_m2 = awg_area_m2(awg)
        energy_j = energy_of_j(area_m2)
        energy = (
            _energy_not_known(area_m2)
            if energy_j is None
            else judge_welder(welder, energy_j=energy_j, area_m2=area_m2)
        )
        barrel = judge_barrel(conductor_m=bundle_m(area_m2), takes=takes)
        found.append(
            GaugeWelded(awg=awg, area_m2=area_m2, energy_j=energy_j, checks=(energy, barrel))
        )
    return tuple(found)


def _energy_not_known(area_m2: float) -> Check:
    return Check(
        name="energy of the welder",
        outcome=Outcome.NOT_COMPUTED,
        sentence=f"the energy for {show_area_m2(area_m2)} is not guessed so far from known gauges",
        source=Source(text="gauges that the shop welds", basis=Basis.OWN_SHOP),
        value=None,
        limit=None,
        margin=None,
        unit="J",
    )


def judge_compaction(*, strands_m2: float, width_m: float, height_m: float) -> Check:
    """Return how dense a joint is: ``strands_m2`` [m²] over measured width times height [m].

    75 to 85 % of solid is aimed at, common practice; less was welded too little, more is brittle at
    its neck. More than solid is impossible: not computed, something was measured wrong.
    """
    _positive("judge_compaction", strands_m2=strands_m2, width_m=width_m, height_m=height_m)
    share = strands_m2 / (width_m * height_m)
    low, high = COMPACTION_AIM
    told = (
        f"{show_area_m2(strands_m2)} in a joint of {show_dimension(width_m)} × "
        f"{show_dimension(height_m)} are {show_percent(share)} of solid"
    )
    if share > 1:
        return Check(
            name="compaction",
            outcome=Outcome.NOT_COMPUTED,
            sentence=f"{told}, which cannot be: measure the joint again, or count its strands",
            source=_COMPACTION,
            value=None,
            limit=None,
            margin=None,
            unit="%",
        )
    if share < low:
        outcome, told = Outcome.BAD, f"{told}: welded too little, the strands peel apart"
    elif share > high:
        outcome, told = Outcome.CAUTION, f"{told}: welded too hard, the neck turns brittle"
    else:
        outcome, told = Outcome.GOOD, f"{told}, aim {show_percent(low)} to {show_percent(high)}"
    upper = share - low > high - share
    return Check(
        name="compaction",
        outcome=outcome,
        sentence=told,
        source=_COMPACTION,
        value=share * 100,
        limit=(high if upper else low) * 100,
        margin=min(share - low, high - share) * 100,
        unit="%",
    )


def _joules(energy_j: float) -> str:
    return show_in(energy_j, "J", decimals=0)


def _positive(owner: str, **values: float) -> None:
    for field, value in values.items():
        if not (math.isfinite(value) and value > 0):
            raise BadValue(owner=owner, field=field, value=value, accepted="above zero")
