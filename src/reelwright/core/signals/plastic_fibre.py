"""Optical audio on plastic fibre: a ledger of power, in the worst case and with typical parts."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.fibre import (
    ACRYLIC_FIBRE,
    RADIUS_TESTED_M,
    OpticalLedger,
    bend_allowance_db,
)
from reelwright.core.quantities.guard import require_given, require_positive
from reelwright.core.quantities.show import (
    show_both,
    show_db,
    show_in,
    show_length_mm,
    show_percent,
    show_plain,
    show_plain_m,
)
from reelwright.core.quantities.show_scaled import show_dbm
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.judgement import PhysicalReach
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

WORST_CASE = OpticalLedger(
    launch_dbm=-19.0, needed_dbm=-24.0, interfaces=2, interface_loss_db=1.0, ageing_db=1.0
)
"""Weakest launch [dBm] behind the source's own plug, least sensitive receiver [dBm]; two ends that
lose 1 dB each more than a test lead's plugs; 1 dB held back."""

TYPICAL = replace(WORST_CASE, launch_dbm=-17.0)
"""The same with the launch [dBm] of a usual transmitter."""

STRONGEST_DBM, FAINTEST_DBM, BLINDING_DBM = -15.0, -27.0, -14.5
"""Strongest launch, faintest light received, most light received [dBm] of such parts."""

SAMPLE_RATES_HZ = (44_100, 48_000, 88_200, 96_000, 176_400, 192_000)
"""Sample rates [Hz] that optical sockets are made for, the last two not by all."""

COMMON_RATE_HZ = 96_000
"""Up to here [Hz] optical sockets take a rate as a rule. Common practice."""

BANDWIDTH_OF_CELLS = 0.7
"""Bandwidth a receiver needs [1] of the rate of cells. Common practice."""

MOST_LOSS_DB_PER_M = 0.40
"""No fibre of class A4a loses more [dB/m]."""

WAVELENGTH_M = 650e-9
"""Wavelength [m] of the red light."""

_CELLS_IN_A_SAMPLE = 128
_BITS_IN_A_SAMPLE = 64
_SOURCE = Source(
    text=(
        "worst case of optical audio parts: −19 dBm launched behind the source's own plug, −24 dBm "
        "needed, two ends that lose 1 dB each more than a test lead's, 1 dB for bends and age"
    ),
    basis=Basis.COMMON_PRACTICE,
)
_PARTS = Source(
    text="parts to JEITA RC-5720: −21 to −15 dBm launched, −27 to −14.5 dBm received",
    basis=Basis.FROM_MEMORY,
)
_RAYS = Source(
    text="0.44 over the spread of rays of a 1 mm acrylic fibre; 0.7 of the rate of cells needed",
    basis=Basis.COMMON_PRACTICE,
)
_CLASS = Source(
    text="IEC 60793-2-40, class A4a: 40 dB in 100 m at most, as a trade journal gives it",
    basis=Basis.PUBLISHED,
)
_BENDS = Source(
    text="IEC 60793-2-40 annex A: ten turns of 25 mm take 0.5 dB at most", basis=Basis.FROM_MEMORY
)
_NAME = "light left over in the worst case"


