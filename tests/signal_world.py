"""Cables of the demo workshop as its data sheets state them, for tests of physics and signals.

The workshop is invented. Losses are given to 0.01 dB/100 m: at 0.1 dB the longest runs printed in
its table would be off by up to 3 m.
"""

import numpy as np

from reelwright.core.parts.cable import Cable, DataSheet, Family, LossPoint, Lot, LotMeasure
from reelwright.core.parts.connector import Band, Connector, Method
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.jacket_rating import indoors_only
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.parts.length import Length
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Source

SHEET = Source(text="data sheet of the demo workshop", basis=Basis.DATA_SHEET)
LENGTHS_M = np.array([1.0, 3.0, 10.0, 30.0, 100.0, 300.0])
LOSS_FREQUENCIES_HZ = (10e6, 135e6, 742.5e6, 1485e6)


def sheet(
    impedance_ohm: float | None = None,
    capacitance_pf_per_m: float | None = None,
    delay_ns_per_m: float | None = None,
    resistance_ohm_per_km: float | None = None,
    losses_db_per_100m: tuple[float, ...] = (),
    *,
    capacitance_to_rest_pf_per_m: float | None = None,
    optical_loss_db_per_m: float | None = None,
    screen_ohm_per_km: float | None = None,
) -> DataSheet:
    """Return a data sheet from values as they are printed."""

    def scaled(value: float | None, factor: float) -> float | None:
        return None if value is None else value * factor

    return DataSheet(
        source=SHEET,
        impedance_ohm=impedance_ohm,
        delay_s_per_m=scaled(delay_ns_per_m, 1e-9),
        capacitance_f_per_m=scaled(capacitance_pf_per_m, 1e-12),
        capacitance_to_rest_f_per_m=scaled(capacitance_to_rest_pf_per_m, 1e-12),
        resistance_conductor_ohm_per_m=scaled(resistance_ohm_per_km, 1e-3),
        resistance_screen_ohm_per_m=scaled(screen_ohm_per_km, 1e-3),
        conductor_area_m2=None,
        optical_loss_db_per_m=optical_loss_db_per_m,
        loss_points=tuple(
            LossPoint(frequency_hz=frequency, loss_db_per_m=loss / 100)
            for frequency, loss in zip(LOSS_FREQUENCIES_HZ, losses_db_per_100m, strict=False)
        ),
    )


def cable(
    code: str,
    data: DataSheet,
    *,
    family: Family = Family.COAX,
    conductors: int = 1,
    screened: bool = True,
    solid: bool = True,
    jacket: JacketClass = JacketClass.GENERAL,
    conductor_material: str = "copper",
) -> Cable:
    """Return a cable; its layers are alike for all, as no electrical answer reads them."""
    return Cable(
        code=code,
        name=code,
        family=family,
        conductors=conductors,
        screened=screened,
        solid_conductor=solid,
        layers=(
            Layer(
                role=LayerRole.CONDUCTOR,
                material=conductor_material,
                outside_diameter_m=0.8e-3,
                tolerance_m=0.0,
            ),
            Layer(role=LayerRole.JACKET, material="PVC", outside_diameter_m=6e-3, tolerance_m=1e-4),
        ),
        rating=indoors_only(jacket),
        mass_kg_per_m=0.04,
        bend_radius_fixed_m=0.06,
        sheet=data,
    )


