"""A line judged: every question the engines can put to it, then one answer."""

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass

from reelwright.core.ends.cut_length import CutLength
from reelwright.core.ends.logic import judge_logic
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.colour import colour_words
from reelwright.core.quantities.show import show_both, show_db, show_length_mm
from reelwright.core.quantities.show_office import show_minus_plus
from reelwright.core.quantities.words import sentence
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.serial_video import SerialVideo
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.space import judge_space
from reelwright.core.verdicts import Check, Outcome
from reelwright.shop.day.judging import sets
from reelwright.shop.day.judging.cable_chosen import choose_cable
from reelwright.shop.day.judging.disagreement import disagreements
from reelwright.shop.day.judging.ends_chosen import EndChoice, choose_end
from reelwright.shop.day.judging.findings import Findings
from reelwright.shop.day.judging.offers import longest_words, other_cables
from reelwright.shop.day.judging.other_media import (
    BALANCED_QUESTIONS,
    SPLIT_QUESTIONS,
    balanced_offers,
    light_offers,
    split_offers,
)
from reelwright.shop.day.judging.price import price_of
from reelwright.shop.day.judging.rack import TRIMMED_LATER_MM, cut_of
from reelwright.shop.day.judging.run_judged import check_row, expect, judge_run
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.answer import ACCEPTED, HELD, REFUSED, LineAnswer, Make
from reelwright.shop.orders.columns import ReadLine
from reelwright.shop.orders.set_wish import SetKind


@dataclass(frozen=True, kw_only=True)
class Habits:
    """What is known of the customer besides this line: the units written before, by name."""

    units_before: Mapping[str, str]


def judge_line(line: ReadLine, shelf: Shelf, habits: Habits) -> LineAnswer:
    """Return the answer to one line, before the rack was asked for cable."""
    findings = Findings()
    findings.questions += disagreements(line)
    _ask_about_units(line, habits, findings)
    if line.tolerance_question is not None:
        findings.questions.append(line.tolerance_question)
    if line.due is not None and line.due < shelf.today:
        findings.questions.append(
            f"it is due on {line.due:%d %B %Y}, which has passed: which day is meant?"
        )
    reading = read_signal(line.signal_text)
    signal = reading.signal
    findings.notes += [sentence(each) for each in reading.assumed]
    if signal is None:
        findings.questions.append(reading.question or "which signal shall the cable carry?")
    chosen = choose_cable(line, signal, shelf)
    if isinstance(chosen, str):
        findings.refusals.append(chosen)
        return _answer(line, None, signal, findings)
    ends = (choose_end(chosen, line.ends[0], shelf), choose_end(chosen, line.ends[1], shelf))
    if signal is not None:
        _judge_logic(chosen, ends, signal, findings)
    _judge_ends(ends, findings)
    if signal is not None:
        _judge_run(
            line=line, cable=chosen, ends=ends, signal=signal, shelf=shelf, findings=findings
        )
    _judge_space(line, chosen, shelf, signal, findings)
    sets.judge_set(line, chosen, signal, shelf, findings)
    _make_and_price(line, chosen, ends, shelf, findings)
    return _answer(line, chosen, signal, findings)


