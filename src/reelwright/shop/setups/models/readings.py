"""What was read off finished ends: evidence, which only grows.

A wrong reading is taken back by a second row that says why; it stays, and no longer counts.
"""

from django.db import models

from reelwright.shop.append_only import AppendOnly
from reelwright.shop.catalogue.fields import millimetres, one_of, words_of
from reelwright.shop.setups.models.revisions import Revision
from reelwright.shop.setups.models.withdrawal import Withdrawal
from reelwright.shop.setups.states import FailureMode, Part


class BenchFile(AppendOnly):
    """One file of readings that was read in. The same bytes are never read in twice."""

    digest = models.CharField(max_length=64, unique=True, help_text="SHA-256 of its bytes")
    name = models.CharField(max_length=200)
    read_on = models.DateField()
    read_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    new_rows = models.PositiveIntegerField()
    known_rows = models.PositiveIntegerField(help_text="rows that stood in the records already")

    class Meta(AppendOnly.Meta):
        ordering = ("-id",)
        constraints = (
            models.CheckConstraint(
                condition=models.Q(new_rows__gte=1), name="bench_file_brought_something"
            ),
        )

    def __str__(self) -> str:
        return self.name


class EndReading(AppendOnly):
    """What every reading of a finished end has, whatever was read.

    ``end`` is its number within the day, or its serial; empty on pulls from before ends had one.
    """

    end = models.CharField(max_length=40, blank=True, default="")
    instrument = models.ForeignKey("tools.Instrument", models.PROTECT, null=True, related_name="+")
    out_of_calibration = models.BooleanField(
        default=False, help_text="the instrument's calibration did not hold on that day"
    )
    cavity = models.ForeignKey("tools.Cavity", models.PROTECT, null=True, related_name="+")
    tool_count = models.PositiveIntegerField(
        null=True, help_text="crimps of the cavity since its last regrind"
    )
    remark = models.CharField(max_length=200, blank=True, default="")
    file = models.ForeignKey(BenchFile, models.PROTECT, null=True, related_name="+")

    class Meta(AppendOnly.Meta):
        abstract = True


class Pull(EndReading):
    """One finished end, pulled until it gave way."""

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="pulls")
    force_n = models.FloatField()
    failure_mode = models.CharField(max_length=40, choices=words_of(FailureMode))
    pulled_on = models.DateField()
    pulled_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        ordering = ("revision", "pulled_on", "id")
        constraints = (
            models.CheckConstraint(condition=models.Q(force_n__gt=0), name="pull_above_zero"),
            one_of("failure_mode", FailureMode, name="pull_failure_mode_is_known"),
        )

    def __str__(self) -> str:
        return f"{self.force_n} N"


class EndDimension(EndReading):
    """One dimension of an end: a crimp's height across flats, a stripped length, a pin's length.

    The pin's growth is read as two lengths: ``length_mm`` after its crimp, ``before_mm`` before.
    """

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="dimensions")
    part = models.CharField(max_length=16, choices=words_of(Part))
    length_mm = millimetres()
    before_mm = millimetres(null=True, help_text="the length of the pin before its crimp")
    measured_on = models.DateField()
    measured_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        ordering = ("revision", "part", "measured_on", "id")
        indexes = (models.Index(fields=("revision", "part"), name="dimensions_of_a_revision"),)
        constraints = (
            models.CheckConstraint(
                condition=models.Q(length_mm__gt=0), name="end_dimension_above_zero"
            ),
            models.CheckConstraint(condition=~models.Q(end=""), name="end_dimension_names_its_end"),
            one_of("part", Part, name="end_dimension_part_is_known"),
            models.CheckConstraint(
                # Nothing is not above zero, but not false either: it is asked for by itself.
                condition=models.Q(
                    part=Part.PIN_GROWTH.value,
                    before_mm__isnull=False,
                    before_mm__gt=0,
                    instrument__isnull=False,
                )
                | (~models.Q(part=Part.PIN_GROWTH.value) & models.Q(before_mm__isnull=True)),
                name="pin_growth_has_both_lengths_and_its_gauge",
            ),
        )

    def __str__(self) -> str:
        before = "" if self.before_mm is None else f"{self.before_mm} to "
        return f"{self.part}: {before}{self.length_mm} mm"


class PullWithdrawal(Withdrawal):
    """Why a pull no longer counts."""

    reading = models.OneToOneField(Pull, models.PROTECT, related_name="withdrawal")

    class Meta(Withdrawal.Meta):
        constraints = (
            models.CheckConstraint(condition=~models.Q(reason=""), name="pull_withdrawal_says_why"),
        )

    def __str__(self) -> str:
        return f"withdrawal of pull {self.reading_id}"


class EndDimensionWithdrawal(Withdrawal):
    """Why a dimension no longer counts."""

    reading = models.OneToOneField(EndDimension, models.PROTECT, related_name="withdrawal")

    class Meta(Withdrawal.Meta):
        constraints = (
            models.CheckConstraint(
                condition=~models.Q(reason=""), name="end_dimension_withdrawal_says_why"
            ),
        )

    def __str__(self) -> str:
        return f"withdrawal of dimension {self.reading_id}"
