"""Lots, reels, flaws and the ledger. Flaws and ledger entries are evidence: they only grow.

Lengths are whole millimetres. A flaw's place counts from the reel's inner end, so that no cut ever
moves it; plans count from the outer end (see ``to_core``).
"""

from typing import ClassVar

from django.db import models
from django.db.models import F, Q

from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.shop.append_only import AppendOnly


class Lot(models.Model):
    """One production run of a maker, as received; a measured value stands in for the sheet's."""

    code = models.CharField(max_length=40, unique=True)
    cable = models.ForeignKey("catalogue.CableType", models.PROTECT, related_name="lots")
    colour = models.CharField(max_length=4)
    received_on = models.DateField()
    delay_s_per_m = models.FloatField(null=True)
    delay_relative_uncertainty = models.FloatField(null=True)
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code=""), name="lot_has_a_code"),
            models.CheckConstraint(
                condition=Q(colour__in=sorted(COLOUR_NAMES)), name="lot_colour_is_known"
            ),
            models.CheckConstraint(
                condition=Q(delay_s_per_m__isnull=True, delay_relative_uncertainty__isnull=True)
                # A check that compares with NULL is unknown, and unknown passes.
                | Q(
                    delay_s_per_m__isnull=False,
                    delay_s_per_m__gt=0,
                    delay_relative_uncertainty__isnull=False,
                    delay_relative_uncertainty__gt=0,
                ),
                name="lot_delay_with_its_uncertainty",
            ),
        ]

    def __str__(self) -> str:
        return self.code


class LotValue(models.TextChoices):
    """What can be measured of a lot, by the field of the core's value that it fills."""

    IMPEDANCE = "impedance_ohm", "impedance"
    DELAY = "delay_s_per_m", "delay"
    CAPACITANCE = "capacitance_f_per_m", "capacitance"
    CONDUCTOR = "resistance_conductor_ohm_per_m", "resistance of a conductor"
    SCREEN = "resistance_screen_ohm_per_m", "resistance of the screen"
    LOSS = "loss_db_per_m", "loss"


class LotMeasurement(AppendOnly):
    """One value measured of a lot, at 20 °C; the newest of its kind (and frequency) counts.

    A value entered in error is put right by measuring, or entering, it again; one that is not of
    this lot at all is withdrawn.
    """

    lot = models.ForeignKey(Lot, models.PROTECT, related_name="measurements")
    what = models.CharField(max_length=40, choices=LotValue)
    frequency_hz = models.FloatField(null=True)
    value = models.FloatField()
    relative_uncertainty = models.FloatField()
    readings = models.PositiveSmallIntegerField()
    note = models.CharField(max_length=200, blank=True)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(what__in=LotValue.values), name="lot_measurement_of_something_known"
            ),
            models.CheckConstraint(
                condition=Q(value__gt=0, relative_uncertainty__gt=0, readings__gte=1),
                name="lot_measurement_above_zero",
            ),
            models.CheckConstraint(
                condition=Q(what=LotValue.LOSS, frequency_hz__isnull=False, frequency_hz__gt=0)
                | (~Q(what=LotValue.LOSS) & Q(frequency_hz__isnull=True)),
                name="lot_measurement_of_a_loss_names_its_frequency",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.lot_id} {self.what}"


class LotMeasurementWithdrawal(AppendOnly):
    """That a measurement was entered in error, and why; what stood before it counts again."""

    measurement = models.OneToOneField(LotMeasurement, models.PROTECT, related_name="withdrawal")
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    reason = models.CharField(max_length=200)
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=~Q(reason=""), name="lot_measurement_withdrawal_says_why"
            ),
        ]

    def __str__(self) -> str:
        return f"withdrawal of measurement {self.measurement_id}"


class ReelEnd(models.TextChoices):
    """The two ends of the cable on a reel, by the maker's length marks."""

    A = "A", "A"
    B = "B", "B"


class Reel(models.Model):
    """One reel or loose remnant. ``outside_end`` is the end that comes off first."""

    code = models.CharField(max_length=40, unique=True)
    lot = models.ForeignKey(Lot, models.PROTECT, related_name="reels")
    location = models.CharField(max_length=40, blank=True)
    outside_end = models.CharField(max_length=1, choices=ReelEnd)
    received_on = models.DateField()

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(code=""), name="reel_has_a_code"),
            models.CheckConstraint(
                condition=Q(outside_end__in=ReelEnd.values), name="reel_outside_end_known"
            ),
        ]

    def __str__(self) -> str:
        return self.code


