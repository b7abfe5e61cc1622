"""IEC 60352-2: least pull-out forces of crimped connections, by cross-section."""

from reelwright.core.ends.strength.pull_rules.rule_set import PullRules, Row, TableRules
from reelwright.core.verdicts import Basis, Source

# mm², the gauge printed beside it where there is one, newtons.
_ROWS = (
    (0.05, 30, 6.0),
    (0.08, 28, 11.0),
    (0.12, 26, 15.0),
    (0.14, None, 18.0),
    (0.22, 24, 28.0),
    (0.25, None, 32.0),
    (0.32, 22, 40.0),
    (0.5, 20, 60.0),
    (0.75, None, 85.0),
    (0.82, 18, 90.0),
    (1.0, None, 108.0),
    (1.3, 16, 135.0),
    (1.5, None, 150.0),
    (2.1, 14, 200.0),
    (2.5, None, 230.0),
    (3.3, 12, 275.0),
    (4.0, None, 310.0),
    (5.3, 10, 355.0),
    (6.0, None, 360.0),
    (8.4, 8, 370.0),
    (10.0, None, 380.0),
)

IEC = TableRules(
    rules=PullRules.IEC,
    rows=tuple(
        Row(awg=awg, area_m2=round(area_mm2 * 1e-6, 12), minimum_n=force_n)
        for area_mm2, awg, force_n in _ROWS
    ),
    source=Source(
        text="IEC 60352-2:2006, Table 1; to be confirmed in the standard", basis=Basis.FROM_MEMORY
    ),
)
"""All from memory, forces and gauges alike: confirm in the standard before a customer sees it."""
