"""What a channel asks besides its loss: category, echoes, delay, resistance of a pair."""

from collections.abc import Iterator

from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.mismatch import Mismatch, bounds
from reelwright.core.physics.resistance import temperature_factor
from reelwright.core.quantities.show import show_both, show_db, show_in, show_plain, show_plain_m
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.category import links
from reelwright.core.signals.category.cable import LOWEST_HZ, SKEW_S, Category
from reelwright.core.signals.category.links import CHANNEL_SKEW_S, CHANNEL_SOURCE, Link
from reelwright.core.signals.category.shown import NOMINAL_OHM, category_shown
from reelwright.core.signals.data_rates import MOST_ON_SIX_M, RATE_SOURCE, SURE_ON_SIX_M, DataRate
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_ECHO_SOURCE = Source(
    text=(
        "both ends of a cable of that impedance between 100 Ω, all echoes in phase, against the "
        "channel of TIA-568.2-D"
    ),
    basis=Basis.FROM_MEMORY,
)
_DELAY_HZ = 10e6
_CATEGORIES = tuple(Category)


def judge_category(run: Run, rate: DataRate) -> Iterator[Check]:
    """Yield whether the values in hand bear out the category that the rate asks for."""
    shown = category_shown(run.cable, run.lot)
    best, code, length_m = shown.category, run.cable.code, run.length.mean_m
    own = (
        f"{code} shows no category by its values: {shown.against}"
        if best is None
        else f"By its loss, impedance and resistance {code} is of category {best}"
    )
    asked = f"{rate.words} asks for {rate.category}"
    if best is not None and _CATEGORIES.index(best) >= _CATEGORIES.index(rate.category):
        outcome, sentence = Outcome.GOOD, f"{own}, and {asked}."
    elif rate.category is Category.SIX_A and best is Category.SIX:
        outcome, reach = _ten_over_six(length_m)
        sentence = f"{own}, and {asked}; {reach}"
    else:
        outcome = Outcome.CAUTION
        against = "" if best is None else f" ({shown.against})"
        sentence = (
            f"{own}, and {asked}{against}. Whether its crosstalk allows the rate shows only in a "
            "test of the finished cable."
        )
    yield Check(
        name="category",
        outcome=outcome,
        sentence=sentence,
        source=RATE_SOURCE,
        value="none" if best is None else str(best),
        limit=str(rate.category),
        margin=None,
        unit="",
    )


def _ten_over_six(length_m: float) -> tuple[Outcome, str]:
    sure, most = show_plain_m(SURE_ON_SIX_M), show_plain_m(MOST_ON_SIX_M)
    if length_m <= SURE_ON_SIX_M:
        return Outcome.GOOD, f"over category 6 it goes {sure} whatever lies beside it."
    if length_m <= MOST_ON_SIX_M:
        return Outcome.CAUTION, (
            f"over category 6 it goes {sure} for sure, and {most} where the cables beside it are "
            "quiet, which shows only in a test on the spot."
        )
    return Outcome.BAD, f"over category 6 it goes {most} at most."


def judge_channel(run: Run, category: Category) -> Iterator[Check]:
    """Yield the checks of echoes, delay and resistance of a pair, each where its value is known."""
    yield from _echoes(run, category)
    yield from _delay(run, category)
    yield from _resistance(run)


def _echoes(run: Run, category: Category) -> Iterator[Check]:
    known = known_value(run.cable, run.lot, Stated.IMPEDANCE)
    if known is None:
        return
    # As far off as the lot may be: twice its spread on the worse side.
    off = abs(known.value - NOMINAL_OHM) + 2 * known.relative_uncertainty * known.value
    step = off / (2 * NOMINAL_OHM - off) if off < NOMINAL_OHM else 0.999
    # At the low end, where the limit is highest and the cable hides least of its far end.
    worst = bounds([Mismatch(own_reflection=step, loss_before_db=0.0)] * 2)
    returned = worst.worst_return_loss_db
    limit = float(links.return_loss_db(category, Link.CHANNEL, LOWEST_HZ))
    good = returned >= limit
    ohm = show_in(known.value, "Ω", decimals=0)
    yield Check(
        name="return loss from the impedance",
        outcome=Outcome.GOOD if good else Outcome.CAUTION,
        sentence=(
            f"At {ohm}, and as far off as its lots may be, {run.cable.code} between plugs of "
            f"{show_plain(NOMINAL_OHM, 'Ω')} sends back {show_db(returned)} less than it gets at "
            f"worst; a channel asks for {show_db(limit)} at most"
            + (
                "; how even the impedance is along the cable shows only in a test."
                if good
                else ": with bad luck it fails the test."
            )
        ),
        source=_ECHO_SOURCE,
        value=returned,
        limit=limit,
        margin=returned - limit,
        unit="dB",
    )


def _delay(run: Run, category: Category) -> Iterator[Check]:
    known = known_value(run.cable, run.lot, Stated.DELAY)
    if known is None:
        return
    value = known.value * run.length.mean_m
    limit = float(links.delay_s(category, Link.CHANNEL, _DELAY_HZ))
    good = value <= limit
    skew = min(CHANNEL_SKEW_S, SKEW_S * run.length.mean_m / 100)
    yield Check(
        name="delay",
        outcome=Outcome.GOOD if good else Outcome.BAD,
        sentence=(
            f"{show_both(run.length.mean_m)} of {run.cable.code} delays by "
            f"{show_quantity(value, 's')}; a channel may by {show_quantity(limit, 's')}"
            + (
                f". Its pairs may differ by {show_quantity(skew, 's', digits=2)}, which shows only "
                "in a test."
                if good
                else ", so it is too long."
            )
        ),
        source=CHANNEL_SOURCE,
        value=value,
        limit=limit,
        margin=limit - value,
        unit="s",
    )


def _resistance(run: Run) -> Iterator[Check]:
    known = known_value(run.cable, run.lot, Stated.CONDUCTOR_RESISTANCE)
    if known is None:
        return
    loop = 2 * known.value * run.length.mean_m * temperature_factor(run.temperature_celsius)
    limit = Link.CHANNEL.loop_ohm
    good = loop <= limit
    yield Check(
        name="loop resistance",
        outcome=Outcome.GOOD if good else Outcome.CAUTION,
        sentence=(
            f"A pair of {show_both(run.length.mean_m)} of {run.cable.code} has "
            f"{show_quantity(loop, 'Ω')} out and back; a channel may have "
            f"{show_plain(limit, 'Ω')}"
            + ("." if good else ", which a test of the cable will find exceeded.")
        ),
        source=CHANNEL_SOURCE,
        value=loop,
        limit=limit,
        margin=limit - loop,
        unit="Ω",
    )
