"""What is to be made and what was made: pieces, plans, travellers, booked cuts.

A plan is never edited. A new plan for the same working day stands in for the one before it; what
was already cut stays cut.
"""

from django.db import models


class Piece(models.Model):
    """One cable to be made for an order line: one piece off one reel, one serial."""

    class State(models.TextChoices):
        """How far it is."""

        WAITING = "waiting", "waiting for a plan"
        PLANNED = "planned", "planned"
        CUT = "cut", "cut"
        WITHDRAWN = "withdrawn", "withdrawn"

    line = models.ForeignKey("orders.OrderLine", models.PROTECT, related_name="pieces")
    number = models.PositiveIntegerField(help_text="from 1 within the line")
    code = models.CharField(max_length=60, unique=True)
    serial = models.CharField(max_length=20, unique=True)
    cable = models.ForeignKey("catalogue.CableType", models.PROTECT, related_name="+")
    colour = models.CharField(max_length=4)
    lot_group = models.CharField(max_length=80, blank=True)
    spare = models.BooleanField()
    finished_mm = models.PositiveIntegerField()
    cut_length_mm = models.PositiveIntegerField()
    wheel_setting_mm = models.PositiveIntegerField()
    cut_uncertainty_mm = models.FloatField()
    state = models.CharField(max_length=10, choices=State)

    class Meta:
        ordering = ("line", "number")
        constraints = (
            models.UniqueConstraint(fields=("line", "number"), name="piece_numbered_in_its_line"),
            models.CheckConstraint(
                condition=models.Q(state__in=("waiting", "planned", "cut", "withdrawn")),
                name="piece_state_known",
            ),
            models.CheckConstraint(
                condition=models.Q(cut_length_mm__gte=1), name="piece_has_a_length"
            ),
        )

    def __str__(self) -> str:
        return self.code


class CutPlan(models.Model):
    """Which reel each waiting piece comes off, as planned at one moment of a working day."""

    planned_for = models.DateField()
    number = models.PositiveIntegerField(help_text="from 1 within the working day")
    content = models.JSONField(help_text="the plan in full, as the engine gave it")
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("planned_for", "number")
        constraints = (
            models.UniqueConstraint(
                fields=("planned_for", "number"), name="cut_plan_numbered_in_its_day"
            ),
        )

    def __str__(self) -> str:
        return f"{self.planned_for} cut plan {self.number}"


class PlannedCut(models.Model):
    """One piece off one reel, in order from the free end."""

    class State(models.TextChoices):
        """Whether it was made."""

        PLANNED = "planned", "planned"
        CUT = "cut", "cut"
        REPLACED = "replaced", "replaced by a later plan"

    plan = models.ForeignKey(CutPlan, models.PROTECT, related_name="cuts")
    reel = models.ForeignKey("reels.Reel", models.PROTECT, related_name="planned_cuts")
    piece = models.ForeignKey(Piece, models.PROTECT, related_name="planned_cuts")
    sequence = models.PositiveIntegerField(help_text="along the reel, from 1 at the free end")
    start_mm = models.PositiveIntegerField(help_text="from the free end at the time of planning")
    state = models.CharField(max_length=10, choices=State)

    class Meta:
        ordering = ("plan", "reel", "sequence")
        constraints = (
            models.UniqueConstraint(
                fields=("plan", "reel", "sequence"), name="cut_in_sequence_along_its_reel"
            ),
            models.UniqueConstraint(fields=("plan", "piece"), name="piece_once_in_a_plan"),
            models.CheckConstraint(
                condition=models.Q(state__in=("planned", "cut", "replaced")),
                name="planned_cut_state_known",
            ),
            models.UniqueConstraint(
                fields=("piece",),
                condition=models.Q(state="cut"),
                name="piece_cut_once",
            ),
        )

    def __str__(self) -> str:
        return f"{self.reel} {self.sequence}: {self.piece}"


class Traveller(models.Model):
    """The sheet that goes with the pieces of one order line."""

    number = models.CharField(max_length=20, unique=True)
    line = models.OneToOneField("orders.OrderLine", models.PROTECT, related_name="traveller")
    end_a = models.ForeignKey("setups.Revision", models.PROTECT, related_name="+")
    end_b = models.ForeignKey("setups.Revision", models.PROTECT, related_name="+")
    issued_on = models.DateField()

    class Meta:
        ordering = ("number",)

    def __str__(self) -> str:
        return self.number


class BenchPlan(models.Model):
    """Who makes what, when, as planned at one moment of a working day."""

    planned_for = models.DateField()
    number = models.PositiveIntegerField(help_text="from 1 within the working day")
    content = models.JSONField(help_text="the plan in full, as the engine gave it")
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("planned_for", "number")
        constraints = (
            models.UniqueConstraint(
                fields=("planned_for", "number"), name="bench_plan_numbered_in_its_day"
            ),
        )

    def __str__(self) -> str:
        return f"{self.planned_for} bench plan {self.number}"
