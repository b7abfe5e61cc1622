"""Whether a coax carries one wave only at the frequencies a signal reaches."""

from functools import lru_cache

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.layers import LayerRole
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.mode_limit import GUARD_FACTOR, te11_cutoff_hz, te11_estimate_hz
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.quantities.show_scaled import show_frequency_hz
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

CHECK_NAME = "one wave only"
# The mean circumference tells the cut-off to 8 %: what lies further away needs no exact root, and
# no answer should wait for the library that finds it.
_ESTIMATE_IS_ENOUGH = 1.5
_ESTIMATE_TOO_HIGH = 1.09
_SOURCE = Source(
    text="cut-off of the TE11 wave, used up to 0.95 of it: Pozar, Microwave Engineering, 3.5",
    basis=Basis.COMPUTED,
)


def one_wave_limit_hz(cable: Cable, lot: Lot | None, *, wanted_hz: float) -> float | None:
    """Return the frequency [Hz] to use the cable up to, never too high; None where not known.

    Exact where it lies near ``wanted_hz`` [Hz]; far above it, 9 % off the estimate by the mean
    circumference, which is at most 8 % too high.
    """
    inner = cable.layer(LayerRole.CONDUCTOR)
    outer = cable.layer(LayerRole.DIELECTRIC)
    delay = known_value(cable, lot, Stated.DELAY)
    if inner is None or outer is None or delay is None:
        return None
    if not inner.outside_diameter_m < outer.outside_diameter_m:
        return None
    return _limit_hz(
        inner.outside_diameter_m, outer.outside_diameter_m, delay.value, float(wanted_hz)
    )


@lru_cache(maxsize=1024)
def _limit_hz(inner_m: float, outer_m: float, delay_s_per_m: float, wanted_hz: float) -> float:
    permittivity = max(1.0, (SPEED_OF_LIGHT_M_PER_S * delay_s_per_m) ** 2)
    about = te11_estimate_hz(inner_m=inner_m, outer_m=outer_m, relative_permittivity=permittivity)
    if about > _ESTIMATE_IS_ENOUGH * wanted_hz:
        return GUARD_FACTOR * about / _ESTIMATE_TOO_HIGH
    return GUARD_FACTOR * te11_cutoff_hz(
        inner_m=inner_m, outer_m=outer_m, relative_permittivity=permittivity
    )


def one_wave_check(run: Run, *, highest_hz: float) -> tuple[Check, ...]:
    """Return whether one wave alone travels up to ``highest_hz`` [Hz]; nothing where not known."""
    limit = one_wave_limit_hz(run.cable, run.lot, wanted_hz=highest_hz)
    if limit is None:
        return ()
    good = limit >= highest_hz
    top, used = show_frequency_hz(highest_hz), show_frequency_hz(limit, digits=3)
    return (
        Check(
            name=CHECK_NAME,
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"{run.cable.code} carries one wave only up to {used}, above the {top} the signal "
                "reaches."
                if good
                else f"Above {used} {run.cable.code} can carry a second wave, and the signal "
                f"reaches {top}: a thinner cable cannot."
            ),
            source=_SOURCE,
            value=limit,
            limit=highest_hz,
            margin=limit - highest_hz,
            unit="Hz",
        ),
    )
