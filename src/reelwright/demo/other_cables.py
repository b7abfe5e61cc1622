"""The invented cables of the demo workshop that are no coax: pairs, loudspeaker, data, fibre."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from reelwright.core.parts.cable import Cable, DataSheet, Family, LossPoint
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.jacket_rating import JacketRating, indoors_only
from reelwright.core.parts.layers import LayerRole
from reelwright.core.parts.type_marks import TypeMark
from reelwright.demo.cables import PVC, CableEntry, layer_mm, sheet_of

_STRANDED = "bare copper, fine strands"


def _marked(text: str) -> JacketRating:
    mark = TypeMark(text=text)
    return replace(indoors_only(mark.level), type_mark=mark)


def _balanced_pair() -> CableEntry:
    return CableEntry(
        cable=Cable(
            code="AUD-BP",
            name="Balanced audio pair",
            family=Family.PAIR,
            conductors=2,
            screened=True,
            solid_conductor=False,
            layers=(
                layer_mm(LayerRole.CONDUCTOR, "bare copper, 7 strands of 0.193 mm", 0.58, 0.02),
                layer_mm(LayerRole.CORE, "polyethylene", 1.25, 0.05),
                layer_mm(LayerRole.BRAID, "bare copper braid", 3.20, 0.10),
                layer_mm(LayerRole.JACKET, "soft PVC", 4.50, 0.15),
            ),
            rating=_marked("CM"),
            mass_kg_per_m=0.028,
            bend_radius_fixed_m=0.027,
            sheet=DataSheet(
                source=sheet_of("AUD-BP"),
                impedance_ohm=110.0,
                delay_s_per_m=5.06e-9,
                capacitance_f_per_m=46e-12,
                capacitance_to_rest_f_per_m=105e-12,
                resistance_conductor_ohm_per_m=0.085,
                resistance_screen_ohm_per_m=0.030,
                conductor_area_m2=0.205e-6,
                optical_loss_db_per_m=None,
                loss_points=(
                    LossPoint(frequency_hz=3e6, loss_db_per_m=0.036),
                    LossPoint(frequency_hz=6e6, loss_db_per_m=0.052),
                    LossPoint(frequency_hz=12e6, loss_db_per_m=0.076),
                    LossPoint(frequency_hz=25e6, loss_db_per_m=0.114),
                ),
            ),
        ),
        price_per_m=Decimal("0.745"),
        smallest_remnant_mm=1500,
        colours=("BK", "RD", "BU"),
        aliases=("mic cable", "microphone cable", "balanced cable", "balanced pair"),
    )


@dataclass(frozen=True, kw_only=True)
class _Loudspeaker:
    """One row of the loudspeaker table, in the units that data sheets print."""

    code: str
    area_mm2: float
    bundle_mm: float
    core_mm: float
    jacket_mm: float
    ohm_per_km: float
    mass_kg_per_km: float
    price_per_m: str
    colour: str
    aliases: tuple[str, ...]
    in_wall: bool = False


LOUDSPEAKER = (
    _Loudspeaker(
        code="SPK-16",
        area_mm2=1.31,
        bundle_mm=1.49,
        core_mm=2.60,
        jacket_mm=6.60,
        ohm_per_km=13.17,
        mass_kg_per_km=62.0,
        price_per_m="0.620",
        colour="BK",
        aliases=("16 gauge speaker cable",),
    ),
    _Loudspeaker(
        code="SPK-14",
        area_mm2=2.08,
        bundle_mm=1.88,
        core_mm=3.10,
        jacket_mm=7.80,
        ohm_per_km=8.286,
        mass_kg_per_km=88.0,
        price_per_m="0.960",
        colour="BK",
        aliases=("14 gauge speaker cable", "speaker cable"),
    ),
    _Loudspeaker(
        code="SPK-12",
        area_mm2=3.31,
        bundle_mm=2.37,
        core_mm=3.80,
        jacket_mm=9.40,
        ohm_per_km=5.211,
        mass_kg_per_km=132.0,
        price_per_m="1.480",
        colour="BK",
        aliases=("12 gauge speaker cable",),
    ),
    _Loudspeaker(
        code="SPK-10",
        area_mm2=5.26,
        bundle_mm=2.99,
        core_mm=4.60,
        jacket_mm=11.20,
        ohm_per_km=3.277,
        mass_kg_per_km=198.0,
        price_per_m="2.300",
        colour="BK",
        aliases=("10 gauge speaker cable",),
    ),
    _Loudspeaker(
        code="SPK-14x2W",
        area_mm2=2.08,
        bundle_mm=1.88,
        core_mm=2.90,
        jacket_mm=7.20,
        ohm_per_km=8.286,
        mass_kg_per_km=80.0,
        price_per_m="1.120",
        colour="WH",
        aliases=("in-wall speaker cable", "14 gauge in-wall"),
        in_wall=True,
    ),
)


def _loudspeaker_entry(row: _Loudspeaker) -> CableEntry:
    return CableEntry(
        cable=Cable(
            code=row.code,
            name=f"Loudspeaker pair {row.area_mm2} mm²" + (", in-wall" if row.in_wall else ""),
            family=Family.LOUDSPEAKER,
            conductors=2,
            screened=False,
            solid_conductor=False,
            layers=(
                layer_mm(LayerRole.CONDUCTOR, _STRANDED, row.bundle_mm, 0.04),
                layer_mm(LayerRole.CORE, PVC, row.core_mm, 0.08),
                layer_mm(LayerRole.JACKET, PVC, row.jacket_mm, 0.20),
            ),
            rating=_marked("CL3R" if row.in_wall else "CL2X"),
            mass_kg_per_m=row.mass_kg_per_km / 1e3,
            bend_radius_fixed_m=round(6 * row.jacket_mm * 1e-3, 4),
            sheet=DataSheet(
                source=sheet_of(row.code),
                impedance_ohm=None,
                delay_s_per_m=None,
                capacitance_f_per_m=None,
                capacitance_to_rest_f_per_m=None,
                resistance_conductor_ohm_per_m=row.ohm_per_km / 1e3,
                resistance_screen_ohm_per_m=None,
                conductor_area_m2=row.area_mm2 / 1e6,
                optical_loss_db_per_m=None,
                loss_points=(),
            ),
        ),
        price_per_m=Decimal(row.price_per_m),
        smallest_remnant_mm=2000,
        colours=(row.colour,),
        aliases=row.aliases,
    )


def _data() -> CableEntry:
    # Permanent-link cable of category 6 loses 1.808·√f + 0.017·f + 0.2/√f dB per 100 m (f in MHz;
    # TIA-568, from memory); a stranded patch cable a fifth more.
    return CableEntry(
        cable=Cable(
            code="DAT-6",
            name="Category 6 patch cable",
            family=Family.DATA,
            conductors=8,
            screened=False,
            solid_conductor=False,
            layers=(
                layer_mm(LayerRole.CONDUCTOR, "bare copper, 7 strands of 0.16 mm", 0.48, 0.02),
                layer_mm(LayerRole.CORE, "polyethylene", 0.98, 0.03),
                layer_mm(LayerRole.JACKET, PVC, 5.80, 0.15),
            ),
            rating=_marked("CM"),
            mass_kg_per_m=0.038,
            bend_radius_fixed_m=0.0232,
            sheet=DataSheet(
                source=sheet_of("DAT-6"),
                impedance_ohm=100.0,
                delay_s_per_m=5.13e-9,
                capacitance_f_per_m=51e-12,
                capacitance_to_rest_f_per_m=None,
                resistance_conductor_ohm_per_m=0.130,
                resistance_screen_ohm_per_m=None,
                conductor_area_m2=0.1407e-6,
                optical_loss_db_per_m=None,
                loss_points=(
                    LossPoint(frequency_hz=10e6, loss_db_per_m=0.071),
                    LossPoint(frequency_hz=31.25e6, loss_db_per_m=0.128),
                    LossPoint(frequency_hz=100e6, loss_db_per_m=0.238),
                    LossPoint(frequency_hz=250e6, loss_db_per_m=0.394),
                ),
            ),
        ),
        price_per_m=Decimal("0.580"),
        smallest_remnant_mm=1500,
        colours=("YE", "GY", "BU"),
        aliases=("network cable", "data cable", "patch cable", "category 6"),
    )


def _fibre() -> CableEntry:
    return CableEntry(
        cable=Cable(
            code="POF-22",
            name="Plastic fibre 2.2 mm",
            family=Family.FIBRE,
            conductors=1,
            screened=False,
            solid_conductor=True,
            layers=(
                layer_mm(LayerRole.CORE, "acrylic fibre", 1.00, 0.03),
                layer_mm(LayerRole.JACKET, "polyethylene", 2.20, 0.07),
            ),
            rating=indoors_only(JacketClass.GENERAL),
            mass_kg_per_m=0.0042,
            bend_radius_fixed_m=0.025,
            sheet=DataSheet(
                source=sheet_of("POF-22"),
                impedance_ohm=None,
                delay_s_per_m=4.97e-9,
                capacitance_f_per_m=None,
                capacitance_to_rest_f_per_m=None,
                resistance_conductor_ohm_per_m=None,
                resistance_screen_ohm_per_m=None,
                conductor_area_m2=None,
                optical_loss_db_per_m=0.20,
                loss_points=(),
            ),
        ),
        price_per_m=Decimal("0.850"),
        smallest_remnant_mm=800,
        colours=("BK",),
        aliases=("optical audio cable", "optical lead", "plastic fibre"),
    )


def other_entries() -> Iterator[CableEntry]:
    """Yield the cables that are no coax."""
    yield _balanced_pair()
    yield from map(_loudspeaker_entry, LOUDSPEAKER)
    yield _data()
    yield _fibre()
