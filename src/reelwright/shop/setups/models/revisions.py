"""Set-ups, their revisions and what is said of a pair.

A revision's numbers are never edited: the next letter supersedes them. Its state alone moves, by a
service that asks for the old state; each move is written down beside it.
"""

from django.db import models

from reelwright.core.ends.strength.pull_rules import PullRules
from reelwright.core.verdicts import Basis
from reelwright.shop.append_only import AppendOnly
from reelwright.shop.catalogue.fields import above_zero, millimetres, one_of, words_of
from reelwright.shop.setups.states import FitAnswer, NoteKind, State


class SetUp(models.Model):
    """How one cable is ended in one connector; the numbers stand in its revisions."""

    code = models.CharField(max_length=12, unique=True)
    cable = models.ForeignKey("catalogue.CableType", models.PROTECT, related_name="set_ups")
    connector = models.ForeignKey("catalogue.ConnectorType", models.PROTECT, related_name="set_ups")

    class Meta:
        ordering = ("code",)
        constraints = (
            models.UniqueConstraint(fields=("cable", "connector"), name="set_up_once_per_pair"),
        )

    def __str__(self) -> str:
        return self.code


class Revision(models.Model):
    """One edition of a set-up. Null: this kind of end has no such number, or not yet.

    ``strip_…`` are the lengths a, b, c of a coax from its end: bare conductor, dielectric, braid.
    Any other cable has its jacket taken back (null: left to the job) and its cores bared.
    Dies are named by their width across flats. ``pull_rules`` is empty where the least pull is the
    shop's own; ``solid_wire_waiver`` says who lifted that rule set's bar on solid wire, and why.
    """

    set_up = models.ForeignKey(SetUp, models.PROTECT, related_name="revisions")
    letter = models.CharField(max_length=2)
    state = models.CharField(max_length=12, choices=words_of(State))
    drafted_on = models.DateField()
    drafted_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    approved_on = models.DateField(null=True)
    approved_by = models.ForeignKey("people.Person", models.PROTECT, null=True, related_name="+")

    levels = models.PositiveSmallIntegerField()
    strip_conductor_mm = millimetres(null=True)
    strip_conductor_tolerance_mm = millimetres(null=True)
    strip_dielectric_mm = millimetres(null=True)
    strip_dielectric_tolerance_mm = millimetres(null=True)
    strip_braid_mm = millimetres(null=True)
    strip_braid_tolerance_mm = millimetres(null=True)
    jacket_back_mm = millimetres(null=True)
    cores_bared_mm = millimetres(null=True)
    cores_bared_tolerance_mm = millimetres(null=True)
    pin_die_mm = millimetres(null=True)
    ferrule_die_mm = millimetres(null=True)
    crimp_height_mm = millimetres(null=True)
    crimp_height_tolerance_mm = millimetres(null=True)
    program = models.CharField(max_length=12, blank=True)
    blade_set = models.CharField(max_length=40, blank=True)
    test_adapter = models.CharField(max_length=40, blank=True)
    weld_horn = models.CharField(max_length=40, blank=True)
    weld_energy_j = models.FloatField(null=True)
    weld_pressure_kpa = models.FloatField(null=True)
    weld_amplitude_um = models.FloatField(null=True)
    minimum_pull_n = models.FloatField(null=True)
    minimum_pull_source = models.CharField(max_length=200, blank=True)
    minimum_pull_basis = models.CharField(max_length=60, blank=True)
    pull_rules = models.CharField(max_length=40, blank=True, choices=words_of(PullRules))
    solid_wire_waiver = models.CharField(max_length=200, blank=True)
    press_min_per_end = models.DecimalField(max_digits=6, decimal_places=2)
    remark = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ("set_up", "letter")
        constraints = (
            models.UniqueConstraint(fields=("set_up", "letter"), name="revision_letter_once"),
            models.UniqueConstraint(
                fields=("set_up",),
                condition=models.Q(state=State.RELEASED.value),
                name="one_released_revision_per_set_up",
            ),
            one_of("state", State, name="revision_state_is_known"),
            models.CheckConstraint(
                condition=~models.Q(state=State.RELEASED.value)
                | models.Q(approved_on__isnull=False, approved_by__isnull=False),
                name="released_means_approved",
            ),
            models.CheckConstraint(
                condition=models.Q(levels__gte=1, levels__lte=4), name="revision_levels_1_to_4"
            ),
            models.CheckConstraint(
                condition=models.Q(press_min_per_end__gt=0), name="revision_takes_time"
            ),
            models.CheckConstraint(
                condition=models.Q(minimum_pull_n__isnull=True)
                | (models.Q(minimum_pull_n__gt=0) & ~models.Q(minimum_pull_source="")),
                name="minimum_pull_has_its_source",
            ),
            models.CheckConstraint(
                condition=models.Q(minimum_pull_basis="")
                | models.Q(minimum_pull_basis__in=[basis.value for basis in Basis]),
                name="minimum_pull_basis_is_known",
            ),
            models.CheckConstraint(
                condition=models.Q(pull_rules="")
                | models.Q(pull_rules__in=[rules.value for rules in PullRules]),
                name="pull_rules_are_known",
            ),
            models.CheckConstraint(
                condition=models.Q(solid_wire_waiver="") | ~models.Q(pull_rules=""),
                name="solid_wire_waiver_has_its_rules",
            ),
            above_zero(
                "strip_conductor_mm",
                "strip_conductor_tolerance_mm",
                "strip_dielectric_tolerance_mm",
                "strip_braid_tolerance_mm",
                "jacket_back_mm",
                "cores_bared_tolerance_mm",
                "pin_die_mm",
                "ferrule_die_mm",
                "crimp_height_mm",
                "crimp_height_tolerance_mm",
                name="revision_dimensions_above_zero",
            ),
            above_zero(
                "weld_energy_j",
                "weld_pressure_kpa",
                "weld_amplitude_um",
                name="revision_weld_above_zero",
            ),
            models.CheckConstraint(
                condition=(
                    models.Q(strip_dielectric_mm__isnull=True)
                    | models.Q(strip_dielectric_mm__gte=0)
                )
                & (models.Q(strip_braid_mm__isnull=True) | models.Q(strip_braid_mm__gte=0))
                & (models.Q(cores_bared_mm__isnull=True) | models.Q(cores_bared_mm__gte=0)),
                name="revision_strip_not_negative",
            ),
        )

    def __str__(self) -> str:
        return f"{self.set_up_id} {self.letter}"


