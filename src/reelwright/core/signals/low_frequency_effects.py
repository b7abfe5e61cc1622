"""A subwoofer fed at line level: hum decides, since it is just what a subwoofer plays."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.lot_values import known_value
from reelwright.core.quantities.show import show_both, show_db
from reelwright.core.signals.audio_band import treble_loss_db
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.hum import (
    CONSUMER_LINE,
    HUM_NAME,
    HUM_SOURCE,
    hum_budget,
    judge_hum,
)
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_audio import ASSUMED_SOURCE_OHM, unbalanced_between
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

TOP_HZ = 200.0
"""Nothing above this [Hz] is sent to a subwoofer (common practice)."""

LEVEL_LIMIT_DB = 0.5
"""Largest loss [dB] at the top of what a subwoofer plays (common practice)."""

_LEVEL = Source(text="at most 0.5 dB at 200 Hz", basis=Basis.COMMON_PRACTICE)


@dataclass(frozen=True, kw_only=True)
class LowFrequencyEffects(JudgedSignal):
    """The unbalanced line to a subwoofer with an amplifier of its own."""

    check_name = HUM_NAME
    check_source = HUM_SOURCE

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=None
    )
    """One conductor and a screen."""

    families = (Family.COAX, Family.PAIR)
    """Coax, or a screened pair of which one leg is used."""

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A subwoofer with its own amplifier that gets its line without mains hum, which it "
            "plays as loud as the music."
        )

    @property
    def name(self) -> str:
        """Line to a subwoofer."""
        return "subwoofer line"

    def budget(self, run: Run) -> Budget | Reason:
        """Return the hum against what is usually allowed."""
        return hum_budget(run, CONSUMER_LINE)

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the hum."""
        return judge_hum(run, CONSUMER_LINE, budget, too_loud=Outcome.BAD)

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return the level lost at 200 Hz: what dulls line audio is out of reach down there."""
        between = unbalanced_between(run.cable)
        known = known_value(run.cable, run.lot, between)
        if known is None:
            return ()
        lost = float(
            treble_loss_db(
                run,
                np.array([run.length.mean_m]),
                source_ohm=ASSUMED_SOURCE_OHM,
                capacitance_f_per_m=known.value,
                between=between,
                frequency_hz=TOP_HZ,
            )[0]
        )
        good = lost <= LEVEL_LIMIT_DB
        return (
            Check(
                name="level lost at 200 Hz",
                outcome=Outcome.GOOD if good else Outcome.BAD,
                sentence=(
                    f"At 200\u202fHz, the top of what a subwoofer plays, "
                    f"{show_both(run.length.mean_m)} of {run.cable.code} takes {show_db(lost)}"
                    + (
                        ": its capacitance does not matter here."
                        if good
                        else f", more than the {show_db(LEVEL_LIMIT_DB)} usually allowed."
                    )
                ),
                source=_LEVEL,
                value=lost,
                limit=LEVEL_LIMIT_DB,
                margin=LEVEL_LIMIT_DB - lost,
                unit="dB",
            ),
        )
