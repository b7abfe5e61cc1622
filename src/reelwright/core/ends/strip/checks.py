"""What an end asks of its strip, held against the drawing, each in millimetres."""

from reelwright.core.ends.dies.pin_crimp import pin_joint, pin_outcome
from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.core.ends.fit.compatibility import Dies
from reelwright.core.ends.strip.cuts import cuts_of
from reelwright.core.ends.strip.levels import needed_levels
from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.ends.strip.spread import StripSpread, conductor_offset_limit_m
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.drawing import Drawing
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.show import show_dimension
from reelwright.core.quantities.words import counted
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

HOLE_OVERLAP_M = 0.3e-3
"""How far the conductor reaches past the far edge of the hole; common practice."""

BRAID_FLARE_M = 0.5e-3
"""What the flared braid takes of the ferrule's length; common practice, no published source."""

JACKET_GRIP_M = 3.0e-3
"""The least length of jacket under a ferrule; common practice, no published source."""

PIN_GROWTH_LIMIT_M = 0.30e-3
"""The narrowest window usual at a mating face, 0.3 to 0.6 mm, where the drawing gives none; common
practice: a pin that grows by all of it cannot be set off by its seat."""

PIN_OFF_CENTRE_LIMIT_M = 0.10e-3
"""What a mating contact takes up of a pin beside its axis; common practice, no published source."""

_DRAWING = Source(text="drawing of the connector", basis=Basis.COMPUTED)
_VOLUME = Source(text="conservation of the metal's volume", basis=Basis.COMPUTED)
_LAYERS = Source(text="layers of the cable", basis=Basis.COMPUTED)


def judge_strip(
    strip: StripPlan | WireStrip,
    cable: Cable,
    connector: Connector,
    *,
    spread: StripSpread,
    dies: Dies | None = None,
    growth: MeasuredGrowth | None = None,
) -> tuple[Check, ...]:
    """Return all that this end asks of the strip; what the drawing does not give has no check.

    Levels against those the connector needs; the conductor in hole and barrel; the ferrule's
    length; the braid folded back; the pin's growth, of measured pins
    (``growth``) where they are enough and else with the pin die of ``dies``; the conductor's
    offset against the barrel; the jacket's ovality against the ferrule.
    """
    cuts = cuts_of(cable, strip)
    if isinstance(cuts, Reason):
        return (_told("layers", Outcome.BAD, cuts.sentence, source=_LAYERS),)
    checks = [_judge_levels(len(cuts), cable, connector)]
    drawing = connector.drawing
    if drawing is None or not isinstance(strip, StripPlan):
        return tuple(checks)
    checks += check_strip(strip, drawing)
    checks += _judge_ferrule_length(strip, drawing)
    checks += _judge_jacket_oval(strip, cable, drawing, spread)
    checks += _judge_off_centre(cable, drawing, spread)
    if growth is not None and not growth.lacking:
        checks.append(_measured_growth(growth, drawing))
    elif dies is not None:
        checks += _judge_growth(strip, cable, connector, dies, growth)
    return tuple(checks)


def check_strip(plan: StripPlan, drawing: Drawing) -> tuple[Check, ...]:
    """Return whether released values still suit the drawing: the conductor's end in the barrel.

    At the worst of the drawing's tolerances it must be seen in the inspection hole (0.3 mm past its
    far edge, common practice) and must not touch the bottom, at the ends of its own.
    """
    checks = []
    a_m, spread_m = plan.conductor_mm / 1e3, plan.tolerances.conductor_mm / 1e3
    hole_m, depth_m = drawing.largest_m("hole_far_edge_m"), drawing.smallest_m("barrel_depth_m")
    if hole_m is not None:
        limit_m = hole_m + HOLE_OVERLAP_M
        checks.append(
            _spare(
                name="conductor seen in the hole",
                spare_m=a_m - spread_m - limit_m,
                limit_m=limit_m,
                value_m=a_m,
                good="the conductor shows in the inspection hole",
                bad="the conductor may not be seen in the inspection hole: strip longer",
            )
        )
    if depth_m is not None:
        checks.append(
            _spare(
                name="conductor clear of the bottom",
                spare_m=depth_m - a_m - spread_m,
                limit_m=depth_m,
                value_m=a_m,
                good="the conductor ends before the bottom of the pin",
                bad="the conductor may touch the bottom and stand the pin off: strip shorter",
            )
        )
    return tuple(checks)


