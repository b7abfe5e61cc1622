"""What a jacket is rated for, as far as its print and its data sheet say."""

from dataclasses import dataclass

from reelwright.core.parts.fire_reaction import ReactionToFire
from reelwright.core.parts.jacket import JacketClass


@dataclass(frozen=True, kw_only=True)
class JacketRating:
    """Ratings of two legal systems that never convert, and two for the open air.

    ``None`` means: not stated, which is never a yes.
    """

    north_american: JacketClass | None
    reaction: ReactionToFire | None
    sunlight_resistant: bool | None
    direct_burial: bool | None

    def __str__(self) -> str:
        """All that is stated, in words."""
        told = [str(each) for each in (self.north_american, self.reaction) if each is not None]
        if self.sunlight_resistant:
            told.append("sunlight resistant")
        if self.direct_burial:
            told.append("for direct burial")
        return ", ".join(told) or "no rating stated"


def indoors_only(north_american: JacketClass) -> JacketRating:
    """Return the rating of a jacket that states a North American class and nothing else."""
    return JacketRating(
        north_american=north_american, reaction=None, sunlight_resistant=None, direct_burial=None
    )
