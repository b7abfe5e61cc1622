"""What each role may do."""

import pytest

from reelwright.shop.people.permissions import MAY, Action, Role, may, require_may
from tests.shop.refusals import refused
from tests.small_world import SmallWorld


def test_every_role_stands_in_the_table() -> None:
    """No role is without its row, and the lead may do everything."""
    assert set(MAY) == set(Role)
    assert MAY[Role.LEAD] == frozenset(Action)


def test_a_viewer_changes_nothing() -> None:
    """Looking and asking is all a viewer may."""
    assert MAY[Role.VIEWER] == {Action.LOOK, Action.ASK}


@pytest.mark.parametrize("action", [Action.CORRECT, Action.RELEASE_SETUPS, Action.KEEP_PEOPLE])
def test_what_undoes_evidence_or_gives_power_is_the_leads(action: Action) -> None:
    """Reversing, releasing and keeping people are no one else's."""
    assert [role for role in Role if action in MAY[role]] == [Role.LEAD]


def test_who_left_may_nothing(world: SmallWorld) -> None:
    """A person who is no longer active may not even look."""
    assert may(world.ben, Action.BOOK_WORK)
    world.ben.is_active = False
    assert not may(world.ben, Action.LOOK)
    with refused("not_allowed") as caught:
        require_may(world.ben, Action.LOOK)
    assert "no longer works here" in caught.value.sentence