def pin_growth_m(
    cable: Cable, connector: Connector, *, conductor_length_m: float, across_flats_m: float
) -> float | None:
    """Return by how much [m] a pin grows in its crimp at most; None where the drawing lacks it.

    What does not fit the hexagon goes lengthwise (``pin_crimp``: conservation of volume), over what
    ``pin_crimp.crimped_length_m`` takes to be crimped of so much conductor in the barrel.
    """
    joint = pin_joint(cable, connector, conductor_length_m=conductor_length_m)
    if joint is None:
        return None
    return pin_outcome(joint, across_flats_m=across_flats_m).elongation_most_m


def _judge_levels(count: int, cable: Cable, connector: Connector) -> Check:
    needed = needed_levels(cable, connector)
    if isinstance(needed, Reason):
        return _told("levels", Outcome.NOT_COMPUTED, f"{needed.sentence}: not computed")
    told = "; ".join(f"{level.shows}: {level.because}" for level in needed)
    good = count == len(needed)
    sentence = f"stripped in {counted(count, 'level')}"
    if not good:
        sentence += f", and {connector.code} needs {len(needed)}"
    return Check(
        name="levels",
        outcome=Outcome.GOOD if good else Outcome.BAD,
        sentence=f"{sentence} ({told})",
        source=_DRAWING,
        value=counted(count, "level"),
        limit=counted(len(needed), "level"),
        margin=None,
        unit="",
    )


def _judge_ferrule_length(plan: StripPlan, drawing: Drawing) -> list[Check]:
    length_m = drawing.smallest_m("ferrule_length_m")
    if length_m is None:
        return []
    c_m, spread_m = plan.braid_mm / 1e3, plan.tolerances.braid_mm / 1e3
    if plan.folds_braid:
        spare_m = length_m - c_m - spread_m
        return [
            _spare(
                name="folded braid in the sleeve",
                spare_m=spare_m,
                limit_m=length_m,
                value_m=c_m,
                good="the braid folded back lies wholly under the sleeve",
                bad="the braid folded back reaches out of the sleeve: strip less of the jacket",
            )
        ]
    grip_m = length_m - c_m - spread_m - BRAID_FLARE_M
    return [
        _spare(
            name="jacket under the ferrule",
            spare_m=grip_m - JACKET_GRIP_M,
            limit_m=JACKET_GRIP_M,
            value_m=grip_m,
            good=f"{show_dimension(grip_m)} of jacket lie under the ferrule at the least",
            bad=(
                f"only {show_dimension(grip_m)} of jacket lie under the ferrule, "
                f"{show_dimension(JACKET_GRIP_M)} are to be gripped: strip less of the jacket"
            ),
            source=Source(
                text="3 mm of jacket gripped, 0.5 mm for the flared braid",
                basis=Basis.COMMON_PRACTICE,
            ),
        )
    ]


def _judge_jacket_oval(
    plan: StripPlan, cable: Cable, drawing: Drawing, spread: StripSpread
) -> list[Check]:
    bore_m = drawing.smallest_m("ferrule_bore_m")
    if bore_m is None:
        return []
    widest_m = cable.jacket.largest_m * (1 + spread.jacket_ovality_share / 2)
    what = "an oval jacket"
    braid = cable.layer(LayerRole.BRAID)
    under = cable.layer(LayerRole.FOIL) or cable.layer(LayerRole.DIELECTRIC)
    if plan.folds_braid and braid is not None and under is not None:
        widest_m += braid.outside_diameter_m - under.outside_diameter_m
        what += " with the braid folded back"
    told = f"{what}, {show_dimension(widest_m)} at its widest,"
    return [
        _spare(
            name="oval jacket in the ferrule",
            spare_m=bore_m - widest_m,
            limit_m=bore_m,
            value_m=widest_m,
            good=f"{told} passes the bore of {show_dimension(bore_m)}",
            bad=f"{told} does not pass the bore of {show_dimension(bore_m)}",
        )
    ]


