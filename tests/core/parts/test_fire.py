"""Fire ratings: two ladders that never convert, and what the print on a jacket means."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reelwright.core.errors import BadValue
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.fire_reaction import (
    Acidity,
    Droplets,
    Reaction,
    ReactionToFire,
    Smoke,
    find_reaction,
    read_reaction,
)
from reelwright.core.parts.jacket import JacketClass, Space, class_needed, may_stand_in
from reelwright.core.parts.jacket_rating import JacketRating, indoors_only
from reelwright.core.parts.type_marks import (
    DIRECT,
    LEVELS,
    TypeMark,
    find_mark,
    level_of,
    mark_may_replace,
    read_mark,
)
from reelwright.core.signals.space import also_needed, judge_space, rules_out
from reelwright.core.verdicts import Outcome
from tests import signal_world as world

MARKS = tuple(mark for marks in LEVELS.values() for mark in marks)
_with_more = st.builds(
    ReactionToFire,
    main=st.sampled_from((Reaction.B1CA, Reaction.B2CA, Reaction.CCA, Reaction.DCA)),
    smoke=st.none() | st.sampled_from(Smoke),
    droplets=st.none() | st.sampled_from(Droplets),
    acidity=st.none() | st.sampled_from(Acidity),
)
_plain = st.builds(
    ReactionToFire,
    main=st.sampled_from(Reaction),
    smoke=st.none(),
    droplets=st.none(),
    acidity=st.none(),
)
classes = _with_more | _plain
marks = st.builds(TypeMark, text=st.sampled_from(MARKS))
ratings = st.builds(
    JacketRating,
    north_american=st.none() | st.sampled_from(JacketClass),
    type_mark=st.none(),
    reaction=st.none() | classes,
    sunlight_resistant=st.sampled_from((None, True, False)),
    direct_burial=st.sampled_from((None, True, False)),
) | st.builds(
    lambda mark, reaction: JacketRating(
        north_american=mark.level,
        type_mark=mark,
        reaction=reaction,
        sunlight_resistant=None,
        direct_burial=None,
    ),
    marks,
    st.none() | classes,
)

PLAIN = indoors_only(JacketClass.GENERAL)


def rated(rating: JacketRating) -> Cable:
    """Return a video coax of that rating."""
    return replace(world.VID_60, rating=rating)


@given(one=classes)
def test_a_class_reads_back_from_its_print(one: ReactionToFire) -> None:
    """What is printed on a jacket reads as the class it was printed from, in any letters."""
    assert read_reaction(str(one)) == one
    assert read_reaction(str(one).upper()) == one


@pytest.mark.parametrize(
    "typed", ["", "ca", "Gca", "CMP", "Cca-s4", "Cca d3", "B3ca", "Eca-s1", "Aca d0", "a ca"]
)
def test_what_is_no_class_is_not_read_as_one(typed: str) -> None:
    """Neither a North American mark nor a class that does not exist is read."""
    assert read_reaction(typed) is None


@given(one=classes, other=classes, third=classes)
def test_the_european_order_is_an_order(
    one: ReactionToFire, other: ReactionToFire, third: ReactionToFire
) -> None:
    """A class covers itself, and what covers another covers all that that one covers."""
    assert one.covers(one)
    if one.covers(other) and other.covers(third):
        assert one.covers(third)


def test_a_part_that_is_not_stated_is_neither_reached_nor_missed() -> None:
    """Cca alone says nothing of s1b; Cca-s1a covers it; Dca-s1a falls short by its main class."""
    needed = read_reaction("Cca-s1b,d1,a1")
    assert needed is not None
    for typed, short, silent in (
        ("Cca", (), ("s1b", "d1", "a1")),
        ("Cca-s1a,d0,a1", (), ()),
        ("Dca-s1a,d0,a1", ("Cca",), ()),
        ("B2ca-s1a,d1,a2", ("a1",), ()),
        ("B2ca-s2", ("s1b",), ("d1", "a1")),
        ("Aca", (), ()),
    ):
        own = read_reaction(typed)
        assert own is not None
        assert (own.short_of(needed), own.silent_on(needed)) == (short, silent)
        assert own.covers(needed) is not bool(short or silent)
        outcome = judge_space(rated(replace(PLAIN, north_american=None, reaction=own)), needed)
        assert outcome.outcome is (
            Outcome.BAD if short else Outcome.NOT_COMPUTED if silent else Outcome.GOOD
        )


def test_the_lowest_additional_class_asks_for_nothing() -> None:
    """s3, d2 and a3 mean that nothing was shown, so that a bare Dca answers for them."""
    own, needed = read_reaction("Dca"), read_reaction("Dca-s3,d2,a3")
    assert own is not None
    assert needed is not None
    assert own.covers(needed)


def test_a_class_that_has_no_additional_ones_refuses_them() -> None:
    """Eca-s1 is printed nowhere."""
    with pytest.raises(BadValue, match="beside B1ca"):
        ReactionToFire(main=Reaction.ECA, smoke=Smoke.S1, droplets=None, acidity=None)


@given(rating=ratings, needed=classes)
def test_a_north_american_class_never_says_anything_of_a_european_one(
    rating: JacketRating, needed: ReactionToFire
) -> None:
    """Whatever the other ladder states, the answer is that of this ladder alone."""
    alone = judge_space(rated(replace(rating, north_american=None, type_mark=None)), needed)
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


@given(rating=ratings, needed=marks)
def test_a_european_class_never_says_anything_of_a_mark(
    rating: JacketRating, needed: TypeMark
) -> None:
    """A mark is answered by the mark and the class of its own system; by no class, by nothing."""
    alone = judge_space(rated(replace(rating, reaction=None)), needed)
    both = judge_space(rated(rating), needed)
    assert both.outcome is alone.outcome
    if rating.north_american is None:
        assert both.outcome is Outcome.NOT_COMPUTED


@pytest.mark.parametrize(
    ("own", "needed", "outcome"),
    [
        ("CMP", "CMR", Outcome.GOOD),
        ("CMR", "CMR", Outcome.GOOD),
        ("CMR", "CL3R", Outcome.GOOD),
        ("CL3R", "CMR", Outcome.BAD),
        ("CL2P", "CMP", Outcome.BAD),
        ("CM", "CMR", Outcome.BAD),
        ("CL2X", "CL2", Outcome.BAD),
    ],
)
def test_a_mark_is_judged_by_the_table_of_substitutions(
    own: str, needed: str, outcome: Outcome
) -> None:
    """Up the ladder and from communication to class 3 and 2, never the other way."""
    mark = TypeMark(text=own)
    rating = replace(PLAIN, north_american=mark.level, type_mark=mark)
    assert judge_space(rated(rating), TypeMark(text=needed)).outcome is outcome


def test_a_class_whose_mark_is_not_on_record_makes_no_yes_for_a_mark() -> None:
    """Plenum cable may be CL2P; too low a class is a no whatever its mark."""
    plenum = replace(PLAIN, north_american=JacketClass.PLENUM)
    check = judge_space(rated(plenum), TypeMark(text="CMP"))
    assert check.outcome is Outcome.NOT_COMPUTED
    assert "not on record" in check.sentence
    assert judge_space(rated(PLAIN), TypeMark(text="CMP")).outcome is Outcome.BAD


def test_a_mark_that_contradicts_its_class_is_refused() -> None:
    """A jacket cannot be general and CMP."""
    with pytest.raises(BadValue, match="a mark of the class general"):
        replace(PLAIN, type_mark=TypeMark(text="CMP"))
    with pytest.raises(BadValue, match="CMP"):
        TypeMark(text="CMQ")


def test_what_an_escape_route_asks_for_is_local_rule() -> None:
    """No class at all makes it a yes, and no cable is put aside for it."""
    best = replace(PLAIN, reaction=read_reaction("B1ca-s1a,d0,a1"))
    assert judge_space(rated(best), Space.ESCAPE_ROUTE).outcome is Outcome.NOT_COMPUTED
    assert not rules_out(rated(best), Space.ESCAPE_ROUTE)


def test_only_a_class_known_to_be_met_is_proposed_where_one_is_asked() -> None:
    """Silence rules out where a class is asked; of sun and soil it only leaves a question."""
    eca = read_reaction("Eca")
    assert eca is not None
    assert rules_out(rated(PLAIN), eca)
    assert not rules_out(rated(replace(PLAIN, reaction=eca)), eca)
    assert not rules_out(rated(PLAIN), Space.OUTDOORS)
    assert rules_out(rated(replace(PLAIN, sunlight_resistant=False)), Space.OUTDOORS)


def test_classes_and_marks_are_found_in_sentences() -> None:
    """As customers write them, and not in "ca. 5 m", "CM" or a term of delivery."""
    assert find_reaction("it has to be B2ca-s1,d1,a1 there") == read_reaction("B2ca-s1,d1,a1")
    assert find_mark("must be CMP by the book") == TypeMark(text="CMP")
    for sentence in ("a ca. 5 m lead", "30 CM of CAT 6", "delivery FCA", "cl2 of the bus"):
        assert find_reaction(sentence) is None
        assert find_mark(sentence) is None
    assert read_mark("type cl3r") == read_mark("CL3R rated") == TypeMark(text="CL3R")
    assert read_mark("CM 5") is None


def test_limited_use_says_how_little_of_it_may_be_fixed() -> None:
    """10 ft in the open, or in a dwelling where it is thinner than a quarter of an inch."""
    limited = replace(PLAIN, north_american=JacketClass.LIMITED)
    check = judge_space(rated(limited), Space.FREE)
    assert check.outcome is Outcome.GOOD
    assert "10 ft (3.05\u202fm)" in check.sentence
    assert "6.00\u202fmm, is." in check.sentence


@given(rating=ratings, place=st.sampled_from(Space) | classes | marks)
def test_every_answer_leaves_the_last_word_to_the_authority(
    rating: JacketRating, place: Space | ReactionToFire | TypeMark
) -> None:
    """Good, bad or not computed: the authority having jurisdiction decides."""
    check = judge_space(rated(rating), place)
    assert check.sentence.endswith("The authority having jurisdiction decides.")


@pytest.mark.parametrize(
    ("space", "field"),
    [
        (Space.OUTDOORS, "sunlight_resistant"),
        (Space.WET, "direct_burial"),
        (Space.BURIED, "direct_burial"),
    ],
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
    assert "halogens" in also_needed(low_smoke)[1]
    assert "halogens" not in "".join(also_needed(plain))
    assert "plugged in by hand" in also_needed(plain)[0]
    assert also_needed(TypeMark(text="CMP")) == also_needed(Space.AIR_HANDLING)
    assert also_needed(TypeMark(text="CMR")) == ()
    assert also_needed(Space.FREE) == ()
    assert class_needed(Space.FREE) is JacketClass.LIMITED
