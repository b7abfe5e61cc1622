"""What each role may do: one table, asked by services and pages alike."""

import enum
from typing import Protocol

from reelwright.core.errors import ShopRuleBroken


class Role(enum.StrEnum):
    """What a person is in the workshop."""

    LEAD = "lead"
    OFFICE = "office"
    BENCH = "bench"
    VIEWER = "viewer"


class Action(enum.StrEnum):
    """What can be done, as it reads after "may"."""

    LOOK = "look at the records"
    ASK = "ask for a verdict on a run"
    TAKE_ORDERS = "take, hold, accept and refuse orders"
    PLAN = "plan the day"
    RECEIVE = "receive goods into stock"
    BOOK_WORK = "book cuts and other work"
    COUNT = "count stock"
    CORRECT = "reverse an entry"
    KEEP_CATALOGUE = "change cables, connectors and prices"
    KEEP_TOOLS = "change stations and tools"
    DRAFT_SETUPS = "draft a set-up"
    RELEASE_SETUPS = "release or withdraw a set-up"
    KEEP_PEOPLE = "change people and the workshop"


MAY: dict[Role, frozenset[Action]] = {
    Role.LEAD: frozenset(Action),
    Role.OFFICE: frozenset(
        {
            Action.LOOK,
            Action.ASK,
            Action.TAKE_ORDERS,
            Action.PLAN,
            Action.RECEIVE,
            Action.COUNT,
            Action.KEEP_CATALOGUE,
        }
    ),
    Role.BENCH: frozenset(
        {
            Action.LOOK,
            Action.ASK,
            Action.RECEIVE,
            Action.BOOK_WORK,
            Action.COUNT,
            Action.DRAFT_SETUPS,
        }
    ),
    Role.VIEWER: frozenset({Action.LOOK, Action.ASK}),
}


class Actor(Protocol):
    """Whoever acts: a ``Person``, seen only as far as permissions need."""

    display_name: str
    role: str
    is_active: bool


def may(person: Actor, action: Action) -> bool:
    """Return whether the person's role allows the action; who has left may nothing."""
    return person.is_active and action in MAY[Role(person.role)]


def require_may(person: Actor, action: Action) -> None:
    """Raise ShopRuleBroken ``not_allowed`` unless the person may do this."""
    if may(person, action):
        return
    who = person.display_name
    raise ShopRuleBroken(
        "not_allowed",
        f"{who} may not {action.value}"
        + (f" (role: {person.role})." if person.is_active else " (no longer works here)."),
        role=person.role,
        action=action.value,
    )
