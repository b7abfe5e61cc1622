"""Every write to the catalogue. Core values come in: they have refused nonsense already."""

import datetime
from collections.abc import Iterable
from decimal import Decimal

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.colour import COLOUR_NAMES, read_colour
from reelwright.core.parts.connector import Connector
from reelwright.core.physics.sheet_checks import judge_whole_sheet
from reelwright.core.verdicts import Outcome, Source
from reelwright.shop.catalogue import models as rows
from reelwright.shop.catalogue.selectors import fold
from reelwright.shop.catalogue.to_core import (
    SHEET_VALUES,
    body_columns,
    drawing_columns,
    millimetres,
)
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.transactions import write_transaction


@write_transaction()
def cable_add(
    *,
    by: Person,
    cable: Cable,
    price_per_m: Decimal,
    smallest_remnant_mm: int,
    colours: Iterable[str],
    aliases: Iterable[str] = (),
    despite: str = "",
) -> rows.CableType:
    """Enter a new cable with all that belongs to it.

    A data sheet that contradicts itself is refused with every contradiction, unless ``despite``
    says why it is entered all the same; that reason is kept beside the sheet's source.

    Raises ShopRuleBroken ``not_allowed``, ``cable_exists``, ``alias_taken``, ``sheet_contradicts``;
    UnknownCode where a colour is unknown.
    """
    require_may(by, Action.KEEP_CATALOGUE)
    _require_one_story(cable, despite)
    if rows.CableType.objects.filter(code__iexact=cable.code).exists():
        raise ShopRuleBroken(
            "cable_exists", f"There is a cable {cable.code} already.", cable_code=cable.code
        )
    row = rows.CableType.objects.create(
        code=cable.code,
        name=cable.name,
        family=cable.family.value,
        conductors=cable.conductors,
        screened=cable.screened,
        solid_conductor=cable.solid_conductor,
        jacket_class=str(cable.rating.north_american or ""),
        type_mark=str(cable.rating.type_mark or ""),
        reaction_to_fire=str(cable.rating.reaction or ""),
        sunlight_resistant=cable.rating.sunlight_resistant,
        direct_burial=cable.rating.direct_burial,
        mass_kg_per_m=cable.mass_kg_per_m,
        bend_radius_fixed_mm=millimetres(cable.bend_radius_fixed_m),
        sheet_source=_source(cable, despite),
        sheet_basis=cable.sheet.source.basis.value,
        price_per_m=price_per_m,
        smallest_remnant_mm=smallest_remnant_mm,
        **{name: getattr(cable.sheet, name) for name in SHEET_VALUES},
    )
    rows.CableLayer.objects.bulk_create(
        rows.CableLayer(
            cable=row,
            position=position,
            role=layer.role.value,
            material=layer.material,
            outside_diameter_mm=millimetres(layer.outside_diameter_m),
            tolerance_mm=millimetres(layer.tolerance_m),
        )
        for position, layer in enumerate(cable.layers)
    )
    rows.CableLossPoint.objects.bulk_create(
        rows.CableLossPoint(
            cable=row, frequency_hz=point.frequency_hz, loss_db_per_m=point.loss_db_per_m
        )
        for point in cable.sheet.loss_points
    )
    rows.CableColour.objects.bulk_create(
        rows.CableColour(cable=row, letters=_letters(colour)) for colour in colours
    )
    for text in aliases:
        cable_alias_add(by=by, text=text, cable_code=cable.code)
    return row


def _require_one_story(cable: Cable, despite: str) -> None:
    against = [check for check in judge_whole_sheet(cable) if check.outcome is Outcome.BAD]
    if against and not despite.strip():
        raise ShopRuleBroken(
            "sheet_contradicts",
            f"The data sheet of {cable.code} contradicts itself. "
            + " ".join(check.sentence for check in against),
            checks=[check.name for check in against],
        )


def _source(cable: Cable, despite: str) -> str:
    told = despite.strip()
    return f"{cable.sheet.source.text}; {told}" if told else cable.sheet.source.text


def _letters(colour: str) -> str:
    letters = read_colour(colour)
    if letters is None:
        raise UnknownCode(kind="colour", code=colour, near=COLOUR_NAMES.values())
    return letters


