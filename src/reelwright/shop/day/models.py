"""One run of the day: which order file, and what came of it."""

from django.db import models


class DayRun(models.Model):
    """One order file taken in on one working day, or one plan made without a file.

    The same content again finds this row and changes nothing; the pack is written from it.
    """

    on = models.DateField()
    number = models.PositiveIntegerField(help_text="from 1 within the working day")
    file_name = models.CharField(max_length=200, blank=True)
    digest = models.CharField(max_length=64, blank=True, help_text="SHA-256 of the lines read")
    cut_plan = models.ForeignKey(
        "work.CutPlan", models.PROTECT, null=True, blank=True, related_name="+"
    )
    bench_plan = models.ForeignKey(
        "work.BenchPlan", models.PROTECT, null=True, blank=True, related_name="+"
    )
    lines = models.ManyToManyField("orders.OrderLine", related_name="day_runs")
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("on", "number")
        constraints = (
            models.UniqueConstraint(fields=("on", "number"), name="day_run_numbered_in_its_day"),
            models.UniqueConstraint(
                fields=("digest",),
                condition=~models.Q(digest=""),
                name="order_file_taken_in_once",
            ),
        )

    def __str__(self) -> str:
        return f"{self.on} run {self.number}"