class Flaw(AppendOnly):
    """A stretch that no piece may contain: a splice, a crush, a dent.

    ``after`` is the reel's last entry when the flaw was found: its place holds for the length that
    the ledger knew then, and moves when a later count tells that the reel was longer or shorter.
    """

    reel = models.ForeignKey(Reel, models.PROTECT, related_name="flaws")
    after = models.ForeignKey("LedgerEntry", models.PROTECT, related_name="+")
    start_from_inner_mm = models.IntegerField()
    length_mm = models.PositiveIntegerField()
    note = models.CharField(max_length=200)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(condition=Q(length_mm__gte=1), name="flaw_has_a_length"),
            models.CheckConstraint(
                condition=Q(start_from_inner_mm__gte=0), name="flaw_lies_on_its_reel"
            ),
            models.CheckConstraint(condition=~Q(note=""), name="flaw_says_what"),
        ]

    def __str__(self) -> str:
        return f"{self.reel_id} flaw at {self.start_from_inner_mm} mm"


class FlawWithdrawal(AppendOnly):
    """That a flaw was recorded in error, and why."""

    flaw = models.OneToOneField(Flaw, models.PROTECT, related_name="withdrawal")
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    reason = models.CharField(max_length=200)
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta(AppendOnly.Meta):
        constraints: ClassVar = [
            models.CheckConstraint(condition=~Q(reason=""), name="flaw_withdrawal_says_why"),
        ]

    def __str__(self) -> str:
        return f"withdrawal of flaw {self.flaw_id}"


class EntryKind(models.TextChoices):
    """Why the length on a reel changed."""

    RECEIVED = "received", "received"
    CUT = "cut", "cut for a piece"
    SKIPPED = "skipped", "cut away past a flaw"
    SCRAPPED = "scrapped", "scrapped"
    COUNTED = "counted", "counted"
    REVERSAL = "reversal", "reversal"


_TAKES = (EntryKind.CUT.value, EntryKind.SKIPPED.value, EntryKind.SCRAPPED.value)
_SAYS_WHY = (
    EntryKind.SKIPPED.value,
    EntryKind.SCRAPPED.value,
    EntryKind.COUNTED.value,
    EntryKind.REVERSAL.value,
)


class LedgerEntry(AppendOnly):
    """One change of the length on one reel; the sum of a reel's changes is what is left.

    ``standard_uncertainty_mm`` is this entry's own (of a count: of the length counted), and adds
    in squares over entries. ``wheel_uncertainty_mm`` is the length wheel's share, which errs the
    same way at every cut and so adds up plainly along a reel. ``attempt`` counts how often a piece
    was cut: a second time only after the first was reversed.
    """

    reel = models.ForeignKey(Reel, models.PROTECT, related_name="entries")
    kind = models.CharField(max_length=10, choices=EntryKind)
    change_mm = models.IntegerField()
    standard_uncertainty_mm = models.FloatField()
    wheel_uncertainty_mm = models.FloatField()
    piece = models.CharField(max_length=60, blank=True)
    attempt = models.PositiveSmallIntegerField(default=1)
    by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    on = models.DateField()
    recorded_at = models.DateTimeField(auto_now_add=True)
    reason = models.CharField(max_length=200, blank=True)
    reverses = models.OneToOneField("self", models.PROTECT, null=True, related_name="reversed_by")

    class Meta(AppendOnly.Meta):
        indexes: ClassVar = [models.Index(fields=["reel", "id"], name="entry_along_its_reel")]
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=Q(kind=EntryKind.RECEIVED.value, change_mm__gt=0)
                | Q(kind__in=_TAKES, change_mm__lt=0)
                | Q(kind__in=[EntryKind.COUNTED.value, EntryKind.REVERSAL.value]),
                name="entry_sign_follows_kind",
            ),
            models.CheckConstraint(
                condition=Q(standard_uncertainty_mm__gte=0, wheel_uncertainty_mm__gte=0),
                name="entry_uncertainty_not_negative",
            ),
            models.CheckConstraint(
                condition=(Q(kind=EntryKind.CUT.value) & ~Q(piece=""))
                | (~Q(kind=EntryKind.CUT.value) & Q(piece="")),
                name="entry_names_a_piece_when_cut",
            ),
            models.CheckConstraint(
                condition=Q(kind=EntryKind.REVERSAL.value, reverses__isnull=False)
                | (~Q(kind=EntryKind.REVERSAL.value) & Q(reverses__isnull=True)),
                name="entry_reverses_when_reversal",
            ),
            models.CheckConstraint(
                condition=Q(reverses__isnull=True) | ~Q(reverses=F("id")),
                name="entry_never_reverses_itself",
            ),
            models.CheckConstraint(
                condition=~Q(kind__in=_SAYS_WHY) | ~Q(reason=""), name="entry_says_why"
            ),
            models.CheckConstraint(condition=Q(attempt__gte=1), name="entry_attempt_from_one"),
            models.UniqueConstraint(
                fields=["piece", "attempt"],
                condition=Q(kind=EntryKind.CUT.value),
                name="entry_cuts_a_piece_once",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.reel_id} {self.kind} {self.change_mm} mm"
