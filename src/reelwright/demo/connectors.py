"""The invented connectors of the demo workshop, with their drawings and prices.

Only mating faces follow standards. Back ends are chosen so that each fits the cables it is meant
for and no other: a test tries every pair.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.parts.connector import Band, BodySection, Connector, Method
from reelwright.core.parts.drawing import Drawing, DrawingTolerances
from reelwright.core.verdicts import Basis, Source

LOSS_SOURCE = Source(text="0.1 dB for a good mated pair", basis=Basis.COMMON_PRACTICE)


@dataclass(frozen=True, kw_only=True)
class ConnectorEntry:
    """One connector with what the shop adds to it."""

    connector: Connector
    price: Decimal
    loss_db: float | None
    aliases: tuple[str, ...]


def _m(value_mm: float | None) -> float | None:
    return None if value_mm is None else round(value_mm * 1e-3, 9)


def _stated(**half_widths_mm: float) -> DrawingTolerances:
    """The tolerances of a drawing, named as its dimensions without their unit."""
    return DrawingTolerances.stating(
        **{f"{name}_m": round(value * 1e-3, 9) for name, value in half_widths_mm.items()}
    )


def _drawn(code: str) -> Source:
    return Source(text=f"invented drawing of {code}", basis=Basis.DATA_SHEET)


def _band(low_mm: float, high_mm: float) -> Band:
    return Band(low_m=round(low_mm * 1e-3, 9), high_m=round(high_mm * 1e-3, 9))


@dataclass(frozen=True, kw_only=True)
class _Crimped:
    """One row of the table of crimped connectors, in mm as on a drawing.

    ``barrel``: depth, bore, outside (bore and outside None: pins of several sizes come with it);
    ``stem``: bore, outside, length; ``ferrule``: bore, outside, length; ``tip``: reference plane to
    seat, shoulder to tip; ``window``: least and most of the tip before the plane, where drawn.
    ``body``: impedance in Ω and delay in ps of the line that plug and socket are, where drawn.
    """

    code: str
    name: str
    mating: str
    conductor: tuple[float, float]
    jacket: tuple[float, float]
    barrel: tuple[float, float | None, float | None]
    hole_far_edge: float
    seat_to_flange: float
    stem: tuple[float, float, float]
    ferrule: tuple[float, float, float]
    boot_bore: float
    impedance_ohm: float | None
    solid_only: bool
    price: str
    aliases: tuple[str, ...]
    tip: tuple[float, float]
    window: tuple[float, float] | None
    setback: float = 10.65
    body: tuple[float, float] | None = None


_BNC = ("bnc",)
_PHONO = ("rca", "phono", "phono plug")
# In front of the plane, as the invented drawings have it; the phono plugs leave it to their face.
_BNC_TIP = (5.45, 5.79)

CRIMPED = (
    _Crimped(
        code="BNC-70",
        name="BNC plug for 7 mm coax",
        mating="BNC",
        conductor=(0.98, 1.06),
        jacket=(6.60, 7.30),
        barrel=(4.50, 1.09, 1.78),
        hole_far_edge=3.80,
        seat_to_flange=5.10,
        stem=(4.90, 6.53, 8.20),
        ferrule=(7.50, 8.60, 12.50),
        boot_bore=7.40,
        impedance_ohm=75.0,
        solid_only=True,
        price="2.900",
        aliases=_BNC,
        tip=(4.80, 10.32),
        window=_BNC_TIP,
    ),
    _Crimped(
        code="BNC-60",
        name="BNC plug for 6 mm coax",
        mating="BNC",
        conductor=(0.78, 0.85),
        jacket=(5.85, 6.25),
        barrel=(4.50, 0.88, 1.78),
        hole_far_edge=3.80,
        seat_to_flange=4.70,
        stem=(4.00, 5.34, 7.70),
        ferrule=(6.26, 6.86, 12.00),
        boot_bore=6.40,
        impedance_ohm=75.0,
        solid_only=True,
        price="2.600",
        aliases=_BNC,
        tip=(4.80, 10.32),
        window=_BNC_TIP,
    ),
    _Crimped(
        code="BNC-40",
        name="BNC plug for 4 mm coax",
        mating="BNC",
        conductor=(0.56, 0.61),
        jacket=(3.85, 4.25),
        barrel=(3.85, 0.64, 1.22),
        hole_far_edge=3.15,
        seat_to_flange=4.10,
        stem=(2.85, 3.70, 6.70),
        ferrule=(4.36, 4.80, 10.50),
        boot_bore=4.40,
        impedance_ohm=75.0,
        solid_only=True,
        price="2.160",
        aliases=_BNC,
        tip=(4.80, 10.32),
        window=_BNC_TIP,
    ),
    _Crimped(
        code="BNC-28",
        name="BNC plug for 2.8 mm coax",
        mating="BNC",
        conductor=(0.38, 0.43),
        jacket=(2.65, 3.00),
        barrel=(3.65, 0.46, 1.20),
        hole_far_edge=2.95,
        seat_to_flange=3.70,
        stem=(2.00, 2.66, 6.00),
        ferrule=(3.16, 3.46, 9.50),
        boot_bore=3.10,
        impedance_ohm=75.0,
        solid_only=True,
        price="2.350",
        aliases=_BNC,
        tip=(4.80, 10.32),
        window=_BNC_TIP,
        body=(71.0, 95.0),
    ),
    _Crimped(
        code="BNC-70P",
        name="BNC plug for 6 mm plenum coax",
        mating="BNC",
        conductor=(0.98, 1.06),
        jacket=(5.75, 6.15),
        barrel=(4.50, 1.09, 1.78),
        hole_far_edge=3.80,
        seat_to_flange=5.10,
        stem=(4.80, 5.74, 8.20),
        ferrule=(6.64, 7.74, 12.50),
        boot_bore=6.30,
        impedance_ohm=75.0,
        solid_only=True,
        price="3.255",
        aliases=_BNC,
        tip=(4.80, 10.32),
        window=_BNC_TIP,
    ),
    _Crimped(
        code="BNC-60P",
        name="BNC plug for 5 mm plenum coax",
        mating="BNC",
        conductor=(0.78, 0.85),
        jacket=(4.90, 5.30),
        barrel=(4.50, 0.88, 1.78),
        hole_far_edge=3.80,
        seat_to_flange=4.70,
        stem=(3.85, 4.60, 7.70),
        ferrule=(5.46, 6.36, 12.00),
        boot_bore=5.45,
        impedance_ohm=75.0,
        solid_only=True,
        price="2.950",
        aliases=_BNC,
        tip=(4.80, 10.32),
        window=_BNC_TIP,
    ),
    _Crimped(
        code="BNC-70F",
        name="BNC plug for 7.6 mm high-flex coax",
        mating="BNC",
        conductor=(1.12, 1.22),
        jacket=(7.40, 7.85),
        barrel=(4.75, 1.25, 2.04),
        hole_far_edge=4.05,
        seat_to_flange=5.30,
        stem=(5.15, 7.14, 8.70),
        ferrule=(8.34, 9.54, 13.00),
        boot_bore=8.00,
        impedance_ohm=75.0,
        solid_only=False,
        price="3.600",
        aliases=_BNC,
        tip=(4.80, 10.32),
        window=_BNC_TIP,
    ),
    # One body, two pins in the bag: for 0.58 mm and for 0.81 mm. The drawing gives no one barrel.
    _Crimped(
        code="RCA-60",
        name="Phono plug for 6 mm coax",
        mating="phono",
        conductor=(0.55, 0.85),
        jacket=(5.85, 6.30),
        barrel=(5.75, None, None),
        hole_far_edge=5.05,
        seat_to_flange=3.10,
        stem=(4.85, 5.36, 7.00),
        ferrule=(6.30, 6.90, 11.00),
        boot_bore=6.45,
        impedance_ohm=None,
        solid_only=True,
        price="3.405",
        aliases=_PHONO,
        tip=(5.60, 20.40),
        window=None,
        setback=12.0,
    ),
    _Crimped(
        code="RCA-40",
        name="Phono plug for 4 mm coax",
        mating="phono",
        conductor=(0.56, 0.61),
        jacket=(3.85, 4.25),
        barrel=(5.25, 0.64, 1.22),
        hole_far_edge=4.55,
        seat_to_flange=3.10,
        stem=(2.85, 3.70, 6.00),
        ferrule=(4.36, 4.80, 10.00),
        boot_bore=4.40,
        impedance_ohm=None,
        solid_only=True,
        price="3.100",
        aliases=_PHONO,
        tip=(5.60, 20.40),
        window=None,
        setback=12.0,
    ),
)


def _crimped_tolerances(*, turned: bool) -> DrawingTolerances:
    """What the invented makers keep; ``turned``: the drawing gives the barrel of the one pin."""
    pin = {"barrel_bore": 0.005, "barrel_outside": 0.005} if turned else {}
    return _stated(
        barrel_depth=0.05,
        hole_far_edge=0.05,
        pin_crimp_length=0.10,
        seat_to_flange=0.05,
        stem_bore=0.02,
        stem_outside=0.01,
        stem_length=0.10,
        ferrule_bore=0.01,
        ferrule_outside=0.01,
        ferrule_length=0.20,
        boot_bore=0.05,
        plane_to_seat=0.05,
        shoulder_to_tip=0.05,
        **pin,
    )


def _body(row: _Crimped) -> BodySection | None:
    if row.body is None:
        return None
    return BodySection(
        impedance_ohm=row.body[0],
        delay_s=round(row.body[1] * 1e-12, 15),
        source=_drawn(row.code),
    )


def _crimped_entry(row: _Crimped) -> ConnectorEntry:
    depth, bore, outside = row.barrel
    stem_bore, stem_outside, stem_length = row.stem
    ferrule_bore, ferrule_outside, ferrule_length = row.ferrule
    return ConnectorEntry(
        connector=Connector(
            code=row.code,
            name=row.name,
            mating=row.mating,
            method=Method.CRIMP_CRIMP,
            contacts=1,
            shell_contact=True,
            carries_balanced=False,
            impedance_ohm=row.impedance_ohm,
            body=_body(row),
            solid_conductor_only=row.solid_only,
            accepts_conductor=_band(*row.conductor),
            accepts_jacket=_band(*row.jacket),
            conductor_setback_m=round(row.setback * 1e-3, 9),
            trim_m=0.010,
            drawing=Drawing(
                source=_drawn(row.code),
                tolerances=_crimped_tolerances(turned=bore is not None),
                barrel_depth_m=_m(depth),
                barrel_bore_m=_m(bore),
                barrel_outside_m=_m(outside),
                barrel_clearance_m=_m(0.25),
                hole_far_edge_m=_m(row.hole_far_edge),
                pin_crimp_length_m=_m(2.00),
                seat_to_flange_m=_m(row.seat_to_flange),
                dielectric_relief_m=_m(0.10),
                stem_bore_m=_m(stem_bore),
                stem_outside_m=_m(stem_outside),
                stem_length_m=_m(stem_length),
                braid_relief_m=_m(0.50),
                ferrule_bore_m=_m(ferrule_bore),
                ferrule_outside_m=_m(ferrule_outside),
                ferrule_length_m=_m(ferrule_length),
                boot_bore_m=_m(row.boot_bore),
                conductor_protrusion_m=None,
                plane_to_seat_m=_m(row.tip[0]),
                shoulder_to_tip_m=_m(row.tip[1]),
                floor_to_plane_m=None,
                tip_least_m=None if row.window is None else _m(row.window[0]),
                tip_most_m=None if row.window is None else _m(row.window[1]),
            ),
        ),
        price=Decimal(row.price),
        loss_db=0.10,
        aliases=row.aliases,
    )


def _compression_f() -> ConnectorEntry:
    return ConnectorEntry(
        connector=Connector(
            code="F-70",
            name="F plug for 7 mm coax",
            mating="F",
            method=Method.COMPRESSION,
            contacts=1,
            shell_contact=True,
            carries_balanced=False,
            impedance_ohm=75.0,
            body=None,
            solid_conductor_only=True,
            accepts_conductor=_band(0.98, 1.06),
            accepts_jacket=_band(6.60, 7.30),
            # Its conductor is the pin, so the conductor's end is where length is measured from.
            conductor_setback_m=0.0,
            trim_m=0.010,
            drawing=Drawing(
                source=_drawn("F-70"),
                tolerances=_stated(
                    stem_bore=0.02,
                    stem_outside=0.02,
                    stem_length=0.10,
                    ferrule_bore=0.05,
                    ferrule_outside=0.05,
                    ferrule_length=0.20,
                    floor_to_plane=0.10,
                ),
                barrel_depth_m=None,
                barrel_bore_m=None,
                barrel_outside_m=None,
                barrel_clearance_m=None,
                hole_far_edge_m=None,
                pin_crimp_length_m=None,
                seat_to_flange_m=None,
                dielectric_relief_m=None,
                stem_bore_m=_m(4.90),
                stem_outside_m=_m(5.60),
                stem_length_m=_m(7.00),
                braid_relief_m=_m(0.50),
                ferrule_bore_m=_m(8.30),
                ferrule_outside_m=_m(9.60),
                ferrule_length_m=_m(12.00),
                boot_bore_m=None,
                conductor_protrusion_m=_m(8.00),
                plane_to_seat_m=None,
                shoulder_to_tip_m=None,
                floor_to_plane_m=_m(4.80),
                tip_least_m=None,
                tip_most_m=None,
            ),
        ),
        price=Decimal("2.380"),
        loss_db=0.10,
        aliases=("f", "f plug", "f connector", "f-type"),
    )


@dataclass(frozen=True, kw_only=True)
class _Plain:
    """One row of the table of connectors without a stem, in mm."""

    code: str
    name: str
    mating: str
    method: Method
    contacts: int
    shell: bool
    balanced: bool
    conductor: tuple[float, float] | None
    jacket: tuple[float, float]
    setback: float
    price: str
    aliases: tuple[str, ...]
    impedance_ohm: float | None = None


PLAIN = (
    _Plain(
        code="XLR3M",
        name="Three-contact XLR, male",
        mating="XLR3M",
        method=Method.SOLDER,
        contacts=3,
        shell=True,
        balanced=True,
        conductor=(0.30, 1.70),
        jacket=(3.50, 8.00),
        setback=28.0,
        price="4.200",
        aliases=("xlr", "xlr male", "male xlr", "xlr-3m", "3-pin xlr"),
    ),
    _Plain(
        code="XLR3F",
        name="Three-contact XLR, female",
        mating="XLR3F",
        method=Method.SOLDER,
        contacts=3,
        shell=True,
        balanced=True,
        conductor=(0.30, 1.70),
        jacket=(3.50, 8.00),
        setback=28.0,
        price="4.600",
        aliases=("xlr", "xlr female", "female xlr", "xlr-3f", "3-pin xlr"),
    ),
    _Plain(
        code="PLUG-635",
        name="6.35 mm three-contact plug",
        mating="6.35 mm three-contact plug",
        method=Method.SOLDER,
        contacts=2,
        shell=True,
        balanced=True,
        conductor=(0.30, 1.40),
        jacket=(3.50, 7.00),
        setback=34.0,
        price="4.785",
        aliases=(
            "6.35 mm three-contact plug",
            "6.35 mm plug",
            "quarter inch plug",
            "1/4 inch jack",
            "1/4 in three-contact plug",
            "jack",
        ),
    ),
    _Plain(
        code="8P8C",
        name="Eight-place modular plug",
        mating="8P8C",
        method=Method.DISPLACEMENT,
        contacts=8,
        shell=False,
        balanced=True,
        conductor=(0.40, 0.60),
        jacket=(5.00, 6.20),
        setback=4.0,
        price="0.620",
        aliases=("network plug", "modular plug", "rj45"),
        impedance_ohm=100.0,
    ),
    _Plain(
        code="BANANA",
        name="Banana plugs, a pair",
        mating="banana",
        method=Method.WELD,
        contacts=2,
        shell=False,
        balanced=False,
        conductor=(1.40, 3.10),
        jacket=(6.00, 12.00),
        setback=18.0,
        price="5.200",
        aliases=("banana plugs", "bananas", "speaker plugs"),
    ),
    _Plain(
        code="TAILS",
        name="Bare ends, stripped and tinned",
        mating="bare ends",
        method=Method.SOLDER,
        contacts=2,
        shell=False,
        balanced=False,
        conductor=(1.40, 3.10),
        jacket=(6.00, 12.00),
        setback=0.0,
        price="0.300",
        aliases=("bare ends", "tails", "stripped ends", "bare"),
    ),
    _Plain(
        code="F05",
        name="Optical audio plug",
        mating="F05",
        method=Method.POLISH,
        contacts=1,
        shell=False,
        balanced=False,
        conductor=None,
        jacket=(2.00, 2.40),
        setback=0.0,
        price="2.100",
        aliases=("optical plug", "optical", "f05 plug"),
    ),
)


def _plain_entry(row: _Plain) -> ConnectorEntry:
    return ConnectorEntry(
        connector=Connector(
            code=row.code,
            name=row.name,
            mating=row.mating,
            method=row.method,
            contacts=row.contacts,
            shell_contact=row.shell,
            carries_balanced=row.balanced,
            impedance_ohm=row.impedance_ohm,
            body=None,
            solid_conductor_only=None,
            accepts_conductor=None if row.conductor is None else _band(*row.conductor),
            accepts_jacket=_band(*row.jacket),
            conductor_setback_m=round(row.setback * 1e-3, 9),
            trim_m=0.010,
            drawing=None,
        ),
        price=Decimal(row.price),
        loss_db=None,
        aliases=row.aliases,
    )


def connector_entries() -> Iterator[ConnectorEntry]:
    """Yield every connector of the demo workshop."""
    yield from map(_crimped_entry, CRIMPED)
    yield _compression_f()
    yield from map(_plain_entry, PLAIN)