@dataclass(frozen=True, kw_only=True)
class PlasticFibreAudio(JudgedSignal):
    """Digital audio of ``sample_rate_hz`` [Hz] on 1 mm plastic fibre.

    ``bend_radius_m`` [m] is the tightest bend on its way, None where none was named.
    """

    sample_rate_hz: int
    bend_radius_m: float | None

    check_name = _NAME
    check_source = _SOURCE

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=False, impedance_ohm=None
    )
    """One light guide."""

    families = (Family.FIBRE,)
    """Plastic fibre only."""

    def __post_init__(self) -> None:
        require_positive(self, "sample_rate_hz")
        require_given(self, "bend_radius_m")

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        return "A receiver that gets −24\u202fdBm of red light or more."

    @property
    def name(self) -> str:
        """Optical audio with its sample rate."""
        return f"optical audio {self.sample_rate_hz / 1e3:g} kHz"

    @property
    def bit_rate_per_s(self) -> int:
        """Bits in a second [bit/s]: 64 for each sample of two channels."""
        return _BITS_IN_A_SAMPLE * self.sample_rate_hz

    @property
    def cell_rate_hz(self) -> int:
        """Light may change this often in a second [Hz]: two cells for each bit."""
        return _CELLS_IN_A_SAMPLE * self.sample_rate_hz

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

    def possible(self, run: Run) -> PhysicalReach | None:
        """Return how far the best parts such sockets are made with would reach."""
        loss = run.cable.sheet.optical_loss_db_per_m
        if loss is None:
            return None
        best = replace(WORST_CASE, launch_dbm=STRONGEST_DBM, needed_dbm=FAINTEST_DBM, ageing_db=0.0)
        by_rays = ACRYLIC_FIBRE.longest_m(bandwidth_hz=BANDWIDTH_OF_CELLS * self.cell_rate_hz)
        return PhysicalReach(
            length_m=min(best.longest_m(loss_db_per_m=loss), by_rays),
            sentence=(
                f"The strongest transmitter ({show_dbm(STRONGEST_DBM)}) with the most sensitive "
                f"receiver ({show_dbm(FAINTEST_DBM)}) such sockets are made with."
            ),
            source=_PARTS,
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

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return too much light, the rate against fibre and sockets, the fibre's class, bends."""
        return (
            *_overload(run),
            self._rate(run),
            *self._sockets(),
            *_fibre_class(run),
            self._bends(),
        )

    def _rate(self, run: Run) -> Check:
        bandwidth = ACRYLIC_FIBRE.bandwidth_hz(length_m=run.length.mean_m)
        needed = BANDWIDTH_OF_CELLS * self.cell_rate_hz
        good = bandwidth >= needed
        return Check(
            name="bandwidth of the fibre",
            outcome=Outcome.GOOD if good else Outcome.BAD,
            sentence=(
                f"Over {show_both(run.length.mean_m)} the rays of the fibre leave "
                f"{show_in(bandwidth / 1e6, 'MHz', decimals=0)}, and {self.name} needs "
                f"{show_in(needed / 1e6, 'MHz', decimals=1)}"
                + ("." if good else ": the light comes too smeared.")
            ),
            source=_RAYS,
            value=bandwidth,
            limit=needed,
            margin=bandwidth - needed,
            unit="Hz",
        )

    def _sockets(self) -> Iterator[Check]:
        if self.sample_rate_hz <= COMMON_RATE_HZ:
            return
        yield Check(
            name="rate of the sockets",
            outcome=Outcome.CAUTION,
            sentence=(
                f"Many optical sockets stop at {show_plain(COMMON_RATE_HZ / 1e3, 'kHz')}: please "
                f"look whether both devices take {show_plain(self.sample_rate_hz / 1e3, 'kHz')} "
                "there."
            ),
            source=Source(text="sockets made for slow light", basis=Basis.COMMON_PRACTICE),
            value=float(self.sample_rate_hz),
            limit=float(COMMON_RATE_HZ),
            margin=float(COMMON_RATE_HZ - self.sample_rate_hz),
            unit="Hz",
        )

    def _bends(self) -> Check:
        tight = self.bend_radius_m is not None and self.bend_radius_m < RADIUS_TESTED_M
        least = show_length_mm(RADIUS_TESTED_M * 1e3)
        if tight and self.bend_radius_m is not None:
            kept = ACRYLIC_FIBRE.bend_kept(radius_m=self.bend_radius_m, wavelength_m=WAVELENGTH_M)
            sentence = (
                f"A bend of {show_length_mm(self.bend_radius_m * 1e3)} radius is tighter than the "
                f"{least} the fibre is tested at; of light that fills the fibre it may let go up "
                f"to {show_percent(1 - kept)}, and the fibre may crack. Please bend it wider."
            )
        else:
            sentence = (
                f"Bends of {least} radius and wider are in what is held back: ten full turns take "
                f"{show_db(bend_allowance_db(turn_count=10))} at most."
            )
        return Check(
            name="bends",
            outcome=Outcome.CAUTION if tight else Outcome.GOOD,
            sentence=sentence,
            source=_BENDS,
            value=self.bend_radius_m,
            limit=RADIUS_TESTED_M,
            margin=None if self.bend_radius_m is None else self.bend_radius_m - RADIUS_TESTED_M,
            unit="m",
        )


def _overload(run: Run) -> Iterator[Check]:
    """A short run with plugs as good as a test lead's and the strongest source."""
    loss = run.cable.sheet.optical_loss_db_per_m
    if loss is None:
        return
    most = STRONGEST_DBM - loss * run.length.mean_m
    good = most <= BLINDING_DBM
    yield Check(
        name="most light at the receiver",
        outcome=Outcome.GOOD if good else Outcome.CAUTION,
        sentence=(
            f"The strongest transmitter brings {show_dbm(most)} to the receiver, which takes up to "
            f"{show_dbm(BLINDING_DBM)}" + ("." if good else ": it may be blinded.")
        ),
        source=_PARTS,
        value=most,
        limit=BLINDING_DBM,
        margin=BLINDING_DBM - most,
        unit="dBm",
    )


def _fibre_class(run: Run) -> Iterator[Check]:
    loss = run.cable.sheet.optical_loss_db_per_m
    if loss is None or loss <= MOST_LOSS_DB_PER_M:
        return
    yield Check(
        name="class of the fibre",
        outcome=Outcome.CAUTION,
        sentence=(
            f"{run.cable.code} loses {show_in(loss, 'dB/m', decimals=2)}, and the fibre of optical "
            f"audio {show_in(MOST_LOSS_DB_PER_M, 'dB/m', decimals=2)} at most: is the data sheet "
            "right?"
        ),
        source=_CLASS,
        value=loss,
        limit=MOST_LOSS_DB_PER_M,
        margin=MOST_LOSS_DB_PER_M - loss,
        unit="dB/m",
    )
