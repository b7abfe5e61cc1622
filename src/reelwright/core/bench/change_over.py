"""What must be changed between two settings, and how long that takes."""

from reelwright.core.bench.plan import ChangeOver, ChangeOverPart
from reelwright.core.bench.problem import (
    TERMINATING,
    Batch,
    ChangeOverRule,
    Station,
    StationSetting,
)

BARE = StationSetting(
    program=None,
    blade_set=None,
    dies=frozenset(),
    test_adapters=frozenset(),
    weld_horn=None,
)
"""Nothing mounted."""


def differences(
    rule: ChangeOverRule, before: StationSetting | None, after: StationSetting
) -> tuple[ChangeOverPart, ...]:
    """Return what to change to get from one setting to another; empty where nothing differs.

    ``before`` None: nothing is mounted. What ``after`` does not need is left as it is. The first
    article comes on top whenever anything changes; it stands at the press here.
    """
    old = before or BARE
    parts = []
    if after.program is not None and after.program != old.program:
        parts.append(_part(Station.STRIP, f"program {after.program}", rule.program_s))
    if after.blade_set is not None and after.blade_set != old.blade_set:
        parts.append(_part(Station.STRIP, f"blade set {after.blade_set}", rule.blade_set_s))
    for die in sorted(after.dies - old.dies):
        parts.append(_part(Station.PRESS, f"die {die}", rule.die_s))
    if after.weld_horn is not None and after.weld_horn != old.weld_horn:
        parts.append(_part(Station.WELD, f"horn {after.weld_horn}", rule.weld_horn_s))
    if after.test_adapters and after.test_adapters != old.test_adapters:
        names = " and ".join(sorted(after.test_adapters))
        parts.append(_part(Station.TEST, f"test adapters {names}", rule.test_adapters_s))
    if parts:
        parts.append(_part(Station.PRESS, "first article", rule.first_article_s))
    return tuple(parts)


def change_over(rule: ChangeOverRule, before: StationSetting | None, batch: Batch) -> ChangeOver:
    """Return the change-over in front of a batch, each part at a station the batch passes."""
    passed = [work.station for work in batch.work]
    makes = next((station for station in passed if station in TERMINATING), passed[0])
    parts = []
    for part in differences(rule, before, batch.setting):
        if part.what == "first article":
            station = makes
        else:
            station = part.station if part.station in passed else passed[0]
        parts.append(_part(station, part.what, part.duration_s))
    return ChangeOver(batch_id=batch.id, parts=tuple(parts))


def _part(station: Station, what: str, duration_s: int) -> ChangeOverPart:
    return ChangeOverPart(station=station, what=what, duration_s=duration_s)
