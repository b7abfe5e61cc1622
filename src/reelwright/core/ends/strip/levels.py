"""How many levels an end is stripped in: as many as the connector has places for layers.

Derived from the drawing where there is one, else from how the contacts are reached.
"""

from dataclasses import dataclass

from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.parts.drawing import Drawing
from reelwright.core.parts.layers import LayerRole
from reelwright.core.quantities.show import show_dimension
from reelwright.core.quantities.words import counted
from reelwright.core.verdicts import Reason


@dataclass(frozen=True, kw_only=True)
class Level:
    """One level: which layer shows, and what of the connector asks for it."""

    shows: str
    because: str


def needed_levels(cable: Cable, connector: Connector) -> tuple[Level, ...] | Reason:
    """Return the levels of this end, from the tip inwards, each with its reason.

    Follows from the drawing: a barrel or a protrusion bares the conductor, a seat to flange shows
    the dielectric, a stem lays the braid free. Without a drawing, from how the contacts are joined.
    """
    drawing = connector.drawing
    if drawing is not None:
        levels = _levels_of_drawing(drawing)
        if levels:
            return levels
    if connector.method in (Method.CRIMP_CRIMP, Method.COMPRESSION):
        return Reason(
            code="levels_not_computed",
            sentence=f"the drawing of {connector.code} gives nothing that a layer would lie in",
        )
    return _levels_of_method(cable, connector)


def _levels_of_drawing(drawing: Drawing) -> tuple[Level, ...]:
    found = []
    if drawing.barrel_depth_m is not None:
        depth = show_dimension(drawing.barrel_depth_m)
        found.append(Level(shows="conductor", because=f"the pin's barrel is {depth} deep"))
    elif drawing.conductor_protrusion_m is not None:
        out = show_dimension(drawing.conductor_protrusion_m)
        found.append(
            Level(shows="conductor", because=f"the conductor is the pin and stands {out} out")
        )
    if drawing.seat_to_flange_m is not None:
        seat = show_dimension(drawing.seat_to_flange_m)
        found.append(
            Level(shows="dielectric", because=f"the body is {seat} from its seat to its flange")
        )
    if drawing.stem_length_m is not None:
        stem = show_dimension(drawing.stem_length_m)
        found.append(Level(shows="braid", because=f"a stem of {stem} goes under the braid"))
    return tuple(found)


def _levels_of_method(cable: Cable, connector: Connector) -> tuple[Level, ...]:
    core = cable.layer(LayerRole.CORE)
    if connector.method is Method.POLISH:
        return (Level(shows="fibre", because="the fibre itself is held and polished"),)
    if connector.method is Method.DISPLACEMENT:
        return (
            Level(
                shows="cores",
                because="the contacts cut through the insulation, so that the cores keep it",
            ),
        )
    joined = {
        Method.WELD: "welded to",
        Method.SOLDER: "soldered to",
        Method.SCREW: "clamped in",
    }[connector.method]
    bare = Level(shows="conductor", because=f"bare metal is {joined} the contact")
    if cable.family is Family.COAX:
        return (
            bare,
            Level(shows="dielectric", because="it keeps the screen away from the conductor"),
            Level(shows="braid", because=f"the screen too is {joined} its contact"),
        )
    if core is None or (cable.conductors == 1 and not cable.screened):
        return (bare,)
    apart = counted(cable.conductors, "core") + (" and the screen" if cable.screened else "")
    return (bare, Level(shows="cores", because=f"{apart} must part to reach their contacts"))
