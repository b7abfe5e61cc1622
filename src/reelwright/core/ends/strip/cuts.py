"""The cuts of a strip: where each goes around the cable, through what, and what it must spare.

One representation for one, two and three levels: positions are counted from the cable's end.
"""

from dataclasses import dataclass
from itertools import pairwise

from reelwright.core.ends.strip.plan import StripPlan, WireStrip
from reelwright.core.ends.strip.spread import under_jacket
from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.quantities.guard import require_given, require_not_negative
from reelwright.core.quantities.show import show_dimension, show_length_mm
from reelwright.core.verdicts import Reason


@dataclass(frozen=True, kw_only=True)
class Cut:
    """One cut, ``position_mm`` from the end (``None``: the job says where).

    ``through``: the layers it opens, from the outside inwards; ``spares``: the layer beneath, which
    the blade must not touch. ``tolerance_mm``: half width of where it may lie, in mm.
    """

    position_mm: float | None
    tolerance_mm: float
    through: tuple[Layer, ...]
    spares: Layer

    def __post_init__(self) -> None:
        require_given(self, "position_mm", positive=False)
        require_not_negative(self, "tolerance_mm")
        if not self.through:
            raise BadValue(owner="Cut", field="through", value=(), accepted="one layer or more")

    @property
    def innermost(self) -> Layer:
        """The last layer it opens; the blade closes between this one's outside and what it
        spares."""
        return self.through[-1]

    @property
    def name(self) -> str:
        """What it opens last: "dielectric", "foil", "braid", "jacket", "core"."""
        return str(self.innermost.role)


def cuts_of(cable: Cable, strip: StripPlan | WireStrip) -> tuple[Cut, ...] | Reason:
    """Return the cuts of a strip, from the end inwards, or why these layers cannot be cut so.

    Cuts at one place are one cut, as deep as the deepest. As many cuts as levels.
    """
    found = _coax_cuts(cable, strip) if isinstance(strip, StripPlan) else _wire_cuts(cable, strip)
    if isinstance(found, Reason):
        return found
    for cut in found:
        against = _impossible(cut)
        if against is not None:
            return against
    return found


def _impossible(cut: Cut) -> Reason | None:
    inwards = (*cut.through, cut.spares)
    for outer, inner in pairwise(inwards):
        if outer.outside_diameter_m <= inner.outside_diameter_m:
            return Reason(
                code="layers_impossible",
                sentence=(
                    f"the {outer.role} ({show_dimension(outer.outside_diameter_m)}) is no thicker "
                    f"than the {inner.role} under it ({show_dimension(inner.outside_diameter_m)}): "
                    "there is nothing between them to cut"
                ),
            )
    return None


def _lacking(cable: Cable, role: LayerRole) -> Reason:
    return Reason(
        code="layer_not_given",
        sentence=f"the layers of {cable.code} give no {role}: its cuts cannot be planned",
    )


def _coax_cuts(cable: Cable, plan: StripPlan) -> tuple[Cut, ...] | Reason:
    layers = {}
    for role in (LayerRole.CONDUCTOR, LayerRole.DIELECTRIC, LayerRole.BRAID):
        layer = cable.layer(role)
        if layer is None:
            return _lacking(cable, role)
        layers[role] = layer
    foil = cable.layer(LayerRole.FOIL)
    outside = (cable.jacket, layers[LayerRole.BRAID], *(() if foil is None else (foil,)))
    deepest = (*outside, layers[LayerRole.DIELECTRIC])
    tolerances = plan.tolerances
    first, second, third = plan.cuts_mm
    cuts = [
        Cut(
            position_mm=first,
            tolerance_mm=tolerances.conductor_mm,
            through=deepest,
            spares=layers[LayerRole.CONDUCTOR],
        )
    ]
    if plan.dielectric_mm > 0:
        cuts.append(
            Cut(
                position_mm=second,
                tolerance_mm=tolerances.dielectric_mm,
                through=outside,
                spares=layers[LayerRole.DIELECTRIC],
            )
        )
    if plan.braid_mm > 0:
        cuts.append(
            Cut(
                position_mm=third,
                tolerance_mm=tolerances.braid_mm,
                through=(cable.jacket,),
                spares=layers[LayerRole.BRAID],
            )
        )
    return tuple(cuts)


def _wire_cuts(cable: Cable, strip: WireStrip) -> tuple[Cut, ...] | Reason:
    beneath = under_jacket(cable)
    if beneath is None:
        return _lacking(cable, LayerRole.CORE)
    core = cable.layer(LayerRole.CORE) or cable.layer(LayerRole.DIELECTRIC)
    conductor = cable.layer(LayerRole.CONDUCTOR)
    back_mm = strip.jacket_back_mm
    jacket_cut = Cut(
        position_mm=back_mm,
        tolerance_mm=strip.tolerance_mm,
        through=(cable.jacket,),
        spares=beneath,
    )
    if strip.bared_mm == 0:
        return (jacket_cut,)
    if core is None or conductor is None:
        # The jacket is the insulation (a fibre): what is bared is bared by taking it back.
        return (_moved(jacket_cut, strip.bared_mm),)
    if back_mm is not None and strip.bared_mm > back_mm:
        return Reason(
            code="strip_impossible",
            sentence=(
                f"the cores are to be bared over {show_length_mm(strip.bared_mm, decimals=1)} "
                f"and the jacket taken back by {show_length_mm(back_mm, decimals=1)} only"
            ),
        )
    bared = Cut(
        position_mm=strip.bared_mm,
        tolerance_mm=strip.tolerance_mm,
        through=(core,),
        spares=conductor,
    )
    return (bared, jacket_cut)


def _moved(cut: Cut, position_mm: float) -> Cut:
    return Cut(
        position_mm=position_mm if cut.position_mm is None else cut.position_mm,
        tolerance_mm=cut.tolerance_mm,
        through=cut.through,
        spares=cut.spares,
    )
