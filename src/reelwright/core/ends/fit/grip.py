"""Whether the crimps still hold at the loosest of the tolerances, in millimetres across flats.

The hexagon that closes on an end must be small enough to grip the thinnest that the cable may be,
and should be large enough to spare the thickest. Between the two lies what a die may measure.
"""

from reelwright.core.ends.dies.ferrule_crimp import FerruleJoint, ferrule_joint
from reelwright.core.ends.dies.hexagon import (
    FERRULE_INTERFERENCE_AIM,
    PIN_REDUCTION_AIM,
    hex_across_flats_m,
)
from reelwright.core.ends.dies.pin_crimp import PinJoint, pin_joint
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.quantities.show import show_dimension, show_percent
from reelwright.core.verdicts import Basis, Check, Outcome, Source


def _practice(text: str) -> Source:
    return Source(text=text, basis=Basis.COMMON_PRACTICE)


_PIN = _practice(
    f"at least {show_percent(PIN_REDUCTION_AIM[0], decimals=0)} less metal in the hexagon of a pin"
)
_FERRULE = _practice(
    f"at least {show_percent(FERRULE_INTERFERENCE_AIM[0], decimals=0)} of the braid stack pressed"
)


def judge_grips(
    cable: Cable,
    connector: Connector,
    *,
    pin_across_flats_m: float | None = None,
    ferrule_across_flats_m: float | None = None,
) -> list[Check]:
    """Return whether pin and ferrule can be held at the loosest, and whether these dies [m] do.

    Without a die: whether one hexagon both grips the thinnest cable and spares the thickest. A
    crimp whose dimensions the drawing does not give has no check here.
    """
    if connector.method is not Method.CRIMP_CRIMP:
        return []
    checks = []
    window = pin_window_m(cable, connector)
    if window is not None:
        checks.append(_judge("pin", window, pin_across_flats_m, _PIN))
    window = ferrule_window_m(cable, connector)
    if window is not None:
        checks.append(_judge("ferrule", window, ferrule_across_flats_m, _FERRULE))
    return checks


def pin_window_m(cable: Cable, connector: Connector) -> tuple[float, float] | None:
    """Return the smallest and the largest hexagon of a pin, across flats in metres.

    The largest reduces the metal by 5 % with the thinnest conductor in the thinnest barrel, the
    smallest by 15 % with the thickest in the thickest: conservation of volume, the two shares by
    common practice, no published source. A tolerance that the drawing does not state counts as
    none. ``None`` where the drawing gives no barrel. Where no hexagon does both, the first exceeds
    the second.
    """
    joint = pin_joint(cable, connector)
    if joint is None:
        return None
    thick, thin = joint.at_limit(most=True), joint.at_limit(most=False)
    return pin_window_of(thick)[0], pin_window_of(thin)[1]


def pin_window_of(joint: PinJoint) -> tuple[float, float]:
    """Return the smallest and the largest hexagon across flats [m] inside the aim, as above."""
    least, most = PIN_REDUCTION_AIM
    return (
        hex_across_flats_m((1 - most) * joint.metal_m2(joint.conductor.largest_m)),
        hex_across_flats_m((1 - least) * joint.metal_m2(joint.conductor.smallest_m)),
    )


def ferrule_window_m(cable: Cable, connector: Connector) -> tuple[float, float] | None:
    """Return the smallest and the largest hexagon of a ferrule, across flats in metres.

    The largest presses the thinnest braid stack by 15 %, on the thinnest stem under the thinnest
    ferrule, the smallest the thickest by 35 %, on and under the thickest: geometry, the two shares
    by common practice, no published source. ``None`` where the drawing or the cable does not give
    all of it.
    """
    joint = ferrule_joint(cable, connector)
    if joint is None:
        return None
    thick, thin = joint.at_limit(most=True), joint.at_limit(most=False)
    return ferrule_window_of(thick)[0], ferrule_window_of(thin)[1]


def ferrule_window_of(joint: FerruleJoint) -> tuple[float, float]:
    """Return the smallest and the largest hexagon across flats [m] inside the aim, as above."""
    least, most = FERRULE_INTERFERENCE_AIM

    def across_flats_m(stack_m: float, share: float) -> float:
        return joint.stem_outside_m + (1 - share) * stack_m + 2 * joint.wall_m

    return (
        across_flats_m(joint.braid_stack_m + joint.braid_spread_m, most),
        across_flats_m(joint.braid_stack_m - joint.braid_spread_m, least),
    )


def _judge(what: str, window_m: tuple[float, float], die_m: float | None, source: Source) -> Check:
    smallest_m, largest_m = window_m
    between = f"{show_dimension(smallest_m)} to {show_dimension(largest_m)} across flats"
    if die_m is not None:
        good = die_m <= largest_m
        sentence = (
            f"{what} die {show_dimension(die_m)} across flats grips the loosest, up to "
            f"{show_dimension(largest_m)} would"
            if good
            else f"{what} die {show_dimension(die_m)} > {show_dimension(largest_m)}, the widest "
            f"that grips the loosest, by {show_dimension(die_m - largest_m)}"
        )
        outcome, value_m = (Outcome.GOOD if good else Outcome.BAD), die_m
        margin_m = largest_m - die_m
    elif smallest_m <= largest_m:
        outcome, value_m, margin_m = Outcome.GOOD, smallest_m, largest_m - smallest_m
        sentence = (
            f"a hexagon of {between} grips the {what} at the loosest and spares it at the tightest"
        )
    else:
        outcome, value_m, margin_m = Outcome.CAUTION, smallest_m, largest_m - smallest_m
        sentence = (
            f"no one hexagon grips the {what} at the loosest (at most {show_dimension(largest_m)}) "
            f"and spares it at the tightest (at least {show_dimension(smallest_m)}): "
            f"{show_dimension(smallest_m - largest_m)} apart, so each lot wants its own die"
        )
    return Check(
        name=f"grip of the {what}",
        outcome=outcome,
        sentence=sentence,
        source=source,
        value=value_m * 1e3,
        limit=largest_m * 1e3,
        margin=margin_m * 1e3,
        unit="mm",
    )
