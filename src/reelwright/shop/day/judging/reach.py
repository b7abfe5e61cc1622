"""Whether the run carries its signal over its length, and what to do where it does not."""

import dataclasses
from dataclasses import dataclass

from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.show import show_chance
from reelwright.core.quantities.show_scaled import show_temperature_celsius
from reelwright.core.quantities.words import sentence
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.serial_video import SerialVideo
from reelwright.core.signals.signal import Signal
from reelwright.core.verdicts import Outcome
from reelwright.shop.day.judging.ends_chosen import EndChoice
from reelwright.shop.day.judging.findings import Findings, Weight
from reelwright.shop.day.judging.offers import longest_words, other_cables
from reelwright.shop.day.judging.other_media import (
    BALANCED_QUESTIONS,
    SPLIT_QUESTIONS,
    balanced_offers,
    light_offers,
    right_kind_offers,
    split_offers,
)
from reelwright.shop.day.judging.run_judged import judge_run
from reelwright.shop.day.judging.stated_place import place_celsius
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine


@dataclass(frozen=True, kw_only=True)
class _Run:
    cable: Cable
    signal: Signal
    judged: Judgement


# Checks that end well and still hold advice for whoever builds the line in.
_ADVICE = frozenset({"wiring class", "difference between loudspeakers"})


def judge_the_run(
    *,
    line: ReadLine,
    cable: Cable,
    ends: tuple[EndChoice, EndChoice],
    signal: Signal,
    shelf: Shelf,
    findings: Findings,
) -> None:
    """Add the verdict on the run, or other ways where it cannot be made or does not reach."""
    if findings.refusals:
        # What cannot be made has no run to judge; what could be made instead has.
        _offer_instead(line, cable, signal, shelf, findings)
        return
    celsius, heat = place_celsius(line.typed)
    judged = judge_run(
        signal=signal,
        cable=cable,
        lot=None,
        ends=(ends[0].connector, ends[1].connector),
        length_m=line.length_m,
        celsius=celsius,
    )
    if heat is not None:
        findings.notes.append(
            f"Your message says “{heat}”: judged at {show_temperature_celsius(celsius)} instead of "
            "room temperature. Whether the jacket bears it was not judged."
        )
    findings.judgement = judged
    findings.checks += judged.verdict.checks
    match judged.verdict.outcome:
        case Outcome.BAD:
            _refuse(line, _Run(cable=cable, signal=signal, judged=judged), shelf, findings)
        case Outcome.NOT_COMPUTED:
            for check in judged.verdict.having(Outcome.NOT_COMPUTED):
                findings.ask(sentence(check.sentence), Weight.RUN)
        case _:
            _confirm(line, _Run(cable=cable, signal=signal, judged=judged), shelf, findings)
            _ask_about_phantom(ends, signal, findings)
    findings.notes += [
        check.sentence
        for check in judged.verdict.having(Outcome.GOOD)
        if check.name in _ADVICE and judged.verdict.outcome is not Outcome.BAD
    ]


def _offer_instead(
    line: ReadLine, cable: Cable, signal: Signal, shelf: Shelf, findings: Findings
) -> None:
    findings.offers += other_cables(line, signal, shelf, asked=cable)
    if not findings.offers and signal.needs.balanced and signal.needs.screen:
        findings.offers += balanced_offers(line, signal, shelf)
        findings.other_ways += BALANCED_QUESTIONS
    if not findings.offers:
        findings.offers += right_kind_offers(line, signal, shelf)


def _refuse(line: ReadLine, run: _Run, shelf: Shelf, findings: Findings) -> None:
    cable, signal, judged = run.cable, run.signal, run.judged
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
    if not findings.offers and cable.family not in signal.families:
        findings.offers += right_kind_offers(line, signal, shelf)


def _confirm(line: ReadLine, run: _Run, shelf: Shelf, findings: Findings) -> None:
    """Ask where the main check passed with a condition; a margin in use is the customer's to take.

    A check without a margin (a level that nobody knows) only informs.
    """
    main = run.judged.verdict.checks[0]
    if main.outcome is not Outcome.CAUTION or main.margin is None:
        return
    if main.unit != "dB":
        findings.ask(f"{main.sentence} Will it be used so?", Weight.RUN)
        return
    findings.offers += [
        dataclasses.replace(offer, sentence=f"With more to spare: {offer.sentence}")
        for offer in other_cables(line, run.signal, shelf, asked=run.cable)
    ]
    chance = run.judged.chance_within_limit
    sure = "" if chance is None else f" The chance to keep the limit is {show_chance(chance)}."
    instead = ", or rather the cable offered" if findings.offers else ""
    findings.ask(f"{main.sentence}{sure} Shall we make it all the same{instead}?", Weight.RUN)


def _ask_about_phantom(
    ends: tuple[EndChoice, EndChoice], signal: Signal, findings: Findings
) -> None:
    """Contacts carry the supply, but few inputs for such a plug give it (common practice)."""
    plugs = [end.connector for end in ends if end.connector.mating.startswith("6.35 mm")]
    if plugs and signal.needs.phantom_power:
        findings.ask(
            f"few inputs for a {plugs[0].mating} give phantom power: does yours?", Weight.RUN
        )
