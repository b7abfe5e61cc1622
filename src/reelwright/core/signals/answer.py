"""From checks to one judgement: which check decides, and what the customer reads."""

from collections.abc import Sequence

from reelwright.core.parts.length import Length
from reelwright.core.quantities.show import show_both_whole
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.judgement import Judgement, PhysicalReach
from reelwright.core.verdicts import Check, Outcome, Source, Verdict


def judgement(
    *,
    fitness: Sequence[Check],
    main: Check,
    further: Sequence[Check],
    budget: Budget | None,
    length: Length,
    far_end: str,
    possible: PhysicalReach | None,
) -> Judgement:
    """Return the judgement of all checks together.

    A cable or end that cannot carry the signal decides before any figure does. A "no" speaks
    alone; otherwise the main sentence comes first, then each caution and what was not computed.
    ``budget`` gives chance and lengths, None where the signal is not judged by length. ``far_end``
    says what the far end needs, ``possible`` how far past the limit physics allows.
    """
    verdict = Verdict(checks=(main, *fitness, *further))
    unfit = [check for check in fitness if check.outcome is Outcome.BAD]
    worst = verdict.worst
    if unfit:
        deciding, told = unfit[0], unfit
    elif worst.outcome is Outcome.BAD:
        deciding = main if main.outcome is Outcome.BAD else worst
        told = [deciding]
    else:
        deciding = main if main.outcome is worst.outcome else worst
        told = [main, *(check for check in verdict.checks if check.outcome is not Outcome.GOOD)]
    # A figure beside a cable that cannot carry the signal would read as a recommendation.
    if unfit:
        budget = possible = None
    return Judgement(
        verdict=verdict,
        chance_within_limit=None if budget is None else budget.chance_within(length),
        length_at_95_m=None if budget is None else budget.length_at_m(0.95),
        length_at_50_m=None if budget is None else budget.length_at_m(0.5),
        deciding=deciding.name,
        sentence=" ".join(dict.fromkeys(check.sentence for check in told)),
        far_end=far_end,
        possible=possible,
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


def told_longest(longest_m: float) -> str:
    """Return the sentence that recommends ``longest_m`` [m], or says that no length would do."""
    if longest_m < 1:
        return "No length of it would do."
    return f"The longest run we recommend is {show_both_whole(longest_m)}."