VID_70 = cable("VID-70", sheet(74.4, 54.0, 4.019, 20.93, (1.93, 7.26, 17.72, 25.78)))
VID_60 = cable("VID-60", sheet(74.9, 53.6, 4.019, 33.29, (2.41, 9.02, 21.85, 31.62)))
VID_40 = cable("VID-40", sheet(74.1, 54.2, 4.019, 64.36, (3.39, 12.63, 30.32, 43.60)))
VID_28 = cable("VID-28", sheet(73.8, 54.8, 4.043, 133.8, (4.95, 18.35, 43.73, 62.57)))
VID_70P = cable(
    "VID-70P",
    sheet(74.6, 53.3, 3.971, 20.93, (1.97, 7.71, 20.15, 30.62)),
    jacket=JacketClass.PLENUM,
)
VID_60P = cable(
    "VID-60P",
    sheet(74.4, 53.3, 3.971, 33.29, (2.47, 9.57, 24.51, 36.79)),
    jacket=JacketClass.PLENUM,
)
VID_70F = cable("VID-70F", sheet(73.9, 54.7, 4.043, 21.0, (2.10, 7.94, 19.57, 28.63)), solid=False)
PHO_61 = cable(
    "PHO-61",
    sheet(99.4, 41.9, 4.170, 66.40, (2.34, 8.84, 21.69, 31.66), screen_ohm_per_km=9.5),
)
AUD_BP = cable(
    "AUD-BP",
    sheet(110.0, 46.0, None, 85.0, capacitance_to_rest_pf_per_m=105.0, screen_ohm_per_km=30.0),
    family=Family.PAIR,
    conductors=2,
    solid=False,
)


def loudspeaker_cable(code: str, ohm_per_km: float) -> Cable:
    """Return a loudspeaker pair of that conductor resistance."""
    return cable(
        code,
        sheet(None, None, None, ohm_per_km),
        family=Family.LOUDSPEAKER,
        conductors=2,
        screened=False,
        solid=False,
    )


SPK_16 = loudspeaker_cable("SPK-16", 13.17)
SPK_14 = loudspeaker_cable("SPK-14", 8.286)
SPK_12 = loudspeaker_cable("SPK-12", 5.211)
DAT_6 = cable("DAT-6", sheet(), family=Family.DATA, conductors=8, screened=False, solid=False)
POF_22 = cable(
    "POF-22", sheet(optical_loss_db_per_m=0.20), family=Family.FIBRE, conductors=1, screened=False
)


def connector(code: str, *, impedance_ohm: float | None = 75.0) -> Connector:
    """Return a connector of that impedance; nothing else of it matters to a signal."""
    return Connector(
        code=code,
        name=code,
        mating=code,
        method=Method.SOLDER,
        contacts=1,
        shell_contact=True,
        carries_balanced=False,
        impedance_ohm=impedance_ohm,
        body=None,
        solid_conductor_only=None,
        accepts_conductor=None,
        accepts_jacket=Band(low_m=1e-3, high_m=9e-3),
        conductor_setback_m=0.0,
        trim_m=0.0,
        drawing=None,
    )


BNC = connector("BNC-60")
PLAIN = connector("plain", impedance_ohm=None)


def lot(cable_of: Cable, velocity_factor: float, *, code: str = "L-1") -> Lot:
    """Return a lot whose velocity factor was measured to 0.1 %."""
    return Lot(
        code=code,
        cable_code=cable_of.code,
        colour="BK",
        impedance_ohm=None,
        delay_s_per_m=LotMeasure(
            value=1 / (velocity_factor * SPEED_OF_LIGHT_M_PER_S), relative_uncertainty=0.001
        ),
        capacitance_f_per_m=None,
        resistance_conductor_ohm_per_m=None,
        resistance_screen_ohm_per_m=None,
        loss_points=(),
        loss_relative_uncertainty=None,
    )


def run(
    cable_of: Cable,
    length_m: float,
    *,
    spread_m: float = 0.0,
    celsius: float = 20.0,
    ends: tuple[Connector, Connector] = (BNC, BNC),
    adapters: int = 0,
    lot_of: Lot | None = None,
) -> Run:
    """Return a run at 20 °C between two 75 Ω connectors unless told otherwise."""
    return Run(
        cable=cable_of,
        lot=lot_of,
        length=Length(mean_m=length_m, standard_uncertainty_m=spread_m),
        temperature_celsius=celsius,
        connectors=ends,
        adapters=adapters,
    )
