"""Coaxes with losses to 2150 MHz and both resistances, for what comes from antennas and heads."""

from dataclasses import replace

from reelwright.core.parts.cable import Cable, LossPoint
from reelwright.core.signals.run import Run
from tests import signal_world as world


def known_to(cable: Cable, *, screen_ohm_per_km: float | None, top_db_per_100m: float) -> Cable:
    """Return the cable with its screen's resistance and a loss stated at 2150 MHz."""
    point = LossPoint(frequency_hz=2150e6, loss_db_per_m=top_db_per_100m / 100)
    return replace(
        cable,
        sheet=replace(
            cable.sheet,
            resistance_screen_ohm_per_m=(
                None if screen_ohm_per_km is None else screen_ohm_per_km / 1e3
            ),
            loss_points=(*cable.sheet.loss_points, point),
        ),
    )


# The losses at 2150 MHz are what the fit to the four stated ones gives, to 0.01 dB.
THICK = known_to(world.VID_70, screen_ohm_per_km=7.5, top_db_per_100m=31.70)
MIDDLE = known_to(world.VID_60, screen_ohm_per_km=9.0, top_db_per_100m=38.73)
THIN = known_to(world.VID_28, screen_ohm_per_km=24.0, top_db_per_100m=75.93)
STEEL = world.cable(
    "SAT-STEEL",
    replace(THICK.sheet, resistance_conductor_ohm_per_m=0.160, resistance_screen_ohm_per_m=0.018),
    conductor_material="copper-clad steel",
)
F_PLUG = replace(world.connector("F-70"), mating="F")
FIFTY = world.connector("BNC-50", impedance_ohm=50.0)
RF_50 = world.cable("RAD-50", replace(THICK.sheet, impedance_ohm=50.3, delay_s_per_m=4.02e-9))


def run(cable: Cable, length_m: float, *, celsius: float = 20.0) -> Run:
    """Return a run between two F plugs."""
    return world.run(cable, length_m, celsius=celsius, ends=(F_PLUG, F_PLUG))
