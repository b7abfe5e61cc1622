"""The commercial column: least pulls of crimps on copper wire, by gauge."""

from reelwright.core.ends.strength.pull_rules.rule_set import PullRules, Row, TableRules
from reelwright.core.verdicts import Basis, Source

# Gauge (0 is 1/0, −1 is 2/0) and newtons, from 3 lbf to 300 lbf.
_ROWS = (
    (26, 13.4),
    (24, 22.3),
    (22, 35.6),
    (20, 57.9),
    (18, 89.0),
    (16, 133.5),
    (14, 222.5),
    (12, 311.5),
    (10, 356.0),
    (8, 400.5),
    (6, 445.0),
    (4, 623.0),
    (2, 801.0),
    (0, 1112.5),
    (-1, 1235.0),
)

COMMERCIAL = TableRules(
    rules=PullRules.COMMERCIAL,
    rows=tuple(Row(awg=awg, area_m2=None, minimum_n=force_n) for awg, force_n in _ROWS),
    source=Source(
        text="commercial column of tensile force, as two application specifications of terminals "
        "print it; that it is the one of UL 486A is from memory",
        basis=Basis.PUBLISHED,
    ),
)
"""Values seen in print, their attribution to UL 486A from memory."""
