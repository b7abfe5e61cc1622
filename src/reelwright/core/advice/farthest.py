"""Which cable of the catalogue carries a signal farthest, where none carries it far enough."""

from reelwright.core.advice.question import Question
from reelwright.core.advice.reach_table import reach_of
from reelwright.core.advice.tried import Tried, try_all


def farthest(question: Question) -> Tried | None:
    """Return the run on the cable with the longest reach; None where none is known to reach."""
    reach = [
        (reach_of(each.budget), each.run.cable.code, each)
        for each in try_all(question)
        if each.run.cable.family in question.signal.families and each.budget is not None
    ]
    reach = [each for each in reach if each[0] > 0]
    return max(reach, key=lambda each: each[:2])[2] if reach else None
