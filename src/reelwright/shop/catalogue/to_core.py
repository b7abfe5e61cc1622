"""Rows of the catalogue to values of the core, and back."""

from decimal import Decimal
from typing import Any

from reelwright.core.parts.cable import Cable, DataSheet, Family, LossPoint
from reelwright.core.parts.connector import Band, BodySection, Connector, Method
from reelwright.core.parts.drawing import DIMENSIONS, TOLERANCED, Drawing, DrawingTolerances
from reelwright.core.parts.fire_reaction import read_reaction
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.jacket_rating import JacketRating
from reelwright.core.parts.layers import Layer, LayerRole
from reelwright.core.parts.type_marks import TypeMark
from reelwright.core.verdicts import Basis, Source
from reelwright.shop.catalogue import models as rows

_MICROMETRE = Decimal("0.001")

SHEET_VALUES = (
    "impedance_ohm",
    "delay_s_per_m",
    "capacitance_f_per_m",
    "capacitance_to_rest_f_per_m",
    "resistance_conductor_ohm_per_m",
    "resistance_screen_ohm_per_m",
    "conductor_area_m2",
    "optical_loss_db_per_m",
)


def metres(value_mm: Decimal) -> float:
    """Return metres; the shift is exact in decimal, so 6.300 mm gives the float 0.0063."""
    return float(value_mm.scaleb(-3))


def millimetres(value_m: float) -> Decimal:
    """Return Decimal millimetres to the micrometre, as stored."""
    return Decimal(repr(value_m)).scaleb(3).quantize(_MICROMETRE)


def _band(low_mm: Decimal | None, high_mm: Decimal | None) -> Band | None:
    if low_mm is None or high_mm is None:
        return None
    return Band(low_m=metres(low_mm), high_m=metres(high_mm))


def cable_value(row: rows.CableType) -> Cable:
    """Return the core value of a cable row; its layers and loss points must be prefetched."""
    return Cable(
        code=row.code,
        name=row.name,
        family=Family(row.family),
        conductors=row.conductors,
        screened=row.screened,
        solid_conductor=row.solid_conductor,
        layers=tuple(
            Layer(
                role=LayerRole(layer.role),
                material=layer.material,
                outside_diameter_m=metres(layer.outside_diameter_mm),
                tolerance_m=metres(layer.tolerance_mm),
            )
            for layer in row.layers.all()
        ),
        rating=JacketRating(
            north_american=JacketClass(row.jacket_class) if row.jacket_class else None,
            type_mark=TypeMark(text=row.type_mark) if row.type_mark else None,
            reaction=read_reaction(row.reaction_to_fire) if row.reaction_to_fire else None,
            sunlight_resistant=row.sunlight_resistant,
            direct_burial=row.direct_burial,
        ),
        mass_kg_per_m=row.mass_kg_per_m,
        bend_radius_fixed_m=metres(row.bend_radius_fixed_mm),
        sheet=DataSheet(
            source=Source(text=row.sheet_source, basis=Basis(row.sheet_basis)),
            loss_points=tuple(
                LossPoint(frequency_hz=point.frequency_hz, loss_db_per_m=point.loss_db_per_m)
                for point in row.loss_points.all()
            ),
            **{name: getattr(row, name) for name in SHEET_VALUES},
        ),
    )


def drawing_value(row: rows.ConnectorDrawing) -> Drawing:
    """Return the core value of a connector's drawing."""

    def stored(column: str) -> float | None:
        value_mm = getattr(row, column)
        return None if value_mm is None else metres(value_mm)

    return Drawing(
        source=Source(text=row.source, basis=Basis(row.basis)),
        tolerances=DrawingTolerances(
            **{name: stored(_tolerance_column(name)) for name in TOLERANCED}
        ),
        **{name: stored(_column(name)) for name in DIMENSIONS},
    )


def drawing_columns(drawing: Drawing) -> dict[str, Any]:
    """Return the columns of the drawing's table for a drawing."""

    def storable(value_m: float | None) -> Decimal | None:
        return None if value_m is None else millimetres(value_m)

    return {
        "source": drawing.source.text,
        "basis": drawing.source.basis.value,
        **{_column(name): storable(getattr(drawing, name)) for name in DIMENSIONS},
        **{
            _tolerance_column(name): storable(getattr(drawing.tolerances, name))
            for name in TOLERANCED
        },
    }


def _column(dimension: str) -> str:
    return f"{dimension.removesuffix('_m')}_mm"


def _tolerance_column(dimension: str) -> str:
    return f"{dimension.removesuffix('_m')}_tolerance_mm"


def _body(row: rows.ConnectorType) -> BodySection | None:
    if row.body_impedance_ohm is None or row.body_delay_s is None:
        return None
    return BodySection(
        impedance_ohm=row.body_impedance_ohm,
        delay_s=row.body_delay_s,
        source=Source(text=row.body_source, basis=Basis(row.body_basis)),
    )


def body_columns(body: BodySection | None) -> dict[str, Any]:
    """Return the columns of a connector's body; none stated where there is none."""
    if body is None:
        return {}
    return {
        "body_impedance_ohm": body.impedance_ohm,
        "body_delay_s": body.delay_s,
        "body_source": body.source.text,
        "body_basis": body.source.basis.value,
    }


def connector_value(row: rows.ConnectorType) -> Connector:
    """Return the core value of a connector row; its drawing must be selected with it."""
    drawing: Any = getattr(row, "drawing", None)
    jacket = _band(row.jacket_low_mm, row.jacket_high_mm)
    assert jacket is not None  # both columns are NOT NULL
    return Connector(
        code=row.code,
        name=row.name,
        mating=row.mating,
        method=Method(row.method),
        contacts=row.contacts,
        shell_contact=row.shell_contact,
        carries_balanced=row.carries_balanced,
        impedance_ohm=row.impedance_ohm,
        body=_body(row),
        solid_conductor_only=row.solid_conductor_only,
        accepts_conductor=_band(row.conductor_low_mm, row.conductor_high_mm),
        accepts_jacket=jacket,
        conductor_setback_m=metres(row.conductor_setback_mm),
        trim_m=metres(row.trim_mm),
        drawing=None if drawing is None else drawing_value(drawing),
    )
