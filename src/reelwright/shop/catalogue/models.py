"""Tables of the catalogue. Written by ``services`` only, read by ``selectors`` only.

Dimensions are Decimal millimetres, as drawings and data sheets print them; electrical values are
SI floats. ``to_core`` turns both into the values that the engines take.
"""

from django.db import models
from django.db.models.functions import Upper

from reelwright.core.parts.cable import Family
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.parts.connector import Method
from reelwright.core.parts.drawing import TOLERANCED
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.layers import LayerRole
from reelwright.core.parts.type_marks import MARKS
from reelwright.core.verdicts import Basis
from reelwright.shop.catalogue.fields import (
    above_zero,
    millimetres,
    money,
    not_negative,
    one_of,
    words_of,
)


class CableType(models.Model):
    """One bulk cable as its data sheet states it, with what a metre costs to replace."""

    code = models.CharField(max_length=24, unique=True)
    name = models.CharField(max_length=120)
    family = models.CharField(max_length=24, choices=words_of(Family))
    conductors = models.PositiveSmallIntegerField()
    screened = models.BooleanField()
    solid_conductor = models.BooleanField()
    # An empty text in either class, and null below, mean: not stated.
    jacket_class = models.CharField(max_length=24, choices=words_of(JacketClass), blank=True)
    type_mark = models.CharField(max_length=8, blank=True)
    reaction_to_fire = models.CharField(max_length=24, blank=True)
    sunlight_resistant = models.BooleanField(null=True)
    direct_burial = models.BooleanField(null=True)
    mass_kg_per_m = models.FloatField()
    bend_radius_fixed_mm = millimetres()

    sheet_source = models.CharField(max_length=200)
    sheet_basis = models.CharField(max_length=60, choices=words_of(Basis))
    impedance_ohm = models.FloatField(null=True)
    delay_s_per_m = models.FloatField(null=True)
    capacitance_f_per_m = models.FloatField(null=True)
    capacitance_to_rest_f_per_m = models.FloatField(null=True)
    resistance_conductor_ohm_per_m = models.FloatField(null=True)
    resistance_screen_ohm_per_m = models.FloatField(null=True)
    conductor_area_m2 = models.FloatField(null=True)
    optical_loss_db_per_m = models.FloatField(null=True)

    price_per_m = money()
    smallest_remnant_mm = models.PositiveIntegerField()

    class Meta:
        ordering = ("code",)
        constraints = (
            models.UniqueConstraint(Upper("code"), name="cable_code_once_in_any_case"),
            one_of("family", Family, name="cable_family_is_known"),
            models.CheckConstraint(
                condition=models.Q(jacket_class__in=["", *(str(each) for each in JacketClass)]),
                name="cable_jacket_class_is_known_or_not_stated",
            ),
            models.CheckConstraint(
                condition=models.Q(type_mark="")
                | (models.Q(type_mark__in=MARKS) & ~models.Q(jacket_class="")),
                name="cable_type_mark_is_known_and_of_a_class",
            ),
            one_of("sheet_basis", Basis, name="cable_sheet_basis_is_known"),
            models.CheckConstraint(
                condition=models.Q(conductors__gte=1), name="cable_has_a_conductor"
            ),
            models.CheckConstraint(
                condition=models.Q(price_per_m__gte=0), name="cable_price_not_negative"
            ),
            models.CheckConstraint(
                condition=models.Q(bend_radius_fixed_mm__gte=0), name="cable_bend_not_negative"
            ),
            above_zero(
                "mass_kg_per_m",
                "impedance_ohm",
                "delay_s_per_m",
                "capacitance_f_per_m",
                "capacitance_to_rest_f_per_m",
                "resistance_conductor_ohm_per_m",
                "resistance_screen_ohm_per_m",
                "conductor_area_m2",
                "optical_loss_db_per_m",
                name="cable_sheet_values_above_zero",
            ),
        )

    def __str__(self) -> str:
        return self.code


class CableLayer(models.Model):
    """One layer of a cable; ``position`` counts from the middle outwards."""

    cable = models.ForeignKey(CableType, on_delete=models.CASCADE, related_name="layers")
    position = models.PositiveSmallIntegerField()
    role = models.CharField(max_length=16, choices=words_of(LayerRole))
    material = models.CharField(max_length=80)
    outside_diameter_mm = millimetres()
    tolerance_mm = millimetres()

    class Meta:
        ordering = ("cable", "position")
        constraints = (
            models.UniqueConstraint(fields=("cable", "position"), name="layer_position_once"),
            one_of("role", LayerRole, name="layer_role_is_known"),
            above_zero("outside_diameter_mm", name="layer_diameter_above_zero"),
            models.CheckConstraint(
                condition=models.Q(tolerance_mm__gte=0), name="layer_tolerance_not_negative"
            ),
        )

    def __str__(self) -> str:
        return f"{self.cable_id}/{self.position} {self.role}"


