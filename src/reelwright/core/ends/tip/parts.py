"""What decides where the tip of a pin lands: the parts, their tolerances, and who keeps them."""

from dataclasses import dataclass

from reelwright.core.ends.dies.pin_crimp import PinJoint, pin_joint, pin_outcome
from reelwright.core.ends.dies.pin_growth import PINS_TO_MEASURE, MeasuredGrowth
from reelwright.core.ends.stack import Contributor, Keeper, Reading
from reelwright.core.ends.strip.plan import StripPlan
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.parts.drawing import Drawing
from reelwright.core.quantities.guard import require_not_negative
from reelwright.core.verdicts import Basis, Reason, Source


@dataclass(frozen=True, kw_only=True)
class Kept:
    """A half width [m] that hands, a material or a gauge keep, and who says so."""

    tolerance_m: float
    source: Source

    def __post_init__(self) -> None:
        require_not_negative(self, "tolerance_m")


@dataclass(frozen=True, kw_only=True)
class Practice:
    """What no drawing states: seating by hand, creep of the dielectric, the gauge's own error."""

    seating: Kept
    creep: Kept
    gauge: Kept


def _common(tolerance_m: float, what: str) -> Kept:
    return Kept(tolerance_m=tolerance_m, source=Source(text=what, basis=Basis.COMMON_PRACTICE))


COMMON_PRACTICE = Practice(
    seating=_common(0.08e-3, "how far home a hand pushes a pin"),
    creep=_common(0.12e-3, "how far a stripped dielectric moves, whatever its material"),
    gauge=_common(0.02e-3, "what a depth gauge may read off"),
)
"""Common practice, no published source; creep is known to differ by material, not by how much."""


GROWTH = "growth of the pin in the crimp"


@dataclass(frozen=True, kw_only=True)
class TipParts:
    """The contributors of one pair; ``growth_most_m`` [m] where a crimp lengthens the pin.

    ``measured``: the pins that were measured, few or many; None where none was.
    ``conductor`` and ``barrel`` are the two lengths whose difference stands the pin off once the
    conductor is the longer; None where the end has no barrel.
    """

    contributors: tuple[Contributor, ...]
    growth_most_m: float | None
    measured: MeasuredGrowth | None
    conductor: Contributor | None
    barrel: Contributor | None

    @property
    def growth_measured(self) -> bool:
        """Whether measured pins, and not the reckoned range, say how much a pin grows."""
        return self.measured is not None and not self.measured.lacking


def tip_parts(
    cable: Cable,
    connector: Connector,
    *,
    strip: StripPlan,
    pin_across_flats_m: float | None,
    practice: Practice,
    growth: MeasuredGrowth | None,
) -> TipParts | Reason:
    """Return what the tip's place is made of, or the reason why it cannot be told."""
    drawing = connector.drawing
    if drawing is None or connector.method not in (Method.CRIMP_CRIMP, Method.COMPRESSION):
        return _reason(f"{connector.code} has no drawing of where its pin sits")
    wanted = (
        ("floor_to_plane_m",)
        if connector.method is Method.COMPRESSION
        else ("plane_to_seat_m", "shoulder_to_tip_m", "barrel_depth_m")
    )
    missing = [_PLAIN[name] for name in wanted if getattr(drawing, name) is None]
    if missing:
        return _reason(f"the drawing of {connector.code} does not give {' and '.join(missing)}")
    loose = [_PLAIN[name] for name in wanted if getattr(drawing.tolerances, name) is None]
    if loose:
        return _reason(
            f"the drawing of {connector.code} states no tolerance for {' and '.join(loose)}"
        )
    hands = (
        _by(practice.seating, "seating by hand"),
        _by(practice.creep, "creep of the dielectric"),
    )
    if connector.method is Method.COMPRESSION:
        return TipParts(
            contributors=(
                _bared(strip),
                _drawn(drawing, "floor_to_plane_m", sensitivity=-1.0),
                *hands,
            ),
            growth_most_m=None,
            measured=None,
            conductor=None,
            barrel=None,
        )
    joint = pin_joint(cable, connector, conductor_length_m=strip.conductor_mm / 1e3)
    grown = _growth(joint, connector, pin_across_flats_m, growth)
    if isinstance(grown, Reason):
        return grown
    contributor, most_m = grown
    return TipParts(
        contributors=(
            _drawn(drawing, "plane_to_seat_m", sensitivity=-1.0),
            _drawn(drawing, "shoulder_to_tip_m", sensitivity=1.0),
            *hands,
            *(() if contributor is None else (contributor,)),
        ),
        growth_most_m=most_m,
        measured=growth,
        conductor=_bared(strip),
        barrel=_drawn(drawing, "barrel_depth_m", sensitivity=-1.0),
    )


