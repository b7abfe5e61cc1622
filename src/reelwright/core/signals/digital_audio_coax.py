"""What both forms of digital audio on 75 Ω coax share: the rates, where loss counts, the checks."""

from dataclasses import dataclass
from typing import ClassVar

from reelwright.core.errors import BadValue
from reelwright.core.signals.biphase import Levels, cell_rate_hz, fundamental_hz, level_check
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.echo import Equipment, echo_check
from reelwright.core.signals.line_loss import LossLimit
from reelwright.core.signals.practice import GUARD_DB
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check, Source

SAMPLE_RATES_HZ = (44_100, 48_000, 96_000, 192_000)
"""Sample rates [Hz] that are known; the cell rate is 128 times as high (IEC 60958)."""


@dataclass(frozen=True, kw_only=True)
class DigitalAudioCoax(CoaxSignal):
    """Digital audio on coax at ``sample_rate_hz`` [Hz], one of ``SAMPLE_RATES_HZ``."""

    loss_limit_db: ClassVar[float]
    loss_source: ClassVar[Source]
    levels: ClassVar[Levels]
    equipment: ClassVar[Equipment]

    sample_rate_hz: int

    def __post_init__(self) -> None:
        if self.sample_rate_hz not in SAMPLE_RATES_HZ:
            raise BadValue(
                owner=type(self).__name__,
                field="sample_rate_hz",
                value=self.sample_rate_hz,
                accepted=", ".join(str(rate) for rate in SAMPLE_RATES_HZ),
            )

    @property
    def limit(self) -> LossLimit:
        """The loss allowed at the cell rate, 128 times the sample rate: ``biphase`` says why."""
        return LossLimit(
            frequency_hz=cell_rate_hz(self.sample_rate_hz),
            limit_db=self.loss_limit_db,
            guard_db=GUARD_DB,
            source=self.loss_source,
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return level, echoes and what is doubtful about the loss."""
        return (
            *level_check(run, sample_rate_hz=self.sample_rate_hz, levels=self.levels),
            *echo_check(
                run,
                equipment=self.equipment,
                fundamental_hz=fundamental_hz(self.sample_rate_hz),
                cell_s=1 / cell_rate_hz(self.sample_rate_hz),
            ),
            *super().further_checks(run),
        )
