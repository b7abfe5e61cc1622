"""Writes of what was measured on a lot, and the reading of values as people write them."""

import datetime as dt
import math
from collections.abc import Callable

from reelwright.core.errors import (
    Fault,
    InputFaults,
    ShopRuleBroken,
    UnknownCode,
    UnreadableQuantity,
)
from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.reading import Reading
from reelwright.core.quantities.scaled_text import (
    read_capacitance_per_length,
    read_delay_per_length,
    read_frequency,
    read_impedance,
    read_loss_per_length,
    read_percent,
    read_resistance_per_length,
)
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.shop.catalogue.to_core import cable_value
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reels.guards import require_reason
from reelwright.shop.reels.models import Lot, LotMeasurement, LotMeasurementWithdrawal, LotValue
from reelwright.shop.transactions import write_transaction

FAR_FACTOR = 1.5
"""A measured value this much away from the book's [1] is a slip of units or another cable."""

READERS: dict[str, Callable[[str], Reading[float]]] = {
    LotValue.IMPEDANCE: read_impedance,
    LotValue.DELAY: read_delay_per_length,
    LotValue.CAPACITANCE: read_capacitance_per_length,
    LotValue.CONDUCTOR: read_resistance_per_length,
    LotValue.SCREEN: read_resistance_per_length,
    LotValue.LOSS: read_loss_per_length,
}
"""How each value is written."""

UNITS: dict[str, str] = {
    LotValue.IMPEDANCE: "Ω",
    LotValue.DELAY: "s",
    LotValue.CAPACITANCE: "F",
    LotValue.CONDUCTOR: "Ω",
    LotValue.SCREEN: "Ω",
    LotValue.LOSS: "dB",
}
"""The unit of each, per metre but for the impedance."""


def lot_measure(
    *,
    by: Person,
    lot_code: str,
    what: str,
    value: float,
    relative_uncertainty: float,
    readings: int,
    on: dt.date,
    frequency_hz: float | None = None,
    note: str = "",
) -> LotMeasurement:
    """Enter one value measured of a lot, SI units per metre, at 20 °C.

    Frequencies are kept to the hertz, so that a point measured again is the same point.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``value_bad``, ``frequency_bad``, ``far_from_book``,
            ``before_received``.
        UnknownCode: of the lot or of what was measured.
    """
    require_may(by, Action.RECEIVE)
    if what not in LotValue.values:
        raise UnknownCode(kind="value of a lot", code=what, near=LotValue.values)
    for name, given in (("value", value), ("relative_uncertainty", relative_uncertainty)):
        if not math.isfinite(given) or given <= 0:
            raise ShopRuleBroken(
                "value_bad", f"{name} is {given!r}. Accepted: above zero.", field=name
            )
    if relative_uncertainty >= 1:
        raise ShopRuleBroken(
            "value_bad", "Accepted: an uncertainty below 100 %.", field="relative_uncertainty"
        )
    if readings < 1:
        raise ShopRuleBroken("value_bad", "Accepted: at least one reading.", field="readings")
    hertz = None if frequency_hz is None else float(round(frequency_hz))
    if (what == LotValue.LOSS) != (hertz is not None) or (hertz is not None and hertz <= 0):
        raise ShopRuleBroken(
            "frequency_bad",
            "A loss is measured at a frequency above zero; nothing else has one.",
            field="frequency_hz",
        )
    with write_transaction():
        lot = Lot.objects.select_related("cable").filter(code=lot_code).first()
        if lot is None:
            raise UnknownCode(kind="lot", code=lot_code)
        if on < lot.received_on:
            raise ShopRuleBroken(
                "before_received",
                f"Lot {lot.code} came in on {lot.received_on:%Y-%m-%d}, after {on:%Y-%m-%d}.",
                field="on",
            )
        _require_near_the_book(cable_value(lot.cable), what, value, hertz)
        return LotMeasurement.objects.create(
            lot=lot,
            what=what,
            frequency_hz=hertz,
            value=value,
            relative_uncertainty=relative_uncertainty,
            readings=readings,
            note=note,
            by=by,
            on=on,
        )


