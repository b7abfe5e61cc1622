"""What the bench shows of one set-up's readings."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from statistics import fmean
from typing import Any

from reelwright.core.ends.dies.pin_growth import PINS_TO_MEASURE
from reelwright.core.quantities.show import show_in, show_length_mm, show_plain
from reelwright.core.quantities.words import counted, sentence
from reelwright.shop.setups.readings.given import Given, laid_down, laid_down_told
from reelwright.shop.setups.readings.selectors import (
    DimensionRead,
    EndRead,
    PullRead,
    dimensions_read,
    lengths_mm,
    next_end,
    pulls_read,
)
from reelwright.shop.setups.rules import missing_for_proof, missing_heights
from reelwright.shop.setups.selectors import pull_uncertainty
from reelwright.shop.setups.selectors import pulls as pulls_counting
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.shown.growth import measured_growth
from reelwright.shop.setups.states import Part
from reelwright.shop.tools.selectors import instruments
from reelwright.web.bench.kinds import (
    Choice,
    Kind,
    choices,
    kinds_of,
    name_of,
    parts_of_kind,
)

_MOST_BEFORE = 5
_MEASURES = {
    Kind.PULLS: "force",
    Kind.HEIGHTS: "height",
    Kind.STRIPS: "length",
    Kind.PINS: "length",
}


@dataclass(frozen=True, kw_only=True)
class Before:
    """One reading of today, and what taking it back sends."""

    reading: str
    end: str
    told: str


@dataclass(frozen=True, kw_only=True)
class Tool:
    """One instrument to choose; ``late``: its calibration no longer holds, in words."""

    code: str
    name: str
    late: str


@dataclass(frozen=True, kw_only=True)
class ReadingsBench:
    """One set-up at the bench. ``sheet`` None: no revision of it is on trial or in use."""

    kind: Kind
    code: str
    sheet: SetUpSheet | None
    others: tuple[SetUpSheet, ...]
    kinds: tuple[Kind, ...]
    next: int
    wanted: str
    result: str
    choices: tuple[Choice, ...]
    before: tuple[Before, ...]
    tools: tuple[Tool, ...]
    instrument: str

    @property
    def unit(self) -> str:
        """The unit of a bare number."""
        return "N" if self.kind is Kind.PULLS else "mm"

    @property
    def ask(self) -> str:
        """What is asked where Enter alone was pressed."""
        if self.kind is Kind.PULLS:
            return "Where did it give way? Touch one."
        if self.kind is Kind.PINS:
            return "Are both lengths typed? Touch it to keep them."
        return "What was measured? Touch one."

    @property
    def late(self) -> str:
        """What is to be said of the instrument's calibration; empty while it holds."""
        return next((tool.late for tool in self.tools if tool.code == self.instrument), "")


def bench_of(kind: Kind, code: str, usable: Sequence[SetUpSheet], day: dt.date) -> ReadingsBench:
    """Return what the bench shows; ``usable``: the revision it works to and then the others."""
    sheet = usable[0] if usable else None
    if sheet is None:
        return ReadingsBench(
            kind=kind, code=code, sheet=None, others=(), kinds=(), next=1, wanted="", result="",
            choices=(), before=(), tools=(), instrument="",
        )  # fmt: skip
    parts = parts_of_kind(kind, sheet)
    number = sheet.revision_id
    read: Sequence[EndRead]
    if kind is Kind.PULLS:
        read = pulls_read(number)
        ends = {"pull": next_end(number, part=None, on=day)}
    else:
        read = dimensions_read(number, parts=parts)
        ends = {str(part): next_end(number, part=part, on=day) for part in parts}
    standing = [each for each in read if not each.withdrawn]
    tools = _tools(day)
    return ReadingsBench(
        kind=kind,
        code=code,
        sheet=sheet,
        others=tuple(usable[1:]),
        kinds=kinds_of(sheet),
        next=max(ends.values(), default=1),
        wanted=_wanted(kind, sheet),
        result=_result(kind, sheet, standing),
        choices=tuple(choices(kind, sheet, ends)),
        before=tuple(_before(each) for each in standing if each.on == day)[:_MOST_BEFORE],
        tools=tools,
        instrument=_usual(kind, standing, tools),
    )


def kept(sheet: SetUpSheet, given: Given) -> dict[str, str]:
    """Return what is said of a reading that was just kept."""
    if given.part is None:
        least_n = sheet.numbers.minimum_pull_n
        told = f"End {given.end}: {_newtons(given.force_n or 0.0)}, {given.failure_mode}."
        if least_n is not None and (given.force_n or 0.0) < least_n:
            return {"under": f"{told} That is under the least pull of {_newtons(least_n)}."}
        return {"done": told}
    if given.before_mm is not None and given.length_mm is not None:
        return _kept_growth(given.end, given.before_mm, given.length_mm)
    told = f"End {given.end}: {name_of(given.part)} {_millimetres(given.length_mm)}."
    found = laid_down(sheet.numbers, given.part)
    if found is None or found[1] is None or given.length_mm is None:
        return {"done": told}
    if abs(given.length_mm - found[0]) > found[1]:
        return {"under": f"{told} That is outside {laid_down_told(sheet.numbers, given.part)}."}
    return {"done": told}


