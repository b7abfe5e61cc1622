"""Power over data, plastic fibre and clad aluminium against published and remembered values."""

import math
from collections.abc import Callable
from functools import partial

from reelwright.core.materials.metals import ALUMINIUM_1350, COPPER
from reelwright.core.physics.fibre import (
    ACRYLIC_FIBRE,
    RADIUS_TESTED_M,
    OpticalLedger,
    acceptance_rad,
    bend_allowance_db,
)
from reelwright.core.physics.supply import volts_at_far_end, volts_for_power
from reelwright.core.signals.plastic_fibre import (
    BLINDING_DBM,
    FAINTEST_DBM,
    MOST_LOSS_DB_PER_M,
    WORST_CASE,
    PlasticFibreAudio,
)
from reelwright.core.signals.power_over_data import POWER_TYPES
from tests.references.harness import (
    Basis,
    LeftOut,
    ReferenceCheck,
    Within,
    absolute,
    at_least,
    at_most,
    exact,
    reference_test,
    relative,
)

_TESTER = "power-over-data tester manual, page 7, table of types (maker withheld)"
_ENCYCLOPEDIA = "encyclopaedia article on the F05 optical audio connector (title withheld)"
_CLAD = "data sheet on copper-clad aluminium and other clad metals, citing ASTM B566"
_AS_PRINTED = exact(because="a limit that is stated as this number")
_AUDIO = PlasticFibreAudio(sample_rate_hz=48_000, bend_radius_m=None)


def _check(  # noqa: PLR0917 - one row of a table, in the order it is read
    name: str,
    module: str,
    quantity: str,
    source: str,
    basis: Basis,
    expected: float,
    unit: str,
    within: Within,
    ours: Callable[[], float],
) -> ReferenceCheck:
    return ReferenceCheck(
        id=name,
        module=module,
        quantity=quantity,
        source=source,
        basis=basis,
        expected=expected,
        unit=unit,
        within=within,
        ours=ours,
    )


def _power(number: int, *, of: str, expected: float) -> ReferenceCheck:
    kind = POWER_TYPES[number - 1]
    quantity, unit, within, ours = {
        "pse": ("watts of the source", "W", _AS_PRINTED, lambda: kind.source_w),
        "v": ("least volts of the source", "V", _AS_PRINTED, lambda: kind.lowest_source_v),
        "i": ("current of a pair set", "mA",
              relative(1e-9, because="worked out from watts and volts of the type"),
              lambda: 1000 * kind.current_a),
        # The standard promises what is left at the resistance allowed.
        "pd": ("watts that reach the device at the resistance allowed", "W",
               absolute(0.05, because="one decimal is printed, two for type 1"),
               lambda: kind.most_w(pair_set_ohm=kind.pair_set_ohm)),
    }[of]  # fmt: skip
    return _check(
        f"poe.{number}.{of}",
        "core.signals.power_over_data",
        f"{quantity}, type {number}",
        _TESTER,
        Basis.SEEN,
        expected,
        unit,
        within,
        ours,
    )


def _clad_share(copper_fraction: float) -> float:
    """Conductivity of clad wire [% IACS]: both metals side by side."""
    aluminium = ALUMINIUM_1350.copper_share
    return 100 * (copper_fraction * COPPER.copper_share + (1 - copper_fraction) * aluminium)


