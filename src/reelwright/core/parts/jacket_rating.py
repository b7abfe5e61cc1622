"""What a jacket is rated for, as far as its print and its data sheet say."""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.fire_reaction import ReactionToFire
from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.type_marks import TypeMark


@dataclass(frozen=True, kw_only=True)
class JacketRating:
    """Ratings of two legal systems that never convert, and two for the open air.

    ``None`` means: not stated, which is never a yes. ``type_mark`` is the mark printed, which says
    for what circuits the cable is listed besides its class. Raises BadValue where the two differ.
    """

    north_american: JacketClass | None
    type_mark: TypeMark | None
    reaction: ReactionToFire | None
    sunlight_resistant: bool | None
    direct_burial: bool | None

    def __post_init__(self) -> None:
        if self.type_mark is not None and self.type_mark.level is not self.north_american:
            raise BadValue(
                owner="JacketRating",
                field="type_mark",
                value=str(self.type_mark),
                accepted=f"a mark of the class {self.north_american or '(none is stated)'}",
            )

    def __str__(self) -> str:
        """All that is stated, in words."""
        told = [] if self.north_american is None else [str(self.north_american)]
        if self.type_mark is not None:
            told[0] += f" ({self.type_mark})"
        told += [] if self.reaction is None else [str(self.reaction)]
        if self.sunlight_resistant:
            told.append("sunlight resistant")
        if self.direct_burial:
            told.append("for direct burial")
        return ", ".join(told) or "no rating stated"


def indoors_only(north_american: JacketClass) -> JacketRating:
    """Return the rating of a jacket that states a North American class and nothing else."""
    return JacketRating(
        north_american=north_american,
        type_mark=None,
        reaction=None,
        sunlight_resistant=None,
        direct_burial=None,
    )
