"""What was measured of finished ends: evidence, which only grows."""

from django.db import models

from reelwright.shop.append_only import AppendOnly
from reelwright.shop.catalogue.fields import one_of, words_of
from reelwright.shop.setups.models.revisions import Revision
from reelwright.shop.setups.states import FailureMode


class Pull(AppendOnly):
    """One finished end, pulled until it gave way."""

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="pulls")
    force_n = models.FloatField()
    failure_mode = models.CharField(max_length=40, choices=words_of(FailureMode))
    pulled_on = models.DateField()
    pulled_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    tool_count = models.PositiveIntegerField(
        null=True, help_text="crimps of the ferrule cavity since its last regrind"
    )

    class Meta(AppendOnly.Meta):
        ordering = ("revision", "pulled_on", "id")
        constraints = (
            models.CheckConstraint(condition=models.Q(force_n__gt=0), name="pull_above_zero"),
            one_of("failure_mode", FailureMode, name="pull_failure_mode_is_known"),
        )

    def __str__(self) -> str:
        return f"{self.force_n} N"
