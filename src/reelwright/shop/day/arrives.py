"""How the signal arrives over a run that was asked about: for the page, after the answer.

Pictures only; nothing here decides. They take a second or two, so no answer waits for them.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from reelwright.charts.eye import EyeCurve
from reelwright.charts.loss import LossCurve, StatedLoss
from reelwright.charts.reflection import ReflectionCurve
from reelwright.core.quantities.show import show_db, show_in, show_number, show_percent
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.quantities.words import sentence
from reelwright.core.signals.coax_signal import CoaxSignal
from reelwright.core.signals.line_loss import joint_loss_db
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.run import Run
from reelwright.core.signals.run_eye import Eye, RunEyes, eyes_of_run
from reelwright.core.signals.run_loss import RunLoss, loss_of_run
from reelwright.core.signals.run_trace import RunTrace, trace_of_run
from reelwright.core.signals.serial_reach import NOISE_FIGURE_DB
from reelwright.core.signals.serial_video import SerialVideo
from reelwright.core.verdicts import Reason
from reelwright.shop.day.ask import DESK, desk_cells
from reelwright.shop.day.judging.cable_chosen import choose_cable
from reelwright.shop.day.judging.ends_chosen import choose_end
from reelwright.shop.day.judging.run_judged import finished_length
from reelwright.shop.day.judging.stated_place import place_celsius
from reelwright.shop.day.load import load_shelf
from reelwright.shop.orders.columns import read_line

# A reflectometer as a workshop has one (common practice).
INSTRUMENT_RISE_S = 200e-12
_LOWEST_HZ = 1e6
_T = TypeVar("_T")


@dataclass(frozen=True, kw_only=True)
class Arrives:
    """Curves of one run with a sentence to each; ``None`` and a reason in ``missing`` where a
    picture cannot be drawn. ``eyes``: as it arrives, then equalised; empty for other signals."""

    eyes: tuple[EyeCurve, ...]
    eye_words: str
    reflection: ReflectionCurve | None
    reflection_words: str
    loss: LossCurve | None
    loss_words: str
    missing: tuple[str, ...]


def arrives(*, cells: Mapping[str, str], on: dt.date) -> Arrives | None:
    """Return the pictures of a run, its columns named as those of an order file.

    None where they do not apply: no signal on coax, or a run that cannot be made. Raises
    InputFaults with everything that cannot be read.
    """
    shelf = load_shelf(on)
    asked = read_line(name=DESK, cells=desk_cells(cells), vocabulary=shelf.vocabulary)
    signal = read_signal(asked.signal_text).signal
    cable = choose_cable(asked, signal, shelf)
    if not isinstance(signal, CoaxSignal) or cable is None or isinstance(cable, str):
        return None
    if cable.family not in signal.families:
        return None
    ends = (choose_end(cable, asked.ends[0], shelf), choose_end(cable, asked.ends[1], shelf))
    if any(end.impossible for end in ends):
        return None
    run = Run(
        cable=cable,
        lot=None,
        length=finished_length(asked.length_m),
        temperature_celsius=place_celsius(asked.typed)[0],
        connectors=(ends[0].connector, ends[1].connector),
        adapters=0,
    )
    return pictures(run, signal)


def pictures(run: Run, signal: CoaxSignal) -> Arrives:
    """Return the curves of a run and what to say beside each."""
    missing: list[str] = []

    def known(found: _T | Reason, what: str) -> _T | None:
        if isinstance(found, Reason):
            missing.append(sentence(f"{what} is not drawn: {found.sentence}"))
            return None
        return found

    seen = (
        known(eyes_of_run(run, rate_bit_per_s=float(signal.rate_bit_per_s)), "the eye")
        if isinstance(signal, SerialVideo)
        else None
    )
    shown = known(
        trace_of_run(
            run,
            rise_s=INSTRUMENT_RISE_S,
            reference_ohm=signal.needs.impedance_ohm or 75.0,
        ),
        "the reflection trace",
    )
    deciding = signal.limit.frequency_hz
    stated = [point.frequency_hz for point in run.cable.sheet.loss_points]
    lost = known(
        loss_of_run(
            run,
            lowest_hz=min(_LOWEST_HZ, deciding / 10),
            highest_hz=1.3 * max(deciding, *stated, _LOWEST_HZ),
        ),
        "the loss over frequency",
    )
    return Arrives(
        eyes=() if seen is None else _eyes(seen),
        eye_words="" if seen is None else _eye_words(seen),
        reflection=None if shown is None else _reflection(shown, run),
        reflection_words="" if shown is None else _reflection_words(shown),
        loss=None if lost is None else _loss(lost, run, signal),
        loss_words="" if lost is None else _loss_words(lost, run),
        missing=tuple(missing),
    )


def _eyes(found: RunEyes) -> tuple[EyeCurve, ...]:
    return tuple(
        EyeCurve(
            title=title,
            phase_ratio=eye.phase_ratio,
            opening_ratio=eye.opening_ratio,
            level_ratio=eye.level_ratio,
        )
        for title, eye in (
            ("As it arrives", found.arrives),
            ("Behind an equaliser matched to it", found.equalised),
        )
    )


def _eye_words(found: RunEyes) -> str:
    def stress(eye: Eye) -> str:
        if eye.stress_opening_ratio <= 0:
            return "closed"
        return f"open by {show_number(eye.stress_opening_ratio, decimals=2)}"

    return (
        f"Behind {show_db(found.loss_db)} of cable and plugs; a bit is sent as −1 or 1. Grey: bits "
        "with their neighbours in every order. Copper: what is left open at one error in 10¹² "
        "bits, all patterns and the receiver's noise counted (noise figure "
        f"{show_in(NOISE_FIGURE_DB, 'dB', decimals=0)}, assumed). The worst lines of a picture, "
        f"runs of 19 or 20 bits alike, leave it {stress(found.arrives)} as it arrives and "
        f"{stress(found.equalised)} behind the equaliser, coupling capacitors left out."
    )


def _reflection(found: RunTrace, run: Run) -> ReflectionCurve:
    return ReflectionCurve(
        title=f"What a reflectometer would show of {run.cable.code}",
        distance_m=found.distance_m,
        seen_ohm=found.seen_ohm,
        own_ohm=found.own_ohm,
        length_m=found.length_m,
        resolution_m=found.resolution_m,
    )


def _reflection_words(found: RunTrace) -> str:
    near, far = (show_in(each, "Ω", decimals=1) for each in found.ends_ohm)
    ends = f"both ends at {near}" if near == far else f"the ends at {near} and {far}"
    return (
        f"With a rise of {show_quantity(found.rise_s, 's', digits=2)}, which tells apart what lies "
        f"{show_in(100 * found.resolution_m, 'cm', decimals=1)} apart; far end closed. No plug was "
        f"measured: {ends} are the edge of what they may be, and sound ones show less. The slope "
        "is the loss of the cable, no fault."
    )


def _loss(found: RunLoss, run: Run, signal: CoaxSignal) -> LossCurve:
    limit = signal.limit
    left = limit.limit_db - joint_loss_db(run, frequency_hz=limit.frequency_hz)
    return LossCurve(
        title=f"Loss over frequency: {run.cable.code}",
        frequency_hz=found.frequency_hz,
        loss_db=found.loss_db,
        low_db=found.low_db,
        high_db=found.high_db,
        stated=tuple(
            StatedLoss(frequency_hz=each.frequency_hz, loss_db=each.loss_db, residual=each.residual)
            for each in found.stated
        ),
        carried_on_from_hz=found.fitted_high_hz,
        deciding_hz=limit.frequency_hz,
        limit_db=left if 0 < left < float("inf") else None,
    )


def _loss_words(found: RunLoss, run: Run) -> str:
    joints = (
        "; the plugs are taken off the limit"
        if joint_loss_db(run, frequency_hz=found.fitted_high_hz)
        else ""
    )
    return (
        f"The cable alone{joints}. One rod in a lossy dielectric is fitted to the stated losses "
        f"(circles); it lies at most {show_percent(found.worst_residual, decimals=1)} off them, as "
        "written beside each, and what it lies off is taken out of every answer. Dashed: carried "
        "on beyond the last stated loss. The band holds 95 of 100 lots."
    )
