"""Where a pulled end gave way, and what that says of how it was made."""

import enum


class FailureMode(enum.StrEnum):
    """Where a pulled end gave way."""

    CONDUCTOR_BROKE = "conductor broke"
    CONDUCTOR_PULLED_OUT = "conductor pulled out of the contact"
    BRAID_PULLED_OUT = "braid pulled out of the ferrule"
    JACKET_SLIPPED = "jacket slipped"
    JOINT_PEELED = "joint peeled"
    NOT_BROKEN = "pulled to the limit and held"


WHAT_IT_SAYS: dict[FailureMode, str] = {
    FailureMode.CONDUCTOR_BROKE: (
        "The wire gave way before the joint: no joint on it can do better, unless the wire was "
        "nicked or thinned beside it."
    ),
    FailureMode.CONDUCTOR_PULLED_OUT: (
        "The contact let the wire go: look at the pin's die and height, and how far the wire went "
        "in."
    ),
    FailureMode.BRAID_PULLED_OUT: (
        "The ferrule let the braid go: look at the ferrule's die, and how much braid lay under it."
    ),
    FailureMode.JACKET_SLIPPED: (
        "The grip on the jacket let go: look at the jacket's diameter, the clamp or the sleeve."
    ),
    FailureMode.JOINT_PEELED: (
        "The joint parted in its own face: look at weld energy and pressure, or at the solder."
    ),
    FailureMode.NOT_BROKEN: (
        "The pull was stopped: the end holds at least this much, and how much more is not known."
    ),
}
"""Common practice, no published source."""