_PLAIN = {
    "floor_to_plane_m": "floor to reference plane",
    "plane_to_seat_m": "reference plane to seat",
    "shoulder_to_tip_m": "pin, shoulder to tip",
    "barrel_depth_m": "depth of the pin's barrel",
}


def _drawn(drawing: Drawing, dimension: str, *, sensitivity: float) -> Contributor:
    return Contributor(
        name=_PLAIN[dimension],
        nominal=getattr(drawing, dimension),
        sensitivity=sensitivity,
        tolerance=drawing.tolerance_m(dimension),
        shift=0.0,
        reading=Reading.NORMAL,
        keeper=Keeper.MAKER,
        source=drawing.source,
    )


def _by(kept: Kept, name: str) -> Contributor:
    return Contributor(
        name=name,
        nominal=0.0,
        sensitivity=1.0,
        tolerance=kept.tolerance_m,
        shift=0.0,
        reading=Reading.NORMAL,
        keeper=Keeper.SHOP,
        source=kept.source,
    )


def _bared(strip: StripPlan) -> Contributor:
    return Contributor(
        name="bare conductor, length a",
        nominal=strip.conductor_mm / 1e3,
        sensitivity=1.0,
        tolerance=strip.tolerances.conductor_mm / 1e3,
        shift=0.0,
        reading=Reading.NORMAL,
        keeper=Keeper.SHOP,
        source=Source(text="strip of the set-up", basis=Basis.OWN_SHOP),
    )


def _growth(
    joint: PinJoint | None,
    connector: Connector,
    pin_across_flats_m: float | None,
    measured: MeasuredGrowth | None,
) -> tuple[Contributor | None, float | None] | Reason:
    """Metal that finds no room in the hexagon lengthens the pin; which way is not known."""
    most_m = None
    if joint is not None and pin_across_flats_m is not None:
        most_m = pin_outcome(joint, across_flats_m=pin_across_flats_m).elongation_most_m
    if measured is not None and not measured.lacking:
        shift_m, tolerance_m = measured.mean_m, measured.tolerance_m
        reading, source = Reading.NORMAL, measured.source
    elif joint is None:
        return _reason(
            f"the drawing of {connector.code} gives no bore and outside of the pin's barrel, so "
            f"how much the pin grows in the crimp is not known; {_would_tell(measured)}"
        )
    elif most_m is None:
        return _reason("the set-up names no pin die, so how much the pin grows is not known")
    else:
        shift_m = tolerance_m = most_m / 2
        reading = Reading.UNIFORM
        source = Source(text="conservation of volume in the hexagon", basis=Basis.COMPUTED)
    if shift_m == tolerance_m == 0:
        return None, most_m
    contributor = Contributor(
        name=GROWTH,
        nominal=0.0,
        sensitivity=1.0,
        tolerance=tolerance_m,
        shift=shift_m,
        reading=reading,
        keeper=Keeper.SHOP,
        source=source,
    )
    return contributor, most_m


def _would_tell(measured: MeasuredGrowth | None) -> str:
    if measured is None:
        return f"{PINS_TO_MEASURE} measured pins would tell"
    return f"{measured.pins_count} of the {PINS_TO_MEASURE} pins that would tell are measured"


def _reason(sentence: str) -> Reason:
    return Reason(code="pin_tip_not_computed", sentence=f"{sentence}: not computed")
