"""Worked problems of the trade that physics and signals answer."""

from collections.abc import Callable

import numpy as np
from scipy.optimize import brentq

from reelwright.core.materials.metals import COPPER
from reelwright.core.physics import coax
from reelwright.core.physics.audio import hum_db
from reelwright.core.physics.fibre import OpticalLedger
from reelwright.core.physics.hipot import capacitive_current_a, stored_energy_j
from reelwright.core.physics.loudspeaker import level_loss_db, longest_run_m
from reelwright.core.physics.reflection import (
    echo_distance_m,
    local_impedance_ohm,
    ripple_frequency_hz,
)
from reelwright.core.physics.resistance import resistance_at_20_ohm_per_m
from reelwright.core.physics.sheet_line import SheetLine
from reelwright.core.signals.budget import Budget, longest_within_m
from reelwright.core.signals.practice import CONNECTOR_LOSS_DB, GUARD_DB
from reelwright.core.signals.serial_video import SerialVideo
from tests.references.harness import Basis, ReferenceCheck, reference_test, relative

WORKED = "worked problem of the trade, set and solved apart from this code"
_DIAMETERS = {"inner_m": 1.024e-3, "outer_m": 4.57e-3, "velocity_factor": 0.83}


def _problem(
    number: str, quantity: str, expected: float, unit: str, ours: Callable[[], float]
) -> ReferenceCheck:
    return ReferenceCheck(
        id=f"problem.{number}",
        module="core.signals" if number == "P06" else "core.physics",
        quantity=quantity,
        source=f"{WORKED} ({number[:3]})",
        basis=Basis.COMPUTED,
        expected=expected,
        unit=unit,
        within=relative(0.001, because="four digits are given"),
        ours=ours,
    )


def _conductor_db_per_100m() -> float:
    loss = coax.conductor_loss_db_per_m(
        742.5e6, **_DIAMETERS, metal=COPPER, inner_factor=1.0, outer_factor=1.0
    )
    return 100 * float(loss)


def _dielectric_db_per_100m() -> float:
    loss = coax.dielectric_loss_db_per_m(742.5e6, velocity_factor=0.83, loss_tangent=1.5e-4)
    return 100 * float(loss)


def _longest_m() -> float:
    budget = Budget(
        limit=SerialVideo(rate_bit_per_s=2_970_000_000).limit.limit_db,
        used=lambda lengths_m: 0.2578 * lengths_m + 2 * CONNECTOR_LOSS_DB,
        spread=np.zeros_like,
        length_relative_uncertainty=0.0,
    )
    return longest_within_m(budget, guard=GUARD_DB)


def _warm_loss_db() -> float:
    """20.25 dB of conductor and 1.22 dB of dielectric loss at 742.5 MHz, put on 100 m."""
    frequency = 742.5e6

    def loss_db(direct_ohm_per_m: float, tangent: float, celsius: float) -> float:
        line = SheetLine(
            impedance_ohm=75.0,
            delay_s_per_m=4e-9,
            direct_ohm_per_m=direct_ohm_per_m,
            skin_per_root_hz=0.2,
            loss_tangent=tangent,
            lowest_hz=1.0,
            highest_hz=20e9,
            fitted_low_hz=None,
            fitted_high_hz=None,
            relative_residuals=(),
        )
        return 100 * float(
            line.parameters([frequency], temperature_celsius=celsius).loss_db_per_m[0]
        )

    direct = brentq(lambda ohm: loss_db(ohm, 0.0, 20.0) - 20.25, 1e-5, 1.0)
    tangent = brentq(lambda one: loss_db(direct, one, 20.0) - (20.25 + 1.22), 1e-6, 1e-2)
    return loss_db(direct, tangent, 50.0)


CHECKS = (
    _problem("P01", "impedance of 1.024 mm in 4.57 mm at velocity factor 0.83", 74.44, "Ω",
             lambda: coax.impedance_ohm(**_DIAMETERS)),
    _problem("P03", "conductor loss of the same at 742.5 MHz", 15.78, "dB/100 m",
             _conductor_db_per_100m),
    _problem("P04", "dielectric loss of the same at 742.5 MHz, tan δ 1.5e-4", 1.221, "dB/100 m",
             _dielectric_db_per_100m),
    _problem("P06", "longest run at 2.97 Gb/s of a cable of 25.78 dB/100 m", 72.92, "m",
             _longest_m),
    _problem("P07", "loss at 50 °C of 20.25 dB conductor and 1.22 dB dielectric loss", 22.63, "dB",
             _warm_loss_db),
    _problem("P09", "hum of 2 mA through 8 m of 12 mΩ/m and two contacts of 5 mΩ, on 0.316 V",
             -63.47, "dB",
             lambda: hum_db(current_a=2e-3, screen_ohm_per_m=0.012, length_m=8.0,
                            contact_ohm=0.005, signal_v=0.316)),
    _problem("P10", "level lost in 18 m of 2.08 mm² into 4 Ω", 0.6247, "dB",
             lambda: float(level_loss_db(loop_ohm=2 * 8.286e-3 * 18, nominal_ohm=4.0))),
    _problem("P11", "longest run of 3.31 mm² at 5 % of 8 Ω", 38.38, "m",
             lambda: longest_run_m(conductor_ohm_per_m=5.211e-3, nominal_ohm=8.0, fraction=0.05)),
    _problem("P13", "resistance at 20 °C of 5 m that measure 0.1712 Ω at 27.5 °C", 33.26, "Ω/km",
             lambda: 1000 * resistance_at_20_ohm_per_m(
                 measured_ohm=0.1712, length_m=5.0, temperature_celsius=27.5)),
    _problem("P14", "longest optical audio run in the worst case", 10.0, "m",
             lambda: OpticalLedger(launch_dbm=-19.0, needed_dbm=-24.0, interfaces=2,
                                   interface_loss_db=1.0, ageing_db=1.0
                                   ).longest_m(loss_db_per_m=0.20)),
    _problem("P18", "distance from end B of an echo after 203.6 ns on 25.40 m", 0.06934, "m",
             lambda: 25.40 - echo_distance_m(round_trip_s=203.6e-9, velocity_factor=0.83)),
    _problem("P19", "impedance behind a reflection of −0.062 on 75 Ω", 66.24, "Ω",
             lambda: local_impedance_ohm(reflection=-0.062, line_ohm=75.0)),
    _problem("P22", "first return-loss spike of dents from a sheave of 215 mm", 184.2, "MHz",
             lambda: ripple_frequency_hz(pitch_m=np.pi * 0.215, velocity_factor=0.83) / 1e6),
    _problem("P37", "current of a test at 1000 V, 50 Hz, on 25.4 m of 53.6 pF/m", 427.7, "µA",
             lambda: 1e6 * capacitive_current_a(voltage_v=1000.0, frequency_hz=50.0,
                                                capacitance_f=53.6e-12 * 25.4)),
    _problem("P37.energy", "energy of the same at 1414 V", 1.361, "mJ",
             lambda: 1e3 * stored_energy_j(voltage_v=1414.0, capacitance_f=53.6e-12 * 25.4)),
)  # fmt: skip
test_problems = reference_test(CHECKS)
