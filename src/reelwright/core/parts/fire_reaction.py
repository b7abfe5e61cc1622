"""European reaction-to-fire classes of cables: a ladder of its own.

Main classes Aca, B1ca, B2ca, Cca, Dca, Eca, Fca; beside them smoke (s), flaming droplets (d) and
acidity (a). Nothing here converts to or from the North American order: the tests differ, and no
class of the one says anything of the other. Source: EN 13501-6 and EN 50575 as a trade page
reproduces their class table; which class a building asks for is national rule.
"""

import enum
import re
from dataclasses import dataclass

from reelwright.core.errors import BadValue


class Reaction(enum.StrEnum):
    """The main class, the hardest first."""

    ACA = "Aca"
    B1CA = "B1ca"
    B2CA = "B2ca"
    CCA = "Cca"
    DCA = "Dca"
    ECA = "Eca"
    FCA = "Fca"


class Smoke(enum.StrEnum):
    """How much smoke, the least first; s1a and s1b are s1 with clear air measured as well."""

    S1A = "s1a"
    S1B = "s1b"
    S1 = "s1"
    S2 = "s2"
    S3 = "s3"


class Droplets(enum.StrEnum):
    """Flaming droplets, none first."""

    D0 = "d0"
    D1 = "d1"
    D2 = "d2"


class Acidity(enum.StrEnum):
    """How sour and conducting the fumes are, the least first."""

    A1 = "a1"
    A2 = "a2"
    A3 = "a3"


_WITH_ADDITIONAL = frozenset({Reaction.B1CA, Reaction.B2CA, Reaction.CCA, Reaction.DCA})
# The lowest of each: nothing was shown, so that any cable reaches it.
_NOTHING_SHOWN = frozenset({Smoke.S3, Droplets.D2, Acidity.A3})


@dataclass(frozen=True, kw_only=True)
class ReactionToFire:
    """A class as printed, "Cca-s1b,d1,a1"; a part that is not stated is ``None``.

    Raises BadValue for additional classes beside a main class that has none.
    """

    main: Reaction
    smoke: Smoke | None
    droplets: Droplets | None
    acidity: Acidity | None

    def __post_init__(self) -> None:
        if any((self.smoke, self.droplets, self.acidity)) and self.main not in _WITH_ADDITIONAL:
            raise BadValue(
                owner="ReactionToFire",
                field="main",
                value=str(self),
                accepted="smoke, droplets and acidity beside B1ca, B2ca, Cca and Dca only",
            )

    def __str__(self) -> str:
        """The class as it is printed on a jacket."""
        parts = [str(part) for part in (self.smoke, self.droplets, self.acidity) if part]
        return f"{self.main}-{','.join(parts)}" if parts else str(self.main)

    def short_of(self, needed: "ReactionToFire") -> tuple[str, ...]:
        """Return the parts of ``needed`` that what is stated does not reach."""
        parts = ((self.main, needed.main), *self._beside(needed))
        return tuple(
            str(wanted)
            for own, wanted in parts
            if own is not None and wanted is not None and not _reaches(own, wanted)
        )

    def silent_on(self, needed: "ReactionToFire") -> tuple[str, ...]:
        """Return the parts of ``needed`` that this class does not state, so that nothing is known.

        s3, d2 and a3 ask for nothing. Aca has no additional classes: it does not burn.
        """
        if self.main is Reaction.ACA:
            return ()
        return tuple(
            str(wanted)
            for own, wanted in self._beside(needed)
            if own is None and wanted is not None and wanted not in _NOTHING_SHOWN
        )

    def covers(self, needed: "ReactionToFire") -> bool:
        """Return whether every part of ``needed`` is known to be reached."""
        return not self.short_of(needed) and not self.silent_on(needed)

    def _beside(
        self, needed: "ReactionToFire"
    ) -> tuple[tuple[enum.StrEnum | None, enum.StrEnum | None], ...]:
        return (
            (self.smoke, needed.smoke),
            (self.droplets, needed.droplets),
            (self.acidity, needed.acidity),
        )


def _reaches(own: enum.StrEnum, wanted: enum.StrEnum) -> bool:
    order = list(type(own))
    return order.index(own) <= order.index(wanted)


_CLASS = re.compile(
    r"(?P<main>a|b1|b2|c|d|e|f)ca"
    r"(?:\s*[-–,]?\s*(?P<smoke>s1a|s1b|s1|s2|s3))?"
    r"(?:\s*[-–,]?\s*(?P<droplets>d[012]))?"
    r"(?:\s*[-–,]?\s*(?P<acidity>a[123]))?"
)


def read_reaction(typed: str) -> ReactionToFire | None:
    """Return the class written as on a jacket ("Cca-s1b,d1,a1"); None where it is none."""
    found = _CLASS.fullmatch(typed.strip().casefold())
    return None if found is None else _class_of(found)


def find_reaction(text: str) -> ReactionToFire | None:
    """Return the first class that stands in a sentence, or None.

    Fca asks for nothing, and FCA is a term of delivery as well.
    """
    found = re.search(rf"(?<!\w){_CLASS.pattern}(?!\w)", text.casefold())
    return None if found is None or found["main"] == "f" else _class_of(found)


def _class_of(found: re.Match[str]) -> ReactionToFire | None:
    main = Reaction(found["main"].upper() + "ca")
    if (found["smoke"] or found["droplets"] or found["acidity"]) and main not in _WITH_ADDITIONAL:
        return None
    return ReactionToFire(
        main=main,
        smoke=Smoke(found["smoke"]) if found["smoke"] else None,
        droplets=Droplets(found["droplets"]) if found["droplets"] else None,
        acidity=Acidity(found["acidity"]) if found["acidity"] else None,
    )
