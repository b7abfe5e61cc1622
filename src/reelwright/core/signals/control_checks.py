"""What a balanced bus asks besides its length: level, receivers, its end, stubs, the cable."""

from collections.abc import Iterator
from dataclasses import dataclass

from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.quantities.show import show_both, show_in, show_plain, show_plain_m
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.answer import not_computed
from reelwright.core.signals.direct_current import warm_conductor_ohm_per_m
from reelwright.core.signals.run import Run
from reelwright.core.signals.termination import delay_s
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

TERMINATION_OHM = 120.0
"""Resistor [Ω] across the far end."""

UNIT_LOAD_OHM = 12_000.0
"""What one unit load is [Ω]: ANSI/TIA-485-A, from memory."""

MOST_UNIT_LOADS = 32
"""Unit loads that one driver feeds: ANSI/TIA-485-A, from memory."""

LAUNCHED_V = 1.5
"""Weakest launch [V] into the full load: ANSI/TIA-485-A, from memory."""

NEEDED_V = 0.2
"""What a receiver must tell apart [V], either way: ANSI/TIA-485-A, from memory."""

STUB_M = 0.3
"""Longest stub [m] (common practice)."""

HIGH_CAPACITANCE_F_PER_M = 80e-12
"""From here on [F/m], one core to all the rest, a pair is made for audio (common practice)."""

SHORT_PART = 0.1
"""Part of a bit [1] within which the echo of an open end has come and gone (common practice)."""

_STANDARD = Source(
    text="ANSI/TIA-485-A: 1.5 V launched at least, ±200 mV told apart, 32 unit loads of 12 kΩ",
    basis=Basis.FROM_MEMORY,
)
_PRACTICE = Source(
    text="120 Ω at the far end, stubs of 0.3 m at most, a pair made for data",
    basis=Basis.COMMON_PRACTICE,
)


@dataclass(frozen=True, kw_only=True)
class Bus:
    """A bus: its rate [bit/s], its receivers, its end and its longest stub [m], None: not told."""

    rate_bit_per_s: int
    unit_load_count: int
    terminated: bool
    stub_m: float | None

    @property
    def load_ohm(self) -> float:
        """All that stands across the far end [Ω], every receiver counted there."""
        ending = 1 / TERMINATION_OHM if self.terminated else 0.0
        return 1 / (ending + self.unit_load_count / UNIT_LOAD_OHM)


def bus_checks(run: Run, bus: Bus) -> tuple[Check, ...]:
    """Return all of them, in the order in which a bench would look."""
    return (_level(run, bus), _receivers(bus), *_end(run, bus), *_stubs(bus), *_made_for(run))


def level_v(run: Run, bus: Bus) -> float | Reason:
    """Return the level at the far end [V]: the weaker of a held level and of the fastest turns.

    Held: termination and receivers divided with the resistance of both legs. Fastest: the loss at
    half the rate, where it is known so low. Reason where the resistance is not stated.
    """
    leg = warm_conductor_ohm_per_m(run)
    if isinstance(leg, Reason):
        return leg
    length_m, load = run.length.mean_m, bus.load_ohm
    held = LAUNCHED_V * load / (load + 2 * leg * length_m)
    known, half_hz = known_loss(run.cable, run.lot), bus.rate_bit_per_s / 2
    if not isinstance(known, KnownLoss) or half_hz < known.line.lowest_hz:
        return held
    per_metre = known.loss_db_per_m(half_hz, temperature_celsius=run.temperature_celsius)
    turning = LAUNCHED_V * float(10 ** (-per_metre * length_m / 20))
    return min(held, turning)


def _level(run: Run, bus: Bus) -> Check:
    level = level_v(run, bus)
    if isinstance(level, Reason):
        return not_computed(
            name="level at the receiver", because=level.sentence, source=_STANDARD, unit="V"
        )
    margin = level - NEEDED_V
    return Check(
        name="level at the receiver",
        outcome=Outcome.GOOD if margin >= 0 else Outcome.BAD,
        sentence=(
            f"Of {show_plain(LAUNCHED_V, 'V')} launched at the least the far end gets "
            f"{show_quantity(level, 'V')} over {show_both(run.length.mean_m)}; receivers tell "
            f"±{show_plain(1e3 * NEEDED_V, 'mV')} apart."
        ),
        source=_STANDARD,
        value=level,
        limit=NEEDED_V,
        margin=margin,
        unit="V",
    )


