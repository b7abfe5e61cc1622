"""Fire ratings: two ladders that never convert, and what the print on a jacket means."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.fire_reaction import (
    Acidity,
    Droplets,
    Reaction,
    ReactionToFire,
    Smoke,
    read_reaction,
)
from reelwright.core.parts.jacket import JacketClass, Space, class_needed, may_stand_in
from reelwright.core.parts.jacket_rating import JacketRating, indoors_only
from reelwright.core.parts.type_marks import DIRECT, LEVELS, level_of, mark_may_replace
from reelwright.core.signals.space import also_needed, judge_space
from reelwright.core.verdicts import Outcome
from tests import signal_world as world

MARKS = tuple(mark for marks in LEVELS.values() for mark in marks)
classes = st.builds(
    ReactionToFire,
    main=st.sampled_from(Reaction),
    smoke=st.none() | st.sampled_from(Smoke),
    droplets=st.none() | st.sampled_from(Droplets),
    acidity=st.none() | st.sampled_from(Acidity),
)
ratings = st.builds(
    JacketRating,
    north_american=st.none() | st.sampled_from(JacketClass),
    reaction=st.none() | classes,
    sunlight_resistant=st.sampled_from((None, True, False)),
    direct_burial=st.sampled_from((None, True, False)),
)


def rated(rating: JacketRating) -> Cable:
    """Return a video coax of that rating."""
    return replace(world.VID_60, rating=rating)


@given(one=classes)
def test_a_class_reads_back_from_its_print(one: ReactionToFire) -> None:
    """What is printed on a jacket reads as the class it was printed from, in any letters."""
    assert read_reaction(str(one)) == one
    assert read_reaction(str(one).upper()) == one


@pytest.mark.parametrize("typed", ["", "ca", "Gca", "CMP", "Cca-s4", "Cca d3", "B3ca"])
def test_what_is_no_class_is_not_read_as_one(typed: str) -> None:
    """Neither a North American mark nor a class that does not exist is read."""
    assert read_reaction(typed) is None


@given(one=classes, other=classes, third=classes)
def test_the_european_order_is_an_order(
    one: ReactionToFire, other: ReactionToFire, third: ReactionToFire
) -> None:
    """A class covers itself, and what covers another covers all that that one covers."""
    assert one.short_of(one) == ()
    if not one.short_of(other) and not other.short_of(third):
        assert not one.short_of(third)


def test_a_part_that_is_not_stated_is_not_reached() -> None:
    """Cca alone does not cover Cca-s1b; Cca-s1a covers it; Dca-s1a does not."""
    needed = read_reaction("Cca-s1b,d1,a1")
    assert needed is not None
    for typed, short in (
        ("Cca", ("s1b", "d1", "a1")),
        ("Cca-s1a,d0,a1", ()),
        ("Dca-s1a,d0,a1", ("Cca",)),
        ("B2ca-s1a,d1,a2", ("a1",)),
        ("Aca", ()),
    ):
        own = read_reaction(typed)
        assert own is not None
        assert own.short_of(needed) == short


@given(rating=ratings, needed=classes)
def test_a_north_american_class_never_says_anything_of_a_european_one(
    rating: JacketRating, needed: ReactionToFire
) -> None:
    """Whatever the other ladder states, the answer is that of this ladder alone."""
    alone = judge_space(rated(replace(rating, north_american=None)), needed)
    both = judge_space(rated(rating), needed)
    assert both.outcome is alone.outcome
    if rating.reaction is None:
        assert both.outcome is Outcome.NOT_COMPUTED


built_in = st.sampled_from([Space.IN_WALL, Space.RISER_SHAFT, Space.AIR_HANDLING])


@given(rating=ratings, space=built_in)
def test_a_european_class_never_says_anything_of_a_north_american_one(
    rating: JacketRating, space: Space
) -> None:
    """A plenum, a riser or a wall is answered by the North American class and by nothing else."""
    alone = judge_space(rated(replace(rating, reaction=None)), space)
    both = judge_space(rated(rating), space)
    assert both.outcome is alone.outcome
    if rating.north_american is None:
        assert both.outcome is Outcome.NOT_COMPUTED


@given(rating=ratings, place=st.sampled_from(Space) | classes)
def test_every_answer_leaves_the_last_word_to_the_authority(
    rating: JacketRating, place: Space | ReactionToFire
) -> None:
    """Good, bad or not computed: the authority having jurisdiction decides."""
    check = judge_space(rated(rating), place)
    assert check.sentence.endswith("The authority having jurisdiction decides.")


@pytest.mark.parametrize(
    ("space", "field"),
    [(Space.OUTDOORS, "sunlight_resistant"), (Space.BURIED, "direct_burial")],
)
def test_sun_and_soil_are_a_matter_of_what_is_stated(space: Space, field: str) -> None:
    """Stated yes is good, stated no is bad, not stated is not computed."""
    bare = indoors_only(JacketClass.GENERAL)
    for stated, outcome in (
        (True, Outcome.GOOD),
        (False, Outcome.BAD),
        (None, Outcome.NOT_COMPUTED),
    ):
        assert judge_space(rated(replace(bare, **{field: stated})), space).outcome is outcome


def test_the_levels_of_a_family_follow_the_substitutions() -> None:
    """Within a family a higher level may take the place of a lower one, never the reverse."""
    order = (JacketClass.PLENUM, JacketClass.RISER, JacketClass.GENERAL, JacketClass.LIMITED)
    for family in ("CM", "CL3", "CL2", "FPL"):
        marks = [next((m for m in LEVELS[level] if m.startswith(family)), None) for level in order]
        known = [mark for mark in marks if mark is not None]
        for high, low in ((h, w) for i, h in enumerate(known) for w in known[i + 1 :]):
            assert mark_may_replace(high, low), (high, low)
            assert not mark_may_replace(low, high), (low, high)


def test_a_mark_never_takes_the_place_of_one_of_a_higher_level() -> None:
    """No chain of substitutions leads from a lower level to a higher one."""
    for offered, needed in product(MARKS, MARKS):
        if mark_may_replace(offered, needed):
            own, wanted = level_of(offered), level_of(needed)
            assert own is not None
            assert wanted is not None
            assert may_stand_in(own, wanted), (offered, needed)


def test_every_mark_of_the_table_has_a_level() -> None:
    """The table speaks only of marks whose level is known, but for the tray cable PLTC."""
    named = {*DIRECT, *(mark for better in DIRECT.values() for mark in better)}
    assert {mark for mark in named if level_of(mark) is None} == {"PLTC"}
    assert not mark_may_replace("Cca", "CM")


def test_what_else_must_suit_the_place_is_said() -> None:
    """Ties in a plenum, sealed ends outdoors, no PVC boots on a cable chosen for little smoke."""
    assert "must be rated" in also_needed(Space.AIR_HANDLING)[0]
    assert "sealing" in also_needed(Space.OUTDOORS)[0]
    low_smoke, plain = read_reaction("Cca-s1b,d1,a1"), read_reaction("Eca")
    assert low_smoke is not None
    assert plain is not None
    assert "halogens" in also_needed(low_smoke)[0]
    assert also_needed(plain) == ()
    assert also_needed(Space.FREE) == ()
    assert class_needed(Space.FREE) is JacketClass.LIMITED
