"""A line judged: every question the engines can put to it, then one answer."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.ends.fit.logic import judge_logic
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.colour import colour_words
from reelwright.core.quantities.show import show_both
from reelwright.core.quantities.show_office import show_date
from reelwright.core.quantities.words import sentence
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.signal import Signal
from reelwright.shop.day.judging import sets
from reelwright.shop.day.judging.cable_chosen import choose_cable
from reelwright.shop.day.judging.disagreement import disagreements
from reelwright.shop.day.judging.ends_chosen import EndChoice, choose_end, settle_faces
from reelwright.shop.day.judging.findings import Findings, Weight
from reelwright.shop.day.judging.headline import headline
from reelwright.shop.day.judging.making import make_and_price
from reelwright.shop.day.judging.place import judge_place
from reelwright.shop.day.judging.reach import judge_the_run
from reelwright.shop.day.judging.run_judged import check_row, possible_row
from reelwright.shop.day.judging.wishes import note_wishes
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import ACCEPTED, HELD, REFUSED, LineAnswer
from reelwright.shop.orders.columns import ReadLine

_SATURDAY = 5


@dataclass(frozen=True, kw_only=True)
class Habits:
    """What is known of the customer besides this line: the units written before, by name."""

    units_before: Mapping[str, str]


def judge_line(line: ReadLine, shelf: Shelf, habits: Habits) -> LineAnswer:
    """Return the answer to one line, before the rack was asked for cable."""
    findings = Findings()
    reading = read_signal(line.signal_text)
    signal = reading.signal
    findings.notes += [sentence(each) for each in reading.assumed]
    if signal is None:
        findings.ask(reading.question or "which signal shall the cable carry?", Weight.SIGNAL)
    for question in disagreements(line, signal, shelf.vocabulary):
        findings.ask(question, Weight.MEANT)
    _ask_about_units(line, habits, findings)
    if line.tolerance_question is not None:
        findings.ask(line.tolerance_question)
    _judge_day(line, shelf.today, findings)
    note_wishes(line, findings)
    line = settle_faces(line, shelf, findings)
    chosen = choose_cable(line, signal, shelf)
    if isinstance(chosen, str):
        findings.refusals.append(chosen)
    if chosen is None or isinstance(chosen, str):
        return _answer(line, None, signal, findings)
    ends = (choose_end(chosen, line.ends[0], shelf), choose_end(chosen, line.ends[1], shelf))
    if signal is not None:
        _judge_logic(chosen, ends, signal, findings)
    _judge_ends(ends, findings)
    if signal is not None:
        judge_the_run(
            line=line, cable=chosen, ends=ends, signal=signal, shelf=shelf, findings=findings
        )
    judge_place(line, chosen, shelf, signal, findings)
    sets.judge_set(line, chosen, signal, shelf, findings)
    make_and_price(line, chosen, ends, shelf, findings)
    return _answer(line, chosen, signal, findings)


def _judge_day(line: ReadLine, today: dt.date, findings: Findings) -> None:
    if line.due is None:
        return
    if line.due < today:
        findings.ask(
            f"it is due on {show_date(line.due)}, which has passed: which day is meant?",
            Weight.DATE,
        )
    elif line.due.weekday() >= _SATURDAY:
        findings.notes.append(
            f"{show_date(line.due)} is no working day: it is made for the one before."
        )


def _ask_about_units(line: ReadLine, habits: Habits, findings: Findings) -> None:
    before = habits.units_before.get(line.customer)
    if before is not None and before != line.unit_family:
        words = {"ft": "feet", "m": "metres"}
        findings.ask(
            f"“{line.cells['length']}” is {show_both(line.length_m)}; you wrote "
            f"{words[before]} before: is it right?",
            Weight.MEANT,
        )
    if line.length_approximate:
        findings.notes.append(f"“{line.cells['length']}” was taken as {show_both(line.length_m)}.")


def _judge_logic(
    cable: Cable, ends: tuple[EndChoice, EndChoice], signal: Signal, findings: Findings
) -> None:
    against = judge_logic(
        cable=cable,
        connector_a=ends[0].connector,
        connector_b=ends[1].connector,
        needs=signal.needs,
    )
    findings.refusals += [sentence(reason.sentence) for reason in against]


def _judge_ends(ends: tuple[EndChoice, EndChoice], findings: Findings) -> None:
    for end in ends:
        for reason in end.reasons:
            told = sentence(reason)
            if end.impossible:
                if told not in findings.refusals:
                    findings.refusals.append(told)
            elif end.set_up is None:
                findings.ask(
                    f"{told} May we develop it first, and by when must it be there?", Weight.ENDS
                )


def _reading(line: ReadLine, cable: Cable | None) -> str:
    what = cable.code if cable is not None else "a cable of our choice"
    colours = colour_words(dict.fromkeys(line.colours))
    ends = (
        f"{line.cells['end_a']} at both ends"
        if line.cells["end_a"].casefold() == line.cells["end_b"].casefold()
        else f"{line.cells['end_a']} to {line.cells['end_b']}"
    )
    return (
        f"{line.quantity} × {show_both(line.length_m)} of {what}"
        f"{' ' + colours if colours else ''}, {ends}, for {line.signal_text}"
    )


def _answer(
    line: ReadLine, cable: Cable | None, signal: Signal | None, findings: Findings
) -> LineAnswer:
    judged = findings.judgement
    state = REFUSED if findings.refusals else HELD if findings.questions else ACCEPTED
    reasons = list(findings.refusals)
    if state != REFUSED and judged is not None:
        reasons.append(judged.sentence)
    if state == ACCEPTED and (findings.make is None or findings.price is None):
        raise AssertionError(f"line {line.order}/{line.number}: accepted without how to make it")
    return LineAnswer(
        state=state,
        headline=headline(state, findings, signal),
        reading=_reading(line, cable),
        reasons=tuple(dict.fromkeys(sentence(each) for each in reasons)),
        questions=_questions(state, findings),
        notes=tuple(dict.fromkeys(findings.notes)),
        offers=tuple(findings.offers),
        checks=tuple(check_row(check) for check in findings.checks),
        expected=tuple(findings.expected),
        chance_within_limit=None if judged is None else judged.chance_within_limit,
        length_at_95_m=None if judged is None else judged.length_at_95_m,
        length_at_50_m=None if judged is None else judged.length_at_50_m,
        price=findings.price,
        make=findings.make,
        far_end="" if judged is None else judged.far_end,
        possible=None if judged is None else possible_row(judged.possible),
    )


def _questions(state: str, findings: Findings) -> tuple[str, ...]:
    """A refusal asks only what would open another way; what was odd about the rest is moot."""
    asked = findings.questions if state != REFUSED else findings.other_ways
    return tuple(dict.fromkeys(sentence(each) for each in asked))
