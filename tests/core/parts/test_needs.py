"""What a signal may ask of a cable."""

import pytest

from reelwright.core.errors import BadValue
from reelwright.core.parts.needs import SignalNeeds


def needs(
    *, legs: int = 2, balanced: bool = True, phantom: bool = True, screen: bool = True
) -> SignalNeeds:
    """Return the needs of a microphone with phantom power, changed as told."""
    return SignalNeeds(
        legs=legs, balanced=balanced, phantom_power=phantom, screen=screen, impedance_ohm=None
    )


def test_a_microphone_with_phantom_power_can_be_stated() -> None:
    """Two balanced legs, a screen and a supply are a possible wish."""
    assert needs().legs == 2


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"legs": 0}, "legs"),
        ({"legs": 1}, "legs"),
        ({"balanced": False}, "phantom_power"),
        ({"screen": False}, "phantom_power"),
    ],
)
def test_contradictions_are_refused(change: dict[str, int], field: str) -> None:
    """No legs, one balanced leg, and phantom power with no balance or no screen cannot be."""
    with pytest.raises(BadValue) as refused:
        needs(**change)
    assert refused.value.field == field
