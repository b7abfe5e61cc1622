"""What is measured or looked at after a trial, and what it must hold."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_finite, require_text
from reelwright.core.quantities.show import show_digits, with_unit
from reelwright.core.trials.guess import Guess


@dataclass(frozen=True, kw_only=True)
class Response:
    """A measured response, all numbers in ``unit``.

    A good part lies above ``lower_limit`` and below ``upper_limit``; one of them may be ``None``.
    Below ``unsafe_below`` or above ``unsafe_above`` a trial harms tool or person and is not to be
    made; ``None``: no such limit. ``guess`` is what physics says before the first trial.
    """

    name: str
    unit: str
    lower_limit: float | None
    upper_limit: float | None
    unsafe_below: float | None
    unsafe_above: float | None
    guess: Guess

    def __post_init__(self) -> None:
        require_text(self, "name", "unit")
        for field in ("lower_limit", "upper_limit", "unsafe_below", "unsafe_above"):
            if getattr(self, field) is not None:
                require_finite(self, field)
        if self.lower_limit is None and self.upper_limit is None:
            raise BadValue(
                owner="Response", field="lower_limit", value=None, accepted="at least one limit"
            )
        order = (self.unsafe_below, self.lower_limit, self.upper_limit, self.unsafe_above)
        given = [limit for limit in order if limit is not None]
        if given != sorted(set(given)):
            raise BadValue(
                owner="Response",
                field="lower_limit",
                value=order,
                accepted="unsafe below < lower limit < upper limit < unsafe above",
            )

    @property
    def limits(self) -> tuple[tuple[float, int], ...]:
        """Each limit with +1 where good lies above it, −1 where good lies below it."""
        both = ((self.lower_limit, 1), (self.upper_limit, -1))
        return tuple((limit, sign) for limit, sign in both if limit is not None)

    @property
    def dangers(self) -> tuple[tuple[float, int], ...]:
        """Each limit of safety with +1 where safe lies above it, −1 where safe lies below it."""
        both = ((self.unsafe_below, 1), (self.unsafe_above, -1))
        return tuple((limit, sign) for limit, sign in both if limit is not None)

    def show(self, value: float) -> str:
        """Return ``value`` (in ``unit``) to three digits with its unit."""
        return with_unit(show_digits(value), self.unit)


@dataclass(frozen=True, kw_only=True)
class Looks:
    """A response that a trained eye answers with ok or not; ``least_share`` (1) must be ok."""

    name: str
    least_share: float

    def __post_init__(self) -> None:
        require_text(self, "name")
        require_finite(self, "least_share")
        if not 0 < self.least_share < 1:
            raise BadValue(
                owner="Looks",
                field="least_share",
                value=self.least_share,
                accepted="above 0 and below 1: no number of parts proves that all are ok",
            )
