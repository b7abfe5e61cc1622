"""From checks to one judgement: which check decides, and what the customer reads."""

from collections.abc import Sequence

from reelwright.core.parts.length import Length
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judgement import Judgement
from reelwright.core.verdicts import Check, Outcome, Source, Verdict


def judgement(
    *,
    fitness: Sequence[Check],
    main: Check,
    further: Sequence[Check],
    budget: Budget | None,
    length: Length,
) -> Judgement:
    """Return the judgement of all checks together.

    A cable or end that cannot carry the signal decides before any figure does. Else the worst
    check speaks, or the main one where it is as bad; cautions follow the main sentence.
    ``budget`` gives chance and lengths, None where the signal is not judged by length.
    """
    verdict = Verdict(checks=(main, *fitness, *further))
    unfit = [check for check in fitness if check.outcome is Outcome.BAD]
    worst = verdict.worst
    if unfit:
        deciding = unfit[0]
        sentence = " ".join(check.sentence for check in unfit)
    elif worst.outcome is main.outcome:
        deciding, sentence = main, main.sentence
    else:
        deciding, sentence = worst, worst.sentence
    if not unfit and worst.outcome is Outcome.CAUTION:
        others = [check.sentence for check in verdict.having(Outcome.CAUTION) if check is not main]
        sentence = " ".join([main.sentence, *others])
    return Judgement(
        verdict=verdict,
        chance_within_limit=None if budget is None else budget.chance_within(length),
        length_at_95_m=None if budget is None else budget.length_at_m(0.95),
        length_at_50_m=None if budget is None else budget.length_at_m(0.5),
        deciding=deciding.name,
        sentence=sentence,
    )


def not_computed(*, name: str, because: str, source: Source, unit: str) -> Check:
    """Return a check that could not be computed, with what is missing."""
    return Check(
        name=name,
        outcome=Outcome.NOT_COMPUTED,
        sentence=f"Not computed: {because}.",
        source=source,
        value=None,
        limit=None,
        margin=None,
        unit=unit,
    )
