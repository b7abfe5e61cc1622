"""How much a run has to spare, in words, for the sentence of a change."""

from reelwright.core.quantities.show import show_chance, show_short
from reelwright.core.quantities.words import sentence
from reelwright.core.signals.judgement import Judgement
from reelwright.core.verdicts import Outcome

# From here on a chance adds nothing to "to spare".
_AS_GOOD_AS_SURE = 0.995


def to_spare(judgement: Judgement) -> str:
    """Return "2.1 dB to spare", with the chance where it is not as good as sure.

    Where a check ended less than good, or nothing has a number, the verdict's own sentence.
    """
    main, chance = judgement.verdict.checks[0], judgement.chance_within_limit
    if main.margin is None or judgement.verdict.outcome is not Outcome.GOOD:
        return judgement.sentence
    told = f"{show_short(main.margin, main.unit)} to spare"
    if chance is not None and chance < _AS_GOOD_AS_SURE:
        told += f", with {show_chance(chance)} chance of staying within the design limit"
    return sentence(told)
