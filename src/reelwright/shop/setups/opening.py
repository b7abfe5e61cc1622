"""What stands before a new set-up or revision: its code, its letter, whether the pair may have one.

Reads only; ``drafting`` writes.
"""

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.errors import UnknownCode
from reelwright.shop.setups.models import SetUp
from reelwright.shop.setups.overrides import FitSaid
from reelwright.shop.setups.pair import PairNow
from reelwright.shop.setups.selectors import set_up_sheets
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import FitAnswer

_NUMBERED = re.compile(r"([A-Z]+-)([0-9]+)")
_FIRST_CODE = "T-01"
_CODE = re.compile(r"[A-Z0-9][A-Z0-9-]{0,11}")


@dataclass(frozen=True, kw_only=True)
class SetUpOpened:
    """A set-up with its revisions, newest first; one that was only opened has none."""

    code: str
    cable_code: str
    connector_code: str
    sheets: tuple[SetUpSheet, ...]

    @property
    def next_letter(self) -> str | None:
        """The letter of its next revision; None after Z."""
        newest = self.sheets[0].letter if self.sheets else "@"
        return None if newest >= "Z" else chr(ord(newest) + 1)


def set_up_opened(code: str) -> SetUpOpened:
    """Return a set-up, also one without a revision. Raises UnknownCode."""
    row = SetUp.objects.select_related("cable", "connector").filter(code=code).first()
    if row is None:
        raise UnknownCode(kind="set-up", code=code)
    return SetUpOpened(
        code=row.code,
        cable_code=row.cable.code,
        connector_code=row.connector.code,
        sheets=set_up_sheets(code) if row.revisions.exists() else (),
    )


def set_up_of(cable_code: str, connector_code: str) -> str | None:
    """Return the code of a pair's set-up, whatever became of its revisions; None: not opened."""
    return (
        SetUp.objects.filter(cable__code=cable_code, connector__code=connector_code)
        .values_list("code", flat=True)
        .first()
    )


def free_code() -> str:
    """Return the next code after those in use: T-23 after T-22."""
    return code_after(SetUp.objects.values_list("code", flat=True))


def code_after(codes: Iterable[str]) -> str:
    """Return the code that goes on from ``codes``, with the letters most of them begin with."""
    found = [(match[1], match[2]) for code in codes if (match := _NUMBERED.fullmatch(code))]
    if not found:
        return _FIRST_CODE
    ((letters, _),) = Counter(letters for letters, _ in found).most_common(1)
    numbers = [number for each, number in found if each == letters]
    width = max(len(number) for number in numbers)
    return f"{letters}{max(map(int, numbers)) + 1:0{width}d}"


def code_problem(code: str) -> str:
    """Return why a new set-up cannot have this code, as a sentence; empty: it can."""
    if not _CODE.fullmatch(code):
        return (
            f"“{code}” is no code of a set-up. Accepted: 1 to 12 capital letters, digits and "
            "hyphens, such as T-23."
        )
    there = SetUp.objects.select_related("cable", "connector").filter(code=code).first()
    if there is None:
        return ""
    return (
        f"{code} exists already, for {there.cable.code} in {there.connector.code}. "
        f"{free_code()} is free."
    )


def why_not_open(now: PairNow, said: FitSaid | None) -> str:
    """Return why no set-up may be opened for a pair; empty: it may.

    What a lead says stands before what is computed, either way.
    """
    pair = f"{now.cable.code} in {now.connector.code}"
    if said is not None and said.answer is FitAnswer.IMPOSSIBLE:
        return f"{said.said_by} says that {pair} is impossible: {said.reason.rstrip('.')}."
    if now.possible or (said is not None and said.answer is FitAnswer.POSSIBLE):
        return ""
    return f"{pair}. {now.headline}. A lead who knows better may say so, with the reason."
