"""What a finished cable should measure, before anything is cut."""

import dataclasses
import math
from collections.abc import Iterator
from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable, Family, Lot
from reelwright.core.parts.length import Length
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.lot_values import KnownValue, Stated, known_value, require_lot_of
from reelwright.core.physics.resistance import temperature_factor
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

    Loss [dB] at the stated frequencies and at those asked for besides, ``frequencies_hz`` [Hz];
    capacitance [F]; conductor and loop resistance [Ω]; delay [s]; impedance [Ω]; optical loss [dB]:
    whatever the family has and the lot or the data sheet states. Uncertainty is the spread of lots
    (or of the lot's own measurement) and that of the length, combined as independent. Raises
    BadValue for a length of zero, a lot of another cable, or a frequency that the data sheet states
    too little for (below 3 MHz without the resistance of conductor and screen).
    """
    require_lot_of(cable, lot)
    if length.mean_m <= 0:
        raise BadValue(
            owner="predict", field="length", value=length.mean_m, accepted="a length above zero"
        )
    return (
        *_losses(cable, lot, length, temperature_celsius, frequencies_hz),
        *_direct_current(cable, lot, length, temperature_celsius),
        *_capacitances(cable, lot, length),
        *_delay(cable, lot, length),
        *_constants(cable, lot, length),
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


def _losses(
    cable: Cable,
    lot: Lot | None,
    length: Length,
    temperature_celsius: float,
    asked_hz: tuple[float, ...],
) -> Iterator[ExpectedValue]:
    if cable.family not in _HAS_LINE_LOSS:
        return
    known = known_loss(cable, lot)
    if not isinstance(known, KnownLoss):
        return
    stated = {*cable.sheet.loss_points, *(() if lot is None else lot.loss_points)}
    frequencies = {point.frequency_hz for point in stated}
    lowest = known.line.lowest_hz
    for frequency in sorted({*(one for one in frequencies if one >= lowest), *asked_hz}):
        per_metre = float(known.loss_db_per_m(frequency, temperature_celsius=temperature_celsius))
        formula = f"exact rod in a lossy dielectric at {temperature_celsius:g} °C"
        if known.beyond(frequency):
            formula += ", carried on beyond the stated losses (less sure)"
        if known.doubtful_below(frequency):
            formula += ", carried below the stated losses of copper on steel (too low)"
        yield _over_length(
            name=f"loss at {frequency / 1e6:g} MHz",
            per_metre=per_metre,
            spread=known.spread_at(frequency),
            unit="dB",
            length=length,
            source=Source(text=f"{formula}; {known.source}", basis=Basis.COMPUTED),
        )


def _known_over_length(
    *, name: str, known: KnownValue, factor: float, unit: str, length: Length, formula: str
) -> ExpectedValue:
    return _over_length(
        name=name,
        per_metre=known.value * factor,
        spread=known.relative_uncertainty,
        unit=unit,
        length=length,
        source=Source(text=f"{formula}; {known.source}", basis=Basis.COMPUTED),
    )


def _direct_current(
    cable: Cable, lot: Lot | None, length: Length, temperature_celsius: float
) -> Iterator[ExpectedValue]:
    conductor = known_value(cable, lot, Stated.CONDUCTOR_RESISTANCE)
    screen = known_value(cable, lot, Stated.SCREEN_RESISTANCE)
    rows: list[tuple[str, KnownValue]] = []
    if conductor is not None:
        rows.append(("resistance of one conductor", conductor))
        if cable.family in _TWO_WIRE_LOOP:
            # Both legs come off one lot: what one has more, the other has too.
            loop = dataclasses.replace(conductor, value=2 * conductor.value)
            rows.append(("loop resistance, out and back", loop))
        elif screen is not None:
            rows.append(("loop resistance, centre and screen", _in_series(conductor, screen)))
    if screen is not None:
        rows.append(("resistance of the screen", screen))
    for name, known in rows:
        yield _known_over_length(
            name=name,
            known=known,
            factor=temperature_factor(temperature_celsius),
            unit="Ω",
            length=length,
            formula=f"r·L·(1 + 0.00393·(T − 20)) at {temperature_celsius:g} °C",
        )


def _in_series(first: KnownValue, second: KnownValue) -> KnownValue:
    """Two resistances of one lot: their spreads are taken as independent."""
    spread = math.hypot(
        first.value * first.relative_uncertainty, second.value * second.relative_uncertainty
    )
    total = first.value + second.value
    return KnownValue(value=total, relative_uncertainty=spread / total, source=first.source)


def _capacitances(cable: Cable, lot: Lot | None, length: Length) -> Iterator[ExpectedValue]:
    other = "centre to screen" if cable.family is Family.COAX else "core to core"
    for name, what in (
        (f"capacitance, {other}", Stated.CAPACITANCE),
        ("capacitance, one core to all the rest", Stated.CAPACITANCE_TO_REST),
    ):
        known = known_value(cable, lot, what)
        if known is not None:
            yield _known_over_length(
                name=name, known=known, factor=1.0, unit="F", length=length, formula="C·L"
            )


def _delay(cable: Cable, lot: Lot | None, length: Length) -> Iterator[ExpectedValue]:
    known = known_value(cable, lot, Stated.DELAY)
    if known is not None:
        yield _known_over_length(
            name="delay",
            known=known,
            factor=1.0,
            unit="s",
            length=length,
            formula="delay per metre times length",
        )


def _constants(cable: Cable, lot: Lot | None, length: Length) -> Iterator[ExpectedValue]:
    impedance = known_value(cable, lot, Stated.IMPEDANCE)
    if impedance is not None:
        yield ExpectedValue(
            name="impedance",
            value=impedance.value,
            standard_uncertainty=impedance.value * impedance.relative_uncertainty,
            unit="Ω",
            source=impedance.source,
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
