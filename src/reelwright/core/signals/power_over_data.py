"""Power that travels with data over the same pairs: what arrives, and what the cable must be."""

import re
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.layers import LayerRole
from reelwright.core.physics.lot_values import KnownValue, Stated, known_value
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.physics.supply import volts_for_power
from reelwright.core.physics.warming import SOURCE as WARMING_SOURCE
from reelwright.core.physics.warming import HeatedBundle
from reelwright.core.quantities.guard import require_count, require_positive
from reelwright.core.quantities.show import show_both, show_in, show_plain
from reelwright.core.signals.answer import not_computed
from reelwright.core.signals.category.links import unbalance_limit_ohm
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

BUNDLE = 24
"""Cables in the bundle that warmth is estimated for: a usual one from a rack."""

CAUTION_K = 10.0
"""From here up [K] the middle of a bundle is worth a caution. Common practice."""

POWER_SOURCE = Source(
    text=(
        "IEEE 802.3 types 1 to 4: watts and volts as a tester's manual prints them, current of "
        "types 1, 3, 4, resistance and least volts at the device from memory"
    ),
    basis=Basis.FROM_MEMORY,
)
"""Where the types come from."""

_CLAD_SOURCE = Source(
    text="TIA-568.2-D and ISO/IEC 11801-1 ask for conductors of copper", basis=Basis.FROM_MEMORY
)
_NAME = "power at the device"
_ALUMINIUM = re.compile(r"\balumini?um\b|\bcca\b", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class PowerType:
    """One type of power over data.

    The source gives ``source_w`` [W] at ``lowest_source_v`` [V] or more over ``pair_set_count``
    side by side; the device may ask for ``device_w`` [W] and works down to ``lowest_device_v`` [V].
    A pair set (two pairs, out and back) may have ``pair_set_ohm`` [Ω].
    """

    number: int
    source_w: float
    device_w: float
    lowest_source_v: float
    lowest_device_v: float
    pair_set_count: int
    pair_set_ohm: float

    def __post_init__(self) -> None:
        require_count(self, "number", "pair_set_count", at_least=1)
        require_positive(
            self,
            "source_w",
            "device_w",
            "lowest_source_v",
            "lowest_device_v",
            "pair_set_ohm",
        )

    @property
    def current_a(self) -> float:
        """Most current [A] in one pair set: all the watts at the lowest volts."""
        return self.source_w / self.lowest_source_v / self.pair_set_count

    def most_w(self, *, pair_set_ohm: float) -> float:
        """Return the most [W] that reaches the device over pair sets of that resistance [Ω].

        P − (P/V)²·R with P the source's watts at its lowest volts: there it sends most current.
        At the resistance allowed this is what the standard promises the device.
        """
        if pair_set_ohm < 0:
            raise BadValue(
                owner="PowerType", field="pair_set_ohm", value=pair_set_ohm, accepted="0 or more"
            )
        return self.source_w - self.pair_set_count * self.current_a**2 * pair_set_ohm


def _type(  # noqa: PLR0917 - one row of a table, in the order it is read
    number: int,
    source_w: float,
    device_w: float,
    volts: float,
    device_v: float,
    sets: int,
    ohm: float,
) -> PowerType:
    return PowerType(
        number=number,
        source_w=source_w,
        device_w=device_w,
        lowest_source_v=volts,
        lowest_device_v=device_v,
        pair_set_count=sets,
        pair_set_ohm=ohm,
    )


POWER_TYPES = (
    _type(1, 15.4, 12.95, 44.0, 37.0, 1, 20.0),
    _type(2, 30.0, 25.5, 50.0, 42.5, 1, 12.5),
    _type(3, 60.0, 51.0, 50.0, 39.9, 2, 12.5),
    _type(4, 90.0, 71.3, 52.0, 41.1, 2, 12.5),
)
"""The types, weakest first."""


@dataclass(frozen=True, kw_only=True)
class PowerAsked:
    """The type of source, and the watts [W] that the device takes at most."""

    type: PowerType
    device_w: float

    def __post_init__(self) -> None:
        require_positive(self, "device_w")
        if self.device_w > self.type.device_w:
            raise BadValue(
                owner="PowerAsked",
                field="device_w",
                value=self.device_w,
                accepted=f"up to {self.type.device_w:g}, what type {self.type.number} promises",
            )


def power_of_type(number: int) -> PowerAsked | None:
    """Return all that a type promises the device; None where there is no type of that number."""
    found = next((each for each in POWER_TYPES if each.number == number), None)
    return None if found is None else PowerAsked(type=found, device_w=found.device_w)


def power_of_watts(device_w: float) -> PowerAsked | None:
    """Return the weakest type that gives a device ``device_w`` [W]; None beyond type 4 or none."""
    found = next((each for each in POWER_TYPES if 0 < device_w <= each.device_w), None)
    return None if found is None else PowerAsked(type=found, device_w=device_w)


def clad_aluminium(run: Run) -> bool:
    """Whether the conductors are aluminium, clad with copper or not."""
    layer = run.cable.layer(LayerRole.CONDUCTOR)
    return layer is not None and _ALUMINIUM.search(layer.material) is not None


def judge_metal(run: Run, *, powered: bool) -> tuple[Check, ...]:
    """Return the check of the conductors' metal; nothing where they are copper."""
    if not clad_aluminium(run):
        return ()
    code = run.cable.code
    return (
        Check(
            name="metal of the conductors",
            outcome=Outcome.BAD if powered else Outcome.CAUTION,
            sentence=(
                f"The conductors of {code} are copper on aluminium: they resist half as much again "
                "as copper, get hotter for it, and break or work loose in contacts made for "
                "copper. "
                + (
                    "We do not sell it to carry power."
                    if powered
                    else "No category allows them, and it must not carry power either."
                )
            ),
            source=_CLAD_SOURCE,
            value="aluminium",
            limit="copper",
            margin=None,
            unit="",
        ),
    )


def judge_power(run: Run, asked: PowerAsked) -> tuple[Check, ...]:
    """Return whether volts and watts arrive, and how warm a bundle of such runs gets."""
    known = known_value(run.cable, run.lot, Stated.CONDUCTOR_RESISTANCE)
    if known is None:
        return (
            not_computed(
                name=_NAME,
                because=f"the resistance of {run.cable.code} is not stated",
                source=POWER_SOURCE,
                unit="W",
            ),
        )
    return _arriving(run, asked, known), _warmth(run, asked, known)


def _arriving(run: Run, asked: PowerAsked, known: KnownValue) -> Check:
    kind = asked.type
    # Two conductors side by side go out and two come back: a pair set has one conductor's ohms.
    pair_set_ohm = known.value * run.length.mean_m * temperature_factor(run.temperature_celsius)
    volts = volts_for_power(
        source_v=kind.lowest_source_v,
        loop_ohm=pair_set_ohm / kind.pair_set_count,
        power_w=asked.device_w,
    )
    most_w = kind.most_w(pair_set_ohm=pair_set_ohm)
    enough_v = volts is not None and volts >= kind.lowest_device_v
    good = most_w >= asked.device_w * (1 - 1e-9) and enough_v
    length, unbalance = show_both(run.length.mean_m), unbalance_limit_ohm(2 * pair_set_ohm)
    if good and volts is not None:
        sentence = (
            f"From the weakest source of type {kind.number} ({show_plain(kind.source_w, 'W')}, "
            f"{show_plain(kind.lowest_source_v, 'V')}) a device that takes "
            f"{show_plain(asked.device_w, 'W')} still gets {show_in(volts, 'V', decimals=1)} over "
            f"{length} of {run.cable.code}, and could take "
            f"{show_in(most_w, 'W', decimals=1)}. Both conductors of a pair may differ by "
            f"{show_in(unbalance, 'Ω', decimals=2)}, which only a test shows."
        )
    else:
        sentence = (
            f"Over {length} of {run.cable.code} a source of type {kind.number} brings no more than "
            f"{show_in(max(most_w, 0.0), 'W', decimals=1)} to the device, "
            + (
                f"at {show_in(volts, 'V', decimals=1)}, "
                if volts is not None
                else "and its volts break down, "
            )
            + f"where {show_plain(asked.device_w, 'W')} and "
            f"{show_plain(kind.lowest_device_v, 'V')} are needed: too long, or too thin."
        )
    return Check(
        name=_NAME,
        outcome=Outcome.GOOD if good else Outcome.BAD,
        sentence=sentence,
        source=POWER_SOURCE,
        value=most_w,
        limit=asked.device_w,
        margin=most_w - asked.device_w,
        unit="W",
    )


def _warmth(run: Run, asked: PowerAsked, known: KnownValue) -> Check:
    kind = asked.type
    # Half the current of a pair set flows in each of the two conductors of a pair.
    bundle = HeatedBundle(
        cable_diameter_m=run.cable.jacket.outside_diameter_m,
        cable_count=BUNDLE,
        conductors=4 * kind.pair_set_count,
        conductor_ohm_per_m=known.value,
        current_a=kind.current_a / 2,
    )
    rise = bundle.rise_k(ambient_celsius=run.temperature_celsius)
    warm = rise is None or rise > CAUTION_K
    told = "ever warmer" if rise is None else f"about {show_in(rise, '°C', decimals=0)} warmer"
    return Check(
        name="warmth of a bundle",
        outcome=Outcome.CAUTION if warm else Outcome.GOOD,
        sentence=(
            f"In the middle of a bundle of {BUNDLE} such cables that all carry type {kind.number}, "
            f"it gets {told} than the air around (an estimate, and no design value)"
            + (": keep the bundles smaller." if warm else ".")
        ),
        source=WARMING_SOURCE,
        value=rise,
        limit=CAUTION_K,
        margin=None if rise is None else CAUTION_K - rise,
        unit="K",
    )
