"""R and L of a loudspeaker pair from what its data sheet states: resistance, bundle, core.

Skin effect and proximity raise R and lower L towards the top of the audio band. The bundle is one
rod with the stated resistance, and both cores lie side by side: the wires are as far apart as a
core is wide. What lies between them does not matter into ohms and is not asked for.
"""

import math
from functools import lru_cache

from reelwright.core.materials.insulation import PVC
from reelwright.core.materials.metals import COPPER
from reelwright.core.parts.cable import Cable, Family, Lot
from reelwright.core.parts.layers import LayerRole
from reelwright.core.physics.arrays import ComplexArray
from reelwright.core.physics.conductor import Conductor, solid_wire
from reelwright.core.physics.driver import audio_frequencies_hz
from reelwright.core.physics.lot_values import Stated, known_value, require_lot_of
from reelwright.core.physics.pair_line import PairGeometry

# Loudspeaker bundles have dozens of fine strands; 37 is the most that a factor is known for.
_FINE_STRANDS = 37
# Wires nearer to each other than this, over the diameter of one, are a mistake on the sheet.
_NEAREST = 1.05
_COLDEST_CELSIUS, _HOTTEST_CELSIUS = -60.0, 120.0


def loudspeaker_pair(cable: Cable, lot: Lot | None) -> PairGeometry | None:
    """Return the pair of a loudspeaker cable; None where its sheet states too little, or nonsense.

    Resistance of the conductor (of the lot where it was measured), outside of the bundle and
    outside of a core are needed. Raises BadValue where the lot is of another cable.
    """
    require_lot_of(cable, lot)
    resistance = known_value(cable, lot, Stated.CONDUCTOR_RESISTANCE)
    bundle, core = cable.layer(LayerRole.CONDUCTOR), cable.layer(LayerRole.CORE)
    if cable.family is not Family.LOUDSPEAKER or resistance is None or not (bundle and core):
        return None
    spacing = core.outside_diameter_m
    # Of its resistance only: a rod of any metal with that resistance answers alike.
    copper_m = math.sqrt(4 * COPPER.resistivity_ohm_m / (math.pi * resistance.value))
    across = copper_m if cable.solid_conductor else bundle.outside_diameter_m
    if across < copper_m * (1 - 1e-9) or spacing < _NEAREST * across:
        return None
    conductor = (
        solid_wire(COPPER, diameter_m=copper_m)
        if cable.solid_conductor
        else Conductor(
            metal=COPPER,
            strand_diameter_m=copper_m / math.sqrt(_FINE_STRANDS),
            strands=_FINE_STRANDS,
            bundle_diameter_m=across,
            lay_factor=1.0,
            cladding=None,
            cladding_thickness_m=None,
        )
    )
    return PairGeometry(
        conductor=conductor,
        conductors=2,
        spacing_m=spacing,
        insulation=PVC,
        field_fraction=1.0,
        twists_per_m=0.0,
        screen=None,
    )


@lru_cache(maxsize=512)
def loudspeaker_pair_ohm_per_m(
    cable: Cable, lot: Lot | None, temperature_celsius: float
) -> ComplexArray | None:
    """Return R + jωL [Ω/m] of the loop at ``audio_frequencies_hz()``, at a temperature [°C].

    None where the pair is not known, or outside −60 to 120 °C. The array is shared: not to be
    written to.
    """
    pair = loudspeaker_pair(cable, lot)
    if pair is None or not _COLDEST_CELSIUS <= temperature_celsius <= _HOTTEST_CELSIUS:
        return None
    line = pair.parameters(audio_frequencies_hz(), temperature_celsius=temperature_celsius)
    series = line.series_impedance_ohm_per_m
    series.setflags(write=False)
    return series
