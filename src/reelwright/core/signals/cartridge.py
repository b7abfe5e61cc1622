"""A moving-magnet cartridge: the capacitance of cable and input together is what it is made for."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.coil_source import CoilSource
from reelwright.core.physics.lot_values import known_value
from reelwright.core.quantities.guard import require_given, require_not_negative, require_positive
from reelwright.core.quantities.show import show_both, show_both_whole, show_change_db, show_in
from reelwright.core.quantities.show_scaled import show_frequency_hz, show_quantity
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import spread_per_length
from reelwright.core.signals.hum import EarthCurrent, hum_checks
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_audio import unbalanced_between
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

LOAD_OHM = 47e3
"""Resistance [Ω] of an input for moving-magnet cartridges: IEC 61938, from memory."""

USUAL_COIL_H, USUAL_COIL_OHM = 0.5, 1000.0
"""A usual moving-magnet coil [H], [Ω] (common practice, no published source)."""

RESPONSE_LIMIT_DB = 2.0
"""Largest change [dB] at 20 kHz from the middle of the recommended range (common practice)."""

TURNTABLE = EarthCurrent(
    current_a=10e-6,
    why="with the turntable's own earth wire connected",
    signal_v=5e-3,
    instead="a shorter one hums less",
)
"""What a turntable sends through its lead (common practice): 5 mV, and little on the screen."""

_TOP_HZ, _MIDDLE_HZ = 20e3, 1e3
_NAME = "load capacitance"
_RANGE = Source(
    text="range of load capacitance that the cartridge is made for", basis=Basis.CUSTOMER
)
_RESPONSE = Source(
    text="at most 2 dB at 20 kHz from the middle of the cartridge's range",
    basis=Basis.COMMON_PRACTICE,
)


@dataclass(frozen=True, kw_only=True)
class Cartridge(JudgedSignal):
    """A cartridge that wants ``lowest_f`` to ``highest_f`` [F], with ``input_f`` [F] at its input.

    ``coil_henry`` [H] and ``coil_ohm`` [Ω] are None where the customer did not state them; a usual
    coil then stands in for resonance and response, and decides nothing.
    """

    lowest_f: float
    highest_f: float
    input_f: float
    coil_henry: float | None
    coil_ohm: float | None

    check_name = _NAME
    check_source = _RANGE
    margin_unit = "F"

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=None
    )
    """One conductor and a screen for each channel."""

    families = (Family.COAX, Family.PAIR)
    """Coax, or a screened pair of which one leg is used."""

    def __post_init__(self) -> None:
        require_not_negative(self, "lowest_f", "input_f")
        require_positive(self, "highest_f")
        require_given(self, "coil_henry", "coil_ohm")
        if self.lowest_f > self.highest_f:
            raise BadValue(
                owner="Cartridge",
                field="lowest_f",
                value=self.lowest_f,
                accepted=f"{self.highest_f} or less",
            )

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "A phono input of 47\u202fkΩ. With the cable it has to come to the capacitance that "
            "the cartridge is made for; the wiring in the arm adds a little of its own."
        )

    @property
    def name(self) -> str:
        """Moving-magnet cartridge."""
        return "moving-magnet cartridge"

    @property
    def coil(self) -> CoilSource:
        """The coil as stated, else a usual one, into 47 kΩ."""
        return CoilSource(
            coil_henry=self.coil_henry or USUAL_COIL_H,
            coil_ohm=self.coil_ohm or USUAL_COIL_OHM,
            own_f=0.0,
            load_ohm=LOAD_OHM,
        )

    def budget(self, run: Run) -> Budget | Reason:
        """Return the capacitance of cable and input against the most the cartridge takes."""
        known = known_value(run.cable, run.lot, unbalanced_between(run.cable))
        if known is None:
            return Reason(
                code="capacitance-missing",
                sentence=f"the capacitance of {run.cable.code} is not stated",
            )
        per_metre = known.value

        def used(lengths_m: FloatArray) -> FloatArray:
            return self.input_f + per_metre * lengths_m

        return Budget(
            limit=self.highest_f,
            used=used,
            spread=spread_per_length(used, spread=known.relative_uncertainty),
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the load capacitance: too much is a no, too little can be added."""
        total, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
        lacking = self.lowest_f - total
        start = (
            f"{show_both(run.length.mean_m)} of {run.cable.code} has "
            f"{_picofarad(total - self.input_f)}; with {_picofarad(self.input_f)} "
            f"of the input the cartridge sees {_picofarad(total)}"
        )
        asked = f"{_picofarad(self.lowest_f)} to {_picofarad(self.highest_f)}"
        longest = budget.length_at_m(0.5)
        if margin < 0:
            outcome = Outcome.BAD
            rest = f", more than the {asked} it is made for. " + (
                "The input alone has too much."
                if not longest
                else f"This cable keeps to it up to {show_both_whole(longest)}."
                if longest >= 1
                else "A cable of lower capacitance or a shorter one is needed."
            )
        elif lacking > 0:
            outcome = Outcome.CAUTION
            rest = (
                f", less than the {asked} it is made for: set the input to "
                f"{_picofarad(lacking)} more."
            )
        else:
            outcome, rest = Outcome.GOOD, f", within the {asked} it is made for."
        return Check(
            name=_NAME,
            outcome=outcome,
            sentence=start + rest,
            source=_RANGE,
            value=total,
            limit=self.lowest_f if outcome is Outcome.CAUTION else self.highest_f,
            margin=-lacking if outcome is Outcome.CAUTION else margin,
            unit="F",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return resonance with the response at 20 kHz, and hum where the screen is known."""
        budget = self.budget(run)
        if isinstance(budget, Reason):
            return ()
        return (self._response(budget.used_at(run.length.mean_m)), *hum_checks(run, TURNTABLE))

    def _response(self, total_f: float) -> Check:
        coil, wanted = self.coil, (self.lowest_f + self.highest_f) / 2

        def at_top_db(capacitance_f: float) -> float:
            levels = coil.response_db(np.array([_MIDDLE_HZ, _TOP_HZ]), capacitance_f=capacitance_f)
            return float(levels[1] - levels[0])

        now, made_for = at_top_db(total_f), at_top_db(wanted)
        away = now - made_for
        usual = "" if self.coil_henry and self.coil_ohm else " (a usual coil, as not all is stated)"
        good = abs(away) <= RESPONSE_LIMIT_DB
        return Check(
            name="response at 20 kHz",
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"A coil of {show_quantity(coil.coil_henry, 'H')} and "
                f"{show_quantity(coil.coil_ohm, 'Ω')}{usual} resonates at "
                f"{show_frequency_hz(float(coil.resonance_hz(total_f)), digits=3)} with it; at "
                f"20\u202fkHz it gives {show_change_db(now)} against 1\u202fkHz, "
                f"{show_change_db(away)} from the middle of the range it is made for"
                + ("." if good else ": it will sound otherwise than meant.")
            ),
            source=_RESPONSE,
            value=away,
            limit=RESPONSE_LIMIT_DB,
            margin=RESPONSE_LIMIT_DB - abs(away),
            unit="dB",
        )


def _picofarad(capacitance_f: float) -> str:
    return show_in(capacitance_f * 1e12, "pF", decimals=0)
