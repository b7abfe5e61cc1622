"""Least pulls by rule set. One counts for a set-up, or none: then it is the shop's own.

Two are shown side by side and never mixed: each least pull carries its rule set and its source.
"""

from reelwright.core.ends.strength.pull_rules.cable_retention import CABLE_RETENTION
from reelwright.core.ends.strength.pull_rules.commercial import COMMERCIAL
from reelwright.core.ends.strength.pull_rules.iec import IEC
from reelwright.core.ends.strength.pull_rules.military import MILITARY
from reelwright.core.ends.strength.pull_rules.nasa import NASA, NasaRules
from reelwright.core.ends.strength.pull_rules.rule_set import PullRules, RuleSet
from reelwright.core.ends.strength.pull_rules.wire import Wire, WireMetal, gauge_of, wire_of
from reelwright.core.ends.strength.pulls import PullMinimum
from reelwright.core.verdicts import Reason

__all__ = [
    "PullMinimum",
    "PullRules",
    "RuleSet",
    "Wire",
    "WireMetal",
    "gauge_of",
    "rule_set",
    "side_by_side",
    "wire_of",
]


def rule_set(rules: PullRules, *, solid_wire_barred: bool = True) -> RuleSet:
    """Return a rule set; ``solid_wire_barred`` switches the bar of the one that has it."""
    tables: dict[PullRules, RuleSet] = {
        PullRules.COMMERCIAL: COMMERCIAL,
        PullRules.MILITARY: MILITARY,
        PullRules.IEC: IEC,
        PullRules.NASA: NASA if solid_wire_barred else NasaRules(solid_wire_barred=False),
        PullRules.CABLE_RETENTION: CABLE_RETENTION,
    }
    return tables[rules]


def side_by_side(wire: Wire) -> dict[PullRules, PullMinimum | Reason]:
    """Return what each rule set says of a wire, beside each other and never mixed."""
    return {rules: rule_set(rules).minimum_for(wire) for rules in PullRules}
