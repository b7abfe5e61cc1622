"""What the page of a set-up shows of its pulls: a drawing, what they prove, whose rule counts."""

from dataclasses import dataclass
from statistics import fmean, stdev

from reelwright.core.ends.strength.failure import FailureMode
from reelwright.core.ends.strength.proof import ModeGroup, PullProof
from reelwright.core.ends.strength.pull_rules import (
    PullMinimum,
    PullRules,
    Wire,
    rule_set,
    side_by_side,
    wire_of,
)
from reelwright.core.ends.strength.wire_strength import judge_against_wire, wire_holds_n
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.quantities.show import show_in, show_plain
from reelwright.core.quantities.words import sentence
from reelwright.core.verdicts import Check, Outcome, Reason
from reelwright.drawings.pulls import PullRow, PullsView, draw_pulls
from reelwright.shop.setups.rules import prove_pulls
from reelwright.shop.setups.selectors import PullValue, pull_uncertainty
from reelwright.shop.setups.sheet import SetUpSheet


@dataclass(frozen=True, kw_only=True)
class ModeRow:
    """One way of giving way, as a row of the table, in N.

    Mean and spread are empty for pulls that were stopped, the spread for a single one too.
    """

    mode: str
    count: int
    weakest: str
    mean: str
    spread: str
    outcome: Outcome | None
    says: str


@dataclass(frozen=True, kw_only=True)
class RulesRow:
    """What one rule set asks of the wire, a force or why none; ``chosen``: it is the one."""

    name: str
    asks: str
    why: str
    chosen: bool


@dataclass(frozen=True, kw_only=True)
class PullsShown:
    """The section of a set-up's pulls. ``tester``: how far the pull tester may be off, in words."""

    check: Check
    others: tuple[Check, ...]
    more: str
    minimum: str
    tester: str
    svg: str
    modes: tuple[ModeRow, ...]
    rules: tuple[RulesRow, ...]
    rules_of: str


def pulls_shown(sheet: SetUpSheet, cable: Cable, pulls: tuple[PullValue, ...]) -> PullsShown | None:
    """Return what is shown of the pulls; None where no least pull is laid down yet."""
    numbers = sheet.numbers
    if numbers.minimum_pull_n is None or numbers.minimum_pull_source is None:
        return None
    minimum = PullMinimum(
        minimum_n=numbers.minimum_pull_n,
        source=numbers.minimum_pull_source,
        rule_set=numbers.pull_rules,
    )
    tester = pull_uncertainty(pulls)
    proof = prove_pulls(
        [pull.force_n for pull in pulls],
        [pull.failure_mode for pull in pulls],
        minimum,
        tester_uncertainty_n=tester.value,
    )
    wire = wire_of(cable)
    alone = wire if isinstance(wire, Wire) and cable.family is Family.LOUDSPEAKER else None
    return PullsShown(
        check=proof.overall,
        others=(*proof.verdict.checks[1:], *_against_wire(proof, alone)),
        more="" if _is_proven(proof) else proof.more.sentence,
        minimum=_minimum(sheet, wire),
        tester=tester.told,
        svg=_svg(sheet, proof, alone),
        modes=tuple(_mode_row(group, proof) for group in proof.groups),
        rules=() if isinstance(wire, Reason) else _rules(sheet, wire),
        rules_of="" if isinstance(wire, Reason) else _rules_of(wire),
    )


def _rules_of(wire: Wire) -> str:
    return f"the middle conductor, {wire.told}" if wire.coax else wire.told


def _is_proven(proof: PullProof) -> bool:
    return (
        proof.overall.outcome is Outcome.GOOD
        and not isinstance(proof.more, Reason)
        and (proof.more.more_count == 0)
    )


def _minimum(sheet: SetUpSheet, wire: Wire | Reason) -> str:
    """Whose least pull counts, in a sentence; with the rule set's own where more is asked."""
    numbers = sheet.numbers
    assert numbers.minimum_pull_n is not None  # asked before
    asked = show_plain(numbers.minimum_pull_n, "N")
    if numbers.pull_rules is None:
        return f"At least {asked}, the shop's own: {numbers.minimum_pull_source}."
    told = f"At least {asked} by the {numbers.pull_rules} rule set: {numbers.minimum_pull_source}."
    if isinstance(wire, Wire):
        chosen = rule_set(numbers.pull_rules, solid_wire_barred=not numbers.solid_wire_waiver)
        own = chosen.minimum_for(wire)
        if isinstance(own, PullMinimum) and own.minimum_n < numbers.minimum_pull_n:
            told += f" The rule set itself asks {show_plain(own.minimum_n, 'N')}."
    if numbers.solid_wire_waiver:
        told += f" Its bar on solid wire was lifted: {sentence(numbers.solid_wire_waiver)}"
    return told


def _against_wire(proof: PullProof, wire: Wire | None) -> tuple[Check, ...]:
    """How the joints compare with the bare wire, where one wire alone is pulled till it gives."""
    forces = [
        force
        for group in proof.groups
        if group.mode is not FailureMode.NOT_BROKEN
        for force in group.forces_n
    ]
    if wire is None or not forces:
        return ()
    found = judge_against_wire(forces, wire)
    return () if isinstance(found, Reason) else (found,)


def _svg(sheet: SetUpSheet, proof: PullProof, wire: Wire | None) -> str:
    if not proof.groups:
        return ""
    forces = [force for group in proof.groups for force in group.forces_n]
    held = any(group.mode is FailureMode.NOT_BROKEN for group in proof.groups)
    holds = None if wire is None else wire_holds_n(wire)
    band = holds if isinstance(holds, tuple) else (None, None)
    assert sheet.numbers.minimum_pull_n is not None  # asked before
    return draw_pulls(
        PullsView(
            title=f"Pulls of {sheet.name}",
            rows=tuple(
                PullRow(
                    name=str(group.mode),
                    forces_n=group.forces_n,
                    held=group.mode is FailureMode.NOT_BROKEN,
                )
                for group in proof.groups
            ),
            limit_n=sheet.numbers.minimum_pull_n,
            mean_n=None if held else fmean(forces),
            bound_n=proof.bound_n,
            wire_low_n=band[0],
            wire_high_n=band[1],
        )
    )


def _mode_row(group: ModeGroup, proof: PullProof) -> ModeRow:
    forces, held = group.forces_n, group.mode is FailureMode.NOT_BROKEN
    check = proof.overall if len(proof.groups) == 1 else group.check
    return ModeRow(
        mode=str(group.mode),
        count=len(forces),
        weakest=show_in(min(forces), "N", decimals=1),
        mean="" if held else show_in(fmean(forces), "N", decimals=1),
        spread="" if held or len(forces) < 2 else show_in(stdev(forces), "N", decimals=1),
        outcome=None if check is None else check.outcome,
        says=group.says,
    )


def _rules(sheet: SetUpSheet, wire: Wire) -> tuple[RulesRow, ...]:
    chosen = sheet.numbers.pull_rules
    found: dict[PullRules, PullMinimum | Reason] = side_by_side(wire)
    return tuple(
        RulesRow(
            name=str(rules),
            asks=show_plain(round(asked.minimum_n, 1), "N")
            if isinstance(asked, PullMinimum)
            else "none",
            why=str(asked.source) if isinstance(asked, PullMinimum) else asked.sentence,
            chosen=rules is chosen,
        )
        for rules, asked in found.items()
    )