class CableLossPoint(models.Model):
    """One stated loss of a cable at 20 °C."""

    cable = models.ForeignKey(CableType, on_delete=models.CASCADE, related_name="loss_points")
    frequency_hz = models.FloatField()
    loss_db_per_m = models.FloatField()

    class Meta:
        ordering = ("cable", "frequency_hz")
        constraints = (
            models.UniqueConstraint(
                fields=("cable", "frequency_hz"), name="loss_frequency_once_per_cable"
            ),
            above_zero("frequency_hz", "loss_db_per_m", name="loss_point_above_zero"),
        )

    def __str__(self) -> str:
        return f"{self.cable_id} {self.frequency_hz} Hz"


class CableColour(models.Model):
    """A colour in which a cable is sold, by its IEC 60757 letters."""

    cable = models.ForeignKey(CableType, on_delete=models.CASCADE, related_name="colours")
    letters = models.CharField(max_length=2)

    class Meta:
        ordering = ("cable", "letters")
        constraints = (
            models.UniqueConstraint(fields=("cable", "letters"), name="colour_once_per_cable"),
            models.CheckConstraint(
                condition=models.Q(letters__in=sorted(COLOUR_NAMES)), name="colour_is_known"
            ),
        )

    def __str__(self) -> str:
        return f"{self.cable_id} {self.letters}"


class CableAlias(models.Model):
    """What customers call a cable. ``text`` is stored folded (lower case, single spaces)."""

    text = models.CharField(max_length=80, unique=True)
    cable = models.ForeignKey(CableType, on_delete=models.CASCADE, related_name="aliases")

    class Meta:
        ordering = ("text",)
        verbose_name_plural = "cable aliases"

    def __str__(self) -> str:
        return self.text


class ConnectorType(models.Model):
    """One connector; its crimped or compressed back end stands in ``ConnectorDrawing``."""

    code = models.CharField(max_length=24, unique=True)
    name = models.CharField(max_length=120)
    mating = models.CharField(max_length=60)
    method = models.CharField(max_length=40, choices=words_of(Method))
    contacts = models.PositiveSmallIntegerField()
    shell_contact = models.BooleanField()
    carries_balanced = models.BooleanField()
    impedance_ohm = models.FloatField(null=True)
    body_impedance_ohm = models.FloatField(null=True)
    body_delay_s = models.FloatField(null=True)
    body_source = models.CharField(max_length=200, blank=True)
    body_basis = models.CharField(max_length=60, blank=True)
    solid_conductor_only = models.BooleanField(null=True)
    conductor_low_mm = millimetres(null=True)
    conductor_high_mm = millimetres(null=True)
    jacket_low_mm = millimetres()
    jacket_high_mm = millimetres()
    conductor_setback_mm = millimetres()
    trim_mm = millimetres()
    loss_db = models.FloatField(null=True)
    loss_source = models.CharField(max_length=200, blank=True)
    loss_basis = models.CharField(max_length=60, blank=True)
    price = money()

    class Meta:
        ordering = ("code",)
        constraints = (
            models.UniqueConstraint(Upper("code"), name="connector_code_once_in_any_case"),
            one_of("method", Method, name="connector_method_is_known"),
            models.CheckConstraint(
                condition=models.Q(contacts__gte=1), name="connector_has_a_contact"
            ),
            models.CheckConstraint(
                condition=models.Q(jacket_low_mm__lte=models.F("jacket_high_mm")),
                name="connector_jacket_band_in_order",
            ),
            models.CheckConstraint(
                condition=models.Q(conductor_low_mm__isnull=True, conductor_high_mm__isnull=True)
                | models.Q(
                    conductor_low_mm__isnull=False,
                    conductor_high_mm__gte=models.F("conductor_low_mm"),
                ),
                name="connector_conductor_band_whole",
            ),
            models.CheckConstraint(
                condition=models.Q(conductor_setback_mm__gte=0, trim_mm__gte=0),
                name="connector_offsets_not_negative",
            ),
            models.CheckConstraint(
                condition=models.Q(price__gte=0), name="connector_price_not_negative"
            ),
            models.CheckConstraint(
                condition=models.Q(body_impedance_ohm__isnull=True, body_delay_s__isnull=True)
                | (
                    # Null is not false: SQL lets a row pass whose check is unknown.
                    models.Q(body_impedance_ohm__isnull=False, body_delay_s__isnull=False)
                    & models.Q(body_impedance_ohm__gt=0, body_delay_s__gt=0)
                    & ~models.Q(body_source="")
                ),
                name="connector_body_is_whole",
            ),
            models.CheckConstraint(
                condition=models.Q(loss_db__isnull=True)
                | (models.Q(loss_db__gte=0) & ~models.Q(loss_source="")),
                name="connector_loss_has_its_source",
            ),
        )

    def __str__(self) -> str:
        return self.code


