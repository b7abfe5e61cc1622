"""Serial digital video on 75 Ω coax: loss at half the clock, and what else a run does to it."""

from dataclasses import dataclass, replace

from reelwright.core.errors import BadValue
from reelwright.core.quantities.show import show_both_whole, show_in, show_plain
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.budget import Budget, longest_within_m
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.end_reflections import EQUIPMENT_75, return_loss_check
from reelwright.core.signals.judgement import PhysicalReach
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.signals.one_wave import one_wave_check
from reelwright.core.signals.practice import GUARD_DB
from reelwright.core.signals.run import Run
from reelwright.core.signals.serial_reach import NOISE_FIGURE_DB, REACH_SOURCE, ceiling_db
from reelwright.core.verdicts import Basis, Check, Source

# Why the limit jumps from 20 to 40 dB between 2.97 and 5.94 Gb/s, and the longest run with it: the
# two later standards were written for receivers with stronger equalisers. It is not smoothed here.
_JUMP = (
    "; the limit at 5.94 Gb/s is 40 dB, written for stronger equalisers, so that the run allowed "
    "at 2.97 Gb/s is the shorter one"
)
_JUMPS_AT = 2_970_000_000
_WHY_SHORTER = (
    "5.94\u202fGb/s may go further on the same cable, odd as it looks: its standard was written "
    "for receivers with stronger equalisers, 40\u202fdB instead of 20."
)
_LIMITS_DB: dict[int, tuple[float, str, Basis]] = {
    270_000_000: (30.0, "30 dB at half the clock, SMPTE ST 259", Basis.FROM_MEMORY),
    1_485_000_000: (
        20.0,
        "20 dB at half the clock, ANSI/SMPTE 292M-1996, clause 1, as transcribed",
        Basis.STANDARD,
    ),
    2_970_000_000: (
        20.0,
        "20 dB at half the clock, SMPTE ST 424" + _JUMP,
        Basis.FROM_MEMORY,
    ),
    5_940_000_000: (
        40.0,
        "40 dB at half the clock, SMPTE ST 2081-1 as a trade chart of distances gives it",
        Basis.PUBLISHED,
    ),
    11_880_000_000: (
        40.0,
        "40 dB at half the clock, SMPTE ST 2082-1 as a trade chart of distances gives it",
        Basis.PUBLISHED,
    ),
}
RATES_BIT_PER_S = tuple(_LIMITS_DB)
"""The rates [bit/s] that are known."""


@dataclass(frozen=True, kw_only=True)
class SerialVideo(CoaxSignal):
    """Serial digital video at ``rate_bit_per_s`` [bit/s], one of ``RATES_BIT_PER_S``."""

    rate_bit_per_s: int

    def __post_init__(self) -> None:
        if self.rate_bit_per_s not in _LIMITS_DB:
            raise BadValue(
                owner="SerialVideo",
                field="rate_bit_per_s",
                value=self.rate_bit_per_s,
                accepted=", ".join(str(rate) for rate in RATES_BIT_PER_S),
            )

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A receiver terminated with 75\u202fΩ whose equaliser makes up "
            f"{show_plain(self.limit.limit_db, 'dB')} at half the clock, "
            f"{show_megahertz(self.limit.frequency_hz)}."
        )

    @property
    def name(self) -> str:
        """Serial video with its rate."""
        if self.rate_bit_per_s < 1_000_000_000:
            return f"serial video {self.rate_bit_per_s / 1e6:g} Mb/s"
        return f"serial video {self.rate_bit_per_s / 1e9:g} Gb/s"

    @property
    def limit(self) -> LossLimit:
        """The loss allowed at half the clock."""
        limit_db, text, basis = _LIMITS_DB[self.rate_bit_per_s]
        return LossLimit(
            frequency_hz=self.rate_bit_per_s / 2,
            limit_db=limit_db,
            guard_db=GUARD_DB,
            source=Source(text=text, basis=basis),
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the loss; where its limit looks odd, the sentence says why."""
        check = super().main_check(run, budget)
        if self.rate_bit_per_s != _JUMPS_AT:
            return check
        return replace(check, sentence=f"{check.sentence} {_WHY_SHORTER}")

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what is doubtful about the loss, what comes back, and whether one wave travels.

        Both up to the clock, where the spectrum has its first null.
        """
        clock_hz = float(self.rate_bit_per_s)
        return (
            *super().further_checks(run),
            *return_loss_check(run, EQUIPMENT_75, nominal_ohm=75.0, highest_hz=clock_hz),
            *one_wave_check(run, highest_hz=clock_hz),
        )

    def possible(self, run: Run) -> PhysicalReach | None:
        """Return the length at which heat alone would drown the signal; None where not known."""
        budget = self.budget(run)
        if not isinstance(budget, Budget):
            return None
        ceiling = ceiling_db(self.rate_bit_per_s)
        length_m = longest_within_m(budget, guard=budget.limit - ceiling)
        if length_m <= 0:
            return None
        return PhysicalReach(
            length_m=length_m,
            sentence=(
                f"The best receiver we can think of, with a matched equaliser and no noise but "
                f"heat (noise figure {show_in(NOISE_FIGURE_DB, 'dB', decimals=0)}), would still "
                f"read it behind {show_in(ceiling, 'dB', decimals=0)}, at about "
                f"{show_both_whole(length_m)}; nobody promises such a one."
            ),
            source=REACH_SOURCE,
        )
