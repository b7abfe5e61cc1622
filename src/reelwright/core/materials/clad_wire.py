"""Wires of two metals: clad grades by their copper, coatings by their thickness."""

import math
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.materials.metals import ALUMINIUM_1350, COPPER, SILVER, STEEL, TIN, Metal
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.verdicts import Basis, Source


@dataclass(frozen=True, kw_only=True)
class CladGrade:
    """A core in a cladding; ``cladding_fraction`` [1] is the cladding's part of the whole area.

    Raises BadValue for a fraction that is not between 0 and 1.
    """

    name: str
    core: Metal
    cladding: Metal
    cladding_fraction: float
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_positive(self, "cladding_fraction")
        if self.cladding_fraction >= 1:
            raise BadValue(
                owner="CladGrade",
                field="cladding_fraction",
                value=self.cladding_fraction,
                accepted="above 0 and below 1",
            )

    @property
    def copper_share(self) -> float:
        """Direct-current conductivity over that of annealed copper [1]: both in parallel."""
        part = self.cladding_fraction
        return part * self.cladding.copper_share + (1 - part) * self.core.copper_share

    @property
    def core_ratio(self) -> float:
        """Diameter of the core over that of the whole [1]."""
        return math.sqrt(1 - self.cladding_fraction)

    def cladding_thickness_m(self, diameter_m: float) -> float:
        """Return the thickness [m] of the cladding on a wire of ``diameter_m`` [m]."""
        return diameter_m * (1 - self.core_ratio) / 2


def grade_of_conductivity(
    *, name: str, core: Metal, cladding: Metal, copper_share: float, source: Source
) -> CladGrade:
    """Return the grade whose conductivity over that of copper is ``copper_share`` [1].

    Grades of clad steel are named by it. Raises BadValue where the share does not lie between the
    two metals' own.
    """
    low, high = core.copper_share, cladding.copper_share
    if not low < copper_share < high:
        raise BadValue(
            owner="CladGrade",
            field="copper_share",
            value=copper_share,
            accepted=f"{low:.3f} to {high:.3f}",
        )
    return CladGrade(
        name=name,
        core=core,
        cladding=cladding,
        cladding_fraction=(copper_share - low) / (high - low),
        source=source,
    )


CLAD_STEEL_21 = grade_of_conductivity(
    name="copper-clad steel 21 %",
    core=STEEL,
    cladding=COPPER,
    copper_share=0.21,
    source=Source(text="grade of ASTM B869, nominal conductivity", basis=Basis.FROM_MEMORY),
)
CLAD_STEEL_40 = grade_of_conductivity(
    name="copper-clad steel 40 %",
    core=STEEL,
    cladding=COPPER,
    copper_share=0.39,
    source=Source(
        text="maker's data page on copper-clad steel 40 %: 39 % of the copper standard",
        basis=Basis.PUBLISHED,
    ),
)
CLAD_ALUMINIUM_10 = CladGrade(
    name="copper-clad aluminium 10 %",
    core=ALUMINIUM_1350,
    cladding=COPPER,
    cladding_fraction=0.10,
    source=Source(text="class of ASTM B566, 10 % copper by volume", basis=Basis.PUBLISHED),
)
CLAD_ALUMINIUM_15 = CladGrade(
    name="copper-clad aluminium 15 %",
    core=ALUMINIUM_1350,
    cladding=COPPER,
    cladding_fraction=0.15,
    source=Source(text="class of ASTM B566, 15 % copper by volume", basis=Basis.PUBLISHED),
)
CLAD_GRADES = (CLAD_STEEL_21, CLAD_STEEL_40, CLAD_ALUMINIUM_10, CLAD_ALUMINIUM_15)


@dataclass(frozen=True, kw_only=True)
class Coating:
    """A thin coat of another metal, ``thickness_m`` [m] all round."""

    name: str
    metal: Metal
    thickness_m: float
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_positive(self, "thickness_m")


TINNED = Coating(
    name="tinned",
    metal=TIN,
    thickness_m=1.0e-6,
    source=Source(text="electroplated tin on fine wire, 0.5 to 2 µm", basis=Basis.COMMON_PRACTICE),
)
SILVER_PLATED = Coating(
    name="silver-plated",
    metal=SILVER,
    thickness_m=1.0e-6,
    source=Source(text="ASTM B298 class A and B: about 1 to 2 µm", basis=Basis.FROM_MEMORY),
)
