"""Which changes are offered to a customer, how many, and what is asked to find another way."""

import dataclasses
from collections.abc import Collection

from reelwright.core.advice import ALL_KINDS, Advice, Kind, advise, farthest
from reelwright.core.parts.cable import Cable
from reelwright.core.signals.serial_video import SerialVideo
from reelwright.core.signals.signal import Signal
from reelwright.shop.day.judging.offers import offers_of
from reelwright.shop.day.judging.question import question_of
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import Offer
from reelwright.shop.orders.columns import ReadLine

MOST_CABLES = 2
MOST_OTHERS = 4
CABLES = frozenset({Kind.OTHER_CABLE, Kind.THICKER_CONDUCTOR})
# What the customer moves or sets, and nothing to be bought.
_AT_THE_CUSTOMERS = frozenset(
    {
        Kind.FEWER_ADAPTERS,
        Kind.TERMINATED,
        Kind.SHORTER,
        Kind.COOLER,
        Kind.FEWER_WATTS,
        Kind.HIGHER_VOLTAGE,
    }
)
SPLIT_QUESTIONS = (
    "which rate does the equipment really send, and may it be a slower one?",
    "is there power, and room for a re-clocker, part of the way along?",
    "is there a conduit in which a fibre could be drawn?",
)
BALANCED_QUESTIONS = (
    "what is the device at the end that is not balanced, and has it a balanced input as well?",
)
_FIBRE = Offer(
    sentence="Or a fibre link bought finished; we have none in the catalogue to judge.",
    price=None,
    cells=None,
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Wanted:
    """A line whose run on the cable asked for is no answer, or hardly one."""

    line: ReadLine
    signal: Signal
    cable: Cable
    shelf: Shelf

    def advice(self, kinds: Collection[Kind]) -> Advice:
        """Return what would fix it, changes of these kinds only."""
        question = question_of(self.line, self.signal, self.shelf, asked=self.cable)
        return advise(question, kinds=kinds)

    def offers(self, kinds: Collection[Kind], *, most: int) -> list[Offer]:
        """Return the smallest changes of these kinds as offers."""
        return offers_of(self.advice(kinds).changes[:most], self.line, self.shelf)


def other_cables(wanted: Wanted) -> list[Offer]:
    """Return the same line on the cables that work, the one most like what was asked first."""
    return wanted.offers(CABLES, most=MOST_CABLES)


def instead(wanted: Wanted) -> tuple[list[Offer], tuple[str, ...]]:
    """Return offers for a line that cannot be made, and the questions they depend on.

    Other cables with these ends; else a balanced line where it has to be one; else other ends.
    """
    offers = other_cables(wanted)
    if offers:
        return offers, ()
    questions: tuple[str, ...] = ()
    if wanted.signal.needs.balanced and wanted.signal.needs.screen:
        offers, questions = wanted.offers({Kind.BALANCED}, most=1), BALANCED_QUESTIONS
    return offers or wanted.offers({Kind.OTHER_ENDS}, most=1), questions


def beyond_reach(wanted: Wanted) -> tuple[list[Offer], tuple[str, ...]]:
    """Return offers for a run that does not reach, and what to ask to find another way.

    Other cables; where none reaches, everything else that would help.
    """
    offers = other_cables(wanted)
    if offers:
        return offers, ()
    offers = wanted.offers(ALL_KINDS - CABLES, most=MOST_OTHERS)
    if isinstance(wanted.signal, SerialVideo):
        return [*offers, _FIBRE], SPLIT_QUESTIONS
    return offers, ()


def with_more_to_spare(wanted: Wanted) -> list[Offer]:
    """Return offers beside a run that only just works: a cable, or what the customer can change."""
    offers = [*other_cables(wanted), *wanted.offers(_AT_THE_CUSTOMERS, most=1)]
    return [
        dataclasses.replace(offer, sentence=f"With more to spare: {_small(offer.sentence)}")
        for offer in offers
    ]


def _small(text: str) -> str:
    return text[0].lower() + text[1:] if text.startswith("If ") else text


def to_be_known(wanted: Wanted) -> list[Offer]:
    """Return offers beside a run of which something was not computed."""
    return wanted.offers(CABLES | {Kind.OTHER_ENDS, Kind.FEWER_WATTS}, most=MOST_CABLES)


def longest_words(wanted: Wanted) -> str | None:
    """Return which cable reaches farthest; None where that is the one asked, or none is known."""
    best = farthest(question_of(wanted.line, wanted.signal, wanted.shelf))
    if best is None or best.run.cable.code == wanted.cable.code:
        return None
    return (
        f"the cable that reaches farthest here is {best.run.cable.code}, and over your length: "
        f"{best.judgement.sentence}"
    )
