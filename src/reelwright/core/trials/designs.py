"""Classical designs: two levels of each setting, in full or in part, and the central composite.

Coded coordinates throughout: −1 is the low level, +1 the high one. A fraction is told by its
generators ("E=ABCD"), from which its defining relation, aliases and resolution follow by the
algebra of signs: a letter times itself is nothing.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_count
from reelwright.core.trials.space import FloatArray

LETTERS = "ABCDEFGHJKLMNOP"
_GENERATOR = re.compile(r"([A-Z])\s*=\s*([-+−]?)\s*([A-Z]{2,})")
_ROMAN = ("", "I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X", "XI", "XII", "XIII",
          "XIV", "XV")  # fmt: skip


@dataclass(frozen=True)
class Word:
    """A product of settings with its sign, such as −ABD; ``letters`` are sorted, none twice."""

    letters: str
    sign: int

    def __mul__(self, other: "Word") -> "Word":
        odd = set(self.letters) ^ set(other.letters)
        return Word("".join(sorted(odd)), self.sign * other.sign)

    def __str__(self) -> str:
        return ("−" if self.sign < 0 else "") + (self.letters or "I")


@dataclass(frozen=True, kw_only=True)
class TwoLevel:
    """A two-level design of ``base_count`` free settings and one more for each generator.

    Generators are written "D=ABC" or "D=−ABC"; a new letter on the left, base letters on the right.
    Raises BadValue for anything else, and where two settings would always move together.
    """

    base_count: int
    generators: tuple[str, ...]

    def __post_init__(self) -> None:
        require_count(self, "base_count", at_least=1)
        if self.base_count + len(self.generators) > len(LETTERS) or self.base_count > 10:
            raise BadValue(
                owner="TwoLevel",
                field="base_count",
                value=self.base_count,
                accepted=f"no more than {len(LETTERS)} settings, 10 of them free",
            )
        free, new = LETTERS[: self.base_count], LETTERS[self.base_count :]
        for place, text in enumerate(self.generators):
            read = _GENERATOR.fullmatch(text)
            good = (
                read is not None
                and read[1] == new[place]
                and set(read[3]) <= set(free)
                and len(set(read[3])) == len(read[3])
            )
            if not good:
                raise BadValue(
                    owner="TwoLevel",
                    field="generators",
                    value=text,
                    accepted=f"{new[place]}= and two or more different letters of {free}",
                )
        if any(len(word.letters) < 3 for word in self.defining):
            raise BadValue(
                owner="TwoLevel",
                field="generators",
                value=self.generators,
                accepted="generators that differ",
            )

    @property
    def letters(self) -> str:
        """The letters of all settings, in order."""
        return LETTERS[: self.base_count + len(self.generators)]

    @cached_property
    def _generating(self) -> tuple[Word, ...]:
        words = []
        for text in self.generators:
            read = _GENERATOR.fullmatch(text)
            assert read is not None
            sign = -1 if read[2] in ("-", "−") else 1
            words.append(Word("".join(sorted(read[1] + read[3])), sign))
        return tuple(words)

    @cached_property
    def defining(self) -> tuple[Word, ...]:
        """The words that are constant in this design, without I, the shortest first."""
        words = []
        for size in range(1, len(self._generating) + 1):
            for chosen in combinations(self._generating, size):
                product = Word("", 1)
                for word in chosen:
                    product *= word
                words.append(product)
        return tuple(sorted(words, key=lambda word: (len(word.letters), word.letters)))

    @property
    def resolution(self) -> str | None:
        """The length of the shortest defining word as a Roman number; ``None`` for a full design.

        III: a setting is mixed up with pairs; IV: pairs with pairs; V: neither with the other.
        """
        return _ROMAN[len(self.defining[0].letters)] if self.defining else None

    def aliases(self, letters: str) -> tuple[Word, ...]:
        """Return all that the effect of ``letters`` cannot be told from, the shortest first."""
        word = Word("".join(sorted(letters)), 1)
        found = [word * constant for constant in self.defining]
        return tuple(sorted(found, key=lambda one: (len(one.letters), one.letters)))

    @cached_property
    def points(self) -> FloatArray:
        """The runs ``(n_run, n_setting)`` in standard order: the first setting changes fastest."""
        runs = np.arange(2**self.base_count)
        free = np.stack([(runs >> place & 1) * 2 - 1 for place in range(self.base_count)], axis=1)
        columns = [free[:, place] for place in range(self.base_count)]
        for letter, word in zip(LETTERS[self.base_count :], self._generating, strict=False):
            others = [LETTERS.index(one) for one in word.letters if one != letter]
            columns.append(word.sign * np.prod(free[:, others], axis=1))
        return np.stack(columns, axis=1).astype(np.float64)

    @cached_property
    def contrasts(self) -> tuple[str, ...]:
        """One name of each effect that can be told: the shortest of its aliases."""
        seen: set[str] = set()
        told = []
        for size in range(1, len(self.letters) + 1):
            for chosen in combinations(self.letters, size):
                name = "".join(chosen)
                if name in seen:
                    continue
                same = {name, *(word.letters for word in self.aliases(name))}
                seen |= same
                if "" not in same:
                    told.append(name)
        return tuple(told)


def full_factorial(setting_count: int) -> TwoLevel:
    """Return all combinations of two levels of ``setting_count`` settings."""
    return TwoLevel(base_count=setting_count, generators=())


def column(points: FloatArray, letters: Iterable[str]) -> FloatArray:
    """Return the product of the coded columns (1) named by ``letters``, shape ``(n_run,)``."""
    places = [LETTERS.index(letter) for letter in letters]
    return np.asarray(np.prod(points[:, places], axis=1), dtype=np.float64)


@dataclass(frozen=True, kw_only=True)
class CentralComposite:
    """Corners of a two-level design, ``centre_count`` runs at the middle, two on each axis.

    ``axial_ratio``: how far out those lie. Box and Wilson (1951), e-Handbook 5.3.3.6.1.
    """

    corners: TwoLevel
    centre_count: int
    axial_ratio: float

    def __post_init__(self) -> None:
        require_count(self, "centre_count", at_least=1)
        if not self.axial_ratio >= 1:
            raise BadValue(
                owner="CentralComposite",
                field="axial_ratio",
                value=self.axial_ratio,
                accepted="1 or more",
            )

    @property
    def points(self) -> FloatArray:
        """Corners, middle, axes: ``(n_run, n_setting)`` coded."""
        corners = self.corners.points
        size = corners.shape[1]
        axial = np.kron(np.eye(size), [[-1.0], [1.0]]) * self.axial_ratio
        return np.vstack([corners, np.zeros((self.centre_count, size)), axial])


def rotatable_ratio(corners: TwoLevel) -> float:
    """Return the axial ratio that makes the spread of a prediction alike in all directions.

    (number of corner runs)^¼, e-Handbook 5.3.3.6.1.
    """
    return float(len(corners.points) ** 0.25)


def decode(
    coded: FloatArray, *, middles: Sequence[float], half_spans: Sequence[float]
) -> FloatArray:
    """Return coded points as settings: middle + coded·half span, each in the setting's unit."""
    return np.asarray(np.array(middles) + coded * np.array(half_spans), dtype=np.float64)
