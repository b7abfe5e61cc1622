"""A measured or expected value with its spread."""

from dataclasses import dataclass

from reelwright.core.quantities.guard import require_finite, require_given, require_text


@dataclass(frozen=True, kw_only=True)
class Measured:
    """``value`` and ``standard_uncertainty`` in ``unit``; ``None``: the spread is not known.

    Raises BadValue for numbers that are not finite and for a negative uncertainty.
    """

    value: float
    standard_uncertainty: float | None
    unit: str

    def __post_init__(self) -> None:
        require_finite(self, "value")
        require_given(self, "standard_uncertainty", positive=False)
        require_text(self, "unit")
