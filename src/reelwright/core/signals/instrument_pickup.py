"""A high-impedance instrument pickup: the cable's capacitance tunes its resonance down."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.coil_source import CoilSource
from reelwright.core.physics.lot_values import known_value
from reelwright.core.quantities.guard import require_positive
from reelwright.core.quantities.show import show_both, show_both_whole, show_db, show_in
from reelwright.core.quantities.show_scaled import show_frequency_hz, show_quantity
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.direct_current import spread_per_length
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_audio import unbalanced_between
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

INPUT_OHM = 1e6
"""Input resistance [Ω] of an instrument amplifier (common practice)."""

LOWEST_RESONANCE_HZ = 3e3
"""Below this [Hz] the resonance no longer brightens the sound (common practice)."""

REFERENCE_LENGTH_M = 3.0
REFERENCE_F_PER_M = 100e-12
"""What the shift is told against: 3 m of the usual 100 pF/m (common practice)."""

_NAME = "resonance"
_SOURCE = Source(text="resonance at 3 kHz or above", basis=Basis.COMMON_PRACTICE)
_SHIFT = Source(
    text="against 3 m of cable of 100 pF/m, the usual audio cable", basis=Basis.COMMON_PRACTICE
)


@dataclass(frozen=True, kw_only=True)
class Pickup:
    """A pickup with the controls behind it: coil [H], [Ω], its own capacitance [F], and [Ω].

    ``volume_ohm`` and ``tone_ohm`` are the controls fully open, both across the coil.
    """

    coil_henry: float
    coil_ohm: float
    own_f: float
    volume_ohm: float
    tone_ohm: float

    def __post_init__(self) -> None:
        require_positive(self, "coil_henry", "coil_ohm", "own_f", "volume_ohm", "tone_ohm")

    def into(self, input_ohm: float) -> CoilSource:
        """Return the coil with controls and input [Ω] across it."""
        across_siemens = 1 / self.volume_ohm + 1 / self.tone_ohm + 1 / input_ohm
        return CoilSource(
            coil_henry=self.coil_henry,
            coil_ohm=self.coil_ohm,
            own_f=self.own_f,
            load_ohm=1 / across_siemens,
        )


USUAL_PICKUP = Pickup(coil_henry=2.5, coil_ohm=6e3, own_f=110e-12, volume_ohm=250e3, tone_ohm=250e3)
"""A usual single-coil pickup (common practice, no published source)."""


@dataclass(frozen=True, kw_only=True)
class InstrumentPickup(JudgedSignal):
    """A magnetic pickup into an amplifier; ``pickup`` is None where it was not described."""

    pickup: Pickup | None

    check_name = _NAME
    check_source = _SOURCE
    margin_unit = "Hz"

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
            "An input of 1\u202fMΩ that gets the pickup's resonance still high enough to sound "
            "bright."
        )

    @property
    def name(self) -> str:
        """Instrument pickup."""
        return "instrument pickup"

    @property
    def coil(self) -> CoilSource:
        """The pickup, or a usual one, with its controls into 1 MΩ."""
        return (self.pickup or USUAL_PICKUP).into(INPUT_OHM)

    def budget(self, run: Run) -> Budget | Reason:
        """Return how low the resonance falls, as a negative frequency: it rises with length."""
        known = known_value(run.cable, run.lot, unbalanced_between(run.cable))
        if known is None:
            return Reason(
                code="capacitance-missing",
                sentence=f"the capacitance of {run.cable.code} is not stated",
            )
        coil, per_metre = self.coil, known.value

        def used(lengths_m: FloatArray) -> FloatArray:
            return -coil.resonance_hz(per_metre * lengths_m)

        return Budget(
            limit=-LOWEST_RESONANCE_HZ,
            used=used,
            spread=spread_per_length(used, spread=known.relative_uncertainty),
            length_relative_uncertainty=run.length_relative_uncertainty,
        )

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the resonance."""
        resonance = -budget.used_at(run.length.mean_m)
        margin = budget.margin_at(run.length.mean_m)
        known = known_value(run.cable, run.lot, unbalanced_between(run.cable))
        capacitance_f = (0.0 if known is None else known.value) * run.length.mean_m
        coil = self.coil
        peak = coil.peak(capacitance_f)
        height = (
            "without a peak"
            if peak is None or peak[1] < 0.005
            else f"with a peak of {show_db(peak[1])}"
        )
        whose = "assumed: a usual single coil" if self.pickup is None else "as stated"
        longest = budget.length_at_m(0.5)
        return Check(
            name=_NAME,
            outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
            sentence=(
                f"{show_both(run.length.mean_m)} of {run.cable.code} has "
                f"{show_quantity(capacitance_f, 'F')}: a pickup of "
                f"{show_quantity(coil.coil_henry, 'H')} ({whose}) resonates at "
                f"{show_frequency_hz(resonance, digits=2)} with it, {height}; "
                + (
                    f"{show_frequency_hz(LOWEST_RESONANCE_HZ, digits=1)} or above keeps it bright."
                    if margin >= 0
                    else f"below {show_frequency_hz(LOWEST_RESONANCE_HZ, digits=1)} it sounds dull."
                    + (
                        ""
                        if longest is None or longest < 1
                        else f" This cable keeps it bright up to {show_both_whole(longest)}."
                    )
                )
            ),
            source=_SOURCE,
            value=resonance,
            limit=LOWEST_RESONANCE_HZ,
            margin=margin,
            unit="Hz",
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return how far the resonance moves from where a usual lead puts it."""
        budget = self.budget(run)
        if isinstance(budget, Reason):
            return ()
        usual = float(self.coil.resonance_hz(REFERENCE_LENGTH_M * REFERENCE_F_PER_M))
        resonance = -budget.used_at(run.length.mean_m)
        moved = resonance / usual - 1
        way = "higher" if moved >= 0 else "lower"
        return (
            Check(
                name="shift of the resonance",
                outcome=Outcome.GOOD,
                sentence=(
                    f"With {show_in(REFERENCE_LENGTH_M, 'm', decimals=0)} of usual cable of "
                    f"{show_quantity(REFERENCE_F_PER_M, 'F')}/m it would resonate at "
                    f"{show_frequency_hz(usual, digits=2)}; this one puts it "
                    f"{show_in(abs(moved) * 100, '%', decimals=0)} {way}."
                ),
                source=_SHIFT,
                value=resonance - usual,
                limit=None,
                margin=None,
                unit="Hz",
            ),
        )
