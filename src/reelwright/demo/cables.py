"""The invented cables of the demo workshop, with what a metre costs to replace.

Their data sheets are invented as well: values fit the stated dimensions and each other, as a test
holds them to.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.parts.cable import Cable, DataSheet, Family, LossPoint
from reelwright.core.parts.fire_reaction import read_reaction
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.jacket_rating import JacketRating
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.parts.type_marks import TypeMark
from reelwright.core.verdicts import Basis, Source

PVC = "PVC"
FLUOROPOLYMER = "FEP fluoropolymer"


@dataclass(frozen=True, kw_only=True)
class CableEntry:
    """One cable with what the shop adds to it; colours are letters of IEC 60757."""

    cable: Cable
    price_per_m: Decimal
    smallest_remnant_mm: int
    colours: tuple[str, ...]
    aliases: tuple[str, ...]


def sheet_of(code: str) -> Source:
    """Return the source of a demo cable's values."""
    return Source(text=f"data sheet of {code}, invented", basis=Basis.DATA_SHEET)


def layer_mm(role: LayerRole, material: str, outside_mm: float, tolerance_mm: float) -> Layer:
    """Return a layer from millimetres."""
    return Layer(
        role=role,
        material=material,
        outside_diameter_m=round(outside_mm * 1e-3, 9),
        tolerance_m=round(tolerance_mm * 1e-3, 9),
    )


@dataclass(frozen=True, kw_only=True)
class _Coax:
    """One row of the coax table, in the units that data sheets print."""

    code: str
    name: str
    conductor_mm: float
    dielectric_mm: float
    foil_mm: float | None
    braid_mm: float
    jacket_mm: float
    jacket_tolerance_mm: float
    dielectric: str
    jacket: str
    jacket_class: JacketClass
    impedance_ohm: float
    capacitance_pf_per_m: float
    delay_ns_per_m: float
    conductor_ohm_per_km: float
    screen_ohm_per_km: float
    conductor_area_mm2: float
    mass_kg_per_km: float
    loss_db_per_100m: tuple[float, float, float, float]
    price_per_m: str
    colours: tuple[str, ...]
    aliases: tuple[str, ...] = ()
    solid: bool = True


LOSS_FREQUENCIES_MHZ = (10.0, 135.0, 742.5, 1485.0)
_FOAM = "foamed polyethylene"
_FOAM_FEP = "foamed FEP"

