"""Treble lost in an audio cable: by its exact line where that is known, else by its capacitance."""

from abc import abstractmethod
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.audio import droop_db
from reelwright.core.physics.audio_line import open_line_loss_db
from reelwright.core.physics.lot_values import KnownValue, Stated, known_value
from reelwright.core.physics.sheet_line import SheetLine, line_of_sheet
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.quantities.show import show_both, show_both_whole, show_db, show_in, show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import spread_per_length
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

TOP_HZ = 20e3
"""Top of the audio band [Hz]."""

DROOP_LIMIT_DB = 0.5
"""Largest loss [dB] at the top of the band (common practice)."""

# From here on nobody calls it slight (common practice).
_PLAINLY_DULL_DB = 3.0
# Shown as "less than 0.01 dB", also where the cable's inductance lifts the treble by as little.
_NEXT_TO_NOTHING_DB = 1e-6

_SOURCE = Source(text="at most 0.5 dB at 20 kHz", basis=Basis.COMMON_PRACTICE)
_NAME = "treble lost at 20 kHz"


@dataclass(frozen=True, kw_only=True)
class SourceResistance:
    """The resistance [Ω] that feeds the cable; ``assumed`` where the customer did not state it."""

    resistance_ohm: float
    assumed: bool
    why: str

    def __post_init__(self) -> None:
        require_positive(self, "resistance_ohm")
        require_text(self, "why")


@lru_cache(maxsize=4096)
def _line_at(
    cable: Cable, lot: Lot | None, frequency_hz: float, temperature_celsius: float
) -> tuple[complex, float] | None:
    """R + jωL [Ω/m] and G over ωC [1] of the line in hand; None where it is not known there."""
    line = line_of_sheet(cable, lot)
    if not isinstance(line, SheetLine) or not line.lowest_hz <= frequency_hz <= line.highest_hz:
        return None
    at = line.parameters([frequency_hz], temperature_celsius=temperature_celsius)
    shunt = complex(at.admittance_siemens_per_m[0])
    return complex(at.series_impedance_ohm_per_m[0]), shunt.real / shunt.imag


def treble_loss_db(
    run: Run,
    lengths_m: FloatArray,
    *,
    source_ohm: float,
    capacitance_f_per_m: float,
    between: Stated,
    frequency_hz: float,
) -> FloatArray:
    """Return the level lost [dB] at the far end of a run, shape of ``lengths_m`` [m].

    ``source_ohm`` [Ω] into the line of that capacitance [F/m], with the resistance and inductance
    of the cable where its line is known; without them where it is not, and in a pair of which one
    core stands against all the rest, whose line no sheet states.
    """
    known = (
        _line_at(run.cable, run.lot, frequency_hz, run.temperature_celsius)
        if between is Stated.CAPACITANCE
        else None
    )
    if known is None:
        return droop_db(
            source_ohm=source_ohm,
            capacitance_f=capacitance_f_per_m * lengths_m,
            frequency_hz=frequency_hz,
        )
    series, tangent = known
    # The capacitance as stated or measured, since at audio that is what decides; the line's own
    # follows from impedance and delay.
    shunt = 2 * np.pi * frequency_hz * capacitance_f_per_m * (1j + tangent)
    lost = open_line_loss_db(
        source_ohm=source_ohm,
        series_ohm_per_m=series,
        shunt_siemens_per_m=shunt,
        length_m=lengths_m,
    )
    return np.maximum(lost, _NEXT_TO_NOTHING_DB)


class AudioSignal(JudgedSignal):
    """An analogue audio signal, judged by the treble its cable takes away."""

    check_name = _NAME
    check_source = _SOURCE

    @property
    @abstractmethod
    def source(self) -> SourceResistance:
        """What feeds the cable."""

    @abstractmethod
    def between(self, cable: Cable) -> Stated:
        """Return which of a cable's capacitances the source sees."""

    def capacitance(self, run: Run) -> KnownValue | None:
        """Return the capacitance [F/m] the source sees; None where it is not stated."""
        return known_value(run.cable, run.lot, self.between(run.cable))

    def budget(self, run: Run) -> Budget | Reason:
        """Return the treble lost at 20 kHz against the usual half decibel."""
        known = self.capacitance(run)
        if known is None:
            return Reason(
                code="capacitance-missing",
                sentence=f"the capacitance of {run.cable.code} is not stated",
            )
        per_metre, between = known.value, self.between(run.cable)

        def used(lengths_m: FloatArray) -> FloatArray:
            return treble_loss_db(
                run,
                lengths_m,
                source_ohm=self.source.resistance_ohm,
                capacitance_f_per_m=per_metre,
                between=between,
                frequency_hz=TOP_HZ,
            )

        return Budget(
            limit=DROOP_LIMIT_DB,
            used=used,
            spread=spread_per_length(used, spread=known.relative_uncertainty),
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the treble lost."""
        lost = budget.used_at(run.length.mean_m)
        margin = budget.margin_at(run.length.mean_m)
        known = self.capacitance(run)
        per_metre = 0.0 if known is None else known.value
        capacitance = show_quantity(per_metre * run.length.mean_m, "F")
        source = show_in(self.source.resistance_ohm, "Ω", decimals=0)
        fed = f"a source of {source}"
        if self.source.assumed:
            fed += f" (assumed: {self.source.why})"
        longest = budget.length_at_m(0.5)
        amount = show_db(lost)
        ending = (
            f"well within the {show_plain(DROOP_LIMIT_DB, 'dB')} usually allowed."
            if margin >= 0
            else f"more than the {show_plain(DROOP_LIMIT_DB, 'dB')} usually allowed: "
            + ("slightly dull." if lost < _PLAINLY_DULL_DB else "dull.")
            + ("" if longest is None else f" It holds up to {show_both_whole(longest)}.")
        )
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"{show_both(run.length.mean_m)} of {run.cable.code} has {capacitance}; from "
                f"{fed} it takes {amount} off the treble at 20\u202fkHz, {ending}"
            ),
            source=_SOURCE,
            value=lost,
            limit=DROOP_LIMIT_DB,
            margin=margin,
            unit="dB",
        )
