"""Conductor sizes as people write them: 14 AWG, 14 gauge, 4/0, 2.5 mm²."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue, UnreadableQuantity
from reelwright.core.quantities.convert import LARGEST_AWG, SMALLEST_AWG, awg_area_m2
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.guard import require_given
from reelwright.core.quantities.scaled_text import read_area
from reelwright.core.quantities.tokens import Kind

ACCEPTED = "a conductor size with its system, such as 14 AWG, 4/0 AWG or 2.5 mm²"

_SYSTEM = [("awg",), ("gauge",), ("ga",), ("#",), ("no",), ("-", "gauge"), ("-", "awg")]
_MOST_OUGHTS = 4


@dataclass(frozen=True, kw_only=True)
class GaugeReading:
    """A conductor size: ``area_m2`` (m²), and ``awg`` (1; 0 is 1/0) where it was given as a gauge.

    ``area_m2`` is ``None`` exactly where ``question`` is given. A metric size is never turned into
    the gauge beside it: they are not equal.
    """

    typed: str
    area_m2: float | None
    awg: int | None
    question: str | None

    def __post_init__(self) -> None:
        require_given(self, "area_m2")
        if (self.area_m2 is None) == (self.question is None):
            raise BadValue(
                owner="GaugeReading",
                field="question",
                value=self.question,
                accepted="a question where there is no area, and none where there is one",
            )


def _take_gauge_number(cursor: Cursor) -> int:
    token = cursor.take_kind(Kind.NUMBER)
    if token is None or not token.text.isdigit():
        raise NotThis("no gauge number")
    if len(token.text) > 1 and not token.text.strip("0"):
        if len(token.text) > _MOST_OUGHTS:
            raise NotThis("no such gauge")
        return 1 - len(token.text)
    if not cursor.take_text("/"):
        return int(token.text)
    second = cursor.take_kind(Kind.NUMBER)
    if second is None:
        raise NotThis("nothing follows the stroke")
    if second.text == "0" and 1 <= int(token.text) <= _MOST_OUGHTS:
        return 1 - int(token.text)
    if not second.text.strip("0"):
        raise NotThis("no such gauge")
    raise Doubt(
        f"“{token.text}/{second.text}”: is it {second.text} conductors of {token.text} AWG?"
    )


def _take_gauge(cursor: Cursor) -> int:
    named = cursor.take_phrase(_SYSTEM)
    awg = _take_gauge_number(cursor)
    named = cursor.take_phrase(_SYSTEM) or named
    cursor.take_text("awg", "wire")
    if not cursor.at_end or not LARGEST_AWG <= awg <= SMALLEST_AWG:
        raise NotThis("no such gauge")
    if named is None and awg > 0:
        raise Doubt(f"“{awg}”: {awg} AWG, or {awg} mm²?")
    return awg


def _metric(typed: str) -> GaugeReading:
    refusal = UnreadableQuantity(typed=typed, quantity="conductor size", accepted=ACCEPTED)
    if not any(char.isalpha() for char in typed):
        raise refusal
    try:
        area = read_area(typed)
    except UnreadableQuantity:
        raise refusal from None
    return GaugeReading(typed=typed, area_m2=area.value, awg=None, question=area.question)


def read_gauge(typed: str) -> GaugeReading:
    """Read a conductor size. Raises UnreadableQuantity for what is none.

    Solid area of the gauge by ASTM B258. A number without AWG or mm² comes back with a question.
    """
    cursor = cursor_over(typed, quantity="conductor size", accepted=ACCEPTED)
    try:
        awg = _take_gauge(cursor)
    except Doubt as doubt:
        return GaugeReading(typed=typed, area_m2=None, awg=None, question=doubt.question)
    except NotThis:
        return _metric(typed)
    return GaugeReading(typed=typed, area_m2=awg_area_m2(awg), awg=awg, question=None)
