"""What every record says that takes an earlier one out of the count."""

from django.db import models

from reelwright.shop.append_only import AppendOnly


class Withdrawal(AppendOnly):
    """Who took a record back, when and why; which record stands in the table itself."""

    withdrawn_on = models.DateField()
    withdrawn_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    reason = models.CharField(max_length=200)

    class Meta(AppendOnly.Meta):
        abstract = True
