"""A line of an order as the question that the engine of advice answers."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from reelwright.core.advice import CatalogueCable, Question, Tried, carriers, try_all
from reelwright.core.parts.cable import Cable
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.shop.day.judging.ends_chosen import EndChoice, choose_end
from reelwright.shop.day.judging.run_judged import finished_length
from reelwright.shop.day.judging.stated_place import run_celsius
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
    length, celsius = finished_length(line.length_m), run_celsius(line)
    run, catalogue = None, catalogue_of(shelf)
    if asked is not None:
        ends = [choose_end(asked, codes, shelf) for codes in line.ends]
        run = Run(
            cable=asked,
            lot=None,
            length=length,
            temperature_celsius=celsius,
            connectors=(ends[0].connector, ends[1].connector),
            adapters=line.adapters,
        )
        catalogue = _with_ends(catalogue, asked, ends)
    return Question(
        signal=signal,
        length=length,
        temperature_celsius=celsius,
        space=line.space,
        ends=line.ends,
        adapters=line.adapters,
        catalogue=catalogue,
        asked=run,
    )


def _with_ends(
    catalogue: tuple[CatalogueCable, ...], asked: Cable, ends: Iterable[EndChoice]
) -> tuple[CatalogueCable, ...]:
    """The same with the ends that can be put on the cable asked for, released or not.

    The run on it is a run that can be judged, and changed, while its set-up is still developed.
    """
    possible = [end.connector for end in ends if not end.impossible]

    def extended(entry: CatalogueCable) -> CatalogueCable:
        if entry.cable.code != asked.code:
            return entry
        return replace(entry, connectors=tuple(dict.fromkeys([*entry.connectors, *possible])))

    return tuple(extended(entry) for entry in catalogue)


def with_set_ups(tried: Iterable[Tried], shelf: Shelf) -> list[Candidate]:
    """Return the runs that have released set-ups at both ends, with these."""
    found = []
    for each in tried:
        code, ends = each.run.cable.code, each.run.connectors
        end_a, end_b = (shelf.set_ups.get((code, end.code)) for end in ends)
        if end_a is not None and end_b is not None:
            found.append(Candidate(tried=each, end_a=end_a, end_b=end_b))
    return found


def candidates(
    line: ReadLine, signal: Signal, shelf: Shelf, *, works: bool = True
) -> list[Candidate]:
    """Return every cable with released set-ups at both ends that logic and space allow.

    ``works``: only those whose run is within its limits too.
    """
    question = question_of(line, signal, shelf)
    return with_set_ups(carriers(question) if works else try_all(question), shelf)
