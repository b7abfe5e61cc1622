"""The same run with fewer couplers and patch points inside it."""

from collections.abc import Iterator
from dataclasses import replace

from reelwright.core.advice.change import Change, Kind
from reelwright.core.advice.question import Question
from reelwright.core.advice.tried import asked_tried
from reelwright.core.advice.words import to_spare
from reelwright.core.quantities.words import counted


def propose(question: Question) -> Iterator[Change]:
    """Yield the run with as many adapters left as leave it sure; with none, where none does."""
    asked = asked_tried(question)
    if asked is None:
        return
    for removed in range(1, question.adapters + 1):
        left = question.adapters - removed
        fewer = replace(asked, run=replace(asked.run, adapters=left))
        if left and not fewer.sure:
            continue
        how = f"with {counted(left, 'adapter')}" if left else "without adapters"
        yield Change(
            kind=Kind.FEWER_ADAPTERS,
            sentence=(
                f"In one piece {how} instead of {question.adapters}: {to_spare(fewer.judgement)}"
            ),
            tried=fewer,
            size=float(removed),
            parts=1,
            condition=None,
        )
        return