class ConnectorDrawing(models.Model):
    """The back end of a connector; null: this kind of connector has no such feature.

    A tolerance is half the width of its band; null: the maker states none.
    """

    connector = models.OneToOneField(
        ConnectorType, on_delete=models.CASCADE, related_name="drawing"
    )
    source = models.CharField(max_length=200)
    basis = models.CharField(max_length=60, choices=words_of(Basis))
    barrel_depth_mm = millimetres(null=True)
    barrel_bore_mm = millimetres(null=True)
    barrel_outside_mm = millimetres(null=True)
    barrel_clearance_mm = millimetres(null=True)
    hole_far_edge_mm = millimetres(null=True)
    pin_crimp_length_mm = millimetres(null=True)
    seat_to_flange_mm = millimetres(null=True)
    dielectric_relief_mm = millimetres(null=True)
    stem_bore_mm = millimetres(null=True)
    stem_outside_mm = millimetres(null=True)
    stem_length_mm = millimetres(null=True)
    braid_relief_mm = millimetres(null=True)
    ferrule_bore_mm = millimetres(null=True)
    ferrule_outside_mm = millimetres(null=True)
    ferrule_length_mm = millimetres(null=True)
    boot_bore_mm = millimetres(null=True)
    conductor_protrusion_mm = millimetres(null=True)
    plane_to_seat_mm = millimetres(null=True)
    shoulder_to_tip_mm = millimetres(null=True)
    floor_to_plane_mm = millimetres(null=True)
    tip_least_mm = millimetres(null=True)
    tip_most_mm = millimetres(null=True)
    barrel_depth_tolerance_mm = millimetres(null=True)
    barrel_bore_tolerance_mm = millimetres(null=True)
    barrel_outside_tolerance_mm = millimetres(null=True)
    hole_far_edge_tolerance_mm = millimetres(null=True)
    pin_crimp_length_tolerance_mm = millimetres(null=True)
    seat_to_flange_tolerance_mm = millimetres(null=True)
    stem_bore_tolerance_mm = millimetres(null=True)
    stem_outside_tolerance_mm = millimetres(null=True)
    stem_length_tolerance_mm = millimetres(null=True)
    ferrule_bore_tolerance_mm = millimetres(null=True)
    ferrule_outside_tolerance_mm = millimetres(null=True)
    ferrule_length_tolerance_mm = millimetres(null=True)
    boot_bore_tolerance_mm = millimetres(null=True)
    plane_to_seat_tolerance_mm = millimetres(null=True)
    shoulder_to_tip_tolerance_mm = millimetres(null=True)
    floor_to_plane_tolerance_mm = millimetres(null=True)

    class Meta:
        constraints = (
            models.CheckConstraint(condition=~models.Q(source=""), name="drawing_has_its_source"),
            one_of("basis", Basis, name="drawing_basis_is_known"),
            models.CheckConstraint(
                condition=models.Q(tip_least_mm__isnull=True, tip_most_mm__isnull=True)
                | models.Q(
                    # A comparison with null is no "no", so that both must be asked for.
                    tip_least_mm__isnull=False,
                    tip_most_mm__isnull=False,
                    tip_most_mm__gt=models.F("tip_least_mm"),
                ),
                name="drawing_tip_window_whole",
            ),
            not_negative(
                *(f"{name.removesuffix('_m')}_tolerance_mm" for name in TOLERANCED),
                name="drawing_tolerances_not_negative",
            ),
        )

    def __str__(self) -> str:
        return f"drawing of {self.connector_id}"


class ConnectorAlias(models.Model):
    """A word of customers and the connectors it may mean: ``phono`` means every phono plug."""

    text = models.CharField(max_length=80)
    connector = models.ForeignKey(ConnectorType, on_delete=models.CASCADE, related_name="aliases")

    class Meta:
        ordering = ("text", "connector__code")
        verbose_name_plural = "connector aliases"
        constraints = (
            models.UniqueConstraint(fields=("text", "connector"), name="connector_alias_once"),
        )

    def __str__(self) -> str:
        return self.text


class PriceRules(models.Model):
    """How the workshop prices, from a day on; a later row supersedes, none is edited."""

    valid_from = models.DateField(unique=True)
    labour_per_hour = money()
    order_handling = money()
    rush_floor = money()
    first_pass_yield = models.DecimalField(max_digits=5, decimal_places=4)
    gross_margin = models.DecimalField(max_digits=5, decimal_places=4)

    class Meta:
        ordering = ("-valid_from",)
        verbose_name_plural = "price rules"
        constraints = (
            models.CheckConstraint(
                condition=models.Q(first_pass_yield__gt=0, first_pass_yield__lte=1),
                name="price_yield_is_a_share",
            ),
            models.CheckConstraint(
                condition=models.Q(gross_margin__gte=0, gross_margin__lt=1),
                name="price_margin_is_a_share",
            ),
            models.CheckConstraint(
                condition=models.Q(
                    labour_per_hour__gte=0, order_handling__gte=0, rush_floor__gte=0
                ),
                name="price_rates_not_negative",
            ),
        )

    def __str__(self) -> str:
        return f"price rules from {self.valid_from}"
