"""Word clock on 75 Ω coax: a square wave at the sample rate that must arrive steep and high enough.

Its edges carry it, not its frequency: what length uses up is the rise at the far end. The level is
decided by the termination, which is where most word clocks fail.
"""

from dataclasses import dataclass

import numpy as np

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.physics.rod_rise import rise_over_turn
from reelwright.core.physics.root_line import RISE_OVER_TAU, root_time_s
from reelwright.core.physics.sheet_line import UNKNOWN_BELOW_HZ
from reelwright.core.quantities.guard import require_count
from reelwright.core.quantities.show import show_both, show_both_whole, show_plain
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.answer import not_computed
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import (
    spread_by_change,
    warm_conductor_ohm_per_m,
    warm_screen_ohm_per_m,
)
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_loss import LossLimit, loss_doubts
from reelwright.core.signals.run import Run
from reelwright.core.signals.termination import (
    LINE_OHM,
    TAP_CAPACITANCE_F,
    Ending,
    FarEnd,
    delay_check,
    termination_check,
)
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

SLOWEST_RISE_S = 500e-9
"""Longest rise [s] that a logic input must take: HC logic at 4.5 V, JESD7-A, from memory."""

OPEN_SOURCE_V = 5.0
"""What the source gives without a load [V], behind 75 Ω: half of it on the line."""

NEEDED_V = 2.0
"""Level [V] from which a logic input must see a one: TTL, from memory."""

LAUNCHED_RISE_S = 10e-9
"""Rise [s] at the source (common practice)."""

LATE_PART = 0.05
"""Part of the sample period [1] by which a device may be out of step: AES11, from memory."""

RISE_REFERENCE_HZ = 10e6
"""Where the loss is taken that stands for the whole edge, and for its spread [Hz]."""

_RISE_SOURCE = Source(
    text="JESD7-A: a logic input must take a rise of up to 500 ns at 4.5 V", basis=Basis.FROM_MEMORY
)
_LEVEL_SOURCE = Source(
    text="TTL: 2.0 V is a one; 5 V behind 75 Ω is the usual output", basis=Basis.FROM_MEMORY
)
_DELAY_SOURCE = Source(
    text="AES11: a device in step within 5 % of the sample period", basis=Basis.FROM_MEMORY
)
_NAME = "rise at the far end"
_LEVEL_NAME = "level at the far end"


def line_rise_s(run: Run, known: KnownLoss, lengths_m: FloatArray) -> FloatArray:
    """Return the rise that the line alone gives a step [s], 10 to 90 %, shape of ``lengths_m`` [m].

    By the exact rod where its resistance at rest is stated; where it is not, by the root of
    frequency from the loss at 10 MHz, which is longer, on the safe side.
    """
    line = known.line
    if line.lowest_hz >= UNKNOWN_BELOW_HZ:
        per_metre = known.loss_db_per_m(
            RISE_REFERENCE_HZ, temperature_celsius=run.temperature_celsius
        )
        tau = root_time_s(loss_db=per_metre * lengths_m, frequency_hz=RISE_REFERENCE_HZ)
        return RISE_OVER_TAU * tau
    warmer = temperature_factor(run.temperature_celsius)
    rest = warmer * line.direct_ohm_per_m / (2 * line.impedance_ohm)
    rise: FloatArray = line.skin_per_root_hz**2 / warmer * rise_over_turn(rest * lengths_m)
    return rise


