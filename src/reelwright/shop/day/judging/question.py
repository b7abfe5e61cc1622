"""A line of an order as the question that the engine of advice answers."""

from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.advice import CatalogueCable, Question, Tried, carriers, try_all
from reelwright.core.parts.cable import Cable
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.shop.day.judging.ends_chosen import choose_end
from reelwright.shop.day.judging.run_judged import finished_length
from reelwright.shop.day.judging.stated_place import place_celsius
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine
from reelwright.shop.setups.sheet import SetUpSheet


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """A cable that could carry the line, with the released set-ups of both its ends."""

    tried: Tried
    end_a: SetUpSheet
    end_b: SetUpSheet

    @property
    def cable(self) -> Cable:
        """The cable."""
        return self.tried.run.cable

    @property
    def judgement(self) -> Judgement:
        """The verdict on the run."""
        return self.tried.judgement

    @property
    def margin(self) -> float:
        """What the deciding check leaves; minus infinity where it has no number."""
        return self.tried.margin

    @property
    def sure(self) -> bool:
        """Whether the guard is kept and the limit as well, with 99 % chance."""
        return self.tried.sure


def catalogue_of(shelf: Shelf) -> tuple[CatalogueCable, ...]:
    """Return every cable with the connectors that a released set-up puts on it, and its price."""
    connectors: dict[str, list[str]] = {}
    for cable, connector in shelf.set_ups:
        connectors.setdefault(cable, []).append(connector)
    return tuple(
        CatalogueCable(
            cable=cable,
            lot=None,
            connectors=tuple(shelf.connectors[each] for each in connectors.get(code, ())),
            # Nothing is given away; a price of zero is one that nobody entered.
            price_per_m=shelf.cable_terms[code].price_per_m or None,
        )
        for code, cable in shelf.cables.items()
    )


def question_of(
    line: ReadLine, signal: Signal, shelf: Shelf, *, asked: Cable | None = None
) -> Question:
    """Return the question of a line; ``asked`` is the cable it was to be made of, if any."""
    length, celsius = finished_length(line.length_m), place_celsius(line.typed)[0]
    run = None
    if asked is not None:
        ends = [choose_end(asked, codes, shelf).connector for codes in line.ends]
        run = Run(
            cable=asked,
            lot=None,
            length=length,
            temperature_celsius=celsius,
            connectors=(ends[0], ends[1]),
            adapters=0,
        )
    return Question(
        signal=signal,
        length=length,
        temperature_celsius=celsius,
        space=line.space,
        ends=line.ends,
        adapters=0,
        catalogue=catalogue_of(shelf),
        asked=run,
    )


def with_set_ups(tried: Iterable[Tried], shelf: Shelf) -> list[Candidate]:
    """Return runs with the released set-ups of their ends."""
    return [
        Candidate(
            tried=each,
            end_a=shelf.set_ups[each.run.cable.code, each.run.connectors[0].code],
            end_b=shelf.set_ups[each.run.cable.code, each.run.connectors[1].code],
        )
        for each in tried
    ]


def candidates(
    line: ReadLine, signal: Signal, shelf: Shelf, *, works: bool = True
) -> list[Candidate]:
    """Return every cable with released set-ups at both ends that logic and space allow.

    ``works``: only those whose run is within its limits too.
    """
    question = question_of(line, signal, shelf)
    return with_set_ups(carriers(question) if works else try_all(question), shelf)
