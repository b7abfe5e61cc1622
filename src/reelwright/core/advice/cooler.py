"""The same run where it is no warmer than a room: copper loses less."""

from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import asked_tried
from reelwright.core.advice.words import to_spare
from reelwright.core.quantities.show_scaled import show_temperature_celsius

ROOM_CELSIUS = 20.0
"""What data sheets are stated at [°C]."""


def propose(question: Question) -> Iterator[Change]:
    """Yield the run at room temperature, where it was to lie in a warmer place."""
    asked = asked_tried(question)
    if asked is None or question.temperature_celsius <= ROOM_CELSIUS:
        return
    cool = replace(asked, run=replace(asked.run, temperature_celsius=ROOM_CELSIUS))
    where = (
        f"it lies at {show_temperature_celsius(ROOM_CELSIUS)} instead of "
        f"{show_temperature_celsius(question.temperature_celsius)}"
    )
    yield Change(
        kind=Kind.COOLER,
        sentence=f"If {where}: {to_spare(cool.judgement)}",
        tried=cool,
        size=(question.temperature_celsius - ROOM_CELSIUS) / ROOM_CELSIUS,
        parts=1,
        condition=where,
    )
