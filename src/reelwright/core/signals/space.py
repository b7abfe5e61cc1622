"""Jacket and space: what the print on the jacket allows, what else must follow, who decides."""

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.fire_reaction import Reaction, ReactionToFire
from reelwright.core.parts.jacket import JacketClass, Space, class_needed, may_stand_in
from reelwright.core.parts.jacket_rating import JacketRating
from reelwright.core.parts.type_marks import LARGEST_LIMITED_M, TypeMark, mark_may_replace
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Basis, Check, Outcome, Source

Place = Space | TypeMark | ReactionToFire
"""Where a run lies: a kind of space, or the mark or class that the building asks for."""

OTHER_JACKET = (
    "A cable with another jacket is another cable at the bench: its set-up is one of its own, and "
    "its boots and ferrules follow its size."
)

_ORDER = Source(
    text="NFPA 70 article 800, which class of communication cable may stand in for which",
    basis=Basis.FROM_MEMORY,
)
_MARKS = Source(
    text="table of permitted substitutions, after NFPA 70 articles 725, 760 and 800",
    basis=Basis.PUBLISHED,
)
_LOCAL = Source(text="which class an escape route asks for is local rule", basis=Basis.FROM_MEMORY)
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
    if isinstance(place, TypeMark):
        return _mark(cable, rating, place)
    if place is Space.ESCAPE_ROUTE:
        return _escape_route(cable, rating)
    if place in _STATED:
        return _weather(cable, rating, place)
    return _north_american(cable, rating, place)


def rules_out(cable: Cable, place: Place) -> bool:
    """Return whether the cable is not to be proposed for the place.

    Where a class is asked for, only a cable known to have it may be; where nothing but the sheet's
    silence stands against it (sun, water, soil, an escape route's local rule), it may be asked.
    """
    outcome = judge_space(cable, place).outcome
    if outcome is Outcome.NOT_COMPUTED:
        return place not in _STATED and place is not Space.ESCAPE_ROUTE
    return outcome is Outcome.BAD


def also_needed(place: Place) -> tuple[str, ...]:
    """Return what else must suit the place besides the cable, in sentences for the customer."""
    if isinstance(place, ReactionToFire):
        told = (
            "The class is asked of cable that is fixed in a building; a lead plugged in by hand is "
            "not under that rule (from memory).",
        )
        if place.acidity is None and place.smoke is None:
            return told
        return (
            *told,
            "A smoke or acidity class is that of the cable alone: boots, ties, sleeves and labels "
            "of PVC would spoil it, so ask for them without halogens.",
        )
    if isinstance(place, TypeMark):
        return _BESIDES[Space.AIR_HANDLING] if place.level is JacketClass.PLENUM else ()
    return _BESIDES.get(place, ())


_BESIDES = {
    Space.AIR_HANDLING: (
        "Ties, labels, boots and sleeves that stay in an air-handling space must be rated for it "
        "as well; ours of PVC may not, so ask for the cable without boots or for rated ones.",
    ),
    Space.ESCAPE_ROUTE: (
        "Where smoke may block the way out, ties, sleeves, boots and labels count as well: ask for "
        "them without halogens.",
    ),
    Space.OUTDOORS: (
        "Outdoors the ends take in water before the jacket does: they need sealing, drip loops, "
        "and boots, ties and labels that bear the sun.",
    ),
    Space.WET: (
        "In a wet place the ends take in water before the jacket does: they end in the dry or are "
        "sealed.",
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
    Space.WET: "in a wet place",
    Space.BURIED: "in the ground",
}
_STATED = {
    Space.OUTDOORS: ("sunlight_resistant", "sunlight resistant", "sun and water"),
    # What is made for bare earth bears water; nothing else is stated of it.
    Space.WET: ("direct_burial", "for direct burial", "standing water"),
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
        sentence = f"{cable.code} is rated {has}; {least}.{_limits_of_use(cable, has)}"
        return _check(Outcome.GOOD, sentence, _ORDER, has, needed)
    sentence = f"{cable.code} is rated {has}, but {least}: it may not be laid there."
    return _check(Outcome.BAD, sentence, _ORDER, has, needed)


def _limits_of_use(cable: Cable, has: JacketClass) -> str:
    """What limited use means once the cable is fixed in place; nothing for any other class."""
    if has is not JacketClass.LIMITED:
        return ""
    outside_m = cable.jacket.outside_diameter_m
    thin = "is" if outside_m < LARGEST_LIMITED_M else "is not"
    return (
        " Fixed in place, limited-use cable lies open for 10 ft (3.05\u202fm) at most, or in a "
        f"dwelling where it is thinner than Ø\u202f{show_dimension(LARGEST_LIMITED_M)}, which this "
        f"one, of Ø\u202f{show_dimension(outside_m)}, {thin}."
    )


def _mark(cable: Cable, rating: JacketRating, needed: TypeMark) -> Check:
    own, level = rating.type_mark, rating.north_american
    least = f"{needed} is asked for"
    if level is None:
        why = "states no North American class"
        if rating.reaction is not None:
            why = f"states only the European class {rating.reaction}, and {_TWO_LADDERS}"
        sentence = f"Not computed: {cable.code} {why}, but {least}."
        return _check(Outcome.NOT_COMPUTED, sentence, _MARKS, rating, needed)
    if not may_stand_in(level, needed.level):
        sentence = (
            f"{cable.code} is rated {own or level}, but {least}, which is of the class "
            f"{needed.level}: it may not be laid there."
        )
        return _check(Outcome.BAD, sentence, _MARKS, own or level, needed)
    if own is None:
        sentence = (
            f"Not computed: {cable.code} is rated {level}, which is enough for {needed}, but what "
            "circuits it is listed for is not on record: the mark on its jacket tells."
        )
        return _check(Outcome.NOT_COMPUTED, sentence, _MARKS, level, needed)
    if mark_may_replace(own.text, needed.text):
        same = own == needed
        stands = "as is asked for" if same else f"which may take the place of the {needed} asked"
        sentence = f"{cable.code} is marked {own}, {stands}."
        return _check(Outcome.GOOD, sentence, _MARKS, own, needed)
    sentence = (
        f"{cable.code} is marked {own}, which is listed for other circuits than the {needed} asked "
        "for: it may not take its place."
    )
    return _check(Outcome.BAD, sentence, _MARKS, own, needed)


def _escape_route(cable: Cable, rating: JacketRating) -> Check:
    sentence = (
        "Not computed: which class an escape route asks for is local rule; "
        f"what is stated of {cable.code} is: {rating}."
    )
    return _check(Outcome.NOT_COMPUTED, sentence, _LOCAL, rating, None)


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
    short, silent = has.short_of(needed), has.silent_on(needed)
    if silent and not short:
        sentence = (
            f"Not computed: {cable.code} is of class {has}, which does not state "
            f"{', '.join(silent)} of the {needed} asked for."
        )
        return _check(Outcome.NOT_COMPUTED, sentence, _EUROPE, has, needed)
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
        if space is Space.OUTDOORS and not rating.direct_burial:
            sentence += " Of standing water its sheet tells nothing."
        return _check(Outcome.GOOD, sentence, _WEATHER, rating, words)
    sentence = (
        f"{cable.code} is stated not to be {words}: {enemies} would spoil it {_PLACE[space]}."
    )
    return _check(Outcome.BAD, sentence, _WEATHER, rating, words)
