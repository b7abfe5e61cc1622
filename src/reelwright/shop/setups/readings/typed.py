"""A reading as it is typed at the bench: a bare number is in the bench's unit, tools are known."""

import datetime as dt
from collections.abc import Mapping
from decimal import Decimal
from typing import NoReturn

from reelwright.core.errors import InputFaults
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.shop.people.models import Person
from reelwright.shop.setups.readings.books import CLOSED_IN
from reelwright.shop.setups.readings.given import Given, Problem
from reelwright.shop.setups.readings.services import TYPED, readings_record
from reelwright.shop.setups.readings.words import (
    GAVE_WAY,
    PULL,
    WHAT,
    is_pull,
    read_before,
    read_failure,
    read_part,
    read_value,
)
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import Part
from reelwright.shop.tools.models import CavityUse
from reelwright.shop.tools.selectors import CavityNow, cavities


def reading_typed(
    *, by: Person, sheet: SetUpSheet, fields: Mapping[str, str], on: dt.date
) -> Given:
    """Write one reading as typed; return it as it was read.

    ``fields``: ``what`` (pull or a part), ``value`` (a bare number is in N or mm), ``gave_way`` of
    a pull, ``before`` of a pin's growth, ``end``, ``instrument``, ``remark``. The cavity in service
    of the sheet's size is written down with its count. Raises InputFaults with every field that
    cannot be taken, ShopRuleBroken ``not_allowed``.
    """
    typed = {name: fields.get(name, "").strip() for name in (*_FIELDS, "instrument", "remark")}
    part = read_part(typed["what"])
    if part is None and not is_pull(typed["what"]):
        _refuse(
            Problem(
                field="what",
                value=typed["what"] or None,
                problem="this is not measured of an end",
                accepted=", ".join(WHAT),
            )
        )
    problems = []
    value, problem = read_value(_with_unit(typed["value"], part), part=part)
    if problem is not None:
        problems.append(problem)
    before_mm, problem = read_before(
        _with_unit(typed["before"], part),
        part=part,
        nothing="the length before the crimp is not written",
    )
    if problem is not None:
        problems.append(problem)
    mode = read_failure(typed["gave_way"]) if part is None else None
    if part is None and mode is None:
        told = "these words are not known" if typed["gave_way"] else "it is not said"
        problems.append(
            Problem(
                field="gave_way",
                value=typed["gave_way"] or None,
                problem=f"where it gave way: {told}",
                accepted=GAVE_WAY,
            )
        )
    if problems:
        _refuse(*problems)
    cavity = cavity_of(sheet, part)
    given = Given(
        revision_id=sheet.revision_id,
        on=on,
        end=typed["end"],
        force_n=value if isinstance(value, float) else None,
        failure_mode=mode,
        part=part,
        length_mm=value if isinstance(value, Decimal) else None,
        before_mm=before_mm,
        instrument=typed["instrument"],
        cavity="" if cavity is None else cavity.code,
        tool_count=None if cavity is None else cavity.closings,
        remark=typed["remark"],
    )
    if readings_record(by=by, given=[given], on=on).known:
        # A second touch on the same button, or a page left open: told, and nothing is doubled.
        _refuse(
            Problem(
                field="end",
                value=given.end,
                problem=f"end {given.end} stands there with the same {part or PULL} already",
                accepted="another end for what is new",
            )
        )
    return given


def _refuse(*problems: Problem) -> NoReturn:
    raise InputFaults(each.fault(file=TYPED, row=None) for each in problems)


_FIELDS = ("what", "value", "before", "gave_way", "end")


def cavity_of(sheet: SetUpSheet, part: Part | None) -> CavityNow | None:
    """Return the one cavity in service that closes what is read, None where it is not known.

    A pull is held by the ferrule's crimp.
    """
    use = CavityUse.FERRULE if part is None else CLOSED_IN.get(part)
    if use is None:
        return None
    numbers = sheet.numbers
    wanted = numbers.pin_die_mm if use == CavityUse.PIN else numbers.ferrule_die_mm
    found = [each for each in cavities(use=use) if each.across_flats_mm == wanted]
    return found[0] if len(found) == 1 else None


def _with_unit(typed: str, part: Part | None) -> str:
    if typed and all(letter.isdigit() or letter in ".," for letter in typed):
        return f"{typed}{NARROW_SPACE}{'N' if part is None else 'mm'}"
    return typed
