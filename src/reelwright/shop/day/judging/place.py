"""Whether the cable may lie where the run goes, and what else the place asks for."""

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.jacket import Space
from reelwright.core.signals.signal import Signal
from reelwright.core.signals.space import (
    OTHER_JACKET,
    Place,
    also_needed,
    judge_space,
    rules_out,
)
from reelwright.core.verdicts import Outcome
from reelwright.shop.day.judging.findings import Findings, Weight
from reelwright.shop.day.judging.other_ways import Wanted, other_cables
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine


def judge_place(
    line: ReadLine, cable: Cable, shelf: Shelf, signal: Signal | None, findings: Findings
) -> None:
    """Add the check of the jacket, with what follows from it."""
    if line.space is None:
        findings.notes.append("The place was not named; taken as in the open, indoors.")
        return
    check = judge_space(cable, line.space)
    findings.checks.append(check)
    findings.notes += also_needed(line.space)
    if check.outcome is Outcome.GOOD:
        if line.space is not Space.FREE:
            findings.notes.append(check.sentence)
        return
    if not rules_out(cable, line.space):
        findings.ask(f"{check.sentence} {_question(line.space)}", Weight.RUN)
        return
    if findings.refusals:
        return
    offers = (
        []
        if signal is None
        else other_cables(Wanted(line=line, signal=signal, cable=cable, shelf=shelf))
    )
    if not offers and check.outcome is not Outcome.BAD:
        findings.ask(f"{check.sentence} {_question(line.space)}", Weight.RUN)
        return
    if not offers:
        findings.refusals.append(check.sentence)
        findings.other_ways.append(
            "we hold no cable for this signal that may lie there: can the run take another way?"
        )
        return
    findings.offers += offers
    findings.not_as_asked = True
    findings.notes.append(OTHER_JACKET)
    findings.ask(f"{check.sentence} Shall we make it in the cable offered instead?", Weight.RUN)


def _question(place: Place) -> str:
    if place is Space.ESCAPE_ROUTE:
        return "Which class is required there?"
    if place in (Space.OUTDOORS, Space.WET, Space.BURIED):
        return (
            "Is there a duct or conduit that keeps sun and water off, or do you know a rating that "
            "the cable must have?"
        )
    return "Which rating is accepted there, or can the run take another way?"
