"""What a person may do with one revision of a set-up, for its page."""

from dataclasses import dataclass
from typing import Any

from reelwright.shop.people.permissions import Action, may
from reelwright.shop.setups.photo_files import ACCEPTED
from reelwright.shop.setups.photographs import CAPTION_AT_MOST, photographs
from reelwright.shop.setups.selectors import NextState
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import Shows, State

_VERBS = {
    State.ON_TRIAL: ("Take to trial", Action.DRAFT_SETUPS, "A lead or a bench"),
    State.PROVEN: ("Declare proven", Action.RELEASE_SETUPS, "A lead"),
    State.RELEASED: ("Release set-up", Action.RELEASE_SETUPS, "A lead"),
}


@dataclass(frozen=True, kw_only=True)
class Forward:
    """The way to the next state; ``open`` to this person now; ``who`` may go it."""

    state: State
    verb: str
    open: bool
    who: str


def forward(person: Any, ahead: NextState) -> Forward | None:
    """Return the way to the next state; None where there is none."""
    if ahead.state is None:
        return None
    verb, action, who = _VERBS[ahead.state]
    return Forward(
        state=ahead.state, verb=verb, open=may(person, action) and not ahead.missing, who=who
    )


def doing(person: Any, sheet: SetUpSheet, ahead: NextState) -> dict[str, Any]:
    """Return what the page needs for its buttons and its photographs."""
    return {
        "forward": forward(person, ahead),
        "may_draft": may(person, Action.DRAFT_SETUPS),
        "may_withdraw": sheet.state is not State.WITHDRAWN and may(person, Action.RELEASE_SETUPS),
        "photographs": photographs(sheet.revision_id),
        "may_attach": may(person, Action.DRAFT_SETUPS),
        "may_take_back": may(person, Action.CORRECT),
        "accepted": ACCEPTED,
        "looks": [str(each) for each in Shows],
        "longest_caption": CAPTION_AT_MOST,
    }
