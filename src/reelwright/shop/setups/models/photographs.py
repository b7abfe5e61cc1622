"""Photographs of good and bad ends; their files lie in the folder of the workshop."""

from django.db import models

from reelwright.shop.append_only import AppendOnly
from reelwright.shop.catalogue.fields import one_of, words_of
from reelwright.shop.setups.models.revisions import Revision
from reelwright.shop.setups.states import PhotographKind, Shows


class Photograph(AppendOnly):
    """A photograph on a revision's sheet; its file lies in the workshop's folder by its digest.

    ``width_px``, ``height_px``: as it lies in the file; ``turned``: the way up, 1 to 8 (Exif).
    """

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="photographs")
    shows = models.CharField(max_length=8, choices=words_of(Shows))
    caption = models.CharField(max_length=200)
    digest = models.CharField(max_length=64)
    kind = models.CharField(max_length=8, choices=words_of(PhotographKind))
    size_bytes = models.PositiveIntegerField()
    width_px = models.PositiveIntegerField()
    height_px = models.PositiveIntegerField()
    turned = models.PositiveSmallIntegerField()
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()

    class Meta(AppendOnly.Meta):
        ordering = ("revision", "id")
        constraints = (
            one_of("shows", Shows, name="photograph_shows_is_known"),
            one_of("kind", PhotographKind, name="photograph_kind_is_known"),
            models.CheckConstraint(
                condition=~models.Q(caption=""), name="photograph_has_its_caption"
            ),
            models.CheckConstraint(
                condition=models.Q(size_bytes__gt=0, width_px__gt=0, height_px__gt=0)
                & models.Q(turned__gte=1, turned__lte=8),
                name="photograph_has_a_size",
            ),
        )

    def __str__(self) -> str:
        return self.caption


class PhotographTakenBack(AppendOnly):
    """A photograph that no longer stands on its sheet, and why. Its file is kept."""

    photograph = models.OneToOneField(Photograph, models.PROTECT, related_name="taken_back")
    reason = models.CharField(max_length=300)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()

    class Meta(AppendOnly.Meta):
        constraints = (
            models.CheckConstraint(
                condition=~models.Q(reason=""), name="photograph_taken_back_for_a_reason"
            ),
        )

    def __str__(self) -> str:
        return self.reason
