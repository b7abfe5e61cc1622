"""Jacket classes and the spaces they may run through.

Only the North American communication-cable order is held here; the European reaction-to-fire
classes (fire_reaction) are another ladder, and the two never convert into each other.
"""

import enum


class JacketClass(enum.StrEnum):
    """What the jacket is rated for, as printed on it."""

    LIMITED = "limited use"
    GENERAL = "general"
    RISER = "riser"
    PLENUM = "plenum"


class Space(enum.StrEnum):
    """Where the run lies."""

    FREE = "in the open"
    IN_WALL = "in a wall"
    RISER_SHAFT = "riser shaft"
    AIR_HANDLING = "air-handling space"
    ESCAPE_ROUTE = "escape route"
    OUTDOORS = "outdoors"
    WET = "wet place"
    BURIED = "buried"


# NFPA 70 article 800, substitution order of communication cables: plenum may stand in for riser,
# riser for general, general for limited use (from memory). What an escape route asks for is local
# rule; sun, water and soil are not on the order.
_ORDER = (JacketClass.LIMITED, JacketClass.GENERAL, JacketClass.RISER, JacketClass.PLENUM)

_NEEDED: dict[Space, JacketClass | None] = {
    Space.FREE: JacketClass.LIMITED,
    Space.IN_WALL: JacketClass.GENERAL,
    Space.RISER_SHAFT: JacketClass.RISER,
    Space.AIR_HANDLING: JacketClass.PLENUM,
    Space.ESCAPE_ROUTE: None,
    Space.OUTDOORS: None,
    Space.WET: None,
    Space.BURIED: None,
}


def class_needed(space: Space) -> JacketClass | None:
    """Return the least class for a space; None where the order says nothing of it."""
    return _NEEDED[space]


def may_stand_in(offered: JacketClass, needed: JacketClass) -> bool:
    """Return whether a cable of class ``offered`` may be laid where ``needed`` is asked."""
    return _ORDER.index(offered) >= _ORDER.index(needed)
