"""How much the pins of a set-up were measured to grow in their crimp."""

from reelwright.core.ends.dies.pin_growth import MeasuredGrowth
from reelwright.shop.setups.readings.selectors import dimensions_read
from reelwright.shop.setups.states import Part
from reelwright.shop.tools.uncertainty import shared_uncertainty


def measured_growth(revision_id: int) -> MeasuredGrowth | None:
    """Return the growth of the pins of a revision that count; None where none was measured."""
    read = dimensions_read(revision_id, parts=(Part.PIN_GROWTH,))
    counting = [each for each in read if not each.withdrawn]
    if not counting:
        return None
    gauge = shared_uncertainty(
        ((each.instrument, each.on) for each in counting), unit="mm", what="gauge of the pins"
    )
    return MeasuredGrowth(
        growths_m=tuple(float(each.result_mm) / 1e3 for each in reversed(counting)),
        gauge_uncertainty_m=None if gauge.value is None else gauge.value / 1e3,
    )
