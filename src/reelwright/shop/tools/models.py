"""What work is done with. A wheel's calibrations, what cavities were gauged at, why one rested and
what a press was known by are evidence and only grow."""

from typing import ClassVar

from django.db import models
from django.db.models import Q

from reelwright.core.bench.problem import Station as StationKind
from reelwright.core.ends.dies.press import ForceKnown
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
    """One hexagonal die cavity. ``closings`` counts since the last of its ``services``."""

    code = models.CharField(max_length=40, unique=True)
    use = models.CharField(max_length=10, choices=CavityUse)
    across_flats_mm = models.DecimalField(max_digits=6, decimal_places=3)
    closings = models.PositiveIntegerField()
    service_after = models.PositiveIntegerField()
    services = models.PositiveIntegerField(default=0)
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


class UncertaintyUnit(models.TextChoices):
    """In which unit an instrument's uncertainty stands."""

    MILLIMETRE = "mm", "mm"
    NEWTON = "N", "N"


class InstrumentUncertainty(AppendOnly):
    """Standard uncertainty of one reading, as a certificate or the shop's own check says.

    The newest by the day of a reading holds for it; a new check adds a row.
    """

    instrument = models.ForeignKey(Instrument, models.PROTECT, related_name="uncertainties")
    standard_uncertainty = models.DecimalField(max_digits=9, decimal_places=5)
    unit = models.CharField(max_length=4, choices=UncertaintyUnit)
    source = models.CharField(max_length=200)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(standard_uncertainty__gt=0), name="instrument_uncertainty_above_zero"
            ),
            models.CheckConstraint(
                condition=~Q(source=""), name="instrument_uncertainty_has_a_source"
            ),
            models.CheckConstraint(
                condition=Q(unit__in=UncertaintyUnit.values), name="instrument_uncertainty_unit"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.instrument_id}: {self.standard_uncertainty} {self.unit} on {self.on}"


class CavityGauging(AppendOnly):
    """Width across flats of a closed cavity as gauged; the newest since its last service counts.

    ``closings_then`` and ``services_then`` are the cavity's counts when it was gauged: what was
    gauged before a service no longer counts after it.
    """

    cavity = models.ForeignKey(Cavity, models.PROTECT, related_name="gaugings")
    across_flats_mm = models.DecimalField(max_digits=7, decimal_places=4)
    uncertainty_mm = models.DecimalField(max_digits=7, decimal_places=4)
    instrument = models.ForeignKey(Instrument, models.PROTECT, related_name="+")
    closings_then = models.PositiveIntegerField()
    services_then = models.PositiveIntegerField()
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(across_flats_mm__gt=0, uncertainty_mm__gt=0),
                name="cavity_gauging_above_zero",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.cavity_id}: {self.across_flats_mm} mm on {self.on}"


class CavityGaugingTakenBack(AppendOnly):
    """A gauging that is no longer reckoned with: of another cavity, or a slip."""

    gauging = models.OneToOneField(CavityGauging, models.PROTECT, related_name="taken_back")
    reason = models.CharField(max_length=200)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(reason=""), name="gauging_taken_back_for_a_reason"),
        ]

    def __str__(self) -> str:
        return f"{self.gauging_id}: {self.reason}"


class CavityMove(AppendOnly):
    """A cavity laid to rest or put back, and why. ``serviced``: its count began again with it.

    ``closings_then`` is what it had counted until then.
    """

    cavity = models.ForeignKey(Cavity, models.PROTECT, related_name="moves")
    into_service = models.BooleanField()
    serviced = models.BooleanField()
    closings_then = models.PositiveIntegerField()
    reason = models.CharField(max_length=200)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(reason=""), name="cavity_moved_for_a_reason"),
            models.CheckConstraint(
                condition=Q(into_service=True) | Q(serviced=False),
                name="cavity_serviced_when_put_back",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.cavity_id}: {self.reason}"


class PressFacts(models.Model):
    """What is known of a press's force: stated, measured, or the cylinder it follows from."""

    known = models.CharField(max_length=40, choices=[(k.value, k.value) for k in ForceKnown])
    force_n = models.FloatField(null=True)
    bore_mm = models.FloatField(null=True)
    pressure_kpa = models.FloatField(null=True)
    ratio = models.FloatField(null=True)
    efficiency = models.FloatField(null=True)
    in_use = models.BooleanField(default=True)

    class Meta:
        abstract = True


class Press(PressFacts):
    """One press: its force at the die as stated or measured, or the cylinder it follows from.

    One that is not ``in_use`` is asked for no force.
    """

    code = models.CharField(max_length=40, unique=True)
    station = models.ForeignKey(Station, models.PROTECT, related_name="presses")

    class Meta:
        verbose_name_plural = "presses"
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code=""), name="press_has_a_code"),
            # A comparison with nothing is neither true nor false, and a check lets that pass.
            models.CheckConstraint(
                condition=(
                    Q(known=ForceKnown.COMPUTED.value)
                    & Q(force_n__isnull=True)
                    & Q(bore_mm__isnull=False, pressure_kpa__isnull=False)
                    & Q(ratio__isnull=False, efficiency__isnull=False)
                    & Q(bore_mm__gt=0, pressure_kpa__gt=0, ratio__gt=0)
                    & Q(efficiency__gt=0, efficiency__lte=1)
                )
                | (
                    Q(known__in=[ForceKnown.STATED.value, ForceKnown.MEASURED.value])
                    & Q(force_n__isnull=False, force_n__gt=0)
                    & Q(bore_mm__isnull=True, pressure_kpa__isnull=True)
                    & Q(ratio__isnull=True, efficiency__isnull=True)
                ),
                name="press_force_is_known_one_way",
            ),
        ]

    def __str__(self) -> str:
        return self.code


class PressChange(PressFacts, AppendOnly):
    """What was known of a press until it was changed on a day, and why it was."""

    press = models.ForeignKey(Press, models.PROTECT, related_name="changes")
    reason = models.CharField(max_length=200)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(reason=""), name="press_changed_for_a_reason"),
        ]

    def __str__(self) -> str:
        return f"{self.press_id} until {self.on}: {self.reason}"


class Welder(models.Model):
    """One ultrasonic welder and its limits, as its maker states them."""

    code = models.CharField(max_length=40, unique=True)
    station = models.ForeignKey(Station, models.PROTECT, related_name="welders")
    most_energy_j = models.FloatField()
    most_power_w = models.FloatField()
    longest_s = models.FloatField()

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code=""), name="welder_has_a_code"),
            models.CheckConstraint(
                condition=Q(most_energy_j__gt=0, most_power_w__gt=0, longest_s__gt=0),
                name="welder_limits_above_zero",
            ),
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