def _receivers(bus: Bus) -> Check:
    over = bus.unit_load_count - MOST_UNIT_LOADS
    return Check(
        name="receivers on the line",
        outcome=Outcome.GOOD if over <= 0 else Outcome.BAD,
        sentence=(
            f"{bus.unit_load_count} unit loads on one driver, which feeds {MOST_UNIT_LOADS}"
            + ("." if over <= 0 else ": use a splitter with drivers of its own.")
        ),
        source=_STANDARD,
        value=float(bus.unit_load_count),
        limit=float(MOST_UNIT_LOADS),
        margin=float(-over),
        unit="1",
    )


def _end(run: Run, bus: Bus) -> Iterator[Check]:
    ohm = show_plain(TERMINATION_OHM, "Ω")
    if bus.terminated:
        yield Check(
            name="end of the line",
            outcome=Outcome.GOOD,
            sentence=f"{ohm} stand across the last receiver, as they must.",
            source=_PRACTICE,
            value=ohm,
            limit=ohm,
            margin=None,
            unit="",
        )
        return
    late, bit_s = delay_s(run), 1 / bus.rate_bit_per_s
    there_and_back = None if late is None else 2 * late
    short = there_and_back is not None and there_and_back <= SHORT_PART * bit_s
    told = (
        "for a time that is not known, as the delay of the cable is not stated"
        if there_and_back is None
        else f"{show_quantity(there_and_back, 's', digits=2)} later, in a bit of "
        f"{show_quantity(bit_s, 's', digits=2)}"
    )
    yield Check(
        name="end of the line",
        outcome=Outcome.CAUTION if short or there_and_back is None else Outcome.BAD,
        sentence=(
            f"No {ohm} stand across the last receiver, so the whole wave comes back, {told}"
            + (
                ": short enough to do no harm, but a terminator costs little."
                if short
                else ": plug a terminator in behind the last receiver."
            )
        ),
        source=_PRACTICE,
        value=None if there_and_back is None else 1e9 * there_and_back,
        limit=1e9 * SHORT_PART * bit_s,
        margin=None if there_and_back is None else 1e9 * (SHORT_PART * bit_s - there_and_back),
        unit="ns",
    )


def _stubs(bus: Bus) -> Iterator[Check]:
    if bus.stub_m is None:
        return
    good = bus.stub_m <= STUB_M
    yield Check(
        name="stubs",
        outcome=Outcome.GOOD if good else Outcome.CAUTION,
        sentence=(
            f"Stubs of {show_plain_m(bus.stub_m)} to the receivers; up to {show_plain_m(STUB_M)} "
            "do no harm"
            + (
                "."
                if good
                else ", longer ones send echoes: loop the line through every receiver instead, or "
                "use a splitter."
            )
        ),
        source=_PRACTICE,
        value=bus.stub_m,
        limit=STUB_M,
        margin=STUB_M - bus.stub_m,
        unit="m",
    )


def _made_for(run: Run) -> Iterator[Check]:
    """An audio pair may carry a bus over a short way; it was not made for it."""
    to_rest = known_value(run.cable, run.lot, Stated.CAPACITANCE_TO_REST)
    if to_rest is not None:
        per_metre = show_in(1e12 * to_rest.value, "pF/m", decimals=0)
        usual = show_plain(1e12 * HIGH_CAPACITANCE_F_PER_M, "pF/m")
        good = to_rest.value <= HIGH_CAPACITANCE_F_PER_M
        yield Check(
            name="made for data",
            outcome=Outcome.GOOD if good else Outcome.CAUTION,
            sentence=(
                f"{run.cable.code} has {per_metre} from one core to all the rest"
                + (
                    f", no more than the {usual} of pairs made for data."
                    if good
                    else f", more than the {usual} of pairs made for data: it is a pair for "
                    "audio, as of microphones, which may do over a short way; a data pair of "
                    "120\u202fΩ is made for it."
                )
            ),
            source=_PRACTICE,
            value=to_rest.value,
            limit=HIGH_CAPACITANCE_F_PER_M,
            margin=HIGH_CAPACITANCE_F_PER_M - to_rest.value,
            unit="F/m",
        )
    if not run.cable.screened and run.cable.conductors < 3:
        yield Check(
            name="common conductor",
            outcome=Outcome.CAUTION,
            sentence=(
                f"{run.cable.code} has no conductor besides the two legs: the devices need a "
                "common one, or they drift apart."
            ),
            source=_PRACTICE,
            value=float(run.cable.conductors),
            limit=3.0,
            margin=None,
            unit="1",
        )