class RevisionNote(AppendOnly):
    """One step of the assembly, or one caution, in the order they are read."""

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="notes")
    kind = models.CharField(max_length=8, choices=words_of(NoteKind))
    position = models.PositiveSmallIntegerField()
    text = models.CharField(max_length=300)

    class Meta(AppendOnly.Meta):
        ordering = ("revision", "kind", "position")
        constraints = (
            models.UniqueConstraint(
                fields=("revision", "kind", "position"), name="note_position_once"
            ),
            one_of("kind", NoteKind, name="note_kind_is_known"),
        )

    def __str__(self) -> str:
        return self.text


class RevisionOperation(AppendOnly):
    """One operation of an end, at its place in the order that the revision lays down.

    A revision without any is made in the order that is worked out.
    """

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="operations")
    position = models.PositiveSmallIntegerField()
    code = models.CharField(max_length=40)

    class Meta(AppendOnly.Meta):
        ordering = ("revision", "position")
        constraints = (
            models.UniqueConstraint(
                fields=("revision", "position"), name="operation_position_once"
            ),
            models.UniqueConstraint(fields=("revision", "code"), name="operation_once"),
            models.CheckConstraint(condition=~models.Q(code=""), name="operation_is_named"),
        )

    def __str__(self) -> str:
        return self.code


class StateMove(AppendOnly):
    """A revision's move from one state to the next: who, when, why."""

    revision = models.ForeignKey(Revision, models.PROTECT, related_name="moves")
    old = models.CharField(max_length=12, choices=words_of(State))
    new = models.CharField(max_length=12, choices=words_of(State))
    moved_on = models.DateField()
    moved_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")
    reason = models.CharField(max_length=300)

    class Meta(AppendOnly.Meta):
        ordering = ("revision", "id")
        constraints = (
            models.CheckConstraint(
                condition=~models.Q(old=models.F("new")), name="state_move_goes_somewhere"
            ),
            one_of("old", State, name="state_move_old_is_known"),
            one_of("new", State, name="state_move_new_is_known"),
        )

    def __str__(self) -> str:
        return f"{self.old} → {self.new}"


class FitOverride(AppendOnly):
    """What a lead says of a cable with a connector, and why; the newest one of a pair stands.

    It stands beside what is computed of the pair and never changes it.
    """

    cable = models.ForeignKey("catalogue.CableType", models.PROTECT, related_name="+")
    connector = models.ForeignKey("catalogue.ConnectorType", models.PROTECT, related_name="+")
    answer = models.CharField(max_length=12, choices=words_of(FitAnswer))
    reason = models.CharField(max_length=300)
    said_on = models.DateField()
    said_by = models.ForeignKey("people.Person", models.PROTECT, related_name="+")

    class Meta(AppendOnly.Meta):
        ordering = ("cable", "connector", "id")
        constraints = (
            one_of("answer", FitAnswer, name="fit_override_answer_is_known"),
            models.CheckConstraint(
                condition=~models.Q(reason=""), name="fit_override_has_its_reason"
            ),
        )

    def __str__(self) -> str:
        return f"{self.cable_id} with {self.connector_id}: {self.answer}"