COAXES = (
    _Coax(
        code="VID-70",
        name="Video coax 7 mm",
        conductor_mm=1.024,
        dielectric_mm=4.57,
        foil_mm=4.67,
        braid_mm=5.47,
        jacket_mm=6.99,
        jacket_tolerance_mm=0.15,
        dielectric=_FOAM,
        jacket=PVC,
        jacket_class=JacketClass.RISER,
        impedance_ohm=74.4,
        capacitance_pf_per_m=54.0,
        delay_ns_per_m=4.019,
        conductor_ohm_per_km=20.93,
        screen_ohm_per_km=7.5,
        conductor_area_mm2=0.8235,
        mass_kg_per_km=61.0,
        loss_db_per_100m=(1.93, 7.26, 17.72, 25.78),
        price_per_m="1.320",
        colours=("BK", "BU", "RD"),
        aliases=("7 mm video", "thick video cable", "low-loss video"),
    ),
    _Coax(
        code="VID-60",
        name="Video coax 6 mm",
        conductor_mm=0.812,
        dielectric_mm=3.66,
        foil_mm=3.76,
        braid_mm=4.48,
        jacket_mm=6.05,
        jacket_tolerance_mm=0.12,
        dielectric=_FOAM,
        jacket=PVC,
        jacket_class=JacketClass.RISER,
        impedance_ohm=74.9,
        capacitance_pf_per_m=53.6,
        delay_ns_per_m=4.019,
        conductor_ohm_per_km=33.29,
        screen_ohm_per_km=9.0,
        conductor_area_mm2=0.5178,
        mass_kg_per_km=44.0,
        loss_db_per_100m=(2.41, 9.02, 21.85, 31.62),
        price_per_m="0.938",
        colours=("BK", "BU", "RD", "OG", "GN", "YE"),
        aliases=("standard video cable", "video cable", "6 mm video", "video coax"),
    ),
    _Coax(
        code="VID-40",
        name="Video coax 4 mm",
        conductor_mm=0.584,
        dielectric_mm=2.59,
        foil_mm=2.67,
        braid_mm=3.17,
        jacket_mm=4.04,
        jacket_tolerance_mm=0.10,
        dielectric=_FOAM,
        jacket=PVC,
        jacket_class=JacketClass.GENERAL,
        impedance_ohm=74.1,
        capacitance_pf_per_m=54.2,
        delay_ns_per_m=4.019,
        conductor_ohm_per_km=64.36,
        screen_ohm_per_km=15.0,
        conductor_area_mm2=0.2679,
        mass_kg_per_km=23.0,
        loss_db_per_100m=(3.39, 12.63, 30.32, 43.60),
        price_per_m="0.610",
        colours=("RD", "GN", "BU", "GY", "BK"),
        aliases=("thin 75-ohm coax", "thin video cable", "4 mm video", "mini coax"),
    ),
    _Coax(
        code="VID-28",
        name="Video coax 2.8 mm",
        conductor_mm=0.405,
        dielectric_mm=1.80,
        foil_mm=1.87,
        braid_mm=2.25,
        jacket_mm=2.80,
        jacket_tolerance_mm=0.08,
        dielectric=_FOAM,
        jacket=PVC,
        jacket_class=JacketClass.GENERAL,
        impedance_ohm=73.8,
        capacitance_pf_per_m=54.8,
        delay_ns_per_m=4.043,
        conductor_ohm_per_km=133.8,
        screen_ohm_per_km=24.0,
        conductor_area_mm2=0.1288,
        mass_kg_per_km=11.5,
        loss_db_per_100m=(4.95, 18.35, 43.73, 62.57),
        price_per_m="0.420",
        colours=("BK",),
        aliases=("micro coax", "very thin video cable"),
    ),
    _Coax(
        code="VID-70P",
        name="Plenum video coax 6 mm",
        conductor_mm=1.024,
        dielectric_mm=4.50,
        foil_mm=4.58,
        braid_mm=5.28,
        jacket_mm=5.94,
        jacket_tolerance_mm=0.12,
        dielectric=_FOAM_FEP,
        jacket=FLUOROPOLYMER,
        jacket_class=JacketClass.PLENUM,
        impedance_ohm=74.6,
        capacitance_pf_per_m=53.3,
        delay_ns_per_m=3.971,
        conductor_ohm_per_km=20.93,
        screen_ohm_per_km=8.0,
        conductor_area_mm2=0.8235,
        mass_kg_per_km=58.0,
        loss_db_per_100m=(1.97, 7.71, 20.15, 30.62),
        price_per_m="2.385",
        colours=("WH", "BK"),
        aliases=("plenum video cable", "plenum video"),
    ),
    _Coax(
        code="VID-60P",
        name="Plenum video coax 5 mm",
        conductor_mm=0.812,
        dielectric_mm=3.56,
        foil_mm=3.64,
        braid_mm=4.30,
        jacket_mm=5.08,
        jacket_tolerance_mm=0.10,
        dielectric=_FOAM_FEP,
        jacket=FLUOROPOLYMER,
        jacket_class=JacketClass.PLENUM,
        impedance_ohm=74.4,
        capacitance_pf_per_m=53.3,
        delay_ns_per_m=3.971,
        conductor_ohm_per_km=33.29,
        screen_ohm_per_km=10.0,
        conductor_area_mm2=0.5178,
        mass_kg_per_km=41.0,
        loss_db_per_100m=(2.47, 9.57, 24.51, 36.79),
        price_per_m="1.720",
        colours=("WH",),
        aliases=("thin plenum video cable",),
    ),
    _Coax(
        code="VID-70F",
        name="High-flex video coax 7.6 mm",
        conductor_mm=1.17,
        dielectric_mm=4.90,
        foil_mm=None,
        braid_mm=5.90,
        jacket_mm=7.62,
        jacket_tolerance_mm=0.15,
        dielectric=_FOAM,
        jacket="soft PVC",
        jacket_class=JacketClass.LIMITED,
        impedance_ohm=73.9,
        capacitance_pf_per_m=54.7,
        delay_ns_per_m=4.043,
        conductor_ohm_per_km=21.0,
        screen_ohm_per_km=6.0,
        conductor_area_mm2=0.8362,
        mass_kg_per_km=84.0,
        loss_db_per_100m=(2.10, 7.94, 19.57, 28.63),
        price_per_m="2.240",
        colours=("BK",),
        aliases=("thick flexible one", "the thick flexible one", "high-flex video cable"),
        solid=False,
    ),
    _Coax(
        code="PHO-61",
        name="Low-capacitance audio coax 6 mm",
        conductor_mm=0.575,
        dielectric_mm=4.57,
        foil_mm=4.67,
        braid_mm=5.35,
        jacket_mm=6.10,
        jacket_tolerance_mm=0.12,
        dielectric=_FOAM,
        jacket=PVC,
        jacket_class=JacketClass.GENERAL,
        impedance_ohm=99.4,
        capacitance_pf_per_m=41.9,
        delay_ns_per_m=4.170,
        conductor_ohm_per_km=66.40,
        screen_ohm_per_km=9.5,
        conductor_area_mm2=0.2597,
        mass_kg_per_km=50.0,
        loss_db_per_100m=(2.34, 8.84, 21.69, 31.66),
        price_per_m="1.118",
        colours=("BK",),
        aliases=("audio coax", "phono cable", "hi-fi lead"),
    ),
)


