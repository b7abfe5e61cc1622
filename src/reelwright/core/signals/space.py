"""Jacket and space: what the print on the jacket allows, and who has the last word."""

from reelwright.core.parts.cable import Cable
from reelwright.core.parts.jacket import Space, class_needed, may_stand_in
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_SOURCE = Source(
    text="NFPA 70 article 800, which class of communication cable may stand in for which",
    basis=Basis.FROM_MEMORY,
)
_AUTHORITY = "The authority having jurisdiction decides."


def judge_space(cable: Cable, space: Space) -> Check:
    """Return whether the jacket's class is enough for the space.

    Only the North American order is known; outdoors and burial are not on it and are not computed.
    """
    needed, has = class_needed(space), cable.jacket_class
    least = f"at least {needed} is asked for {_PLACE[space]}"
    if needed is None:
        outcome = Outcome.NOT_COMPUTED
        sentence = (
            f"Not computed: whether {cable.code} may lie {_PLACE[space]} is a matter of sun, water "
            f"and soil, which its rating ({has}) does not tell."
        )
    elif may_stand_in(has, needed):
        outcome = Outcome.GOOD
        sentence = f"{cable.code} is rated {has}; {least}."
    else:
        outcome = Outcome.BAD
        sentence = f"{cable.code} is rated {has}, but {least}: it may not be laid there."
    return Check(
        name="jacket for the space",
        outcome=outcome,
        sentence=f"{sentence} {_AUTHORITY}",
        source=_SOURCE,
        value=str(has),
        limit=None if needed is None else str(needed),
        margin=None,
        unit="",
    )


_PLACE = {
    Space.FREE: "in the open",
    Space.IN_WALL: "inside a wall",
    Space.RISER_SHAFT: "in a riser shaft",
    Space.AIR_HANDLING: "in an air-handling space",
    Space.OUTDOORS: "outdoors",
    Space.BURIED: "in the ground",
}
