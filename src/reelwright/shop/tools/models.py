"""What work is done with. A wheel's calibrations are evidence and only grow."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from reelwright.core.bench.problem import Station as StationKind
from reelwright.shop.append_only import AppendOnly


class Station(models.Model):
    """A place where one kind of work is done, and what an hour there costs."""

    code = models.CharField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=10, choices=[(k.value, k.value) for k in StationKind])
    cost_per_hour = models.DecimalField(max_digits=12, decimal_places=4)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code="") & ~Q(name=""), name="station_named"),
            models.CheckConstraint(
                condition=Q(kind__in=[k.value for k in StationKind]), name="station_kind_known"
            ),
            models.CheckConstraint(
                condition=Q(cost_per_hour__gte=0), name="station_cost_not_negative"
            ),
        ]

    def __str__(self) -> str:
        return self.code


class CavityUse(models.TextChoices):
    """What a die cavity closes on."""

    PIN = "pin", "pin"
    FERRULE = "ferrule", "ferrule"


class Cavity(models.Model):
    """One hexagonal die cavity. ``closings`` counts since its last service."""

    code = models.CharField(max_length=40, unique=True)
    use = models.CharField(max_length=10, choices=CavityUse)
    across_flats_mm = models.DecimalField(max_digits=6, decimal_places=3)
    closings = models.PositiveIntegerField()
    service_after = models.PositiveIntegerField()
    in_service = models.BooleanField()
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        verbose_name_plural = "cavities"
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code=""), name="cavity_has_a_code"),
            models.CheckConstraint(condition=Q(use__in=CavityUse.values), name="cavity_use_known"),
            models.CheckConstraint(condition=Q(across_flats_mm__gt=0), name="cavity_has_a_size"),
            models.CheckConstraint(condition=Q(closings__gte=0), name="cavity_closings_counted"),
            models.CheckConstraint(condition=Q(service_after__gte=1), name="cavity_has_a_life"),
        ]

    def __str__(self) -> str:
        return self.code


class BladeSet(models.Model):
    """One set of stripper blades. ``ends`` counts since it was last sharpened or changed."""

    code = models.CharField(max_length=40, unique=True)
    ends = models.PositiveIntegerField()
    service_after = models.PositiveIntegerField()
    in_service = models.BooleanField()
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code=""), name="blade_set_has_a_code"),
            models.CheckConstraint(condition=Q(ends__gte=0), name="blade_set_ends_counted"),
            models.CheckConstraint(condition=Q(service_after__gte=1), name="blade_set_has_a_life"),
        ]

    def __str__(self) -> str:
        return self.code


class Instrument(models.Model):
    """One measuring instrument and the last day its calibration holds."""

    code = models.CharField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    measures = models.CharField(max_length=120)
    calibration_due = models.DateField(null=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code="") & ~Q(name=""), name="instrument_named"),
        ]

    def __str__(self) -> str:
        return self.code


class WheelCalibration(AppendOnly):
    """What the length wheel delivered against a steel tape when it was set to ``set_mm``.

    ``fixed_uncertainty_mm`` and ``relative_uncertainty`` are the two parts of one cut's standard
    uncertainty after that correction.
    """

    station = models.ForeignKey(Station, models.PROTECT, related_name="wheel_calibrations")
    set_mm = models.FloatField()
    delivered_mm = models.FloatField()
    fixed_uncertainty_mm = models.FloatField()
    relative_uncertainty = models.FloatField()
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(set_mm__gt=0, delivered_mm__gt=0), name="wheel_lengths_above_zero"
            ),
            models.CheckConstraint(
                condition=Q(fixed_uncertainty_mm__gte=0, relative_uncertainty__gte=0),
                name="wheel_uncertainty_not_negative",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.station_id}: {self.delivered_mm} mm per {self.set_mm} mm on {self.on}"
