"""Digital audio on 75 Ω coax, consumer form."""

from dataclasses import dataclass

from reelwright.core.quantities.show import show_plain_m
from reelwright.core.signals.biphase import Levels
from reelwright.core.signals.digital_audio_coax import DigitalAudioCoax
from reelwright.core.signals.echo import Equipment
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

QUIET_LENGTH_M = 50.0
"""Up to here [m] loss rarely limits, and neither do reflections and ground (common practice)."""

# 20 log10(0.5 V / 0.2 V): a launch of 0.5 V peak to peak and a receiver that needs 0.2 V.
_LIMIT_DB = 7.96
_SOURCE = Source(
    text="IEC 60958 consumer interface: 0.5 V launched, 0.2 V needed, so 8 dB at the cell rate",
    basis=Basis.FROM_MEMORY,
)
LEVELS = Levels(
    launched_v=0.5,
    needed_v=0.2,
    source=Source(
        text="IEC 60958 consumer interface: 0.5 V launched, 0.2 V needed", basis=Basis.FROM_MEMORY
    ),
)
"""Launched and needed [V peak to peak]."""

EQUIPMENT = Equipment(
    source_low_ohm=60.0,
    source_high_ohm=90.0,
    load_low_ohm=71.25,
    load_high_ohm=78.75,
    edge_s=5e-9,
)
"""What is allowed: 75 Ω ± 20 % of the source, ± 5 % of the receiver, as a summary has it.

No rise time is stated for this form: the fastest of the balanced one stands in.
"""


@dataclass(frozen=True, kw_only=True)
class DigitalAudio75(DigitalAudioCoax):
    """Consumer digital audio at ``sample_rate_hz`` [Hz], one of ``SAMPLE_RATES_HZ``."""

    loss_limit_db = _LIMIT_DB
    loss_source = _SOURCE
    levels = LEVELS
    equipment = EQUIPMENT

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A receiver terminated with 75\u202fΩ that gets 0.2\u202fV or more, with echoes too "
            "small to move its edges."
        )

    @property
    def name(self) -> str:
        """Coaxial digital audio with its sample rate."""
        return f"coaxial digital audio {self.sample_rate_hz / 1e3:g} kHz"

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what both forms ask, and a caution for a run that is long."""
        return (*super().further_checks(run), *_long(run))


def _long(run: Run) -> tuple[Check, ...]:
    if run.length.mean_m <= QUIET_LENGTH_M:
        return ()
    return (
        Check(
            name="long run",
            outcome=Outcome.CAUTION,
            sentence=(
                f"Beyond {show_plain_m(QUIET_LENGTH_M)} reflections and differences of ground "
                "decide rather than loss; try it before relying on it."
            ),
            source=Source(text="50 m for consumer digital audio", basis=Basis.COMMON_PRACTICE),
            value=run.length.mean_m,
            limit=QUIET_LENGTH_M,
            margin=QUIET_LENGTH_M - run.length.mean_m,
            unit="m",
        ),
    )
