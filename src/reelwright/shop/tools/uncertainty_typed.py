"""The uncertainty of an instrument as it is typed: "0.002 mm" or "1 N", with its source."""

import datetime as dt
from collections.abc import Mapping
from decimal import Decimal

from reelwright.core.errors import Fault, InputFaults, UnreadableQuantity
from reelwright.core.quantities.date_text import ACCEPTED as DATES
from reelwright.core.quantities.date_text import read_date
from reelwright.core.quantities.dimension_text import read_dimension
from reelwright.core.quantities.force_text import read_force
from reelwright.shop.people.models import Person
from reelwright.shop.tools.models import UncertaintyUnit
from reelwright.shop.tools.uncertainty import instrument_uncertainty_record

_FORM = "the form"
_ACCEPTED = "a length or a force with its unit, such as 0.002 mm, 2 µm, 1 N"


def instrument_uncertainty_typed(
    *, by: Person, fields: Mapping[str, str], today: dt.date
) -> tuple[str, str]:
    """Record it as typed; return the instrument's code and what was read.

    ``fields``: ``instrument``, ``uncertainty``, ``source``, ``on`` (empty: today). Raises
    InputFaults with every field that cannot be read, else as ``instrument_uncertainty_record``.
    """
    typed = {name: fields.get(name, "").strip() for name in _FIELDS}
    faults: list[Fault] = []

    def fault(field: str, problem: str, accepted: str) -> None:
        faults.append(
            Fault(
                file=_FORM,
                row=None,
                field=field,
                value=typed[field] or None,
                problem=problem,
                accepted=accepted,
            )
        )

    if not typed["instrument"]:
        fault("instrument", "none is chosen", "the instrument that the certificate is of")
    read = _uncertainty(typed["uncertainty"])
    if read is None:
        fault("uncertainty", "this is no length and no force with its unit", _ACCEPTED)
    if not typed["source"]:
        fault(
            "source", "nothing stands here", "a certificate with its number, the shop's own check"
        )
    on: dt.date | None = today
    if typed["on"]:
        try:
            on = read_date(typed["on"]).value
        except UnreadableQuantity:
            on = None
        if on is None:
            fault("on", "this is no date, or can be read in two ways", DATES)
    if faults:
        raise InputFaults(faults)
    assert read is not None
    assert on is not None
    value, unit = read
    instrument_uncertainty_record(
        by=by,
        code=typed["instrument"],
        standard_uncertainty=value,
        unit=unit.value,
        source=typed["source"],
        on=on,
        today=today,
    )
    return typed["instrument"], f"{value.normalize():f}\u202f{unit.value}"


_FIELDS = ("instrument", "uncertainty", "source", "on")


def _uncertainty(typed: str) -> tuple[Decimal, UncertaintyUnit] | None:
    if not any(letter.isalpha() for letter in typed):
        # A bare number would be read as millimetres, and the tester's newtons with it.
        return None
    try:
        length = read_dimension(typed, at_most_m=1.0).value
    except UnreadableQuantity:
        length = None
    if length is not None:
        return Decimal(repr(round(length * 1e3, 9))), UncertaintyUnit.MILLIMETRE
    try:
        force = read_force(typed).value
    except UnreadableQuantity:
        return None
    return None if force is None else (Decimal(repr(round(force, 9))), UncertaintyUnit.NEWTON)
