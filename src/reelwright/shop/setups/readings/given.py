"""One reading of an end before it is written, and whether it can be one: pure, no database.

The limits say what is a slip of a unit, a decimal point or a part, and never what is a good end: a
weak pull and a crimp outside its tolerance are evidence and are taken in. They are common practice
and have no published source.
"""

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.errors import Fault
from reelwright.core.quantities.show import show_in, show_length_mm, with_unit
from reelwright.shop.setups.sheet import Numbers, SetUpSheet, told_mm
from reelwright.shop.setups.states import CRIMPS, FailureMode, Part, State

FAR_PULL = 5.0
"""A pull of this many times the least pull [1] is a slip of the unit or of the decimal point."""

FAR_HEIGHT_MM = Decimal("0.5")
"""A crimp this much higher or lower than its cavity is wide was closed in another one."""

FAR_STRIP_MM = Decimal("1.5")
FAR_STRIP_SHARE = Decimal("0.2")
"""A length this much off the sheet's, or this share of it [1], is another part's length."""

MOST_GROWTH_MM, MOST_SHORTER_MM = Decimal("1.0"), Decimal("0.1")
"""A pin that grew by more, or got shorter by more, is a slip, or both lengths were exchanged."""

LONGEST_END, LONGEST_REMARK = 40, 200

_TARGETS = {
    Part.PIN_CRIMP: "pin_die_mm",
    Part.FERRULE_CRIMP: "ferrule_die_mm",
    Part.CONDUCTOR: "strip_conductor_mm",
    Part.DIELECTRIC: "strip_dielectric_mm",
    Part.BRAID: "strip_braid_mm",
    Part.JACKET_BACK: "jacket_back_mm",
    Part.CORES_BARED: "cores_bared_mm",
    Part.PIN_GROWTH: "pin_die_mm",
}

_LAID_DOWN = {
    Part.PIN_CRIMP: ("crimp_height_mm", "crimp_height_tolerance_mm"),
    Part.CONDUCTOR: ("strip_conductor_mm", "strip_conductor_tolerance_mm"),
    Part.DIELECTRIC: ("strip_dielectric_mm", "strip_dielectric_tolerance_mm"),
    Part.BRAID: ("strip_braid_mm", "strip_braid_tolerance_mm"),
    Part.JACKET_BACK: ("jacket_back_mm", ""),
    Part.CORES_BARED: ("cores_bared_mm", "cores_bared_tolerance_mm"),
}


@dataclass(frozen=True, kw_only=True)
class Given:
    """One reading as it came; empty and None: not said, which is never compared.

    Either ``force_n`` with where the end gave way, or ``length_mm`` of a part; of the pin's growth
    that after its crimp, with ``before_mm``. ``end``: its number
    within the day, or its serial. ``tool_count``: crimps of the cavity since its last regrind.
    """

    revision_id: int
    on: dt.date
    end: str
    force_n: float | None = None
    failure_mode: FailureMode | None = None
    part: Part | None = None
    length_mm: Decimal | None = None
    before_mm: Decimal | None = None
    person_id: int | None = None
    instrument: str = ""
    cavity: str = ""
    tool_count: int | None = None
    remark: str = ""
    row: int | None = None

    @property
    def key(self) -> tuple[int, Part | None, dt.date, str]:
        """Which reading it is: the same end of the same day is measured once for each part."""
        return (self.revision_id, self.part, self.on, self.end.casefold())


@dataclass(frozen=True, kw_only=True)
class Problem:
    """One thing that keeps a reading from being taken in."""

    field: str
    value: str | None
    problem: str
    accepted: str

    def fault(self, *, file: str, row: int | None) -> Fault:
        """Return it with its place."""
        return Fault(
            file=file,
            row=row,
            field=self.field,
            value=self.value,
            problem=self.problem,
            accepted=self.accepted,
        )


def target_mm(numbers: Numbers, part: Part) -> Decimal | None:
    """Return what a part is made to, in mm: the cavity of a crimp, the sheet's length of a strip.

    None where this kind of end has no such part; a pin that is crimped is made to its cavity.
    """
    found: Decimal | None = getattr(numbers, _TARGETS[part])
    return found


def laid_down(numbers: Numbers, part: Part) -> tuple[Decimal, Decimal | None] | None:
    """Return what a sheet lays down of a part and its tolerance, in mm; None: nothing."""
    names = _LAID_DOWN.get(part)
    target = getattr(numbers, names[0]) if names else None
    if names is None or target is None:
        return None
    return target, getattr(numbers, names[1]) if names[1] else None


def laid_down_told(numbers: Numbers, part: Part) -> str:
    """Return it as it is read: "1.62 ± 0.03 mm"; nothing where nothing is laid down."""
    found = laid_down(numbers, part)
    if found is None:
        return ""
    target, tolerance = found
    if tolerance is None:
        return with_unit(told_mm(target), "mm")
    return with_unit(f"{told_mm(target)} ± {told_mm(tolerance)}", "mm")