def _ask_about_units(line: ReadLine, habits: Habits, findings: Findings) -> None:
    before = habits.units_before.get(line.customer)
    if before is not None and before != line.unit_family:
        words = {"ft": "feet", "m": "metres"}
        findings.questions.append(
            f"“{line.cells['length']}” is {show_both(line.length_m)}; you wrote "
            f"{words[before]} before: is it right?"
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
            elif end.set_up is None and told not in findings.questions:
                findings.questions.append(
                    f"{told} May we develop it first, and by when must it be there?"
                )


def _judge_run(
    *,
    line: ReadLine,
    cable: Cable,
    ends: tuple[EndChoice, EndChoice],
    signal: Signal,
    shelf: Shelf,
    findings: Findings,
) -> None:
    connectors = (ends[0].connector, ends[1].connector)
    if findings.refusals:
        # What cannot be made has no run to judge; what could be made instead has.
        findings.offers += other_cables(line, signal, shelf, asked=cable)
        if not findings.offers and signal.needs.balanced:
            findings.offers += balanced_offers(line, signal, shelf)
            findings.other_ways += BALANCED_QUESTIONS
        return
    judged = judge_run(
        signal=signal, cable=cable, lot=None, ends=connectors, length_m=line.length_m
    )
    findings.judgement = judged
    findings.checks += judged.verdict.checks
    if judged.verdict.outcome is Outcome.BAD:
        findings.refusals.append(judged.sentence)
        findings.offers += other_cables(line, signal, shelf, asked=cable)
        if not findings.offers:
            farthest = longest_words(line, signal, shelf, asked=cable)
            if farthest:
                findings.refusals.append(sentence(farthest))
            if isinstance(signal, SerialVideo):
                findings.offers += split_offers(line, signal, shelf)
                findings.other_ways += SPLIT_QUESTIONS
        findings.offers += light_offers(line, signal, shelf)
    elif judged.verdict.outcome is Outcome.NOT_COMPUTED:
        missing = judged.verdict.having(Outcome.NOT_COMPUTED)
        findings.questions += [sentence(check.sentence) for check in missing]


def _judge_space(
    line: ReadLine, cable: Cable, shelf: Shelf, signal: Signal | None, findings: Findings
) -> None:
    if line.space is None:
        findings.notes.append("The place was not named; taken as in the open, indoors.")
        return
    check: Check = judge_space(cable, line.space)
    findings.checks.append(check)
    if check.outcome is Outcome.GOOD:
        return
    if check.outcome is not Outcome.BAD:
        findings.notes.append(check.sentence)
        return
    offers = other_cables(line, signal, shelf, asked=cable) if signal is not None else []
    if not offers:
        findings.refusals.append(check.sentence)
        return
    findings.offers += offers
    findings.not_as_asked = True
    findings.questions.append(f"{check.sentence} Shall we make it in the cable offered instead?")


def _make_and_price(
    line: ReadLine,
    cable: Cable,
    ends: tuple[EndChoice, EndChoice],
    shelf: Shelf,
    findings: Findings,
) -> None:
    end_a, end_b = ends[0].set_up, ends[1].set_up
    if end_a is None or end_b is None or findings.refusals or findings.not_as_asked:
        return
    finished_mm = round(line.length_m * 1000)
    findings.price = price_of(
        shelf=shelf,
        cable_code=cable.code,
        end_a=end_a,
        end_b=end_b,
        quantity=line.quantity,
        finished_mm=finished_mm,
        extra_setup_minutes=sets.extra_setup_minutes(line),
    )
    if findings.price is None:
        findings.questions.append(
            f"no minutes are quoted for {cable.family} cables, so there is no price yet: "
            "which price was agreed?"
        )
    findings.expected += expect(cable=cable, lot=None, length_m=line.length_m)
    if line.tolerance is None:
        return
    cut = cut_of(line, (ends[0].connector, ends[1].connector), shelf)
    if not isinstance(cut, CutLength):
        findings.questions.append(f"{sentence(cut.sentence)} Which wider tolerance may it be?")
        return
    if line.wish.kind is SetKind.MATCHED:
        findings.notes.append(
            f"Each leg is cut {show_length_mm(TRIMMED_LATER_MM)} long, measured with one end made, "
            "and trimmed to its delay."
        )
    if line.tolerance.assumed:
        findings.notes.append(
            f"No tolerance was named; taken as {show_minus_plus(0, round(line.tolerance.plus_mm))}."
        )
    slack = sets.length_factor(line, cable)
    findings.make = Make(
        cable=cable.code,
        colours=_colours(line, cable, shelf),
        connector_a=end_a.connector_code,
        connector_b=end_b.connector_code,
        set_up_a=end_a.code,
        set_up_b=end_b.code,
        revision_a=end_a.letter,
        revision_b=end_b.letter,
        quantity=line.quantity,
        spare_wanted=sets.spares_wanted(line.quantity, shelf.pricing.first_pass_yield),
        finished_mm=finished_mm,
        tolerance_minus_mm=int(line.tolerance.minus_mm),
        tolerance_plus_mm=int(line.tolerance.plus_mm),
        tolerance_assumed=line.tolerance.assumed,
        cut_length_mm=round(cut.cut_mm * slack),
        wheel_setting_mm=round(cut.wheel_setting_mm * slack),
        cut_uncertainty_mm=cut.standard_uncertainty_mm,
        lot_group_size=sets.lot_group_size(line),
        lot_group_hard=line.wish.kind is SetKind.SAME_LOT,
    )


def _colours(line: ReadLine, cable: Cable, shelf: Shelf) -> tuple[str, ...]:
    if line.colours:
        return line.colours
    in_stock = shelf.colours_in_stock(cable.code)
    offered = shelf.cable_terms[cable.code].colours
    return (in_stock or offered)[:1]


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
    del signal
    return LineAnswer(
        state=state,
        headline=headline(state, findings),
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
    )


def _questions(state: str, findings: Findings) -> tuple[str, ...]:
    """A refusal asks only what would open another way; what was odd about the rest is moot."""
    asked = findings.questions if state != REFUSED else findings.other_ways
    return tuple(dict.fromkeys(sentence(each) for each in asked))


def headline(state: str, findings: Findings) -> str:
    """Return the one sentence that must not mislead when it is read alone."""
    if state == REFUSED:
        return "No: " + findings.refusals[0]
    if state == HELD:
        return "Held: " + findings.questions[0]
    main = None if findings.judgement is None else findings.judgement.verdict.checks[0]
    if main is not None and main.margin is not None and main.unit == "dB":
        return f"Accepted: works, with {show_db(main.margin)} to spare."
    return "Accepted: works."


def held_for_stock(answer: LineAnswer, *, question: str, notes: tuple[str, ...]) -> LineAnswer:
    """Return an accepted answer held because the rack does not give what it needs."""
    return dataclasses.replace(
        answer,
        state=HELD,
        headline="Held: " + question,
        questions=(*answer.questions, sentence(question)),
        notes=(*answer.notes, *notes),
    )
