"""Power traces of welds: what each came to, and whether it counts as a good one. Only grows."""

from django.db import models

from reelwright.shop.append_only import AppendOnly
from reelwright.shop.setups.models.revisions import Revision
from reelwright.shop.setups.models.withdrawal import Withdrawal


class WeldTrace(AppendOnly):
    """One weld's trace: its features, and the curve thinned out for its drawing.

    ``reason``: why it is doubtful, or why it is called good where its features are not those of
    the good ones before it.
    """

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="weld_traces")
    digest = models.CharField(max_length=64, help_text="SHA-256 of the file's bytes")
    name = models.CharField(max_length=200)
    energy_j = models.FloatField()
    peak_w = models.FloatField()
    peak_s = models.FloatField()
    weld_s = models.FloatField()
    knee_s = models.FloatField()
    rise_w_per_s = models.FloatField()
    collapse_m = models.FloatField(null=True)
    step_s = models.FloatField(help_text="the widest step between two samples; 0: not kept")
    joint_height_m = models.FloatField(null=True)
    joint_width_m = models.FloatField(null=True)
    curve = models.JSONField(help_text="pairs of time in s and power in W")
    good = models.BooleanField()
    reason = models.CharField(max_length=200, blank=True)
    read_on = models.DateField()
    read_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        ordering = ("revision", "id")
        constraints = (
            models.UniqueConstraint(fields=("revision", "digest"), name="weld_trace_read_once"),
            models.CheckConstraint(
                condition=models.Q(energy_j__gt=0, peak_w__gt=0, weld_s__gt=0),
                name="weld_trace_took_power",
            ),
            models.CheckConstraint(
                condition=models.Q(good=True) | ~models.Q(reason=""),
                name="weld_trace_doubtful_says_why",
            ),
        )

    def __str__(self) -> str:
        return self.name


class WeldTraceWithdrawal(Withdrawal):
    """Why a trace no longer counts."""

    trace = models.OneToOneField(WeldTrace, models.PROTECT, related_name="withdrawal")

    class Meta(Withdrawal.Meta):
        constraints = (
            models.CheckConstraint(
                condition=~models.Q(reason=""), name="weld_trace_withdrawal_says_why"
            ),
        )

    def __str__(self) -> str:
        return f"withdrawal of trace {self.trace_id}"
