"""The gauges that the shop welds well: what the law of energy is laid through, everywhere.

A released set-up says what its weld takes. A gauge that was written down by hand, or found by a
search, counts only as long as no released set-up welds that conductor: no gauge counts twice.
"""

from reelwright.core.trials.weld_energy import KnownGauge, are_one_gauge
from reelwright.shop.catalogue.selectors import cables
from reelwright.shop.setups.selectors import released_set_ups
from reelwright.shop.setups.to_core import WeldedGauge, welded_gauges
from reelwright.shop.trials.selectors import weld_gauges


def shop_gauges() -> tuple[WeldedGauge, ...]:
    """Return the gauges that count, by area, smallest first."""
    found = list(welded_gauges(released_set_ups().values(), cables()))
    taken = [one.gauge.area_m2 for one in found]
    # Whoever writes a gauge down again means the old one no more: the newest is looked at first.
    for view in sorted(weld_gauges(), key=lambda one: one.order, reverse=True):
        area_m2 = view.area_mm2 / 1e6
        if not any(are_one_gauge(area_m2, other) for other in taken):
            taken.append(area_m2)
            gauge = KnownGauge(area_m2=area_m2, energy_j=view.energy_j)
            found.append(
                WeldedGauge(gauge=gauge, set_ups=(), note=view.note, known_on=view.known_on)
            )
    return tuple(sorted(found, key=lambda one: one.gauge.area_m2))


def known_gauges() -> tuple[KnownGauge, ...]:
    """Return the same as values of the core, for the law of energy."""
    return tuple(one.gauge for one in shop_gauges())
