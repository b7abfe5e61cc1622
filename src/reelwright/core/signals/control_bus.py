"""Control on a balanced bus: lighting (DMX512-A) or any other rate on RS-485."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.quantities.guard import require_count, require_given, require_positive
from reelwright.core.quantities.show import show_both, show_plain_m
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.control_checks import Bus, bus_checks
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.length_rule import length_budget
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

LIGHTING_RATE_BIT_PER_S = 250_000
"""Rate [bit/s] of lighting control: ANSI E1.11, from memory."""

LIGHTING_LONGEST_M = 300.0
"""Length [m] of one line of lighting control without a repeater (common practice)."""

LONGEST_M = 1200.0
"""Length [m] at any rate: ANSI/TIA-485-A with its bulletin TSB-89, from memory."""

LENGTH_TIMES_RATE = 1.0e8
"""Length times rate [m·bit/s] above 83 kb/s: the same, from memory."""

_LIGHTING = Source(text="300 m of lighting control without a repeater", basis=Basis.COMMON_PRACTICE)
_RULE = Source(
    text="ANSI/TIA-485-A and TSB-89: 1200 m, and at most 100 m times 1 Mb/s",
    basis=Basis.FROM_MEMORY,
)
_NAME = "length for the rate"


@dataclass(frozen=True, kw_only=True)
class ControlBus(JudgedSignal):
    """A control bus at ``rate_bit_per_s`` [bit/s] with ``unit_load_count`` receivers.

    ``lighting`` where it is lighting control, at its own rate. ``terminated`` where 120 Ω stand at
    the far end; ``stub_m`` [m] is the longest stub to a receiver, None where none was told of.
    """

    rate_bit_per_s: int
    lighting: bool
    unit_load_count: int
    terminated: bool
    stub_m: float | None

    check_name = _NAME
    margin_unit = "m"
    """Metres."""

    needs = SignalNeeds(
        legs=2, balanced=True, phantom_power=False, screen=False, impedance_ohm=120.0
    )
    """Two legs of a pair, 120 Ω; the common may be a screen or a second pair."""

    families = (Family.PAIR, Family.DATA)
    """Balanced pairs and data pairs."""

    def __post_init__(self) -> None:
        require_positive(self, "rate_bit_per_s")
        require_count(self, "rate_bit_per_s", at_least=1)
        require_count(self, "unit_load_count", at_least=1)
        require_given(self, "stub_m", positive=False)

    @property
    def check_source(self) -> Source:
        """Where the length comes from."""
        return _LIGHTING if self.lighting else _RULE

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A receiver that tells ±200\u202fmV apart, 120\u202fΩ across the last one, and a "
            "common conductor to it."
        )

    @property
    def name(self) -> str:
        """What it controls, or its rate; and what is unusual about its end."""
        kind = (
            "lighting control DMX512-A"
            if self.lighting
            else f"RS-485 control {_rate_words(self.rate_bit_per_s)}"
        )
        return kind if self.terminated else f"{kind} (not terminated)"

    @property
    def longest_m(self) -> float:
        """The length allowed at this rate [m]."""
        if self.lighting:
            return LIGHTING_LONGEST_M
        return min(LONGEST_M, LENGTH_TIMES_RATE / self.rate_bit_per_s)

    def budget(self, run: Run) -> Budget:
        """Return the length against that which the rate allows."""
        return length_budget(run, limit_m=self.longest_m, used_m=lambda lengths_m: lengths_m)

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the length."""
        margin = budget.margin_at(run.length.mean_m)
        allowed = show_plain_m(budget.limit)
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"{show_both(run.length.mean_m)} of {run.cable.code} "
                + (
                    f"is within the {allowed} that {self.name} may go."
                    if margin >= 0
                    else f"is {show_plain_m(-margin)} more than the {allowed} that {self.name} may "
                    "go without a repeater."
                )
            ),
            source=self.check_source,
            value=run.length.mean_m,
            limit=budget.limit,
            margin=margin,
            unit="m",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return level, receivers, end, stubs and what the cable was made for."""
        return bus_checks(
            run,
            Bus(
                rate_bit_per_s=self.rate_bit_per_s,
                unit_load_count=self.unit_load_count,
                terminated=self.terminated,
                stub_m=self.stub_m,
            ),
        )


def _rate_words(rate_bit_per_s: int) -> str:
    for size, unit in ((1_000_000, "Mb/s"), (1_000, "kb/s")):
        if rate_bit_per_s >= size:
            return f"{rate_bit_per_s / size:g} {unit}"
    return f"{rate_bit_per_s} b/s"
