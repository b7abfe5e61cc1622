"""Jacket and space: what the print on the jacket allows, what else must follow, who decides."""

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.fire_reaction import Reaction, ReactionToFire
from reelwright.core.parts.jacket import Space, class_needed, may_stand_in
from reelwright.core.parts.jacket_rating import JacketRating
from reelwright.core.verdicts import Basis, Check, Outcome, Source

Place = Space | ReactionToFire
"""Where a run lies: a kind of space, or the reaction-to-fire class that the building asks for."""

_ORDER = Source(
    text="NFPA 70 article 800, which class of communication cable may stand in for which",
    basis=Basis.FROM_MEMORY,
)
_EUROPE = Source(
    text="EN 13501-6 and EN 50575, order of the reaction-to-fire classes of cables",
    basis=Basis.PUBLISHED,
)
_WEATHER = Source(text="what the data sheet states of sun and soil", basis=Basis.DATA_SHEET)
_AUTHORITY = "The authority having jurisdiction decides."
_TWO_LADDERS = "the two systems do not map onto each other"


def judge_space(cable: Cable, place: Place) -> Check:
    """Return whether the jacket is rated for the place.

    The North American order and the European classes are judged each by itself; a rating of the one
    says nothing of the other. What is not stated is not computed, never a yes.
    """
    rating = cable.rating
    if isinstance(place, ReactionToFire):
        return _reaction(cable, rating, place)
    if place in _STATED:
        return _weather(cable, rating, place)
    return _north_american(cable, rating, place)


def also_needed(place: Place) -> tuple[str, ...]:
    """Return what else must suit the place besides the cable, in sentences for the customer."""
    if isinstance(place, ReactionToFire):
        if place.acidity is None and place.smoke is None:
            return ()
        return (
            "A smoke or acidity class is that of the cable alone: boots, ties, sleeves and labels "
            "of PVC would spoil it, so ask for them without halogens.",
        )
    return _BESIDES.get(place, ())


_BESIDES = {
    Space.AIR_HANDLING: (
        "Ties, labels, boots and sleeves that stay in an air-handling space must be rated for it "
        "as well; ours of PVC may not, so ask for the cable without boots or for rated ones.",
    ),
    Space.OUTDOORS: (
        "Outdoors the ends take in water before the jacket does: they need sealing, drip loops, "
        "and boots, ties and labels that bear the sun.",
    ),
    Space.BURIED: (
        "In the ground the ends must come up into the dry or be sealed, and a lightning protection "
        "may be asked for where a run joins two buildings.",
    ),
}
_PLACE = {
    Space.FREE: "in the open",
    Space.IN_WALL: "inside a wall",
    Space.RISER_SHAFT: "in a riser shaft",
    Space.AIR_HANDLING: "in an air-handling space",
    Space.OUTDOORS: "outdoors",
    Space.BURIED: "in the ground",
}
_STATED = {
    Space.OUTDOORS: ("sunlight_resistant", "sunlight resistant", "sun and water"),
    Space.BURIED: ("direct_burial", "for direct burial", "water and soil"),
}


def _check(outcome: Outcome, sentence: str, source: Source, value: object, limit: object) -> Check:
    return Check(
        name="jacket for the space",
        outcome=outcome,
        sentence=f"{sentence} {_AUTHORITY}",
        source=source,
        value=str(value),
        limit=None if limit is None else str(limit),
        margin=None,
        unit="",
    )


def _north_american(cable: Cable, rating: JacketRating, space: Space) -> Check:
    needed, has = class_needed(space), rating.north_american
    least = f"at least {needed} is asked for {_PLACE[space]}"
    if has is None and space is Space.FREE and _burns_slowly(rating):
        sentence = (
            f"{cable.code} is of class {rating.reaction}; no class is asked of a cable that lies "
            f"{_PLACE[space]} and is not built in."
        )
        return _check(Outcome.GOOD, sentence, _EUROPE, rating, None)
    if has is None:
        why = "states no North American class"
        if rating.reaction is not None:
            why = f"states only the European class {rating.reaction}, and {_TWO_LADDERS}"
        sentence = f"Not computed: {cable.code} {why}, but {least}."
        return _check(Outcome.NOT_COMPUTED, sentence, _ORDER, rating, needed)
    if needed is not None and may_stand_in(has, needed):
        sentence = f"{cable.code} is rated {has}; {least}."
        return _check(Outcome.GOOD, sentence, _ORDER, has, needed)
    sentence = f"{cable.code} is rated {has}, but {least}: it may not be laid there."
    return _check(Outcome.BAD, sentence, _ORDER, has, needed)


def _burns_slowly(rating: JacketRating) -> bool:
    return rating.reaction is not None and rating.reaction.main is not Reaction.FCA


def _reaction(cable: Cable, rating: JacketRating, needed: ReactionToFire) -> Check:
    has = rating.reaction
    if has is None:
        why = "states no reaction-to-fire class"
        if rating.north_american is not None:
            why = (
                f"states only the North American class {rating.north_american}, and {_TWO_LADDERS}"
            )
        sentence = f"Not computed: {cable.code} {why}, but {needed} is asked for."
        return _check(Outcome.NOT_COMPUTED, sentence, _EUROPE, rating, needed)
    short = has.short_of(needed)
    if not short:
        sentence = f"{cable.code} is of class {has}, which covers the {needed} asked for."
        return _check(Outcome.GOOD, sentence, _EUROPE, has, needed)
    sentence = (
        f"{cable.code} is of class {has} and does not reach {', '.join(short)} of the {needed} "
        "asked for: it may not be laid there."
    )
    return _check(Outcome.BAD, sentence, _EUROPE, has, needed)


def _weather(cable: Cable, rating: JacketRating, space: Space) -> Check:
    field, words, enemies = _STATED[space]
    stated: bool | None = getattr(rating, field)
    if stated is None:
        sentence = (
            f"Not computed: whether {cable.code} may lie {_PLACE[space]} is a matter of {enemies}, "
            f"which its rating ({rating}) does not tell."
        )
        return _check(Outcome.NOT_COMPUTED, sentence, _WEATHER, rating, words)
    if stated:
        sentence = f"{cable.code} is stated to be {words}."
        return _check(Outcome.GOOD, sentence, _WEATHER, rating, words)
    sentence = (
        f"{cable.code} is stated not to be {words}: {enemies} would spoil it {_PLACE[space]}."
    )
    return _check(Outcome.BAD, sentence, _WEATHER, rating, words)
