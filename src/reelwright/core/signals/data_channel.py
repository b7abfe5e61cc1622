"""Data on four twisted pairs: at a rate against a whole channel, without one by the length rule."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.quantities.show import show_both, show_db
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.answer import not_computed, told_longest
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.category.links import CHANNEL_SOURCE
from reelwright.core.signals.channel_length import (
    LENGTH_SOURCE,
    channel_length_budget,
    judge_channel_length,
    judge_cord,
)
from reelwright.core.signals.data_checks import judge_category, judge_channel
from reelwright.core.signals.data_loss import (
    ChannelLoss,
    channel_budget,
    channel_loss,
    neighboured_budget,
)
from reelwright.core.signals.data_rates import DataRate
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_loss import loss_doubts
from reelwright.core.signals.power_over_data import PowerAsked, judge_metal, judge_power
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check, Outcome, Reason, Source

SURE = 0.95
"""With at least this chance [1] of keeping the channel's loss a run is good, else a caution."""

_LENGTH, _LOSS = "length of the channel", "loss in the channel"
_PAIRS_FOR_ALL = 4


@dataclass(frozen=True, kw_only=True)
class DataChannel(JudgedSignal):
    """A data channel at ``rate``, with ``power`` for the device over the same pairs.

    ``rate`` is None where none was stated: then the length rule of a channel judges alone.
    ``power`` is None where no device is fed.
    """

    rate: DataRate | None
    power: PowerAsked | None

    families = (Family.DATA,)
    """Data pairs only."""

    @property
    def pairs(self) -> int:
        """Pairs that the rate and the power need, all four where no rate is stated."""
        data = _PAIRS_FOR_ALL if self.rate is None else self.rate.pairs
        return max(data, 0 if self.power is None else 2 * self.power.type.pair_set_count)

    @property
    def needs(self) -> SignalNeeds:
        """Its pairs; a screen is not asked for, and 100 Ω are judged with the echoes."""
        return SignalNeeds(
            legs=2 * self.pairs,
            balanced=True,
            phantom_power=False,
            screen=False,
            impedance_ohm=None,
        )

    @property
    def check_name(self) -> str:
        """The loss where a rate is stated, else the length."""
        return _LENGTH if self.rate is None else _LOSS

    @property
    def check_source(self) -> Source:
        """Where the length rule or the channel's loss comes from."""
        return LENGTH_SOURCE if self.rate is None else CHANNEL_SOURCE

    @property
    def margin_unit(self) -> str:
        """Metres of solid cable of the same loss, or decibels where a rate is stated."""
        return "m" if self.rate is None else "dB"

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        data = (
            "A port that finds the loss, echoes, crosstalk and delay of a whole channel within its "
            "category."
        )
        if self.power is None:
            return data
        return (
            f"{data} Its device takes up to {self.power.device_w:g}\u202fW at "
            f"{self.power.type.lowest_device_v:g}\u202fV or more."
        )

    @property
    def name(self) -> str:
        """Category data, with rate and power where they are stated."""
        rate = "" if self.rate is None else f" at {self.rate.words}"
        power = "" if self.power is None else f" with power of type {self.power.type.number}"
        return f"category data{rate}{power}"

    def budget(self, run: Run) -> Budget | Reason:
        """Return the loss against the channel's, or the metres of solid cable of that loss.

        For 10 Gb/s over category 6 it holds besides what the cables beside it leave of the reach.
        """
        if self.rate is None:
            return channel_length_budget(run)
        decides = channel_loss(run, self.rate.category)
        if isinstance(decides, Reason):
            return decides
        return neighboured_budget(run, self.rate, channel_budget(run, decides))

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the loss at the frequency that decides, or of the length."""
        if self.rate is None:
            return judge_channel_length(run, budget)
        decides = channel_loss(run, self.rate.category)
        if isinstance(decides, Reason):
            return self.unknown(run, decides)
        return _judge_loss(run, decides, self.rate, longest_m=budget.length_at_m(SURE))

    def unknown(self, run: Run, reason: Reason) -> Check:
        """Return that the loss is not computed, and that the length alone could be judged."""
        del run
        return not_computed(
            name=self.check_name,
            because=(
                f"{reason.sentence}; without a rate, the length alone can be judged as “category "
                "data”"
            ),
            source=self.check_source,
            unit=self.margin_unit,
        )

    def further_checks(self, run: Run) -> tuple[Check, ...]:
        """Return category, echoes, delay, resistance, then metal, volts and warmth under power."""
        checks: list[Check] = []
        if self.rate is not None:
            decides = channel_loss(run, self.rate.category)
            if isinstance(decides, ChannelLoss):
                checks += loss_doubts(run, decides.doubtful_limit)
            checks += judge_category(run, self.rate)
            checks += judge_channel(run, self.rate.category)
            checks += judge_cord(run)
        checks += judge_metal(run, powered=self.power is not None)
        if self.power is not None:
            checks += judge_power(run, self.power)
        return tuple(checks)


def _judge_loss(
    run: Run, decides: ChannelLoss, rate: DataRate, *, longest_m: float | None
) -> Check:
    loss = channel_budget(run, decides)
    used, margin = loss.used_at(run.length.mean_m), loss.margin_at(run.length.mean_m)
    chance = loss.chance_within(run.length)
    start = (
        f"Over {show_both(run.length.mean_m)} {run.cable.code} with its plugs loses "
        f"{show_db(used)} at {show_megahertz(round(decides.frequency_hz, -5))}, where it comes "
        f"nearest to the {show_db(loss.limit)} that a channel for {rate.words} may lose"
    )
    recommended = told_longest(longest_m or 0.0)
    if margin < 0:
        outcome = Outcome.BAD
        sentence = f"{start}: {show_db(-margin)} too much. {recommended}"
    elif chance < SURE:
        outcome = Outcome.CAUTION
        sentence = (
            f"{start}, so only {show_db(margin)} is to spare, which the spread from lot to lot may "
            f"take. {recommended}"
        )
    else:
        outcome = Outcome.GOOD
        sentence = (
            f"{start}, so there is {show_db(margin)} to spare. Crosstalk between the pairs shows "
            "only in a test of the finished cable."
        )
    return Check(
        name=_LOSS,
        outcome=outcome,
        sentence=sentence,
        source=CHANNEL_SOURCE,
        value=used,
        limit=loss.limit,
        margin=margin,
        unit="dB",
    )
