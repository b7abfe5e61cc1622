"""One check: a value held against a limit, with the limit's source and a plain sentence."""

import enum
from dataclasses import dataclass

from reelwright.core.quantities.guard import require_finite, require_text


class Outcome(enum.StrEnum):
    """How a check ended, from best to worst.

    "Not computed" stands above "bad" only: what was not judged can never make a yes.
    """

    GOOD = "good"
    CAUTION = "caution"
    NOT_COMPUTED = "not computed"
    BAD = "bad"

    @property
    def rank(self) -> int:
        """0 for the best outcome, rising with how bad it is."""
        return list(Outcome).index(self)


class Basis(enum.StrEnum):
    """How well a limit or a constant is founded."""

    STANDARD = "standard"
    PUBLISHED = "published"
    DATA_SHEET = "data sheet"
    COMPUTED = "computed"
    COMMON_PRACTICE = "common practice, no published source"
    FROM_MEMORY = "from memory"
    CUSTOMER = "asked by the customer"
    OWN_SHOP = "own measurement"


@dataclass(frozen=True, kw_only=True)
class Source:
    """Where a number comes from, in words a reader can follow up."""

    text: str
    basis: Basis

    def __post_init__(self) -> None:
        require_text(self, "text")

    def __str__(self) -> str:
        if self.basis in (Basis.STANDARD, Basis.PUBLISHED):
            return self.text
        return f"{self.text} ({self.basis})"


@dataclass(frozen=True, kw_only=True)
class Check:
    """One thing judged.

    ``value`` and ``limit`` are numbers in ``unit``, or words where the thing has no number
    (a jacket class); ``margin`` is in ``unit``, positive where there is something to spare.
    ``None`` means: not known. ``sentence`` stands alone and reads as a customer would read it.
    """

    name: str
    outcome: Outcome
    sentence: str
    source: Source
    value: float | str | None
    limit: float | str | None
    margin: float | None
    unit: str

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_text(self, "sentence")
        for field in ("value", "limit", "margin"):
            if isinstance(getattr(self, field), float | int):
                require_finite(self, field)
