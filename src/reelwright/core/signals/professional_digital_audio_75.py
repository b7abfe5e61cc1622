"""Digital audio on 75 Ω coax, professional form: twice the level, matched ends, long runs."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.physics.terminations import near_reflection, return_loss
from reelwright.core.physics.two_port import cascade, line
from reelwright.core.quantities.show import show_db, show_plain
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.biphase import Levels, cell_rate_hz
from reelwright.core.signals.digital_audio_coax import DigitalAudioCoax
from reelwright.core.signals.echo import Equipment
from reelwright.core.signals.plug_section import plug_section
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_SOURCE = Source(
    text="AES-3id and SMPTE 276M: 1 V ± 10 % launched, an eye of 0.32 V needed, no equaliser",
    basis=Basis.FROM_MEMORY,
)
LEVELS = Levels(launched_v=0.9, needed_v=0.32, source=_SOURCE)
"""The weakest launch, and the eye needed [V peak to peak]."""

# 20 log10(0.9 V / 0.32 V).
_LIMIT_DB = 8.98

RETURN_LOSS_DB = 25.0
"""Return loss [dB] of source and receiver, 0.1 to 6 MHz."""

_RETURN_SOURCE = Source(
    text="25 dB from 0.1 to 6 MHz, AES3 and SMPTE 276M as an equipment manual gives them",
    basis=Basis.PUBLISHED,
)
_AWAY = 10 ** (-RETURN_LOSS_DB / 20)
_LOW_OHM, _HIGH_OHM = 75 * (1 - _AWAY) / (1 + _AWAY), 75 * (1 + _AWAY) / (1 - _AWAY)
EQUIPMENT = Equipment(
    source_low_ohm=_LOW_OHM,
    source_high_ohm=_HIGH_OHM,
    load_low_ohm=_LOW_OHM,
    load_high_ohm=_HIGH_OHM,
    edge_s=5e-9,
)
"""What 25 dB leave to both.

AES-3id slows its edges to 30 to 44 ns (from memory); the balanced form's 5 ns are on the safe side,
as equipment for both exists.
"""


@dataclass(frozen=True, kw_only=True)
class ProfessionalDigitalAudio75(DigitalAudioCoax):
    """Professional digital audio on coax at ``sample_rate_hz`` [Hz], one of SAMPLE_RATES_HZ."""

    loss_limit_db = _LIMIT_DB
    loss_source = _SOURCE
    levels = LEVELS
    equipment = EQUIPMENT

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A receiver terminated with 75\u202fΩ, return loss 25\u202fdB or more, that gets "
            "0.32\u202fV or more; with an equaliser it reaches further than is promised here."
        )

    @property
    def name(self) -> str:
        """Professional coaxial digital audio with its sample rate."""
        return f"professional coaxial digital audio {self.sample_rate_hz / 1e3:g} kHz"

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return what both forms ask, and the return loss."""
        return (
            *super().further_checks(run),
            *_return_loss(run, highest_hz=cell_rate_hz(self.sample_rate_hz)),
        )


def return_loss_db(run: Run, *, highest_hz: float) -> float | None:
    """Return the least return loss [dB] of a run with its plugs up to ``highest_hz`` [Hz].

    Seen from the source, with 75 Ω at the far end, all exact; None where the line of the cable is
    not known.
    """
    known = line_of_sheet(run.cable, run.lot)
    if not isinstance(known, SheetLine) or highest_hz <= known.lowest_hz:
        return None
    frequency = np.linspace(max(known.lowest_hz, 1e5), highest_hz, 97)
    parameters = known.parameters(frequency, temperature_celsius=run.temperature_celsius)
    near, far = (
        plug_section(end).two_port(frequency_hz=frequency, reference_ohm=75.0)
        for end in run.connectors
    )
    whole = cascade(
        near, line(parameters=parameters, length_m=run.length.mean_m, reference_ohm=75.0), far
    )
    return float(return_loss(near_reflection(whole, load_ohm=75.0)).min())


def _return_loss(run: Run, *, highest_hz: float) -> tuple[Check, ...]:
    found = return_loss_db(run, highest_hz=highest_hz)
    if found is None:
        return ()
    good = found >= RETURN_LOSS_DB
    return (
        Check(
            name="return loss",
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"With its plugs the run sends back {show_db(found)} less than it gets, up to "
                f"{show_megahertz(highest_hz)}; {show_plain(RETURN_LOSS_DB, 'dB')} are asked of "
                "the equipment at its ends"
                + (", and the cable does not spoil them." if good else ", and the cable spoils it.")
            ),
            source=_RETURN_SOURCE,
            value=found,
            limit=RETURN_LOSS_DB,
            margin=found - RETURN_LOSS_DB,
            unit="dB",
        ),
    )
