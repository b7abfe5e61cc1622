"""Counted parts and their movements; movements are evidence and only grow."""

from typing import ClassVar

from django.db import models
from django.db.models import F, Q

from reelwright.shop.append_only import AppendOnly


class PartKind(models.TextChoices):
    """What kind of part lies in a bin."""

    CONNECTOR = "connector", "connector"
    BOOT = "boot", "boot"
    FERRULE = "ferrule", "ferrule"
    OTHER = "other", "other"


class BinItem(models.Model):
    """One kind of counted part. ``connector`` is given for connectors and for nothing else."""

    code = models.CharField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    kind = models.CharField(max_length=10, choices=PartKind)
    connector = models.OneToOneField(
        "catalogue.ConnectorType", models.PROTECT, null=True, related_name="bin_item"
    )
    unit_price = models.DecimalField(max_digits=12, decimal_places=4)
    location = models.CharField(max_length=40, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code="") & ~Q(name=""), name="bin_item_named"),
            models.CheckConstraint(
                condition=Q(kind__in=PartKind.values), name="bin_item_kind_known"
            ),
            models.CheckConstraint(
                condition=Q(kind=PartKind.CONNECTOR.value, connector__isnull=False)
                | (~Q(kind=PartKind.CONNECTOR.value) & Q(connector__isnull=True)),
                name="bin_item_connector_when_connector",
            ),
            models.CheckConstraint(
                condition=Q(unit_price__gte=0), name="bin_item_price_not_negative"
            ),
        ]

    def __str__(self) -> str:
        return self.code


class MovementKind(models.TextChoices):
    """Why the count changed."""

    RECEIVED = "received", "received"
    TAKEN = "taken", "taken"
    COUNTED = "counted", "counted"
    REVERSAL = "reversal", "reversal"


class BinMovement(AppendOnly):
    """One change of a count; the sum of an item's changes is what is on hand."""

    item = models.ForeignKey(BinItem, models.PROTECT, related_name="movements")
    kind = models.CharField(max_length=10, choices=MovementKind)
    change = models.IntegerField()
    used_for = models.CharField(max_length=60, blank=True)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)
    reason = models.CharField(max_length=200, blank=True)
    reverses = models.OneToOneField("self", models.PROTECT, null=True, related_name="reversed_by")

    class Meta(AppendOnly.Meta):
        indexes: ClassVar = [models.Index(fields=["item", "id"], name="movement_of_its_item")]
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(kind=MovementKind.RECEIVED.value, change__gt=0)
                | Q(kind=MovementKind.TAKEN.value, change__lt=0)
                | Q(kind__in=[MovementKind.COUNTED.value, MovementKind.REVERSAL.value]),
                name="movement_sign_follows_kind",
            ),
            models.CheckConstraint(
                condition=Q(kind=MovementKind.REVERSAL.value, reverses__isnull=False)
                | (~Q(kind=MovementKind.REVERSAL.value) & Q(reverses__isnull=True)),
                name="movement_reverses_when_reversal",
            ),
            models.CheckConstraint(
                condition=Q(reverses__isnull=True) | ~Q(reverses=F("id")),
                name="movement_never_reverses_itself",
            ),
            models.CheckConstraint(
                condition=~Q(kind__in=[MovementKind.COUNTED.value, MovementKind.REVERSAL.value])
                | ~Q(reason=""),
                name="movement_says_why",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.item_id} {self.kind} {self.change}"
