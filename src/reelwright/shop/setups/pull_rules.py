"""Whether a revision keeps to the rule set it is drafted under: pure, no database asked."""

from reelwright.core.ends.strength.pull_rules import PullMinimum, rule_set, wire_of
from reelwright.core.errors import ShopRuleBroken
from reelwright.core.parts.cable import Cable
from reelwright.core.quantities.show import show_plain
from reelwright.core.verdicts import Reason
from reelwright.shop.setups.sheet import Numbers


def rules_minimum(cable: Cable, numbers: Numbers) -> PullMinimum | Reason | None:
    """Return what the chosen rule set asks of this cable's wire; None where none was chosen.

    A Reason where it has nothing to say of that wire, or bars it.
    """
    if numbers.pull_rules is None:
        return None
    wire = wire_of(cable)
    if isinstance(wire, Reason):
        return wire
    chosen = rule_set(numbers.pull_rules, solid_wire_barred=not numbers.solid_wire_waiver)
    return chosen.minimum_for(wire)


def require_rules_kept(cable: Cable, numbers: Numbers) -> None:
    """Raise ShopRuleBroken unless the minimum is the chosen rule set's or higher, or not yet given.

    ``pull_rules_silent``: it has no least pull for this wire, with its reason;
    ``pull_under_rules``: the minimum lies below it, with both numbers.
    """
    asked = rules_minimum(cable, numbers)
    if asked is None:
        return
    if isinstance(asked, Reason):
        raise ShopRuleBroken("pull_rules_silent", asked.sentence, reason=asked.code)
    least_n = numbers.minimum_pull_n
    if least_n is not None and least_n < asked.minimum_n:
        raise ShopRuleBroken(
            "pull_under_rules",
            f"A least pull of {show_plain(least_n, 'N')} lies under the "
            f"{show_plain(asked.minimum_n, 'N')} that {asked.rule_set} asks for {cable.code}: lay "
            "down that or more, or the shop's own without a rule set.",
            minimum_n=least_n,
            asked_n=asked.minimum_n,
            rules=asked.rule_set,
        )