@write_transaction()
def cable_alias_add(*, by: Person, text: str, cable_code: str) -> rows.CableAlias:
    """Let ``text`` mean this cable.

    Raises ShopRuleBroken ``not_allowed``, ``alias_taken`` where it means another already.
    """
    require_may(by, Action.KEEP_CATALOGUE)
    folded = fold(text)
    taken = rows.CableAlias.objects.filter(text=folded).select_related("cable").first()
    if taken is not None and taken.cable.code != cable_code:
        raise ShopRuleBroken(
            "alias_taken",
            f"“{folded}” already means {taken.cable.code}.",
            text=folded,
            means=taken.cable.code,
        )
    cable = rows.CableType.objects.get(code=cable_code)
    return taken or rows.CableAlias.objects.create(text=folded, cable=cable)


@write_transaction()
def cable_price_change(*, by: Person, code: str, price_per_m: Decimal) -> None:
    """Set what a metre costs to replace.

    Raises ShopRuleBroken ``not_allowed``, ``no_such_cable``.
    """
    require_may(by, Action.KEEP_CATALOGUE)
    if rows.CableType.objects.filter(code=code).update(price_per_m=price_per_m) != 1:
        raise ShopRuleBroken("no_such_cable", f"There is no cable {code}.", cable_code=code)


@write_transaction()
def connector_add(
    *,
    by: Person,
    connector: Connector,
    price: Decimal,
    loss_db: float | None,
    loss_source: Source | None,
    aliases: Iterable[str] = (),
) -> rows.ConnectorType:
    """Enter a new connector with its drawing.

    Raises ShopRuleBroken ``not_allowed``, ``connector_exists``.
    """
    require_may(by, Action.KEEP_CATALOGUE)
    if rows.ConnectorType.objects.filter(code__iexact=connector.code).exists():
        raise ShopRuleBroken(
            "connector_exists",
            f"There is a connector {connector.code} already.",
            connector_code=connector.code,
        )
    conductor = connector.accepts_conductor
    row = rows.ConnectorType.objects.create(
        code=connector.code,
        name=connector.name,
        mating=connector.mating,
        method=connector.method.value,
        contacts=connector.contacts,
        shell_contact=connector.shell_contact,
        carries_balanced=connector.carries_balanced,
        impedance_ohm=connector.impedance_ohm,
        **body_columns(connector.body),
        solid_conductor_only=connector.solid_conductor_only,
        conductor_low_mm=None if conductor is None else millimetres(conductor.low_m),
        conductor_high_mm=None if conductor is None else millimetres(conductor.high_m),
        jacket_low_mm=millimetres(connector.accepts_jacket.low_m),
        jacket_high_mm=millimetres(connector.accepts_jacket.high_m),
        conductor_setback_mm=millimetres(connector.conductor_setback_m),
        trim_mm=millimetres(connector.trim_m),
        loss_db=loss_db,
        loss_source="" if loss_source is None else loss_source.text,
        loss_basis="" if loss_source is None else loss_source.basis.value,
        price=price,
    )
    if connector.drawing is not None:
        rows.ConnectorDrawing.objects.create(connector=row, **drawing_columns(connector.drawing))
    rows.ConnectorAlias.objects.bulk_create(
        rows.ConnectorAlias(text=fold(text), connector=row) for text in aliases
    )
    return row


@write_transaction()
def price_rules_add(
    *,
    by: Person,
    valid_from: datetime.date,
    labour_per_hour: Decimal,
    order_handling: Decimal,
    rush_floor: Decimal,
    first_pass_yield: Decimal,
    gross_margin: Decimal,
) -> rows.PriceRules:
    """Set the price rules from a day on.

    Raises ShopRuleBroken ``not_allowed``, ``price_rules_exist``.
    """
    require_may(by, Action.KEEP_CATALOGUE)
    if rows.PriceRules.objects.filter(valid_from=valid_from).exists():
        raise ShopRuleBroken(
            "price_rules_exist",
            f"Price rules from {valid_from} are set already; rules are superseded, not edited.",
            valid_from=valid_from,
        )
    return rows.PriceRules.objects.create(
        valid_from=valid_from,
        labour_per_hour=labour_per_hour,
        order_handling=order_handling,
        rush_floor=rush_floor,
        first_pass_yield=first_pass_yield,
        gross_margin=gross_margin,
    )