def lot_measurement_withdraw(
    *, by: Person, measurement: int, on: dt.date, reason: str
) -> LotMeasurementWithdrawal:
    """Take back a measurement that is not of its lot; ``measurement`` is its number.

    What was measured before it, or else the book, counts again.

    Raises:
        ShopRuleBroken: ``not_allowed``, ``reason_missing``, ``already_withdrawn``.
        UnknownCode: no measurement of that number.
    """
    require_may(by, Action.CORRECT)
    require_reason(reason)
    with write_transaction():
        found = LotMeasurement.objects.filter(pk=measurement).first()
        if found is None:
            raise UnknownCode(kind="measurement", code=str(measurement))
        if LotMeasurementWithdrawal.objects.filter(measurement=found).exists():
            raise ShopRuleBroken("already_withdrawn", "This measurement was withdrawn already.")
        return LotMeasurementWithdrawal.objects.create(
            measurement=found, by=by, on=on, reason=reason
        )


def _require_near_the_book(
    cable: Cable, what: str, value: float, frequency_hz: float | None
) -> None:
    stated = _stated(cable, what, frequency_hz)
    if stated is None or 1 / FAR_FACTOR < value / stated < FAR_FACTOR:
        return
    per = "" if what == LotValue.IMPEDANCE else " a metre"
    raise ShopRuleBroken(
        "far_from_book",
        f"Measured {show_quantity(value, UNITS[what])}{per}, the data sheet of {cable.code} states "
        f"{show_quantity(stated, UNITS[what])}{per}: look at the unit, and at the cable.",
        field="value",
    )


def _stated(cable: Cable, what: str, frequency_hz: float | None) -> float | None:
    if what != LotValue.LOSS:
        stated: float | None = getattr(cable.sheet, what)
        return stated
    near = [
        point.loss_db_per_m
        for point in cable.sheet.loss_points
        if frequency_hz is not None and abs(point.frequency_hz / frequency_hz - 1) < 0.05
    ]
    return near[0] if near else None


def lot_measure_typed(
    *, by: Person, lot_code: str, fields: dict[str, str], on: dt.date
) -> LotMeasurement:
    """Enter a value as typed: ``what``, ``value``, ``spread``, ``readings``, ``frequency``.

    Raises InputFaults with every field that cannot be read, ShopRuleBroken and UnknownCode as
    ``lot_measure``.
    """
    faults: list[Fault] = []

    def read(name: str, reader: Callable[[str], Reading[float]]) -> float | None:
        typed = fields.get(name, "").strip()
        try:
            reading = reader(typed)
        except UnreadableQuantity as error:
            problem = "nothing is written" if not typed else f"this is not a {error.quantity}"
            faults.append(_fault(name, typed, problem, error.accepted))
            return None
        if reading.value is None:
            faults.append(_fault(name, typed, reading.question or "unclear", "one reading"))
        return reading.value

    what = fields.get("what", "")
    if what not in LotValue.values:
        accepted = ", ".join(str(label) for label in LotValue.labels)
        faults.append(_fault("what", what, "this is not measured of a lot", accepted))
        raise InputFaults(tuple(faults))
    value = read("value", READERS[what])
    spread = read("spread", read_percent)
    frequency = read("frequency", read_frequency) if what == LotValue.LOSS else None
    typed_readings = fields.get("readings", "").strip() or "1"
    if not (typed_readings.isascii() and typed_readings.isdigit() and len(typed_readings) < 4):
        faults.append(_fault("readings", typed_readings, "this is no count", "1 to 999"))
    if faults or value is None or spread is None:
        raise InputFaults(tuple(faults))
    return lot_measure(
        by=by,
        lot_code=lot_code,
        what=what,
        value=value,
        relative_uncertainty=spread,
        readings=int(typed_readings),
        on=on,
        frequency_hz=frequency,
        note=fields.get("note", "").strip()[:200],
    )


def _fault(field: str, value: str, problem: str, accepted: str) -> Fault:
    return Fault(
        file="what was measured",
        row=None,
        field=field,
        value=value or None,
        problem=problem,
        accepted=accepted,
    )
