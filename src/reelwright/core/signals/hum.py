"""Hum of an unbalanced run: a mains current on the screen, which is the signal's way back too."""

from dataclasses import dataclass

import numpy as np

from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.audio import hum_v
from reelwright.core.physics.lot_values import Stated
from reelwright.core.quantities.guard import require_positive, require_text
from reelwright.core.quantities.show import show_both, show_both_whole, show_in
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.quantities.words import sentence
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import (
    relative_spread,
    spread_per_length,
    warm_screen_ohm_per_m,
)
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

HUM_LIMIT_DB = -80.0
"""Loudest hum [dB] against the signal (common practice)."""

CONTACT_OHM = 5e-3
"""Resistance [Ω] of the screen's contact at each end (common practice)."""

HUM_NAME = "hum"
HUM_SOURCE = Source(text="hum 80 dB or more below the signal", basis=Basis.COMMON_PRACTICE)


@dataclass(frozen=True, kw_only=True)
class EarthCurrent:
    """What flows along the screen, and the signal it is heard against.

    ``current_a`` [A] is assumed, always: nobody knows it before everything is plugged in; ``why``
    says where it comes from. ``signal_v`` [V] is the signal's usual level, ``instead`` what hums
    less.
    """

    current_a: float
    why: str
    signal_v: float
    instead: str

    def __post_init__(self) -> None:
        require_positive(self, "current_a", "signal_v")
        require_text(self, "why", "instead")


CONSUMER_LINE = EarthCurrent(
    current_a=0.25e-3,
    why="the most that equipment without an earth pin may leak, IEC 62368-1, from memory",
    signal_v=0.316,
    instead="a balanced line has next to none",
)
"""Line level between consumer equipment: −10 dBV (common practice)."""


def hum_budget(run: Run, earth: EarthCurrent) -> Budget | Reason:
    """Return the hum of a run against what is usually allowed, or why it is not known."""
    screen = warm_screen_ohm_per_m(run)
    if screen is None:
        return Reason(
            code="screen-resistance-missing",
            sentence=f"the resistance of the screen of {run.cable.code} is not stated",
        )

    def used(lengths_m: FloatArray) -> FloatArray:
        hum = hum_v(
            current_a=earth.current_a,
            screen_ohm_per_m=screen,
            length_m=lengths_m,
            contact_ohm=CONTACT_OHM,
        )
        level: FloatArray = 20 * np.log10(hum / earth.signal_v)
        return level

    return Budget(
        limit=HUM_LIMIT_DB,
        used=used,
        spread=spread_per_length(used, spread=relative_spread(run, Stated.SCREEN_RESISTANCE)),
        length_relative_uncertainty=run.length_relative_uncertainty,
    )


def judge_hum(run: Run, earth: EarthCurrent, budget: Budget, *, too_loud: Outcome) -> Check:
    """Return the check of the hum; ``too_loud`` is its outcome where the limit is passed."""
    level, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
    screen = warm_screen_ohm_per_m(run) or 0.0
    resistance = show_quantity(screen * run.length.mean_m + 2 * CONTACT_OHM, "Ω")
    start = (
        f"The screen over {show_both(run.length.mean_m)} and its two contacts have {resistance}; "
        f"{show_quantity(earth.current_a, 'A', digits=2)} of mains current on it (assumed: "
        f"{earth.why}) hums {_below(level)} the signal"
    )
    usual = show_in(-HUM_LIMIT_DB, "dB", decimals=0)
    if margin >= 0:
        rest = f"; {usual} or more is usual."
    else:
        longest = budget.length_at_m(0.5)
        # Contacts alone may hum too much, and then no length of it would do.
        kept = longest is not None and longest >= 1
        rest = f", less than the usual {usual}. " + (
            f"This cable keeps to it up to {show_both_whole(longest or 0.0)}; a heavier screen "
            f"goes further, and {earth.instead}."
            if kept
            else sentence(earth.instead)
        )
    return Check(
        name=HUM_NAME,
        outcome=Outcome.GOOD if margin >= 0 else too_loud,
        sentence=start + rest,
        source=HUM_SOURCE,
        value=level,
        limit=HUM_LIMIT_DB,
        margin=margin,
        unit="dB",
    )


def _below(level_db: float) -> str:
    below = show_in(abs(level_db), "dB", decimals=0)
    return f"{below} below" if level_db <= 0 else f"{below} above"


def hum_checks(run: Run, earth: EarthCurrent) -> tuple[Check, ...]:
    """Return the hum as a caution beside another judgement; nothing where it is not known."""
    budget = hum_budget(run, earth)
    if isinstance(budget, Reason):
        return ()
    return (judge_hum(run, earth, budget, too_loud=Outcome.CAUTION),)