CHECKS = (
    _power(1, of="pse", expected=15.4),
    _power(1, of="pd", expected=12.95),
    _power(1, of="v", expected=44.0),
    _power(2, of="pse", expected=30.0),
    _power(2, of="pd", expected=25.5),
    _power(2, of="i", expected=600.0),
    _power(3, of="pse", expected=60.0),
    _power(3, of="pd", expected=51.0),
    _power(3, of="v", expected=50.0),
    _power(4, of="pd", expected=71.3),
    _check("poe.r2", "core.signals.power_over_data",
           "resistance allowed in a pair set, types 2 to 4", "IEEE 802.3bt-2018, table 145-1",
           Basis.MEMORY, 12.5, "Ω", _AS_PRINTED,
           lambda: max(kind.pair_set_ohm for kind in POWER_TYPES[1:])),
    _check("poe.1.check", "core.physics.supply", "power behind 20 Ω at 44 V and 350 mA",
           "P = I·(V − I·R), worked out on paper", Basis.COMPUTED, 12.95, "W",
           absolute(0.01, because="two decimals are given"),
           lambda: 0.35 * volts_at_far_end(source_v=44.0, loop_ohm=20.0, current_a=0.35)),
    _check("poe.1.volts", "core.physics.supply", "volts of a device of 12.95 W behind 20 Ω at 44 V",
           "the current of 350 mA that it settles at, worked out on paper", Basis.COMPUTED, 37.0,
           "V", relative(1e-9, because="exact but for a float's rounding"),
           lambda: volts_for_power(source_v=44.0, loop_ohm=20.0, power_w=12.95) or math.nan),
    _check("pof.clad", "core.physics.fibre", "diameter over the cladding, class A4a",
           "BS EN 60793-2-40, scope, table 1, as a shop for standards lists it", Basis.SEEN,
           1000.0, "µm", relative(0.06, because="the tolerance of the class"),
           lambda: 1e6 * ACRYLIC_FIBRE.cladding_diameter_m),
    _check("pof.na", "core.physics.fibre", "numerical aperture, class A4a",
           "BS EN 60793-2-40, scope, table 1, as a shop for standards lists it", Basis.SEEN, 0.5,
           "1", relative(0.03, because="as stated; ours follows from the indices"),
           lambda: ACRYLIC_FIBRE.numerical_aperture),
    _check("pof.na.idx", "core.physics.fibre", "numerical aperture of indices 1.492 and 1.402",
           "√(n1² − n2²), worked out on paper", Basis.COMPUTED, 0.51, "1",
           absolute(0.002, because="two decimals are given"),
           lambda: ACRYLIC_FIBRE.numerical_aperture),
    _check("pof.angle", "core.physics.fibre", "half angle of acceptance at NA 0.5",
           "asin NA; a library for optical fibres agrees", Basis.COMPUTED, 30.0, "°",
           absolute(1e-6, because="exact but for a float's rounding"),
           lambda: math.degrees(acceptance_rad(0.5))),
    _check("pof.disp", "core.physics.fibre", "spread of rays of indices 1.492 and 1.402",
           "n1/c·(n1/n2 − 1), worked out on paper", Basis.COMPUTED, 0.319, "ns/m",
           relative(0.01, because="three digits are given"),
           lambda: 1e9 * ACRYLIC_FIBRE.ray_spread_s_per_m),
    _check("pof.disp.bandwidth", "core.physics.fibre", "bandwidth over 100 m of the same",
           "0.44 over the spread, worked out on paper", Basis.COMPUTED, 13.8, "MHz",
           relative(0.01, because="three digits are given"),
           lambda: ACRYLIC_FIBRE.bandwidth_hz(length_m=100.0) / 1e6),
    _check("pof.att", "core.signals.plastic_fibre", "loss of 100 m, class A4a, at most",
           "trade journal on the IEC standard for plastic optical fibres", Basis.SEEN, 40.0, "dB",
           _AS_PRINTED, lambda: 100 * MOST_LOSS_DB_PER_M),
    _check("pof.bend", "core.physics.fibre", "loss added by ten turns of 25 mm, at most",
           "IEC 60793-2-40 annex A", Basis.MEMORY, 0.5, "dB", _AS_PRINTED,
           lambda: bend_allowance_db(turn_count=10)),
    _check("pof.bend.radius", "core.physics.fibre", "radius of those turns",
           "IEC 60793-2-40 annex A", Basis.MEMORY, 25.0, "mm", _AS_PRINTED,
           lambda: 1000 * RADIUS_TESTED_M),
    _check("pof.len", "core.signals.plastic_fibre", "longest usual link of F05 sockets",
           _ENCYCLOPEDIA, Basis.SEEN, 10.0, "m",
           at_most(but_within=1e-9, because="the worst case at 0.20 dB/m ends at the same length"),
           lambda: WORST_CASE.longest_m(loss_db_per_m=0.20)),
    _check("pof.rate", "core.signals.plastic_fibre", "bits in a second at 48 kHz",
           _ENCYCLOPEDIA, Basis.SEEN, 3.1e6, "bit/s",
           relative(0.02, because="two digits are printed for 64 × 48 kHz"),
           lambda: float(_AUDIO.bit_rate_per_s)),
    _check("pof.rx.least", "core.signals.plastic_fibre", "faintest light received",
           "data of modules to EIAJ/JEITA RC-5720", Basis.MEMORY, -27.0, "dBm", _AS_PRINTED,
           lambda: FAINTEST_DBM),
    _check("pof.rx.most", "core.signals.plastic_fibre", "most light received",
           "data of modules to EIAJ/JEITA RC-5720", Basis.MEMORY, -14.5, "dBm", _AS_PRINTED,
           lambda: BLINDING_DBM),
    _check("pof.budget.ceiling", "core.physics.fibre",
           "reach of a 6 dB budget with 1 dB held back at the 0.4 dB/m ceiling",
           "(6 − 1)/0.4, worked out on paper", Basis.COMPUTED, 12.5, "m",
           relative(1e-6, because="exact but for a float's rounding"),
           lambda: OpticalLedger(launch_dbm=-21.0, needed_dbm=-27.0, interfaces=0,
                                 interface_loss_db=0.0, ageing_db=1.0
                                 ).longest_m(loss_db_per_m=MOST_LOSS_DB_PER_M)),
    *(
        _check(f"cca{volume}.iacs", "core.materials",
               f"conductivity of copper-clad aluminium, {volume} % of copper by volume, at least",
               _CLAD, Basis.SEEN, expected, "% IACS",
               at_least(but_within=0.05,
                        because="minima of a specification; ours are pure metals side by side"),
               partial(_clad_share, volume / 100))
        for volume, expected in ((10, 62.9), (15, 64.4))
    ),
)  # fmt: skip
test_power_and_light = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("pof.att.a42",),
        quantity="loss of 100 m of the better grade A4a.2, 18 dB at most, from memory",
        reason=(
            "a data sheet states its own loss, which is used as it stands; no grade is read from "
            "one, so nothing computes this limit"
        ),
    ),
    LeftOut(
        names=("poe.1.v, upper end", "poe.3.v, upper end"),
        quantity="highest volts of a source, 57 V",
        reason="the lowest volts decide and are held; nothing computes with the highest",
    ),
)
