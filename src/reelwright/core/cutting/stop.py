"""When a search has done enough: small rules that look at how far it has come.

A rule is asked now and then and answers True to end the search with the best answer so far. The
search itself knows no clock; a rule that does is handed one.
"""

from collections.abc import Callable
from dataclasses import dataclass

from reelwright.core.quantities.guard import require_count


@dataclass(frozen=True, kw_only=True)
class Progress:
    """How far a search has come: the best found, what nothing can be below, steps taken."""

    best: int
    bound: int
    steps: int

    def __post_init__(self) -> None:
        require_count(self, "steps")

    @property
    def gap_fraction(self) -> float:
        """How far the best is above the bound (0 to 1), as a share of the best."""
        return (self.best - self.bound) / self.best if self.best else 0.0


Stop = Callable[[Progress], bool]


def never(progress: Progress) -> bool:
    """Go on until the proof, or until the search has no more to try."""
    return False


def after_seconds(limit_s: float, *, clock: Callable[[], float]) -> Stop:
    """Stop when ``clock`` (s) has gone ``limit_s`` beyond where it stood when the rule was made."""
    began_s = clock()
    return lambda progress: clock() - began_s >= limit_s


def within_gap(fraction: float) -> Stop:
    """Stop when the best is within ``fraction`` (0 to 1) of the bound."""
    return lambda progress: progress.gap_fraction <= fraction


def after_steps(steps: int) -> Stop:
    """Stop after so many steps; the same problem then always has the same answer."""
    return lambda progress: progress.steps >= steps


def any_of(*rules: Stop) -> Stop:
    """Stop as soon as one of the rules says so."""
    return lambda progress: any(rule(progress) for rule in rules)


def telling(rule: Stop, *, tell: Callable[[Progress], None]) -> Stop:
    """Stop by ``rule``, and tell of the progress each time it is asked."""

    def told(progress: Progress) -> bool:
        tell(progress)
        return rule(progress)

    return told
