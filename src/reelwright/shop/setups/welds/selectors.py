"""The traces of a revision's welds, as values."""

import datetime as dt
from dataclasses import dataclass

from reelwright.core.ends.weld.trace import WeldFeatures, compare_weld
from reelwright.core.verdicts import Check
from reelwright.shop.setups.models import WeldTrace


@dataclass(frozen=True, kw_only=True)
class TraceRead:
    """One trace as it is kept. ``curve``: pairs of time [s] and power [W], thinned out.

    ``withdrawn``: who took it back when and why; empty where it counts.
    """

    number: int
    name: str
    features: WeldFeatures
    joint_height_m: float | None
    joint_width_m: float | None
    curve: tuple[tuple[float, float], ...]
    good: bool
    reason: str
    on: dt.date
    by: str
    withdrawn: str

    @property
    def serves(self) -> bool:
        """Whether later welds are held against it: a good one that was not taken back."""
        return self.good and not self.withdrawn


def weld_traces(revision_id: int) -> tuple[TraceRead, ...]:
    """Return every trace of a revision, oldest first, also those taken back."""
    rows = (
        WeldTrace.objects.filter(revision_id=revision_id)
        .select_related("read_by", "withdrawal__withdrawn_by")
        .order_by("pk")
    )
    return tuple(_trace(row) for row in rows)


def judged(trace: TraceRead, traces: tuple[TraceRead, ...]) -> tuple[Check, ...]:
    """Return ``trace`` held against the good ones read before it."""
    good = [one.features for one in traces if one.serves and one.number < trace.number]
    return compare_weld(trace.features, good)


def _trace(row: WeldTrace) -> TraceRead:
    withdrawn = ""
    if hasattr(row, "withdrawal"):
        one = row.withdrawal
        withdrawn = f"{one.withdrawn_by.display_name}, {one.withdrawn_on:%Y-%m-%d}: {one.reason}"
    return TraceRead(
        number=row.pk,
        name=row.name,
        features=WeldFeatures(
            energy_j=row.energy_j,
            peak_w=row.peak_w,
            peak_s=row.peak_s,
            weld_s=row.weld_s,
            knee_s=row.knee_s,
            rise_w_per_s=row.rise_w_per_s,
            collapse_m=row.collapse_m,
            step_s=row.step_s,
        ),
        joint_height_m=row.joint_height_m,
        joint_width_m=row.joint_width_m,
        curve=tuple((float(at), float(power)) for at, power in row.curve),
        good=row.good,
        reason=row.reason,
        on=row.read_on,
        by=row.read_by.display_name,
        withdrawn=withdrawn,
    )
