"""Cables in the catalogue: what goes in comes out, and nonsense stays out."""

import dataclasses
from decimal import Decimal

import pytest
from django.db import IntegrityError, transaction

from reelwright.core.errors import UnknownCode
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.fire_reaction import read_reaction
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.jacket_rating import JacketRating
from reelwright.core.parts.type_marks import TypeMark
from reelwright.shop.catalogue import selectors, services
from reelwright.shop.catalogue.models import CableType
from tests.shop.refusals import refused
from tests.small_world import CABLE, SmallWorld


def another(code: str) -> Cable:
    """The small world's cable under another code."""
    return dataclasses.replace(CABLE, code=code)


def add(world: SmallWorld, code: str, **other: object) -> None:
    """Enter another cable, good unless ``other`` says otherwise."""
    fields: dict[str, object] = {
        "by": world.ada,
        "cable": another(code),
        "price_per_m": Decimal("0.938"),
        "smallest_remnant_mm": 1500,
        "colours": ["black"],
        "aliases": (),
    }
    services.cable_add(**(fields | other))  # type: ignore[arg-type]


def test_a_cable_comes_out_as_it_went_in(world: SmallWorld) -> None:
    """Every field, layer and loss point is the same to the last bit."""
    assert selectors.cables()[CABLE.code] == CABLE


def test_terms_stand_beside_the_cable(world: SmallWorld) -> None:
    """Price, smallest remnant and colours by their letters."""
    terms = selectors.cable_terms()[CABLE.code]
    assert terms.price_per_m == Decimal("1.20")
    assert terms.smallest_remnant_mm == 2000
    assert terms.colours == ("BK", "RD")


def test_a_code_is_taken_in_any_case(world: SmallWorld) -> None:
    """Two cables that differ in case alone would be mixed up on the phone."""
    with refused("cable_exists"):
        add(world, CABLE.code.lower())


def test_the_database_refuses_a_code_twice(world: SmallWorld) -> None:
    """Past the service, the constraint says no too."""
    row = CableType.objects.get(code=CABLE.code)
    row.pk, row.code = None, CABLE.code.lower()
    with pytest.raises(IntegrityError), transaction.atomic():
        row.save(force_insert=True)


def test_the_database_refuses_a_resistance_of_zero(world: SmallWorld) -> None:
    """A data-sheet value is above zero or not given."""
    with pytest.raises(IntegrityError), transaction.atomic():
        CableType.objects.filter(code=CABLE.code).update(resistance_conductor_ohm_per_m=0.0)


def test_the_office_may_and_the_bench_may_not(world: SmallWorld) -> None:
    """Prices are not the bench's to change."""
    with refused("not_allowed"):
        services.cable_price_change(by=world.ben, code=CABLE.code, price_per_m=Decimal(1))
    services.cable_price_change(by=world.ada, code=CABLE.code, price_per_m=Decimal("1.35"))
    assert selectors.cable_terms()[CABLE.code].price_per_m == Decimal("1.35")


def test_a_price_of_no_cable_is_refused(world: SmallWorld) -> None:
    """A typing error in a code must not pass for a change."""
    with refused("no_such_cable"):
        services.cable_price_change(by=world.ada, code="SW-61", price_per_m=Decimal(1))


def test_an_unknown_colour_is_refused_whole(world: SmallWorld) -> None:
    """Nothing of the cable is left behind when its last colour is nonsense."""
    with pytest.raises(UnknownCode):
        add(world, "SW-70", colours=["black", "blurple"])
    assert "SW-70" not in selectors.cables()


def test_customers_words_find_the_cable(world: SmallWorld) -> None:
    """In any case and spacing, and by its code too."""
    services.cable_alias_add(by=world.ada, text="Standard  video cable", cable_code=CABLE.code)
    assert selectors.find_cable(" standard VIDEO cable ") == CABLE.code
    assert selectors.find_cable("sw-60") == CABLE.code


def test_a_word_means_one_cable(world: SmallWorld) -> None:
    """The same word for a second cable is refused; for the same one it is no news."""
    add(world, "SW-70")
    services.cable_alias_add(by=world.ada, text="thick one", cable_code="SW-70")
    services.cable_alias_add(by=world.ada, text="Thick one", cable_code="SW-70")
    with refused("alias_taken"):
        services.cable_alias_add(by=world.ada, text="thick one", cable_code=CABLE.code)


def test_an_unknown_word_names_what_is_near(world: SmallWorld) -> None:
    """The near codes come in their own spelling."""
    with pytest.raises(UnknownCode) as caught:
        selectors.find_cable("SW-06")
    assert caught.value.near == ("SW-60",)


@pytest.mark.parametrize("text", ["", "banana cable of no kind"])
def test_a_word_far_from_all_names_nothing(world: SmallWorld, text: str) -> None:
    """No guess is better than a wild one."""
    with pytest.raises(UnknownCode) as caught:
        selectors.find_cable(text)
    assert caught.value.near == ()


def test_reading_all_cables_costs_the_same_for_many(
    world: SmallWorld, django_assert_num_queries: object
) -> None:
    """Three queries, however many cables there are."""
    add(world, "SW-70")
    add(world, "SW-80")
    with django_assert_num_queries(3):  # type: ignore[operator]
        assert len(selectors.cables()) == 3


def test_a_sheet_that_contradicts_itself_is_refused_unless_a_reason_is_given(
    world: SmallWorld,
) -> None:
    """Capacitance typed per foot: refused with what disagrees; with a reason it is kept beside."""
    sheet = dataclasses.replace(CABLE.sheet, capacitance_f_per_m=16.5e-12)
    wrong = dataclasses.replace(another("SW-61"), sheet=sheet)
    with refused("sheet_contradicts") as caught:
        add(world, "SW-61", cable=wrong)
    assert "one of the three is a typing mistake" in caught.value.sentence
    assert "SW-61" not in selectors.cables()
    add(world, "SW-61", cable=wrong, despite="maker confirms 16.5 pF/m in writing")
    assert "maker confirms" in selectors.cables()["SW-61"].sheet.source.text


def test_a_rating_comes_out_as_it_went_in(world: SmallWorld) -> None:
    """Both ladders, sun and soil, and what is not stated."""
    rating = JacketRating(
        north_american=None,
        type_mark=None,
        reaction=read_reaction("Cca-s1b,d1,a1"),
        sunlight_resistant=True,
        direct_burial=None,
    )
    add(world, "SW-62", cable=dataclasses.replace(another("SW-62"), rating=rating))
    assert selectors.cables()["SW-62"].rating == rating
    marked = dataclasses.replace(
        rating, north_american=JacketClass.RISER, type_mark=TypeMark(text="CMR")
    )
    add(world, "SW-63", cable=dataclasses.replace(another("SW-63"), rating=marked))
    assert selectors.cables()["SW-63"].rating == marked


@pytest.mark.parametrize(("jacket_class", "mark"), [("", "CMP"), ("plenum", "CMQ")])
def test_the_database_keeps_a_mark_to_those_known_and_beside_a_class(
    world: SmallWorld, jacket_class: str, mark: str
) -> None:
    """Neither a mark without a class nor a word that is no mark passes beside the services."""
    with pytest.raises(IntegrityError), transaction.atomic():
        CableType.objects.filter(code="SW-60").update(jacket_class=jacket_class, type_mark=mark)
