"""What a finished cable should measure, before anything is cut."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Family, Lot
from reelwright.core.parts.length import Length
from reelwright.core.physics.loss_law import LOWEST_FREQUENCY_HZ, LossLaw, fit_loss_law
from reelwright.core.physics.lot_values import known_delay, require_lot_of
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.physics.spread import (
    BOOK_CAPACITANCE_SPREAD,
    BOOK_LOSS_SPREAD,
    BOOK_RESISTANCE_SPREAD,
    book_spread_source,
)
from reelwright.core.quantities.guard import require_finite, require_not_negative, require_text
from reelwright.core.verdicts import Basis, Source

# Screened pairs are wired leg to leg, loudspeaker pairs out and back: two conductors make the loop.
_TWO_WIRE_LOOP = (Family.PAIR, Family.LOUDSPEAKER, Family.DATA)
_HAS_LINE_LOSS = (Family.COAX, Family.PAIR, Family.DATA)


@dataclass(frozen=True, kw_only=True)
class ExpectedValue:
    """One value a finished cable should show: ``value`` in ``unit`` (SI, or dB).

    ``standard_uncertainty`` is in the same unit, None where no spread is known.
    """

    name: str
    value: float
    standard_uncertainty: float | None
    unit: str
    source: Source

    def __post_init__(self) -> None:
        require_text(self, "name", "unit")
        require_finite(self, "value")
        if self.standard_uncertainty is not None:
            require_not_negative(self, "standard_uncertainty")


def predict(
    *,
    cable: Cable,
    lot: Lot | None,
    length: Length,
    temperature_celsius: float,
    frequencies_hz: tuple[float, ...] = (),
) -> tuple[ExpectedValue, ...]:
    """Return what ``length`` of that cable should measure at a temperature [°C], ends left out.

    Loss [dB] at the stated frequencies and at those asked for besides, ``frequencies_hz`` [Hz] of
    3 MHz or more; capacitance [F]; conductor and loop resistance [Ω]; delay [s]; impedance [Ω];
    optical loss [dB]: whatever the family has and the data sheet or the lot states. Uncertainty is
    the spread of lots and that of the length, combined as independent. Raises BadValue for a
    length of zero, a lot of another cable or a frequency below 3 MHz.
    """
    require_lot_of(cable, lot)
    if length.mean_m <= 0:
        raise BadValue(
            owner="predict", field="length", value=length.mean_m, accepted="a length above zero"
        )
    return (
        *_losses(cable, length, temperature_celsius, frequencies_hz),
        *_direct_current(cable, length, temperature_celsius),
        *_capacitances(cable, length),
        *_delay(cable, lot, length),
        *_constants(cable, length),
    )


def _over_length(
    *, name: str, per_metre: float, spread: float, unit: str, length: Length, source: Source
) -> ExpectedValue:
    value = per_metre * length.mean_m
    return ExpectedValue(
        name=name,
        value=value,
        standard_uncertainty=math.hypot(value * spread, per_metre * length.standard_uncertainty_m),
        unit=unit,
        source=source,
    )


def _with_book_spread(source: Source, formula: str, spread: float) -> Source:
    return Source(
        text=f"{formula} from {source.text}; {book_spread_source(spread)}",
        basis=Basis.COMPUTED,
    )


def _losses(
    cable: Cable, length: Length, temperature_celsius: float, asked_hz: tuple[float, ...]
) -> Iterator[ExpectedValue]:
    if cable.family not in _HAS_LINE_LOSS:
        return
    law = fit_loss_law(cable.sheet.loss_points)
    if not isinstance(law, LossLaw):
        return
    stated = [
        point.frequency_hz
        for point in cable.sheet.loss_points
        if point.frequency_hz >= LOWEST_FREQUENCY_HZ
    ]
    for frequency in sorted({*stated, *asked_hz}):
        per_metre = float(law.loss_db_per_m(frequency, temperature_celsius=temperature_celsius))
        formula = f"k1·√f + k2·f at {temperature_celsius:g} °C"
        if law.extrapolates(frequency):
            formula += ", extrapolated beyond the stated points (less sure)"
        yield _over_length(
            name=f"loss at {frequency / 1e6:g} MHz",
            per_metre=per_metre,
            spread=BOOK_LOSS_SPREAD,
            unit="dB",
            length=length,
            source=_with_book_spread(cable.sheet.source, formula, BOOK_LOSS_SPREAD),
        )


def _direct_current(
    cable: Cable, length: Length, temperature_celsius: float
) -> Iterator[ExpectedValue]:
    conductor = cable.sheet.resistance_conductor_ohm_per_m
    screen = cable.sheet.resistance_screen_ohm_per_m
    warm = temperature_factor(temperature_celsius)
    rows: list[tuple[str, float]] = []
    if conductor is not None:
        rows.append(("resistance of one conductor", conductor))
        if cable.family in _TWO_WIRE_LOOP:
            rows.append(("loop resistance, out and back", 2 * conductor))
        elif screen is not None:
            rows.append(("loop resistance, centre and screen", conductor + screen))
    if screen is not None:
        rows.append(("resistance of the screen", screen))
    source = _with_book_spread(
        cable.sheet.source,
        f"r·L·(1 + 0.00393·(T − 20)) at {temperature_celsius:g} °C",
        BOOK_RESISTANCE_SPREAD,
    )
    for name, per_metre in rows:
        yield _over_length(
            name=name,
            per_metre=per_metre * warm,
            spread=BOOK_RESISTANCE_SPREAD,
            unit="Ω",
            length=length,
            source=source,
        )


def _capacitances(cable: Cable, length: Length) -> Iterator[ExpectedValue]:
    source = _with_book_spread(cable.sheet.source, "C·L", BOOK_CAPACITANCE_SPREAD)
    other = "centre to screen" if cable.family is Family.COAX else "core to core"
    for name, per_metre in (
        (f"capacitance, {other}", cable.sheet.capacitance_f_per_m),
        ("capacitance, one core to all the rest", cable.sheet.capacitance_to_rest_f_per_m),
    ):
        if per_metre is not None:
            yield _over_length(
                name=name,
                per_metre=per_metre,
                spread=BOOK_CAPACITANCE_SPREAD,
                unit="F",
                length=length,
                source=source,
            )


def _delay(cable: Cable, lot: Lot | None, length: Length) -> Iterator[ExpectedValue]:
    known = known_delay(cable, lot)
    if known is not None:
        yield _over_length(
            name="delay",
            per_metre=known.delay_s_per_m,
            spread=known.relative_uncertainty,
            unit="s",
            length=length,
            source=Source(
                text=f"delay per metre times length; {known.source}", basis=Basis.COMPUTED
            ),
        )


def _constants(cable: Cable, length: Length) -> Iterator[ExpectedValue]:
    if cable.sheet.impedance_ohm is not None:
        yield ExpectedValue(
            name="impedance",
            value=cable.sheet.impedance_ohm,
            standard_uncertainty=None,
            unit="Ω",
            source=cable.sheet.source,
        )
    if cable.sheet.optical_loss_db_per_m is not None:
        yield ExpectedValue(
            name="optical loss of the fibre",
            value=cable.sheet.optical_loss_db_per_m * length.mean_m,
            standard_uncertainty=None,
            unit="dB",
            source=Source(
                text=f"loss per metre times length from {cable.sheet.source.text}",
                basis=Basis.COMPUTED,
            ),
        )
