"""Whether the run carries its signal over its length, and what to do where it does not."""

from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.show import show_chance
from reelwright.core.quantities.show_scaled import show_temperature_celsius
from reelwright.core.quantities.words import sentence
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.signal import Signal
from reelwright.core.verdicts import Outcome
from reelwright.shop.day.judging.ends_chosen import EndChoice
from reelwright.shop.day.judging.findings import Findings, Weight
from reelwright.shop.day.judging.other_ways import (
    Wanted,
    beyond_reach,
    instead,
    longest_words,
    to_be_known,
    with_more_to_spare,
)
from reelwright.shop.day.judging.run_judged import judge_run
from reelwright.shop.day.judging.stated_place import place_celsius, run_celsius
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine

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
    wanted = Wanted(line=line, signal=signal, cable=cable, shelf=shelf)
    if findings.refusals:
        # What cannot be made has no run to judge; what could be made instead has.
        offers, questions = instead(wanted)
        findings.offers += offers
        findings.other_ways += questions
        return
    celsius = run_celsius(line)
    heat = place_celsius(line.typed)[1] if line.warmest_celsius is None else None
    judged = judge_run(
        signal=signal,
        cable=cable,
        lot=None,
        ends=(ends[0].connector, ends[1].connector),
        length_m=line.length_m,
        celsius=celsius,
        adapters=line.adapters,
    )
    if line.warmest_celsius is not None:
        findings.notes.append(f"Judged at {show_temperature_celsius(celsius)}, as was asked.")
    if heat is not None:
        findings.notes.append(
            f"Your message says “{heat}”: judged at {show_temperature_celsius(celsius)} instead of "
            "room temperature. Whether the jacket bears it was not judged."
        )
    findings.judgement = judged
    findings.checks += judged.verdict.checks
    match judged.verdict.outcome:
        case Outcome.BAD:
            _refuse(wanted, judged, findings)
        case Outcome.NOT_COMPUTED:
            for check in judged.verdict.having(Outcome.NOT_COMPUTED):
                findings.ask(sentence(check.sentence), Weight.RUN)
            findings.offers += to_be_known(wanted)
        case _:
            _confirm(wanted, judged, findings)
            _ask_about_phantom(ends, signal, findings)
    findings.notes += [
        check.sentence
        for check in judged.verdict.having(Outcome.GOOD)
        if check.name in _ADVICE and judged.verdict.outcome is not Outcome.BAD
    ]


def _refuse(wanted: Wanted, judged: Judgement, findings: Findings) -> None:
    findings.refusals.append(judged.sentence)
    if wanted.cable.family not in wanted.signal.families:
        offers, questions = instead(wanted)
    else:
        offers, questions = beyond_reach(wanted)
    if questions or not offers:
        farthest = longest_words(wanted)
        # What no length mends (two terminations, too many receivers) reads the same on any cable.
        if farthest and judged.sentence not in farthest:
            findings.refusals.append(sentence(farthest))
    findings.offers += offers
    findings.other_ways += questions


def _confirm(wanted: Wanted, judged: Judgement, findings: Findings) -> None:
    """Ask where the main check passed with a condition; a margin in use is the customer's to take.

    A check without a margin (a level that nobody knows) only informs.
    """
    main = judged.verdict.checks[0]
    if main.outcome is not Outcome.CAUTION or main.margin is None:
        return
    findings.offers += with_more_to_spare(wanted)
    if main.unit != "dB":
        findings.ask(f"{main.sentence} Will it be used so?", Weight.RUN)
        return
    chance = judged.chance_within_limit
    sure = "" if chance is None else f" The chance to keep the limit is {show_chance(chance)}."
    instead_of_it = ", or rather as offered" if findings.offers else ""
    findings.ask(f"{main.sentence}{sure} Shall we make it all the same{instead_of_it}?", Weight.RUN)


def _ask_about_phantom(
    ends: tuple[EndChoice, EndChoice], signal: Signal, findings: Findings
) -> None:
    """Contacts carry the supply, but few inputs for such a plug give it (common practice)."""
    plugs = [end.connector for end in ends if end.connector.mating.startswith("6.35 mm")]
    if plugs and signal.needs.phantom_power:
        findings.ask(
            f"few inputs for a {plugs[0].mating} give phantom power: does yours?", Weight.RUN
        )
