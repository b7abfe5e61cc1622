"""What holds a coax in its connector: the whole cable is pulled, not one wire in its crimp."""

from dataclasses import dataclass

from reelwright.core.ends.strength.pull_rules.rule_set import PullRules
from reelwright.core.ends.strength.pull_rules.wire import Wire
from reelwright.core.ends.strength.pulls import PullMinimum
from reelwright.core.verdicts import Basis, Reason, Source

POUND_FORCE_N = 4.448_221_615_260_5
"""Newtons in one pound-force: 0.453 592 37 kg × 9.806 65 m/s², exact by definition."""

USUAL_RETENTION_N = (89.0, 178.0, 267.0)
"""The 20, 40 and 60 lbf classes met for thin, medium and thick crimped coax (MIL-PRF-39012, from
memory): an order of magnitude to compare with, never a limit."""


@dataclass(frozen=True, kw_only=True)
class CableRetentionRules:
    """One figure for every coax in its connector."""

    retention_n: float
    source: Source

    @property
    def rules(self) -> PullRules:
        """Which rule set it is."""
        return PullRules.CABLE_RETENTION

    def minimum_for(self, wire: Wire) -> PullMinimum | Reason:
        """Return the least hold of a coax in its connector; a Reason for any other wire."""
        if not wire.coax:
            return Reason(
                code="not_coax",
                sentence=f"{self.rules} asks how a coax is held in its connector; this is none.",
            )
        return PullMinimum(
            minimum_n=self.retention_n, source=self.source, rule_set=self.rules.value
        )


CABLE_RETENTION = CableRetentionRules(
    retention_n=45 * POUND_FORCE_N,
    source=Source(text="MIL-DTL-55235A, 4.7.7: 45 lbf for 1 min", basis=Basis.PUBLISHED),
)
