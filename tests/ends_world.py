"""A few cables and connectors of the demo workshop's kind, for tests of ends and drawings."""

from dataclasses import replace

from reelwright.core.ends.strip.plan import MACHINE_STRIP_TOLERANCES, StripPlan, WireStrip
from reelwright.core.parts.cable import Cable, DataSheet, Family
from reelwright.core.parts.connector import Band, Connector, Method
from reelwright.core.parts.drawing import DIMENSIONS, Drawing, DrawingTolerances
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.jacket_rating import indoors_only
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.verdicts import Basis, Source

INVENTED = Source(text="invented for tests", basis=Basis.DATA_SHEET)


def layer(role: LayerRole, diameter_mm: float, tolerance_mm: float = 0.0) -> Layer:
    """Return one layer of a fixed material."""
    return Layer(
        role=role,
        material="as drawn",
        outside_diameter_m=diameter_mm / 1e3,
        tolerance_m=tolerance_mm / 1e3,
    )


def sheet(*, impedance_ohm: float | None) -> DataSheet:
    """Return a data sheet that states an impedance and nothing else."""
    return DataSheet(
        source=INVENTED,
        impedance_ohm=impedance_ohm,
        delay_s_per_m=None,
        capacitance_f_per_m=None,
        capacitance_to_rest_f_per_m=None,
        resistance_conductor_ohm_per_m=None,
        resistance_screen_ohm_per_m=None,
        conductor_area_m2=None,
        optical_loss_db_per_m=None,
        loss_points=(),
    )


def cable(
    code: str,
    family: Family,
    layers: tuple[Layer, ...],
    *,
    conductors: int,
    screened: bool,
    solid: bool,
    impedance_ohm: float | None,
) -> Cable:
    """Return a cable with what these tests need of it."""
    return Cable(
        code=code,
        name=code,
        family=family,
        conductors=conductors,
        screened=screened,
        solid_conductor=solid,
        layers=layers,
        rating=indoors_only(JacketClass.GENERAL),
        mass_kg_per_m=0.05,
        bend_radius_fixed_m=0.03,
        sheet=sheet(impedance_ohm=impedance_ohm),
    )


def coax(
    code: str,
    sizes_mm: tuple[float, float, float, float],
    *,
    solid: bool = True,
    z_ohm: float = 75.0,
) -> Cable:
    """Return a coax from its four diameters; its foil is 0.05 mm thick."""
    conductor, dielectric, braid, jacket = sizes_mm
    return cable(
        code,
        Family.COAX,
        (
            layer(LayerRole.CONDUCTOR, conductor, 0.01),
            layer(LayerRole.DIELECTRIC, dielectric, 0.05),
            layer(LayerRole.FOIL, dielectric + 0.1, 0.05),
            layer(LayerRole.BRAID, braid, 0.08),
            layer(LayerRole.JACKET, jacket, 0.13),
        ),
        conductors=1,
        screened=True,
        solid=solid,
        impedance_ohm=z_ohm,
    )


VID_70 = coax("VID-70", (1.024, 4.57, 5.30, 6.99))
VID_60 = coax("VID-60", (0.812, 3.66, 4.40, 6.05))
VID_28 = coax("VID-28", (0.405, 1.80, 2.30, 2.80))
VID_70F = coax("VID-70F", (1.17, 4.90, 5.70, 7.62), solid=False)
PHO_61 = coax("PHO-61", (0.575, 4.57, 5.10, 6.10), z_ohm=99.4)
AUD_BP = cable(
    "AUD-BP",
    Family.PAIR,
    (
        layer(LayerRole.CONDUCTOR, 0.55),
        layer(LayerRole.CORE, 1.30),
        layer(LayerRole.BRAID, 3.20),
        layer(LayerRole.JACKET, 4.50, 0.1),
    ),
    conductors=2,
    screened=True,
    solid=False,
    impedance_ohm=110.0,
)
SPK_14 = cable(
    "SPK-14",
    Family.LOUDSPEAKER,
    (
        layer(LayerRole.CONDUCTOR, 1.90),
        layer(LayerRole.CORE, 3.40),
        layer(LayerRole.JACKET, 8.60, 0.2),
    ),
    conductors=2,
    screened=False,
    solid=False,
    impedance_ohm=None,
)
DAT_6 = cable(
    "DAT-6",
    Family.DATA,
    (
        layer(LayerRole.CONDUCTOR, 0.60),
        layer(LayerRole.CORE, 1.02),
        layer(LayerRole.JACKET, 6.00, 0.2),
    ),
    conductors=8,
    screened=False,
    solid=False,
    impedance_ohm=100.0,
)
POF_22 = cable(
    "POF-22",
    Family.FIBRE,
    (layer(LayerRole.CONDUCTOR, 1.00), layer(LayerRole.JACKET, 2.20, 0.05)),
    conductors=1,
    screened=False,
    solid=True,
    impedance_ohm=None,
)


def drawing(tolerances_mm: dict[str, float] | None = None, **dimensions_mm: float) -> Drawing:
    """Return a connector drawing with what is given in mm, all else absent or not stated."""
    given = {f"{name}_m": value / 1e3 for name, value in dimensions_mm.items()}
    stated = {f"{name}_m": value / 1e3 for name, value in (tolerances_mm or {}).items()}
    return Drawing(
        source=INVENTED,
        tolerances=DrawingTolerances.stating(**stated),
        **{name: given.get(name) for name in DIMENSIONS},
    )


