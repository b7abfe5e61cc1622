"""The lengths that stand in a customer's sentence, to be held against the column that decides."""

from dataclasses import dataclass

from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.quantities.length_measure import Measure, take_measure
from reelwright.core.quantities.tokens import (
    Kind,
    NotTokens,
    Token,
    tokenize,
    without_abbreviation_points,
)

_THINGS = (
    "jack jacks plug plugs socket sockets connector connectors screw screws hole holes rack "
    "screen screens speaker speakers loudspeaker loudspeakers woofer monitor monitors stereo "
    "diameter dia od thick wide"
)
_THINGS_SOLD_BY_SIZE = frozenset(_THINGS.split())


@dataclass(frozen=True, kw_only=True)
class FoundLength:
    """A length in a sentence: ``text`` in the writer's units, ``length_m`` in m."""

    text: str
    length_m: float

    def __post_init__(self) -> None:
        require_text(self, "text")
        require_positive(self, "length_m")


def _is_known(char: str) -> bool:
    try:
        tokenize(char)
    except NotTokens:
        return False
    return True


def _known_tokens(sentence: str) -> tuple[Token, ...]:
    tokens: list[Token] = []
    for word in sentence.split():
        known = "".join(char if _is_known(char) else ";" for char in word)
        try:
            tokens.extend(tokenize(known))
        except NotTokens:
            tokens.append(Token(kind=Kind.SIGN, text="…", glued=False))
    return without_abbreviation_points(tuple(tokens))


def _begins_number(tokens: tuple[Token, ...], place: int) -> bool:
    token = tokens[place]
    # "VID-60 m", "3/4" and "IEC 60" hold figures that begin no length of their own.
    inside = token.glued and place > 0 and tokens[place - 1].kind in (Kind.WORD, Kind.HYPHEN)
    figures = token.kind in (Kind.NUMBER, Kind.FRACTION)
    return (figures and not inside) or token.kind is Kind.WORD


def _is_preposition(measure: Measure, after: Token | None) -> bool:
    last = measure.terms[-1]
    alone = len(measure.terms) == 1 and last.unit.unit == "in" and not last.unit.by_mark
    # "2 in blue": a word behind "in" makes it a preposition; "inch" would have been written.
    return alone and after is not None and after.kind is Kind.WORD


def find_lengths(sentence: str) -> tuple[FoundLength, ...]:
    """Return the lengths in ``sentence``, in their order, without those that are asked about.

    Sizes of other things are left out ("1/4 inch jack"), and so is what a reader would have to
    guess: a figure without unit, "2 in" before another word, 1,200 mm.
    """
    tokens = _known_tokens(sentence)
    found: list[FoundLength] = []
    place = 0
    while place < len(tokens):
        cursor = Cursor(tokens[place:])
        measure: Measure | None = None
        if _begins_number(tokens, place):
            try:
                measure = take_measure(cursor)
            except (Doubt, NotThis):
                measure = None
        if measure is None or measure.value_m <= 0:
            place += 1
            continue
        after = cursor.peek()
        of_a_thing = after is not None and after.lower in _THINGS_SOLD_BY_SIZE
        if not of_a_thing and not _is_preposition(measure, after):
            found.append(FoundLength(text=str(measure), length_m=float(measure.value_m)))
        place += max(1, cursor.place)
    return tuple(found)