# What a few invented jackets state besides their North American class.
_REACTIONS = {"VID-60": "Eca", "VID-70": "Dca-s2,d2,a2", "VID-70P": "Cca-s1b,d1,a1"}
_BEARS_SUN = ("VID-70F",)
_COMMUNICATION = {
    JacketClass.LIMITED: "CMX",
    JacketClass.GENERAL: "CM",
    JacketClass.RISER: "CMR",
    JacketClass.PLENUM: "CMP",
}


def _rating(row: _Coax) -> JacketRating:
    stated = _REACTIONS.get(row.code)
    return JacketRating(
        north_american=row.jacket_class,
        type_mark=TypeMark(text=_COMMUNICATION[row.jacket_class]),
        reaction=None if stated is None else read_reaction(stated),
        sunlight_resistant=True if row.code in _BEARS_SUN else None,
        direct_burial=False if row.code in _BEARS_SUN else None,
    )


def _coax_entry(row: _Coax) -> CableEntry:
    layers = [
        layer_mm(
            LayerRole.CONDUCTOR,
            "bare copper, solid" if row.solid else "bare copper, 7 strands of 0.390 mm",
            row.conductor_mm,
            0.01 if row.solid else 0.02,
        ),
        layer_mm(LayerRole.DIELECTRIC, row.dielectric, row.dielectric_mm, 0.08),
    ]
    if row.foil_mm is not None:
        layers.append(layer_mm(LayerRole.FOIL, "bonded aluminium foil", row.foil_mm, 0.08))
    layers += [
        layer_mm(LayerRole.BRAID, "tinned copper braid", row.braid_mm, 0.08),
        layer_mm(LayerRole.JACKET, row.jacket, row.jacket_mm, row.jacket_tolerance_mm),
    ]
    return CableEntry(
        cable=Cable(
            code=row.code,
            name=row.name,
            family=Family.COAX,
            conductors=1,
            screened=True,
            solid_conductor=row.solid,
            layers=tuple(layers),
            rating=_rating(row),
            mass_kg_per_m=row.mass_kg_per_km / 1e3,
            # Six times the outside diameter: common practice for coax laid once.
            bend_radius_fixed_m=round(6 * row.jacket_mm * 1e-3, 4),
            sheet=DataSheet(
                source=sheet_of(row.code),
                impedance_ohm=row.impedance_ohm,
                delay_s_per_m=row.delay_ns_per_m / 1e9,
                capacitance_f_per_m=row.capacitance_pf_per_m / 1e12,
                capacitance_to_rest_f_per_m=None,
                resistance_conductor_ohm_per_m=row.conductor_ohm_per_km / 1e3,
                resistance_screen_ohm_per_m=row.screen_ohm_per_km / 1e3,
                conductor_area_m2=row.conductor_area_mm2 / 1e6,
                optical_loss_db_per_m=None,
                loss_points=tuple(
                    LossPoint(frequency_hz=mhz * 1e6, loss_db_per_m=db / 100)
                    for mhz, db in zip(LOSS_FREQUENCIES_MHZ, row.loss_db_per_100m, strict=True)
                ),
            ),
        ),
        price_per_m=Decimal(row.price_per_m),
        smallest_remnant_mm=1500,
        colours=row.colours,
        aliases=row.aliases,
    )


def coax_entries() -> Iterator[CableEntry]:
    """Yield the coaxes."""
    return map(_coax_entry, COAXES)