def connector(
    code: str,
    mating: str,
    method: Method,
    *,
    jacket_mm: tuple[float, float],
    conductor_mm: tuple[float, float] | None = None,
    contacts: int = 1,
    shell: bool = True,
    balanced: bool = False,
    impedance_ohm: float | None = None,
    solid_only: bool | None = None,
    setback_mm: float = 10.65,
    trim_mm: float = 10.0,
    back: Drawing | None = None,
) -> Connector:
    """Return a connector with its sizes in mm."""
    return Connector(
        code=code,
        name=mating,
        mating=mating,
        method=method,
        contacts=contacts,
        shell_contact=shell,
        carries_balanced=balanced,
        impedance_ohm=impedance_ohm,
        body=None,
        solid_conductor_only=solid_only,
        accepts_conductor=None
        if conductor_mm is None
        else Band(low_m=conductor_mm[0] / 1e3, high_m=conductor_mm[1] / 1e3),
        accepts_jacket=Band(low_m=jacket_mm[0] / 1e3, high_m=jacket_mm[1] / 1e3),
        conductor_setback_m=setback_mm / 1e3,
        trim_m=trim_mm / 1e3,
        drawing=back,
    )


# The strip of P24 (demo workshop, T-01): 4.25 / 5.00 / 7.70.
BNC_70 = connector(
    "BNC-70",
    "BNC",
    Method.CRIMP_CRIMP,
    jacket_mm=(6.6, 7.3),
    conductor_mm=(0.98, 1.06),
    impedance_ohm=75.0,
    solid_only=True,
    back=drawing(
        barrel_depth=4.50,
        barrel_bore=1.09,
        barrel_outside=1.78,
        barrel_clearance=0.25,
        hole_far_edge=3.40,
        seat_to_flange=5.10,
        dielectric_relief=0.10,
        stem_bore=4.90,
        stem_outside=5.30,
        stem_length=8.20,
        braid_relief=0.50,
        ferrule_bore=7.30,
        ferrule_outside=8.20,
        ferrule_length=11.0,
    ),
)
BNC_60 = connector(
    "BNC-60",
    "BNC",
    Method.CRIMP_CRIMP,
    jacket_mm=(5.7, 6.3),
    conductor_mm=(0.78, 0.85),
    impedance_ohm=75.0,
    solid_only=True,
    back=drawing(
        barrel_depth=4.50,
        barrel_bore=0.88,
        barrel_outside=1.78,
        barrel_clearance=0.25,
        seat_to_flange=4.70,
        dielectric_relief=0.10,
        stem_bore=4.00,
        stem_outside=4.40,
        stem_length=7.70,
        braid_relief=0.50,
        ferrule_bore=6.30,
        ferrule_outside=7.10,
        ferrule_length=10.0,
    ),
)
RCA_60 = connector(
    "RCA-60",
    "phono",
    Method.CRIMP_CRIMP,
    jacket_mm=(5.8, 6.3),
    conductor_mm=(0.5, 0.9),
    back=drawing(stem_bore=4.90, stem_outside=5.2, ferrule_bore=6.30, ferrule_outside=7.0),
)
F_70 = connector(
    "F-70",
    "F",
    Method.COMPRESSION,
    jacket_mm=(6.7, 7.3),
    conductor_mm=(0.95, 1.10),
    impedance_ohm=75.0,
    solid_only=True,
    back=drawing(conductor_protrusion=8.0, stem_bore=4.90, stem_length=7.0, braid_relief=0.5),
)
XLR_M = connector("XLR3M", "XLR3M", Method.SOLDER, jacket_mm=(3.5, 8.0), contacts=2, balanced=True)
XLR_F = connector("XLR3F", "XLR3F", Method.SOLDER, jacket_mm=(3.5, 8.0), contacts=2, balanced=True)
TRS = connector(
    "TRS-635",
    "6.35 mm three-contact plug",
    Method.SOLDER,
    jacket_mm=(3.5, 6.5),
    contacts=2,
    balanced=True,
)
BANANA = connector("BAN-4", "banana", Method.WELD, jacket_mm=(2.0, 12.0), contacts=2, shell=False)
P8C = connector("8P8C", "8P8C", Method.DISPLACEMENT, jacket_mm=(5.0, 6.5), contacts=8, shell=False)
F05 = connector("F05", "F05", Method.POLISH, jacket_mm=(2.1, 2.3), shell=False)


def coax_strip(a_mm: float, b_mm: float, c_mm: float) -> StripPlan:
    """Return a coax strip of three lengths."""
    return StripPlan(
        conductor_mm=a_mm,
        dielectric_mm=b_mm,
        braid_mm=c_mm,
        tolerances=MACHINE_STRIP_TOLERANCES,
        folds_braid=b_mm == 0,
    )


def wire_strip(back_mm: float | None, bared_mm: float) -> WireStrip:
    """Return the strip of any other cable."""
    return WireStrip(jacket_back_mm=back_mm, bared_mm=bared_mm, tolerance_mm=0.5)


def back(connector: Connector, **changes_mm: float | None) -> Connector:
    """Return the connector with other dimensions on its drawing, in mm."""
    assert connector.drawing is not None
    changed = {
        f"{name}_m": None if value is None else value / 1e3 for name, value in changes_mm.items()
    }
    return replace(connector, drawing=replace(connector.drawing, **changed))
