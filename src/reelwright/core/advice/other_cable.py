"""The same run on another cable of the catalogue; for loudspeakers, a thicker conductor."""

from collections.abc import Iterator

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import Tried, carriers
from reelwright.core.advice.words import to_spare
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.jacket import JacketClass, Space, class_needed
from reelwright.core.quantities.show import show_in

# Larger than any difference of diameters, so that it comes behind all of them.
_DEARER_JACKET = 10.0


def propose(question: Question) -> Iterator[Change]:
    """Yield the run on every other cable that carries it.

    The size is the difference of outside diameters over that of the cable asked for; where another
    kind of cable was asked for, nothing is like it and all are alike.
    """
    asked = None if question.asked is None else question.asked.cable
    for tried in carriers(question):
        if asked is None or tried.run.cable.code != asked.code:
            thicker = asked is not None and _is_thicker(tried.run.cable, asked)
            yield Change(
                kind=Kind.THICKER_CONDUCTOR if thicker else Kind.OTHER_CABLE,
                sentence=_sentence(tried, asked, thicker=thicker),
                tried=tried,
                size=_size(question, tried.run.cable, asked),
                parts=1,
                condition=None,
            )


def without_idle_jackets(changes: list[Change]) -> list[Change]:
    """Return the changes without the dearer jackets that nobody needs, where another is as good."""
    usual = [each for each in changes if each.size < _DEARER_JACKET]
    return usual if any(each.tried.doubt == 0 for each in usual) else changes


def _sentence(tried: Tried, asked: Cable | None, *, thicker: bool) -> str:
    instead = "" if asked is None else f" instead of {asked.code}"
    if thicker:
        now = tried.run.cable.sheet.resistance_conductor_ohm_per_m or 0.0
        instead += f" (a conductor of {show_in(1e3 * now, 'Ω/km', decimals=1)})"
    return f"With {tried.run.cable.code}{instead}: {to_spare(tried.judgement)}"


def _is_thicker(cable: Cable, asked: Cable) -> bool:
    now = cable.sheet.resistance_conductor_ohm_per_m
    before = asked.sheet.resistance_conductor_ohm_per_m
    loudspeakers = cable.family is Family.LOUDSPEAKER is asked.family
    return loudspeakers and now is not None and before is not None and now < before


def _size(question: Question, cable: Cable, asked: Cable | None) -> float:
    unlike = 1.0
    if asked is not None and asked.family in question.signal.families:
        outside = asked.jacket.outside_diameter_m
        unlike = abs(cable.jacket.outside_diameter_m - outside) / outside
    return unlike + (_DEARER_JACKET if _plenum_unasked(question, cable, asked) else 0.0)


def _plenum_unasked(question: Question, cable: Cable, asked: Cable | None) -> bool:
    """Whether it is plenum cable, at twice the price, that neither the place nor the wish needs."""
    needed = class_needed(question.space) if isinstance(question.space, Space) else None
    wished = None if asked is None else asked.rating.north_american
    own = cable.rating.north_american
    return own is JacketClass.PLENUM and JacketClass.PLENUM not in (needed, wished)
