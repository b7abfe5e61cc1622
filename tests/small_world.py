"""A tiny named shop, built through services: one cable, one connector, two lots, three reels.

Ada leads, Ben works at the bench, Vic only looks. Its numbers are round on purpose and describe
no real cable.
"""

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from reelwright.core.parts.cable import Cable, DataSheet, Family, LossPoint
from reelwright.core.parts.connector import Band, Connector, Method
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.jacket_rating import indoors_only
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.verdicts import Basis, Source

if TYPE_CHECKING:
    from reelwright.shop.people.models import Person

TODAY = dt.date(2027, 3, 2)
LAST_WEEK = TODAY - dt.timedelta(days=7)
SHEET = Source(text="data sheet of the small world", basis=Basis.DATA_SHEET)

CABLE = Cable(
    code="SW-60",
    name="Coax of the small world",
    family=Family.COAX,
    conductors=1,
    screened=True,
    solid_conductor=True,
    layers=(
        Layer(
            role=LayerRole.CONDUCTOR, material="copper", outside_diameter_m=0.8e-3, tolerance_m=0.0
        ),
        Layer(
            role=LayerRole.DIELECTRIC,
            material="foamed polyethylene",
            outside_diameter_m=3.6e-3,
            tolerance_m=0.1e-3,
        ),
        Layer(
            role=LayerRole.BRAID, material="copper", outside_diameter_m=4.4e-3, tolerance_m=0.1e-3
        ),
        Layer(role=LayerRole.JACKET, material="PVC", outside_diameter_m=6e-3, tolerance_m=0.1e-3),
    ),
    rating=indoors_only(JacketClass.GENERAL),
    mass_kg_per_m=0.04,
    bend_radius_fixed_m=0.06,
    sheet=DataSheet(
        source=SHEET,
        impedance_ohm=75.0,
        delay_s_per_m=4e-9,
        capacitance_f_per_m=54e-12,
        capacitance_to_rest_f_per_m=None,
        resistance_conductor_ohm_per_m=0.035,
        resistance_screen_ohm_per_m=0.01,
        conductor_area_m2=None,
        optical_loss_db_per_m=None,
        loss_points=(
            LossPoint(frequency_hz=10e6, loss_db_per_m=0.0255),
            LossPoint(frequency_hz=100e6, loss_db_per_m=0.08),
            LossPoint(frequency_hz=1e9, loss_db_per_m=0.26),
        ),
    ),
)

CONNECTOR = Connector(
    code="SW-PLUG",
    name="Plug of the small world",
    mating="plug of the small world",
    method=Method.SOLDER,
    contacts=1,
    shell_contact=True,
    carries_balanced=False,
    impedance_ohm=75.0,
    body=None,
    solid_conductor_only=None,
    accepts_conductor=Band(low_m=0.5e-3, high_m=1.0e-3),
    accepts_jacket=Band(low_m=5.5e-3, high_m=6.3e-3),
    conductor_setback_m=0.004,
    trim_m=0.005,
    drawing=None,
)


@dataclass(frozen=True, kw_only=True)
class SmallWorld:
    """Who is there. The reels: FULL 100 m, FLAWED 41 m with a flaw at 12.2 m, SHORT 5 m."""

    ada: "Person"
    ben: "Person"
    vic: "Person"


FULL, FLAWED, SHORT = "R-1", "R-2", "R-3"


def build_small_world() -> SmallWorld:
    """Build the shop in the database at hand, which must be empty."""
    from reelwright.shop.catalogue.services import cable_add, connector_add
    from reelwright.shop.people.permissions import Role
    from reelwright.shop.people.services import person_add, workshop_begin
    from reelwright.shop.reels.services import flaw_record, lot_receive, reel_receive

    _, ada = workshop_begin(
        name="The small world",
        currency="EUR",
        time_zone="Europe/Vienna",
        lead_user_name="ada",
        lead_display_name="Ada",
        lead_password=None,
        demo_day=TODAY,
    )
    ben = person_add(by=ada, user_name="ben", display_name="Ben", role=Role.BENCH, password=None)
    vic = person_add(by=ada, user_name="vic", display_name="Vic", role=Role.VIEWER, password=None)
    cable_add(
        by=ada,
        cable=CABLE,
        price_per_m=Decimal("1.20"),
        smallest_remnant_mm=2000,
        colours=["BK", "RD"],
    )
    connector_add(
        by=ada, connector=CONNECTOR, price=Decimal("2.50"), loss_db=0.1, loss_source=SHEET
    )
    lot_receive(
        by=ada,
        code="L-1",
        cable_code=CABLE.code,
        colour="BK",
        received_on=LAST_WEEK,
        delay_s_per_m=4.02e-9,
        delay_relative_uncertainty=0.001,
    )
    lot_receive(
        by=ada,
        code="L-2",
        cable_code=CABLE.code,
        colour="BK",
        received_on=LAST_WEEK + dt.timedelta(days=2),
        delay_s_per_m=None,
        delay_relative_uncertainty=None,
        note="a shade darker",
    )
    for code, lot, length_mm, spread_mm in (
        (FULL, "L-1", 100_000, 600.0),
        (FLAWED, "L-2", 41_000, 250.0),
        (SHORT, "L-2", 5_000, 20.0),
    ):
        reel_receive(
            by=ada,
            code=code,
            lot_code=lot,
            length_mm=length_mm,
            standard_uncertainty_mm=spread_mm,
            on=TODAY - dt.timedelta(days=1),
            location="rack 1",
        )
    flaw_record(
        by=ben, reel_code=FLAWED, from_outer_mm=12_200, length_mm=200, note="crushed", on=TODAY
    )
    return SmallWorld(ada=ada, ben=ben, vic=vic)
