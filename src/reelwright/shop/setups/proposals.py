"""What the engine would write into a set-up of a pair, number by number, where it knows.

By field of ``Numbers``; what it does not know is not there. Nothing of it is laid down until a
person drafts it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.ends.dies.cavities import Cavity, CavityUse, usable
from reelwright.core.ends.dies.cavity_choice import CavityChoice, Window, choose_cavity
from reelwright.core.ends.dies.crimp_height import SPRING_BACK_M, height_target
from reelwright.core.ends.dies.ferrule_crimp import ferrule_joint
from reelwright.core.ends.dies.pin_crimp import pin_joint
from reelwright.core.ends.fit.grip import ferrule_window_m, pin_window_m
from reelwright.core.ends.order.steps import EndSetUp, order_of_work
from reelwright.core.ends.strip.levels import needed_levels
from reelwright.core.ends.strip.plan import StripPlan
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.quantities.show import show_in, show_length_mm, show_percent
from reelwright.core.quantities.words import counted, sentence
from reelwright.core.trials.weld_energy import KnownGauge, guess_energy
from reelwright.core.verdicts import Reason
from reelwright.shop.setups.making import told_step
from reelwright.shop.setups.pair import PairNow
from reelwright.shop.tools.gauging import cavity_values

_CONFIDENCE = 0.95
_NEAREST = 3
_THOUSANDTH, _HUNDREDTH, _WHOLE = Decimal("0.001"), Decimal("0.01"), Decimal("1")


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """What one field would hold, and in one sentence who asks for it.

    ``value`` is None where there is only something to say. What lies from ``low`` to ``high`` is
    as good as the value.
    """

    told: str
    value: Decimal | None
    low: Decimal | None
    high: Decimal | None

    def agrees(self, number: Decimal) -> bool:
        """Whether a number is as proposed; what is not proposed disagrees with nothing."""
        return (self.low is None or self.low <= number) and (
            self.high is None or number <= self.high
        )


@dataclass(frozen=True, kw_only=True)
class Proposed:
    """The proposals of one pair by field, and its steps of work, where its strip is known."""

    numbers: dict[str, Proposal]
    steps: tuple[str, ...]


def proposed_for(
    now: PairNow, *, gauges: Sequence[KnownGauge] = (), pin_die_mm: Decimal | None = None
) -> Proposed:
    """Return what is proposed for a pair.

    ``gauges``: those that the shop welds, for the energy of a weld. ``pin_die_mm``: the pin die
    laid down, whose height is told; the best one's where None.
    """
    cable, connector, strip = now.cable, now.connector, now.proposed_strip
    found = dict(_levels(cable, connector))
    if isinstance(strip, StripPlan):
        found |= dict(_strip(strip))
    cavities = cavity_values()
    if connector.method is Method.CRIMP_CRIMP:
        found |= dict(_dies(cable, connector, cavities))
        if pin_die_mm is None and "pin_die_mm" in found:
            pin_die_mm = found["pin_die_mm"].value
        if pin_die_mm is not None:
            found |= dict(_height(cable, connector, cavities, pin_die_mm))
    if connector.method is Method.WELD:
        found |= dict(_energy(cable, gauges))
    return Proposed(numbers=found, steps=_steps(now, found))


def _exactly(value: Decimal, told: str) -> Proposal:
    return Proposal(told=told, value=value, low=value, high=value)


def _levels(cable: Cable, connector: Connector) -> Iterator[tuple[str, Proposal]]:
    levels = needed_levels(cable, connector)
    if not isinstance(levels, Reason):
        shown = ", ".join(level.shows for level in levels)
        told = f"{counted(len(levels), 'layer')} must show: {shown}."
        yield "levels", _exactly(Decimal(len(levels)), told)


def _strip(strip: StripPlan) -> Iterator[tuple[str, Proposal]]:
    for part in ("conductor", "dielectric", "braid"):
        length = _decimal(getattr(strip, f"{part}_mm"), _HUNDREDTH)
        yield f"strip_{part}_mm", _exactly(length, f"The drawing asks for {_mm(length)}.")
        keeps = _decimal(getattr(strip.tolerances, f"{part}_mm"), _HUNDREDTH)
        told = f"A rotary stripper keeps ±{_mm(keeps)}; common practice."
        # A wider tolerance asks less of the stripper; a narrower one more than it usually keeps.
        yield (
            f"strip_{part}_tolerance_mm",
            Proposal(told=told, value=keeps, low=keeps, high=None),
        )


def _dies(
    cable: Cable, connector: Connector, cavities: tuple[Cavity, ...]
) -> Iterator[tuple[str, Proposal]]:
    for field, joint, ends in (
        ("pin_die_mm", pin_joint(cable, connector), pin_window_m(cable, connector)),
        ("ferrule_die_mm", ferrule_joint(cable, connector), ferrule_window_m(cable, connector)),
    ):
        if joint is None or ends is None:
            continue
        window = Window(smallest_m=ends[0], largest_m=ends[1])
        yield field, _die(choose_cavity(joint, window, cavities, nearest_count=_NEAREST))


def _die(choice: CavityChoice) -> Proposal:
    if choice.best is None:
        return Proposal(told=sentence(choice.why), value=None, low=None, high=None)
    engraved = _decimal(choice.best.cavity.engraved_m * 1e3, _HUNDREDTH)
    told = f"{choice.best.cavity.code} fits best: {_mm(engraved)} across flats."
    return _exactly(engraved, told)


def _height(
    cable: Cable, connector: Connector, cavities: tuple[Cavity, ...], die_mm: Decimal
) -> Iterator[tuple[str, Proposal]]:
    cavity = usable(cavities, use=CavityUse.PIN, engraved_m=float(die_mm) / 1e3)
    ends = pin_window_m(cable, connector)
    if cavity is None or ends is None:
        return
    window = Window(smallest_m=ends[0], largest_m=ends[1])
    target = height_target(across_flats_m=cavity.across_flats_m, window=window)
    if target is None:
        told = f"No height follows: {_mm(die_mm)} does not both grip and spare."
        yield "crimp_height_mm", Proposal(told=told, value=None, low=None, high=None)
        return
    least, most = (
        _decimal((cavity.across_flats_m + springs_m) * 1e3, _HUNDREDTH)
        for springs_m in SPRING_BACK_M
    )
    height = _decimal(target.target_m * 1e3, _THOUSANDTH)
    told = f"{cavity.code} and its spring-back leave {target.told}."
    yield "crimp_height_mm", Proposal(told=told, value=height, low=least, high=most)
    room_m = min(target.target_m - target.low_m, target.high_m - target.target_m)
    room = Decimal(repr(room_m * 1e3)).quantize(_THOUSANDTH)
    told = f"On its narrow side the window leaves ±{show_length_mm(float(room), decimals=3)}."
    # What a gauge of hundredths cannot hold is told, and not written into the form.
    value = room if room >= _HUNDREDTH else None
    yield "crimp_height_tolerance_mm", Proposal(told=told, value=value, low=None, high=room)


def _energy(cable: Cable, gauges: Sequence[KnownGauge]) -> Iterator[tuple[str, Proposal]]:
    area_m2 = cable.sheet.conductor_area_m2
    if area_m2 is None:
        return
    guess = guess_energy(gauges, area_m2=area_m2, confidence=_CONFIDENCE)
    if guess.energy_j is None:
        told, value, low, high = sentence(guess.sentence), None, None, None
    else:
        told = f"The law through the shop's own gauges says {_joules(guess.energy_j)}"
        low, high = guess.low_j, guess.high_j
        if low is not None and high is not None:
            told += f", {low:.0f} to {_joules(high)} with {show_percent(_CONFIDENCE)}"
        told, value = f"{told}.", _decimal(guess.energy_j, _WHOLE)
    yield (
        "weld_energy_j",
        Proposal(
            told=told,
            value=value,
            low=None if low is None else Decimal(repr(low)),
            high=None if high is None else Decimal(repr(high)),
        ),
    )


def _steps(now: PairNow, found: dict[str, Proposal]) -> tuple[str, ...]:
    strip = now.proposed_strip
    if not isinstance(strip, StripPlan):
        return ()
    dies = {
        field: found[field].value for field in ("pin_die_mm", "ferrule_die_mm") if field in found
    }
    engraved = {field: f"{die:.2f}" for field, die in dies.items() if die is not None}
    end = EndSetUp(
        method=now.connector.method,
        strip=strip,
        boot=now.cable.family is Family.COAX,
        program=None,
        pin_die=engraved.get("pin_die_mm"),
        ferrule_die=engraved.get("ferrule_die_mm"),
    )
    return tuple(
        sentence(told_step(step))
        for step in order_of_work(end, cable=now.cable, connector=now.connector)
    )


def _decimal(value: float, step: Decimal) -> Decimal:
    return Decimal(repr(value)).quantize(step)


def _mm(value: Decimal) -> str:
    return show_length_mm(float(value), decimals=2)


def _joules(energy_j: float) -> str:
    return show_in(energy_j, "J", decimals=0)
