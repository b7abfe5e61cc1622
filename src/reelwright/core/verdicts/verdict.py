"""A verdict is a list of checks and is as good as its worst."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.guard import require_text
from reelwright.core.verdicts.check import Check, Outcome


@dataclass(frozen=True, kw_only=True)
class Reason:
    """Why something is so: a code for programs, a sentence for people."""

    code: str
    sentence: str

    def __post_init__(self) -> None:
        require_text(self, "code")
        require_text(self, "sentence")


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """One or more checks, taken together."""

    checks: tuple[Check, ...]

    def __post_init__(self) -> None:
        if not self.checks:
            raise BadValue(owner="Verdict", field="checks", value=(), accepted="one or more")

    @property
    def worst(self) -> Check:
        """The check which decides: worst outcome first, then least margin."""
        return max(
            self.checks,
            key=lambda check: (
                check.outcome.rank,
                float("-inf") if check.margin is None else -check.margin,
            ),
        )

    @property
    def outcome(self) -> Outcome:
        """As good as the worst check."""
        return self.worst.outcome

    @property
    def works(self) -> bool:
        """True where every check ended good or with a caution."""
        return self.outcome.rank <= Outcome.CAUTION.rank

    def having(self, outcome: Outcome) -> tuple[Check, ...]:
        """The checks that ended so, in their order."""
        return tuple(check for check in self.checks if check.outcome is outcome)
