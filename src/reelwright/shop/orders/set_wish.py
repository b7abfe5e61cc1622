"""What a customer wants of the cables of one line as a set: same lot, matched, a loom, a repeat."""

import enum
import re
from dataclasses import dataclass


class SetKind(enum.StrEnum):
    """The kinds of wish that change how a line is judged or cut."""

    NONE = "each on its own"
    SAME_LOT = "all from one lot"
    GROUPS = "groups, each from one lot"
    MATCHED = "matched in delay"
    LOOM = "a loom"
    REPEAT = "as delivered before"


@dataclass(frozen=True, kw_only=True)
class SetWish:
    """``group_size`` belongs to GROUPS; ``certificate`` and ``lot_code`` to REPEAT."""

    typed: str
    kind: SetKind
    group_size: int | None = None
    certificate: str | None = None
    lot_code: str | None = None


ACCEPTED = (
    'nothing, "same lot", "rack of 10, same lot", "matched", "loom" or "repeat of 0417, lot L2371"'
)

_GROUPS = re.compile(r"^(?:rack|group|set)s? of ([1-9]\d{0,3})(?:,? same lot)?$")
_REPEAT = re.compile(r"^repeat of (\S+?)(?:,? lot (\S+))?$")
_WORDS = {
    "": SetKind.NONE,
    "same lot": SetKind.SAME_LOT,
    "one lot": SetKind.SAME_LOT,
    "matched": SetKind.MATCHED,
    "matched set": SetKind.MATCHED,
    "loom": SetKind.LOOM,
}


def read_set(typed: str) -> SetWish | None:
    """Return the wish, or None where the text is none of those accepted."""
    text = " ".join(typed.split()).casefold()
    if text in _WORDS:
        return SetWish(typed=typed, kind=_WORDS[text])
    if match := _GROUPS.match(text):
        size = int(match[1])
        return SetWish(typed=typed, kind=SetKind.GROUPS, group_size=size) if size > 1 else None
    if match := _REPEAT.match(text):
        lot = match[2].upper() if match[2] else None
        return SetWish(typed=typed, kind=SetKind.REPEAT, certificate=match[1], lot_code=lot)
    return None
