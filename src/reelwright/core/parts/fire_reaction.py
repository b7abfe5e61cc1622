"""European reaction-to-fire classes of cables: a ladder of its own.

Main classes Aca, B1ca, B2ca, Cca, Dca, Eca, Fca; beside them smoke (s), flaming droplets (d) and
acidity (a). Nothing here converts to or from the North American order: the tests differ, and no
class of the one says anything of the other. Source: EN 13501-6 and EN 50575 as a trade page
reproduces their class table; which class a building asks for is national rule.
"""

import enum
import re
from dataclasses import dataclass


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


@dataclass(frozen=True, kw_only=True)
class ReactionToFire:
    """A class as printed, "Cca-s1b,d1,a1"; a part that is not stated is ``None``."""

    main: Reaction
    smoke: Smoke | None
    droplets: Droplets | None
    acidity: Acidity | None

    def __str__(self) -> str:
        """The class as it is printed on a jacket."""
        parts = [str(part) for part in (self.smoke, self.droplets, self.acidity) if part]
        return f"{self.main}-{','.join(parts)}" if parts else str(self.main)

    def short_of(self, needed: "ReactionToFire") -> tuple[str, ...]:
        """Return the parts of ``needed`` that this class does not reach; empty where it covers it.

        A part that is asked for and not stated is not reached. Aca has no additional classes: it
        does not burn.
        """
        if self.main is Reaction.ACA:
            return ()
        short = [] if _reaches(self.main, needed.main) else [str(needed.main)]
        for own, wanted in (
            (self.smoke, needed.smoke),
            (self.droplets, needed.droplets),
            (self.acidity, needed.acidity),
        ):
            if wanted is not None and (own is None or not _reaches(own, wanted)):
                short.append(str(wanted))
        return tuple(short)


def _reaches(own: enum.StrEnum, wanted: enum.StrEnum) -> bool:
    order = list(type(own))
    return order.index(own) <= order.index(wanted)


_CLASS = re.compile(
    r"(?P<main>a|b1|b2|c|d|e|f)\s*ca"
    r"(?:\s*[-–]?\s*(?P<smoke>s1a|s1b|s1|s2|s3))?"
    r"(?:\s*[-–,]?\s*(?P<droplets>d[012]))?"
    r"(?:\s*[-–,]?\s*(?P<acidity>a[123]))?"
)


def read_reaction(typed: str) -> ReactionToFire | None:
    """Return the class written as on a jacket ("Cca-s1b,d1,a1"); None where it is none."""
    found = _CLASS.fullmatch(typed.strip().casefold())
    if found is None:
        return None
    main = found["main"].upper() + "ca"
    return ReactionToFire(
        main=Reaction(main),
        smoke=Smoke(found["smoke"]) if found["smoke"] else None,
        droplets=Droplets(found["droplets"]) if found["droplets"] else None,
        acidity=Acidity(found["acidity"]) if found["acidity"] else None,
    )
