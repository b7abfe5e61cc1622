"""The military column: least pulls of crimps on copper wire, by gauge."""

from reelwright.core.ends.strength.pull_rules.rule_set import PullRules, Row, TableRules
from reelwright.core.verdicts import Basis, Source

# Gauge and newtons, from 7 lbf to 150 lbf.
_ROWS = (
    (26, 31.1),
    (24, 44.5),
    (22, 66.7),
    (20, 84.5),
    (18, 169.0),
    (16, 222.5),
    (14, 311.5),
    (12, 489.3),
    (10, 667.2),
)

MILITARY = TableRules(
    rules=PullRules.MILITARY,
    rows=tuple(Row(awg=awg, area_m2=None, minimum_n=force_n) for awg, force_n in _ROWS),
    source=Source(
        text="military column of tensile force, as two application specifications of terminals "
        "print it; that it is the one of MIL-T-7928 and AS7928 is from memory",
        basis=Basis.PUBLISHED,
    ),
)
"""Values seen in print, their attribution to MIL-T-7928 and AS7928 from memory."""