@dataclass(frozen=True, kw_only=True)
class WordClock(JudgedSignal):
    """Word clock at ``sample_rate_hz`` [Hz] on a line with that ``ending``."""

    sample_rate_hz: int
    ending: Ending

    check_name = _NAME
    check_source = _RISE_SOURCE
    margin_unit = "ns"
    """Nanoseconds of rise."""

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=LINE_OHM
    )
    """One conductor and a screen, 75 Ω."""

    families = (Family.COAX,)
    """Coax only."""

    def __post_init__(self) -> None:
        require_count(self, "sample_rate_hz", at_least=1)

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return (
            "An input that gets 2\u202fV or more, rising within 500\u202fns; one termination of "
            "75\u202fΩ at the last input and nowhere else."
        )

    @property
    def name(self) -> str:
        """Word clock with its rate, and its ending where that is not the plain one."""
        return f"word clock {self.sample_rate_hz / 1e3:g} kHz{self.ending.words}"

    def rise_ns(self, run: Run, known: KnownLoss, lengths_m: FloatArray) -> FloatArray:
        """Return the rise at the far end [ns], 10 to 90 %, shape of ``lengths_m`` [m].

        The line's own, the source's and that of each bridging input's capacitance on two lines of
        75 Ω, added by their squares.
        """
        return self._rise_ns(run, known, lengths_m, more=1.0)

    def _rise_ns(
        self, run: Run, known: KnownLoss, lengths_m: FloatArray, *, more: float
    ) -> FloatArray:
        # 2.2·RC each, with R the two directions of the line in parallel.
        tap = 2.2 * LINE_OHM / 2 * TAP_CAPACITANCE_F
        launched = np.hypot(LAUNCHED_RISE_S, tap * np.sqrt(self.ending.taps))
        rise: FloatArray = 1e9 * np.hypot(launched, more**2 * line_rise_s(run, known, lengths_m))
        return rise

    def budget(self, run: Run) -> Budget | Reason:
        """Return the rise at the far end against what a logic input must take."""
        known = known_loss(run.cable, run.lot)
        if isinstance(known, Reason):
            return known

        def used(lengths_m: FloatArray) -> FloatArray:
            return self._rise_ns(run, known, lengths_m, more=1.0)

        def spread(lengths_m: FloatArray) -> FloatArray:
            return spread_by_change(
                used(lengths_m),
                self._rise_ns(run, known, lengths_m, more=1.001),
                relative_change=0.001,
                spread=known.spread_at(RISE_REFERENCE_HZ),
            )

        return Budget(
            limit=1e9 * SLOWEST_RISE_S,
            used=used,
            spread=spread,
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the rise."""
        used, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
        longest = budget.length_at_m(0.5)
        allowed = show_quantity(SLOWEST_RISE_S, "s")
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"Over {show_both(run.length.mean_m)} of {run.cable.code} the edges of the word "
                f"clock rise within {show_quantity(used * 1e-9, 's', digits=2)}; "
                + (
                    f"an input takes up to {allowed}."
                    if margin >= 0
                    else f"an input need not take more than {allowed}."
                    + ("" if longest is None else f" They do up to {show_both_whole(longest)}.")
                )
            ),
            source=_RISE_SOURCE,
            value=used,
            limit=budget.limit,
            margin=margin,
            unit="ns",
        )

    def unknown(self, run: Run, reason: Reason) -> Check:
        """Return that the rise is not computed, and why."""
        return super().unknown(
            run, Reason(code=reason.code, sentence=f"for {run.cable.code} {reason.sentence}")
        )

    def level_v(self, run: Run) -> tuple[float, bool] | None:
        """Return the level at the far end once it has settled [V], and whether it is exact.

        The divider of source, line and ending, by the resistance out and back. Where that of the
        screen is not stated the loss at the lowest frequency known stands in, which is more: the
        level is then that or higher. None where no loss is known either.
        """
        conductor, screen = warm_conductor_ohm_per_m(run), warm_screen_ohm_per_m(run)
        load, length_m = self.ending.load_ohm, run.length.mean_m
        if not isinstance(conductor, Reason) and screen is not None:
            loop = (conductor + screen) * length_m
            return OPEN_SOURCE_V * load / (load + LINE_OHM + loop), True
        known = known_loss(run.cable, run.lot)
        if isinstance(known, Reason):
            return None
        at_most = length_m * float(
            known.loss_db_per_m(known.line.lowest_hz, temperature_celsius=run.temperature_celsius)
        )
        at_least = OPEN_SOURCE_V * load / (load + LINE_OHM) * 10 ** (-at_most / 20)
        return float(at_least), False

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return level, end of the line, delay and what is doubtful about the loss."""
        at_reference = LossLimit(
            frequency_hz=RISE_REFERENCE_HZ, limit_db=0.0, guard_db=0.0, source=_RISE_SOURCE
        )
        return (
            *self._level(run),
            termination_check(run, self.ending),
            *delay_check(
                run,
                limit_s=LATE_PART / self.sample_rate_hz,
                of_what="5\u202f% of a sample",
                source=_DELAY_SOURCE,
            ),
            *loss_doubts(run, at_reference),
        )

    def _level(self, run: Run) -> tuple[Check, ...]:
        found = self.level_v(run)
        if found is None:
            return ()
        level, exact = found
        margin = level - NEEDED_V
        # Two terminations leave 1.67 V whatever the line: that is a no without its resistance.
        without_line = OPEN_SOURCE_V * self.ending.load_ohm / (self.ending.load_ohm + LINE_OHM)
        if not exact and margin < 0 <= without_line - NEEDED_V:
            return (
                not_computed(
                    name=_LEVEL_NAME,
                    because=(
                        f"the resistance of the screen of {run.cable.code} is not stated, and the "
                        "level over such a length depends on it"
                    ),
                    source=_LEVEL_SOURCE,
                    unit="V",
                ),
            )
        told = "" if exact else "at least "
        if not exact and margin < 0:
            level, told = without_line, "no more than "
            margin = level - NEEDED_V
        because = {
            FarEnd.TWICE: ", because two terminations stand in parallel: take one off",
            FarEnd.OPEN: ", as nothing ends the line",
            FarEnd.TERMINATED: "",
        }[self.ending.far_end]
        return (
            Check(
                name=_LEVEL_NAME,
                outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
                sentence=(
                    f"Of {show_plain(OPEN_SOURCE_V, 'V')} behind 75\u202fΩ the far end gets "
                    f"{told}{show_quantity(level, 'V')}{because}; "
                    f"{show_plain(NEEDED_V, 'V')} are needed."
                ),
                source=_LEVEL_SOURCE,
                value=level,
                limit=NEEDED_V,
                margin=margin,
                unit="V",
            ),
        )
