"""The states of a revision and the moves between them."""

import enum

from reelwright.core.ends.strength.failure import FailureMode

__all__ = [
    "CRIMPS", "NEXT", "STRIPS", "FailureMode", "FitAnswer", "NoteKind", "Part", "State",
]  # fmt: skip


class State(enum.StrEnum):
    """How far a revision has come. Only a released one may be sold."""

    DRAFTED = "drafted"
    ON_TRIAL = "on trial"
    PROVEN = "proven"
    RELEASED = "released"
    WITHDRAWN = "withdrawn"


NEXT: dict[State, State | None] = {
    State.DRAFTED: State.ON_TRIAL,
    State.ON_TRIAL: State.PROVEN,
    State.PROVEN: State.RELEASED,
    State.RELEASED: None,
    State.WITHDRAWN: None,
}


class NoteKind(enum.StrEnum):
    """What a note on a set-up sheet is: a step of the assembly, or a warning."""

    STEP = "step"
    CAUTION = "caution"


class Part(enum.StrEnum):
    """What of a finished end is measured, as files and pages name it.

    Crimps, stripped lengths, and the pin itself before and after its crimp.
    """

    PIN_CRIMP = "pin crimp"
    FERRULE_CRIMP = "ferrule crimp"
    CONDUCTOR = "a"
    DIELECTRIC = "b"
    BRAID = "c"
    JACKET_BACK = "jacket back"
    CORES_BARED = "cores bared"
    PIN_GROWTH = "pin growth"


CRIMPS = (Part.PIN_CRIMP, Part.FERRULE_CRIMP)
"""The parts whose height across flats is measured; of all others a length along the end is."""

STRIPS = (Part.CONDUCTOR, Part.DIELECTRIC, Part.BRAID, Part.JACKET_BACK, Part.CORES_BARED)
"""The parts that are stripped lengths."""


class FitAnswer(enum.StrEnum):
    """What a lead says of a cable with a connector, beside what is computed of the pair."""

    POSSIBLE = "possible"
    IMPOSSIBLE = "impossible"
    AS_COMPUTED = "as computed"


class Shows(enum.StrEnum):
    """What a photograph on a set-up sheet is there for."""

    GOOD = "good"
    BAD = "bad"


class PhotographKind(enum.StrEnum):
    """What a photograph's file is."""

    JPEG = "jpeg"
    PNG = "png"
