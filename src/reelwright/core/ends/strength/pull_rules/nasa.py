"""NASA-STD-8739.4: grounding leads by table, every other crimp by the wire's own strength.

Its bar on crimping solid wire is a switch: the middle of many a coax is solid.
"""

from dataclasses import dataclass

from reelwright.core.ends.strength.pull_rules.rule_set import (
    PullRules,
    Row,
    not_copper,
    not_tabulated,
)
from reelwright.core.ends.strength.pull_rules.wire import Wire
from reelwright.core.ends.strength.pulls import PullMinimum
from reelwright.core.materials.tensile import ANNEALED_COPPER
from reelwright.core.quantities.show import show_percent, show_plain
from reelwright.core.verdicts import Basis, Reason, Source

FLOOR_FRACTION = 0.60
"""Of the wire's tensile strength, for what is not tabulated (13.7.4; Table 13-1, note 1)."""

GROUNDING_LEADS = (
    Row(awg=24, area_m2=None, minimum_n=36.0),
    Row(awg=22, area_m2=None, minimum_n=57.0),
)

_TABLE = Source(text="NASA-STD-8739.4 Change 6, Table 13-1", basis=Basis.PUBLISHED)
_FLOOR_TEXT = (
    f"{show_percent(FLOOR_FRACTION)} of the wire's tensile strength, NASA-STD-8739.4 Change 6, "
    "13.7.4 and note 1 of Table 13-1"
)

_STRONGEST = show_plain(ANNEALED_COPPER.high_pa / 1e6, "MPa")


@dataclass(frozen=True, kw_only=True)
class NasaRules:
    """The rule set, with its bar on crimping solid wire standing or lifted."""

    solid_wire_barred: bool

    @property
    def rules(self) -> PullRules:
        """Which rule set it is."""
        return PullRules.NASA

    def minimum_for(self, wire: Wire) -> PullMinimum | Reason:
        """Return the row of a grounding lead, else 60 % of what the wire holds.

        Where the strength of the wire is not given it is taken at the upper end of soft copper's
        band, which asks the most. A Reason: solid wire under the bar, not copper, size unknown.
        """
        if self.solid_wire_barred and wire.solid is not False:
            form = "solid wire" if wire.solid else "wire not known to be stranded"
            return Reason(
                code="solid_wire_barred",
                sentence=f"{self.rules} bars crimping solid wire (from memory), and this is {form}:"
                " a stranded wire, another rule set, or the bar lifted with the name and reason of"
                " who lifts it would do.",
            )
        if wire.grounding_lead:
            return self._lead(wire)
        return self._floor(wire)

    def _lead(self, wire: Wire) -> PullMinimum | Reason:
        row = next((row for row in GROUNDING_LEADS if row.awg == wire.awg), None)
        refused = not_copper(self.rules, wire)
        if refused is not None:
            return refused
        if row is None:
            return self._floor(wire)
        return PullMinimum(minimum_n=row.minimum_n, source=_TABLE, rule_set=self.rules.value)

    def _floor(self, wire: Wire) -> PullMinimum | Reason:
        if wire.break_n is not None:
            return PullMinimum(
                minimum_n=FLOOR_FRACTION * wire.break_n,
                source=Source(
                    text=f"{_FLOOR_TEXT}; the wire holds {show_plain(wire.break_n, 'N')}",
                    basis=Basis.PUBLISHED,
                ),
                rule_set=self.rules.value,
            )
        refused = not_copper(self.rules, wire)
        if refused is not None:
            return refused
        if wire.area_m2 is None:
            return not_tabulated(self.rules, GROUNDING_LEADS, wire)
        strongest_n = ANNEALED_COPPER.force_n(wire.area_m2)[1]
        return PullMinimum(
            minimum_n=FLOOR_FRACTION * strongest_n,
            source=Source(
                text=f"{_FLOOR_TEXT}; strength taken as {_STRONGEST}, the most soft copper holds",
                basis=Basis.FROM_MEMORY,
            ),
            rule_set=self.rules.value,
        )


NASA = NasaRules(solid_wire_barred=True)
"""As the standard has it."""
