"""The length rule of data cabling: cords, and channels of their own, where no rate is stated."""

from reelwright.core.quantities.show import show_both, show_plain_m
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.category.cords import STRANDED_MORE
from reelwright.core.signals.category.links import CHANNEL_M, PERMANENT_LINK_M
from reelwright.core.signals.length_rule import length_budget
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

CORDS_M = CHANNEL_M - PERMANENT_LINK_M
"""All stranded cords of one channel together [m]."""

STRANDED_LOSS_FACTOR = 1 + STRANDED_MORE
"""Loss of stranded cord over solid cable of the same length [1]."""

LENGTH_SOURCE = Source(
    text="ISO/IEC 11801-1 and ANSI/TIA-568.2-D: 100 m channel with 10 m of cords, 20 % more loss",
    basis=Basis.FROM_MEMORY,
)
"""Where the length rule comes from."""

_SOLID_EQUIVALENT_M = PERMANENT_LINK_M + STRANDED_LOSS_FACTOR * CORDS_M
_ONLY_LENGTH = (
    "Only the length is judged: crosstalk and return loss show in a test of the finished cable."
)


def channel_length_budget(run: Run) -> Budget:
    """Return the run as metres of solid cable of the same loss, against a whole channel."""
    factor = 1.0 if run.cable.solid_conductor else STRANDED_LOSS_FACTOR
    return length_budget(
        run, limit_m=_SOLID_EQUIVALENT_M, used_m=lambda lengths_m: factor * lengths_m
    )


def judge_channel_length(run: Run, budget: Budget) -> Check:
    """Return the check of the length, as a cord or as a channel of its own."""
    margin = budget.margin_at(run.length.mean_m)
    length = show_both(run.length.mean_m)
    stranded = not run.cable.solid_conductor
    if margin < 0:
        outcome = Outcome.BAD
        sentence = (
            f"{length} of {run.cable.code} loses more than a whole channel of "
            f"{show_plain_m(CHANNEL_M)} may."
        )
    elif stranded and run.length.mean_m > CORDS_M:
        outcome = Outcome.CAUTION
        sentence = _alone(run)
    else:
        outcome = Outcome.GOOD
        sentence = f"{length} of {run.cable.code} is within the rule for " + (
            f"cords, {show_plain_m(CORDS_M)} in one channel."
            if stranded
            else f"a channel of {show_plain_m(CHANNEL_M)}."
        )
    return Check(
        name="length of the channel",
        outcome=outcome,
        sentence=f"{sentence} {_ONLY_LENGTH}",
        source=LENGTH_SOURCE,
        value=budget.used_at(run.length.mean_m),
        limit=budget.limit,
        margin=margin,
        unit="m",
    )


def judge_cord(run: Run) -> tuple[Check, ...]:
    """Return, for stranded cable, whether it may be one of the cords of a longer channel."""
    if run.cable.solid_conductor:
        return ()
    within = run.length.mean_m <= CORDS_M
    return (
        Check(
            name="place in a channel",
            outcome=Outcome.GOOD if within else Outcome.CAUTION,
            sentence=(
                f"{show_both(run.length.mean_m)} is within the {show_plain_m(CORDS_M)} of cords "
                "that a channel with fixed cable may hold, all cords counted."
                if within
                else _alone(run)
            ),
            source=LENGTH_SOURCE,
            value=run.length.mean_m,
            limit=CORDS_M,
            margin=CORDS_M - run.length.mean_m,
            unit="m",
        ),
    )


def _alone(run: Run) -> str:
    return (
        f"{show_both(run.length.mean_m)} of stranded {run.cable.code} is more than the "
        f"{show_plain_m(CORDS_M)} of cords that a channel may hold; it may stand only "
        "as a whole channel by itself, with nothing fixed in between."
    )
