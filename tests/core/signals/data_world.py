"""Data cables for tests: the demo workshop's stranded one, and solid ones by category formulae."""

from dataclasses import replace

import numpy as np

from reelwright.core.parts.cable import Cable, Family, LossPoint
from reelwright.core.signals.category.cable import Category, insertion_loss_db
from tests import signal_world as world

PLUGS = (world.PLAIN, world.PLAIN)


def data_cable(
    code: str,
    losses: tuple[tuple[float, float], ...],
    *,
    ohm_per_km: float | None,
    solid: bool,
    impedance_ohm: float | None = 100.0,
    delay_ns_per_m: float | None = 5.13,
    metal: str = "copper",
) -> Cable:
    """Return a cable of four unscreened pairs; losses are [MHz] and [dB/100 m]."""
    sheet = replace(
        world.sheet(impedance_ohm, None, delay_ns_per_m, ohm_per_km),
        loss_points=tuple(
            LossPoint(frequency_hz=megahertz * 1e6, loss_db_per_m=loss / 100)
            for megahertz, loss in losses
        ),
    )
    return world.cable(
        code,
        sheet,
        family=Family.DATA,
        conductors=8,
        screened=False,
        solid=solid,
        conductor_material=metal,
    )


DAT_6 = data_cable(
    "DAT-6",
    ((10, 7.1), (31.25, 12.8), (100, 23.8), (250, 39.4)),
    ohm_per_km=130.0,
    solid=False,
)


def at_the_limit(category: Category) -> Cable:
    """Return solid cable that loses exactly what its category allows, from 4 MHz to its end."""
    megahertz = np.geomspace(4, category.highest_hz / 1e6, 12)
    megahertz[-1] = category.highest_hz / 1e6
    losses = insertion_loss_db(category, megahertz * 1e6)
    return data_cable(
        f"SOLID-{category}",
        tuple(zip(megahertz.tolist(), losses.tolist(), strict=True)),
        ohm_per_km=84.2,
        solid=True,
    )
