"""Optical audio on plastic fibre: a ledger of power, in the worst case and with typical parts."""

from dataclasses import dataclass, replace

import numpy as np

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.fibre import OpticalLedger
from reelwright.core.quantities.show import show_both, show_db, show_plain_m
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

WORST_CASE = OpticalLedger(
    launch_dbm=-19.0, needed_dbm=-24.0, interfaces=2, interface_loss_db=1.0, ageing_db=1.0
)
"""Weakest transmitter [dBm], least sensitive receiver [dBm], two interfaces, 1 dB held back."""

TYPICAL = replace(WORST_CASE, launch_dbm=-17.0)
"""The same with the launch [dBm] of a usual transmitter."""

_SOURCE = Source(
    text=(
        "worst case of optical audio parts: −19 dBm launched, −24 dBm needed, two interfaces at "
        "1 dB, 1 dB for bends and age"
    ),
    basis=Basis.COMMON_PRACTICE,
)
_NAME = "light left over in the worst case"


@dataclass(frozen=True, kw_only=True)
class PlasticFibreAudio(JudgedSignal):
    """Digital audio on 1 mm plastic fibre."""

    check_name = _NAME
    check_source = _SOURCE

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=False, impedance_ohm=None
    )
    """One light guide."""

    families = (Family.FIBRE,)
    """Plastic fibre only."""

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return "A receiver that gets −24\u202fdBm of red light or more."

    @property
    def name(self) -> str:
        """Optical audio."""
        return "optical audio"

    def budget(self, run: Run) -> Budget | Reason:
        """Return the fibre's loss against what the worst-case ledger leaves for it."""
        loss = run.cable.sheet.optical_loss_db_per_m
        if loss is None:
            return Reason(
                code="optical-loss-missing",
                sentence=f"the optical loss of {run.cable.code} is not stated",
            )

        def used(lengths_m: FloatArray) -> FloatArray:
            return loss * lengths_m

        def spread(lengths_m: FloatArray) -> FloatArray:
            # No spread of plastic fibre is known to us: the worst case stands in for it.
            return np.zeros_like(lengths_m)

        return Budget(
            limit=WORST_CASE.fibre_budget_db,
            used=used,
            spread=spread,
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the worst case; a typical transmitter is told beside it."""
        length_m = run.length.mean_m
        margin = budget.margin_at(length_m)
        typical = TYPICAL.fibre_budget_db - budget.used_at(length_m)
        longest = budget.length_at_m(0.5) or 0.0
        worst = show_db(margin)
        if margin >= 0:
            sentence = (
                f"Over {show_both(length_m)} the weakest transmitter and the least sensitive "
                f"receiver still have {worst} to spare."
            )
        else:
            sentence = (
                f"Over {show_both(length_m)} the weakest transmitter with the least "
                f"sensitive receiver is {show_db(-margin)} short "
                f"(a usual transmitter would have {show_db(typical)}), so we do not "
                f"sell it as sure. Up to {show_plain_m(round(longest, 3))} we do."
            )
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=sentence,
            source=_SOURCE,
            value=budget.used_at(length_m),
            limit=budget.limit,
            margin=margin,
            unit="dB",
        )
