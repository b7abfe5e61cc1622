"""Lines of plain sizes that the tests of physics share."""

from reelwright.core.materials.clad_wire import CLAD_STEEL_21
from reelwright.core.materials.insulation import FOAM_PE, PE, Insulation
from reelwright.core.materials.metals import COPPER
from reelwright.core.physics.coax_line import CoaxGeometry
from reelwright.core.physics.conductor import Conductor, clad_wire, solid_wire
from reelwright.core.physics.pair_line import PairGeometry
from reelwright.core.physics.screen import SMOOTH, Screen, solid_screen


def tube(inside_m: float, wall_m: float = 50e-6, factor: float = 1.0) -> Screen:
    """A copper tube."""
    return solid_screen(
        COPPER,
        inside_diameter_m=inside_m,
        wall_m=wall_m,
        loss_factor=factor,
        factor_origin=SMOOTH if factor == 1.0 else "the test",
    )


def coax(
    inner_m: float = 0.81e-3,
    outer_m: float = 3.66e-3,
    *,
    wall_m: float = 50e-6,
    insulation: Insulation = FOAM_PE,
    conductor: Conductor | None = None,
    factor: float = 1.0,
) -> CoaxGeometry:
    """A coax of 75 Ω in foam, series 59 in size."""
    return CoaxGeometry(
        conductor=conductor or solid_wire(COPPER, diameter_m=inner_m),
        insulation=insulation,
        screen=tube(outer_m, wall_m, factor),
    )


CLAD_COAX = coax(conductor=clad_wire(CLAD_STEEL_21, diameter_m=0.81e-3))


def pair(
    *,
    over_diameter: float = 1.8,
    conductors: int = 2,
    screen_m: float | None = None,
    part: float = 1.0,
    twists_per_m: float = 0.0,
) -> PairGeometry:
    """Half-millimetre wires in polyethylene, opposite centres so many diameters apart."""
    return PairGeometry(
        conductor=solid_wire(COPPER, diameter_m=0.5e-3),
        conductors=conductors,
        spacing_m=over_diameter * 0.5e-3,
        insulation=PE,
        field_fraction=part,
        twists_per_m=twists_per_m,
        screen=None if screen_m is None else tube(screen_m),
    )