def _kept_growth(end: str, before_mm: Decimal, after_mm: Decimal) -> dict[str, str]:
    grown_mm = after_mm - before_mm
    told = f"End {end}: {_millimetres(before_mm)} to {_millimetres(after_mm)}"
    if grown_mm >= 0:
        return {"done": f"{told}, grown by {_millimetres(grown_mm)}."}
    return {"under": f"{told}. No crimp shortens a pin: were both lengths exchanged?"}


def taken_back() -> dict[str, str]:
    """Return what is said where a reading was taken back."""
    return {"done": "It is taken back, and no longer counts."}


def _wanted(kind: Kind, sheet: SetUpSheet) -> str:
    if kind is Kind.PULLS:
        least_n = sheet.numbers.minimum_pull_n
        return "" if least_n is None else f"at least {show_plain(least_n, 'N')}"
    if kind is Kind.HEIGHTS:
        return laid_down_told(sheet.numbers, Part.PIN_CRIMP)
    return ""


def _result(kind: Kind, sheet: SetUpSheet, standing: Sequence[EndRead]) -> str:
    """How far the readings have come, in one sentence."""
    if kind is Kind.PULLS:
        pulls = [each for each in standing if isinstance(each, PullRead)]
        forces_n = [each.force_n for each in pulls]
        modes = [each.failure_mode for each in pulls]
        tester = pull_uncertainty(pulls_counting(sheet.revision_id))
        missing = missing_for_proof(sheet.numbers.minimum_pull_n, forces_n, modes, tester.value)
        if missing:
            return missing[0].sentence
        lowest = _newtons(min(forces_n))
        return (
            f"{len(forces_n)} pulls, mean {_newtons(fmean(forces_n))}, lowest {lowest}: they hold "
            "the least pull."
        )
    if kind is Kind.HEIGHTS:
        heights_mm = lengths_mm(sheet.revision_id, Part.PIN_CRIMP)
        missing = missing_heights(sheet.numbers, heights_mm)
        if missing:
            return missing[0].sentence
        if heights_mm:
            mean = show_length_mm(fmean(heights_mm), decimals=3)
            return f"{counted(len(heights_mm), 'pin crimp')} so far, mean {mean}."
    if kind is Kind.PINS:
        return _pins(sheet)
    return f"{counted(len(standing), 'reading')} so far."


def _pins(sheet: SetUpSheet) -> str:
    measured = measured_growth(sheet.revision_id)
    if measured is None:
        return f"No pin so far; {PINS_TO_MEASURE} take the place of the reckoned growth."
    if measured.lacking:
        return sentence(measured.lacking)
    return (
        f"{counted(measured.pins_count, 'pin')} so far, grown by {measured.interval}: they take "
        "the place of the reckoned growth."
    )


def _before(each: EndRead) -> Before:
    if isinstance(each, PullRead):
        told, sent = f"{_newtons(each.force_n)}, {each.failure_mode}", f"pull-{each.number}"
    else:
        assert isinstance(each, DimensionRead)
        told = f"{name_of(each.part)} {_millimetres(each.result_mm)}"
        sent = f"dimension-{each.number}"
    return Before(reading=sent, end=each.end, told=told)


def _tools(day: dt.date) -> tuple[Tool, ...]:
    found = []
    for row in instruments():
        due, late = row.calibration_due, ""
        if due is None:
            late = f"{row.code} was never calibrated."
        elif due < day:
            late = f"The calibration of {row.code} ended on {due:%Y-%m-%d}."
        found.append(Tool(code=row.code, name=f"{row.name} ({row.measures})", late=late))
    return tuple(found)


def _usual(kind: Kind, standing: Sequence[EndRead], tools: Sequence[Tool]) -> str:
    """The instrument of the newest reading, else the one that measures such a thing."""
    if standing:
        return standing[0].instrument
    fitting = [tool.code for tool in tools if _MEASURES[kind] in tool.name.lower()]
    return fitting[0] if len(fitting) == 1 else ""


def _newtons(force_n: float) -> str:
    return show_in(force_n, "N", decimals=0 if force_n == round(force_n) else 1)


def _millimetres(length_mm: Any) -> str:
    value = float(length_mm or 0)
    return show_length_mm(value, decimals=2 if round(value, 2) == value else 3)
