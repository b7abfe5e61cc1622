"""Cutting, pricing and looms against worked problems and a table of the normal distribution."""

from decimal import Decimal

from reelwright.core.cutting import Stretch, chance_of, usable_mm
from reelwright.core.parts.bundle import bundle_diameter_m, tightest_bundle_diameter_m
from reelwright.core.pricing import LinePrice, Rates, StationMinutes, price_line
from tests.references.harness import Basis, ReferenceCheck, absolute, reference_test, relative

NORMAL_TABLE = "standard normal table"
WORKED = "worked problem of the trade, reckoned by hand"
PACKINGS = "Graham and others, Dense packings of congruent circles in a circle (1998), table"
KILOMETRE = Stretch(start_mm=0, length_mm=1_000_000, standard_uncertainty_mm=100_000)


def four_cables() -> LinePrice:
    """Four cables: 11.80 of material and 9.5 min each, 13 min of set-up, 38.00 an hour."""
    return price_line(
        quantity=4,
        material_each=Decimal("11.80"),
        minutes=(StationMinutes(station="all stations", minutes=Decimal("9.5")),),
        setup_minutes=Decimal(13),
        rates=Rates(
            currency="CU",
            labour_per_hour=Decimal("38.00"),
            order_handling=Decimal("4.20"),
            first_pass_yield=Decimal("0.97"),
            margin=Decimal("0.42"),
        ),
    )


def spreads_held_back(chance: float) -> float:
    """How many standard uncertainties of a stretch are not planned for."""
    usable = usable_mm(KILOMETRE, chance_of_enough=chance)
    return (KILOMETRE.length_mm - usable) / KILOMETRE.standard_uncertainty_mm


def packed(count: int) -> float:
    """The tightest bundle of cables of diameter 1."""
    return tightest_bundle_diameter_m(cable_diameter_m=1.0, count=count)


CHECKS = (
    *(
        ReferenceCheck(
            id=f"cutting.held_back.{chance:g}",
            module="core.cutting",
            quantity=f"standard uncertainties held back for {chance:.1%} of certainty",
            source=NORMAL_TABLE,
            basis=Basis.MEMORY,
            expected=expected,
            unit="1",
            within=absolute(0.00006, because="four digits, and usable length is whole mm"),
            ours=lambda chance=chance: spreads_held_back(chance),  # type: ignore[misc]
        )
        for chance, expected in ((0.95, 1.6449), (0.975, 1.9600), (0.98, 2.0537), (0.99, 2.3263))
    ),
    ReferenceCheck(
        id="cutting.twelve_mm",
        module="core.cutting",
        quantity="chance of 4 × 3.047 m in 12.20 m known to 0.25 m",
        source=NORMAL_TABLE,
        basis=Basis.MEMORY,
        expected=0.5191,
        unit="1",
        within=absolute(0.0001, because="the table has four digits, z = 0.048 lies between two"),
        ours=lambda: chance_of(
            Stretch(start_mm=0, length_mm=12_200, standard_uncertainty_mm=250), wanted_mm=12_188
        ),
    ),
    ReferenceCheck(
        id="pricing.unit_cost.four",
        module="core.pricing",
        quantity="unit cost of four cables",
        source=WORKED,
        basis=Basis.COMPUTED,
        expected=21.476,
        unit="currency per cable",
        within=absolute(0.0051, because="ours is in whole cents"),
        ours=lambda: float(four_cables().unit_cost),
    ),
    ReferenceCheck(
        id="pricing.unit_price.four",
        module="core.pricing",
        quantity="unit price of four cables at a margin of 42 %",
        source=WORKED,
        basis=Basis.COMPUTED,
        expected=37.03,
        unit="currency per cable",
        within=absolute(0.0051, because="both are in whole cents"),
        ours=lambda: float(four_cables().unit_price),
    ),
    ReferenceCheck(
        id="parts.loom.twelve",
        module="core.parts",
        quantity="loom of 12 cables of 4.5 mm in a sleeve of 0.8 mm",
        source=WORKED,
        basis=Basis.COMPUTED,
        expected=20.31,
        unit="mm",
        within=absolute(0.0051, because="two decimals are given"),
        ours=lambda: (
            1000 * bundle_diameter_m(cable_diameter_m=0.0045, count=12, sleeve_thickness_m=0.0008)
        ),
    ),
    *(
        ReferenceCheck(
            id=f"parts.packing.{count}",
            module="core.parts",
            quantity=f"smallest circle around {count} circles of diameter 1",
            source=PACKINGS,
            basis=Basis.MEMORY,
            expected=expected,
            unit="1",
            within=relative(0.00002, because="three to four decimals are remembered"),
            ours=lambda count=count: packed(count),  # type: ignore[misc]
        )
        for count, expected in (
            (3, 2.1547),
            (5, 2.7013),
            (8, 3.3048),
            (9, 3.6131),
            (11, 3.9238),
            (13, 4.2361),
            (19, 4.8637),
        )
    ),
    ReferenceCheck(
        id="parts.packing.12",
        module="core.parts",
        quantity="smallest circle around 12 circles of diameter 1",
        source=WORKED,
        basis=Basis.COMPUTED,
        expected=4.029,
        unit="1",
        within=absolute(0.0011, because="three decimals are given"),
        ours=lambda: packed(12),
    ),
)
test_cutting_bench_pricing = reference_test(CHECKS)