def parts_of(numbers: Numbers) -> tuple[Part, ...]:
    """Return the parts that an end made by these numbers has."""
    return tuple(part for part in Part if target_mm(numbers, part))


def problems_of(given: Given, sheet: SetUpSheet, *, today: dt.date) -> Iterator[Problem]:
    """Yield what cannot be with a reading of this revision."""
    if sheet.state in (State.DRAFTED, State.WITHDRAWN):
        yield Problem(
            field="revision",
            value=sheet.letter,
            problem=f"{sheet.name} is {sheet.state}",
            accepted="a revision that is on trial, proven or released",
        )
    if not sheet.drafted_on <= given.on <= today:
        yield Problem(
            field="date",
            value=given.on.isoformat(),
            problem="no end of this revision was measured on that day",
            accepted=f"{sheet.drafted_on.isoformat()}, when it was drafted, to {today.isoformat()}",
        )
    if not 0 < len(given.end) <= LONGEST_END or not given.end.isprintable():
        yield Problem(
            field="end",
            value=given.end or None,
            problem="this names no end",
            accepted=f"its number within the day or its serial, 1 to {LONGEST_END} characters",
        )
    if len(given.remark) > LONGEST_REMARK or not given.remark.isprintable():
        yield Problem(
            field="remark",
            value=given.remark,
            problem="this cannot be kept",
            accepted=f"at most {LONGEST_REMARK} characters on one line",
        )
    if given.part is None:
        yield from _pull_problems(given, sheet)
    else:
        yield from _dimension_problems(given, sheet, given.part)


def _pull_problems(given: Given, sheet: SetUpSheet) -> Iterator[Problem]:
    least_n = sheet.numbers.minimum_pull_n
    assert given.force_n is not None  # a reading without a part is a pull
    if least_n is not None and given.force_n > FAR_PULL * least_n:
        told = show_in(least_n, "N", decimals=0)
        yield Problem(
            field="value",
            value=show_in(given.force_n, "N", decimals=1),
            problem=f"that is more than {FAR_PULL:g} times the least pull of {told}: look at the "
            "unit and the decimal point",
            accepted=f"at most {show_in(FAR_PULL * least_n, 'N', decimals=0)}",
        )


def _dimension_problems(given: Given, sheet: SetUpSheet, part: Part) -> Iterator[Problem]:
    target = target_mm(sheet.numbers, part)
    assert given.length_mm is not None  # a reading with a part has its length
    if not target:
        yield Problem(
            field="what",
            value=part.value,
            problem=f"an end of {sheet.name} has none",
            accepted=", ".join(["pull", *parts_of(sheet.numbers)]),
        )
        return
    if part is Part.PIN_GROWTH:
        yield from _growth_problems(given, given.length_mm)
        return
    crimp = part in CRIMPS
    far = FAR_HEIGHT_MM if crimp else max(FAR_STRIP_MM, FAR_STRIP_SHARE * target)
    if abs(given.length_mm - target) > far:
        made = "the cavity is" if crimp else "the sheet lays down"
        yield Problem(
            field="value",
            value=show_length_mm(float(given.length_mm), decimals=3),
            problem=f"too far from the {part.value} of {sheet.name}: {made} "
            f"{show_length_mm(float(target), decimals=2)}; look at the unit, the decimal point "
            f"and the {'cavity' if crimp else 'part'}",
            accepted=f"{show_length_mm(float(target - far), decimals=2)} to "
            f"{show_length_mm(float(target + far), decimals=2)}",
        )


def _growth_problems(given: Given, after_mm: Decimal) -> Iterator[Problem]:
    assert given.before_mm is not None  # the growth is read as two lengths
    growth_mm = after_mm - given.before_mm
    if not -MOST_SHORTER_MM <= growth_mm <= MOST_GROWTH_MM:
        told = "longer" if growth_mm > 0 else "shorter"
        yield Problem(
            field="value",
            value=show_length_mm(float(after_mm), decimals=3),
            problem=f"the pin would be {show_length_mm(float(abs(growth_mm)), decimals=3)} {told} "
            "than before its crimp: look at the decimal point, and whether both lengths were "
            "exchanged",
            accepted=f"{show_length_mm(float(given.before_mm - MOST_SHORTER_MM), decimals=3)} to "
            f"{show_length_mm(float(given.before_mm + MOST_GROWTH_MM), decimals=3)} after the "
            "crimp",
        )
    if not given.instrument:
        yield Problem(
            field="instrument",
            value=None,
            problem="no instrument is named, and a growth of hundredths is as good as its gauge",
            accepted="the code of what read both lengths",
        )
