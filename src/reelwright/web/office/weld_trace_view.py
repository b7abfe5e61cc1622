"""The power traces of a set-up's welds as its page shows them: the newest, over the good ones."""

from collections.abc import Sequence
from dataclasses import dataclass

from reelwright.charts.weld_trace import TraceDrawn, draw_weld_trace
from reelwright.core.ends.weld.energy import judge_compaction
from reelwright.core.ends.weld.trace import LEAST_GOOD_COUNT
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Method
from reelwright.core.quantities.show import show_digits, show_length_mm, with_unit
from reelwright.core.quantities.words import counted, sentence
from reelwright.core.verdicts import Check, Outcome
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import State
from reelwright.shop.setups.welds.selectors import TraceRead, judged, weld_traces


@dataclass(frozen=True, kw_only=True)
class TraceRow:
    """One trace as the list shows it; ``outcome`` as the marks know it."""

    number: int
    name: str
    on: object
    by: str
    energy: str
    peak: str
    time: str
    collapse: str
    outcome: str
    called: str
    withdrawn: str


@dataclass(frozen=True, kw_only=True)
class TracesShown:
    """The section of traces: what the newest says, its drawing, all of them, what may be sent."""

    answer: str
    outcome: str
    svg: str
    checks: tuple[tuple[str, str], ...]
    rows: tuple[TraceRow, ...]
    welded: bool


def traces_shown(sheet: SetUpSheet, cable: Cable) -> TracesShown | None:
    """Return the traces of a revision for its page; None for an end that is not welded."""
    if sheet.method is not Method.WELD:
        return None
    traces = weld_traces(sheet.revision_id)
    counting = [one for one in traces if not one.withdrawn]
    rows = tuple(_row(one) for one in reversed(traces))
    welded = sheet.state not in (State.DRAFTED, State.WITHDRAWN)
    if not counting:
        return TracesShown(answer="", outcome="", svg="", checks=(), rows=rows, welded=welded)
    newest = counting[-1]
    compared, packed = judged(newest, traces), _compaction(newest, cable)
    checks = [*compared, *packed]
    good = [one for one in traces if one.serves and one.number < newest.number]
    drawn = TraceDrawn(
        title=f"Power trace {newest.name} of {sheet.name}",
        curve=newest.curve,
        good=tuple(one.curve for one in good),
    )
    answer, outcome = _answer(newest, compared, packed, len(good))
    return TracesShown(
        answer=answer,
        outcome=outcome,
        svg=draw_weld_trace(drawn),
        checks=tuple((str(each.outcome), sentence(each.sentence)) for each in checks),
        rows=rows,
        welded=welded,
    )


def _answer(
    newest: TraceRead, compared: Sequence[Check], packed: Sequence[Check], good: int
) -> tuple[str, str]:
    odd = [each.name for each in compared if each.outcome is Outcome.BAD]
    if odd:
        told = f"{newest.name} is not as good welds are: {', '.join(odd)}"
        outcome = Outcome.BAD
    elif good < LEAST_GOOD_COUNT:
        told = (
            f"{newest.name} stands beside {counted(good, 'good weld')}; {LEAST_GOOD_COUNT} are "
            "needed before it is compared"
        )
        outcome = Outcome.NOT_COMPUTED
    else:
        told = f"{newest.name} is as the {good} good welds before it are"
        outcome = Outcome.GOOD
    for each in packed:
        if each.outcome is not Outcome.GOOD:
            told += f"; {each.sentence}"
            outcome = max(outcome, each.outcome, key=lambda one: one.rank)
    if newest.reason:
        called = "good" if newest.good else "doubtful"
        told += f"; {newest.by} calls it {called}: {newest.reason}"
    return f"{told.removesuffix('.')}.", str(outcome)


def _compaction(trace: TraceRead, cable: Cable) -> list[Check]:
    area_m2 = cable.sheet.conductor_area_m2
    if area_m2 is None or trace.joint_width_m is None or trace.joint_height_m is None:
        return []
    return [
        judge_compaction(
            strands_m2=area_m2, width_m=trace.joint_width_m, height_m=trace.joint_height_m
        )
    ]


def _row(one: TraceRead) -> TraceRow:
    found = one.features
    return TraceRow(
        number=one.number,
        name=one.name,
        on=one.on,
        by=one.by,
        energy=with_unit(show_digits(found.energy_j), "J"),
        peak=with_unit(show_digits(found.peak_w), "W"),
        time=with_unit(show_digits(found.weld_s), "s"),
        collapse=(
            "" if found.collapse_m is None else show_length_mm(found.collapse_m * 1e3, decimals=2)
        ),
        outcome="good" if one.good else "caution",
        called="good" if one.good else f"doubtful: {one.reason}",
        withdrawn=one.withdrawn,
    )
