"""Connectors that the signal can pass, where those asked for are at fault."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import Tried, asked_tried, carriers, try_all
from reelwright.core.advice.words import to_spare
from reelwright.core.verdicts import Outcome


def propose(question: Question) -> Iterator[Change]:
    """Yield the cheapest sure cable with one connector at both ends, where the ends are at fault.

    One of those asked for where there is such a cable, else any. The cable asked for goes before
    others.
    """
    needs = question.signal.needs
    # A balanced line has one face of each kind at its ends: that is for balanced.propose.
    if (needs.balanced and needs.screen) or not _ends_at_fault(question):
        return
    wished = sorted({code for codes in question.ends for code in codes})
    rest = [each.code for each in question.connectors if each.code not in wished]
    found = _alike_at_both_ends(question, wished) or _alike_at_both_ends(question, rest)
    if not found:
        return
    own = None if question.asked is None else question.asked.cable.code

    def bother(tried: Tried) -> tuple[bool, int, float, str, str]:
        price = tried.entry.price_per_m
        return (
            tried.run.cable.code != own,
            tried.doubt,
            float("inf") if price is None else float(price),
            tried.run.cable.code,
            tried.run.connectors[0].code,
        )

    best = min(found, key=bother)
    end = best.run.connectors[0]
    asked = () if question.asked is None else question.asked.connectors
    yield Change(
        kind=Kind.OTHER_ENDS,
        sentence=(
            f"If your sockets take it: {best.run.cable.code} with {end.mating} at both ends. "
            f"{to_spare(best.judgement)}"
        ),
        tried=best,
        size=float(sum(each.mating != end.mating for each in asked)) if asked else 2.0,
        parts=1,
        condition=f"both sockets take {end.mating}",
    )


def _ends_at_fault(question: Question) -> bool:
    """Whether no cable of the right kind takes these ends, or an end's impedance is in doubt."""
    right = [
        each for each in try_all(question) if each.run.cable.family in question.signal.families
    ]
    if not right:
        return True
    asked = asked_tried(question)
    if asked is None:
        return False
    doubtful = {f"impedance of {end.code}" for end in asked.run.connectors}
    return any(
        check.name in doubtful and check.outcome is not Outcome.GOOD
        for check in asked.judgement.verdict.checks
    )


def _alike_at_both_ends(question: Question, codes: Iterable[str]) -> list[Tried]:
    return [
        each
        for code in codes
        for each in carriers(replace(question, ends=((code,), (code,)), asked=None))
        if each.sure
    ]
