"""Serial digital video on 75 Ω coax: loss at half the clock."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.quantities.show import show_plain
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.signals.practice import GUARD_DB
from reelwright.core.verdicts import Basis, Source

# Why the limit jumps from 20 to 40 dB between 2.97 and 5.94 Gb/s, and the longest run with it: the
# two later standards were written for receivers with stronger equalisers. It is not smoothed here.
_JUMP = (
    "; the limit at 5.94 Gb/s is 40 dB, written for stronger equalisers, so that the run allowed "
    "at 2.97 Gb/s is the shorter one"
)
_LIMITS_DB: dict[int, tuple[float, str]] = {
    270_000_000: (30.0, "30 dB at half the clock, SMPTE ST 259"),
    1_485_000_000: (20.0, "20 dB at half the clock, SMPTE ST 292-1"),
    2_970_000_000: (20.0, "20 dB at half the clock, SMPTE ST 424" + _JUMP),
    5_940_000_000: (40.0, "40 dB at half the clock, SMPTE ST 2081-1"),
    11_880_000_000: (40.0, "40 dB at half the clock, SMPTE ST 2082-1"),
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
        limit_db, text = _LIMITS_DB[self.rate_bit_per_s]
        return LossLimit(
            frequency_hz=self.rate_bit_per_s / 2,
            limit_db=limit_db,
            guard_db=GUARD_DB,
            source=Source(text=text, basis=Basis.FROM_MEMORY),
        )