def _judge_off_centre(cable: Cable, drawing: Drawing, spread: StripSpread) -> list[Check]:
    conductor = cable.layer(LayerRole.CONDUCTOR)
    offset_m = conductor_offset_limit_m(cable, spread)
    bore_m = drawing.smallest_m("barrel_bore_m")
    if conductor is None or offset_m is None or bore_m is None:
        return []
    play_m = max(0.0, (bore_m - conductor.largest_m) / 2)
    left_m = max(0.0, offset_m - play_m)
    return [
        _spare(
            name="pin on the axis",
            spare_m=PIN_OFF_CENTRE_LIMIT_M - left_m,
            limit_m=PIN_OFF_CENTRE_LIMIT_M,
            value_m=left_m,
            good=(
                f"the conductor lies up to {show_dimension(offset_m)} beside the axis, the barrel "
                f"takes up {show_dimension(play_m)}: the pin stands at most "
                f"{show_dimension(left_m)} beside it"
            ),
            bad=(
                f"the conductor lies up to {show_dimension(offset_m)} beside the axis and the "
                f"barrel takes up only {show_dimension(play_m)}: the pin stands "
                f"{show_dimension(left_m)} beside it"
            ),
            source=Source(text="0.10 mm that a mate takes up", basis=Basis.COMMON_PRACTICE),
        )
    ]


def _judge_growth(
    plan: StripPlan,
    cable: Cable,
    connector: Connector,
    dies: Dies,
    measured: MeasuredGrowth | None,
) -> list[Check]:
    if dies.pin_across_flats_m is None:
        return []
    growth_m = pin_growth_m(
        cable,
        connector,
        conductor_length_m=plan.conductor_mm / 1e3,
        across_flats_m=dies.pin_across_flats_m,
    )
    if growth_m is None:
        return []
    told = f"the pin grows by up to {show_dimension(growth_m)} in its crimp"
    if measured is not None:
        told += f" ({measured.lacking})"
    return [_growth_check(told, growth_m, connector.drawing, source=_VOLUME)]


def _measured_growth(measured: MeasuredGrowth, drawing: Drawing) -> Check:
    """By how much the pins of a set-up may grow at most, by those that were measured."""
    most_m = max(0.0, measured.mean_m + measured.tolerance_m)
    told = (
        f"the pin grows by up to {show_dimension(most_m)} in its crimp, by "
        f"{counted(measured.pins_count, 'measured pin')}"
    )
    return _growth_check(told, most_m, drawing, source=measured.source)


def _growth_check(told: str, growth_m: float, drawing: Drawing | None, *, source: Source) -> Check:
    window_m, whose = PIN_GROWTH_LIMIT_M, "the narrowest mating windows are"
    if drawing is not None and drawing.tip_least_m is not None and drawing.tip_most_m is not None:
        window_m, whose = drawing.tip_most_m - drawing.tip_least_m, "its mating window is"
    spare_m = window_m - growth_m
    good = spare_m >= 0
    return Check(
        name="pin growth",
        outcome=Outcome.GOOD if good else Outcome.CAUTION,
        sentence=(
            f"{told}, which belongs to its setback; {whose} {show_dimension(window_m)} wide"
            if good
            else f"{told}, and {whose} {show_dimension(window_m)} wide: measure finished pins"
        ),
        source=source,
        value=growth_m * 1e3,
        limit=window_m * 1e3,
        margin=spare_m * 1e3,
        unit="mm",
    )


def _spare(
    *,
    name: str,
    spare_m: float,
    limit_m: float,
    value_m: float,
    good: str,
    bad: str,
    source: Source = _DRAWING,
) -> Check:
    # A nanometre of binary rounding is no reason to refuse.
    fine = spare_m >= -1e-9
    return Check(
        name=name,
        outcome=Outcome.GOOD if fine else Outcome.BAD,
        sentence=f"{good if fine else bad} ({show_dimension(abs(spare_m))} "
        f"{'to spare' if fine else 'too much'})",
        source=source,
        value=value_m * 1e3,
        limit=limit_m * 1e3,
        margin=spare_m * 1e3,
        unit="mm",
    )


def _told(name: str, outcome: Outcome, sentence: str, *, source: Source = _DRAWING) -> Check:
    return Check(
        name=name,
        outcome=outcome,
        sentence=sentence,
        source=source,
        value=None,
        limit=None,
        margin=None,
        unit="",
    )
