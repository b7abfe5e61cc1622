"""Minutes of work and of change-over, as they are quoted."""

from django.db import models

from reelwright.core.bench.problem import Station
from reelwright.core.parts.cable import Family
from reelwright.shop.catalogue.fields import one_of, words_of


class WorkTime(models.Model):
    """Minutes that one station needs for a cable of a family, as they are quoted."""

    family = models.CharField(max_length=24, choices=words_of(Family))
    station = models.CharField(max_length=24, choices=words_of(Station))
    set_up_min = models.DecimalField(max_digits=6, decimal_places=3)
    per_cable_min = models.DecimalField(max_digits=6, decimal_places=3)
    per_metre_min = models.DecimalField(max_digits=6, decimal_places=3)

    class Meta:
        ordering = ("family", "id")
        constraints = (
            models.UniqueConstraint(fields=("family", "station"), name="work_time_once"),
            one_of("family", Family, name="work_time_family_is_known"),
            one_of("station", Station, name="work_time_station_is_known"),
            models.CheckConstraint(
                condition=models.Q(set_up_min__gte=0, per_cable_min__gte=0, per_metre_min__gte=0),
                name="work_time_not_negative",
            ),
        )

    def __str__(self) -> str:
        return f"{self.family}, {self.station}"


class ChangeOverTimes(models.Model):
    """Minutes to change the machines over from one set-up to another, from a day on."""

    valid_from = models.DateField(unique=True)
    first_article_min = models.DecimalField(max_digits=6, decimal_places=3)
    program_min = models.DecimalField(max_digits=6, decimal_places=3)
    blade_set_min = models.DecimalField(max_digits=6, decimal_places=3)
    die_min = models.DecimalField(max_digits=6, decimal_places=3)
    test_adapters_min = models.DecimalField(max_digits=6, decimal_places=3)
    weld_horn_min = models.DecimalField(max_digits=6, decimal_places=3)

    class Meta:
        ordering = ("-valid_from",)
        verbose_name_plural = "change-over times"
        constraints = (
            models.CheckConstraint(
                condition=models.Q(
                    first_article_min__gte=0,
                    program_min__gte=0,
                    blade_set_min__gte=0,
                    die_min__gte=0,
                    test_adapters_min__gte=0,
                    weld_horn_min__gte=0,
                ),
                name="change_over_not_negative",
            ),
        )

    def __str__(self) -> str:
        return f"change-over times from {self.valid_from}"
