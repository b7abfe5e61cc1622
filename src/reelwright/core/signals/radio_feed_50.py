"""A 50 Ω feed from an antenna to a receiver: loss at one frequency, and what 75 Ω cable costs.

Receivers for radio microphones, for position and for time have 50 Ω sockets. On a cable of another
impedance both joints reflect; what that costs is computed exactly and counted at the worst length.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from reelwright.core.parts.cable import Family
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.impedance import ImpedanceMatch, impedance_class
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.physics.arrays import FloatArray
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.physics.mismatch_loss import mismatch_loss
from reelwright.core.physics.reflection import reflection_of_step, return_loss_db
from reelwright.core.quantities.guard import require_between, require_given, require_text
from reelwright.core.quantities.show import show_both, show_db, show_in, show_plain
from reelwright.core.quantities.show_scaled import show_megahertz
from reelwright.core.signals.answer import not_computed
from reelwright.core.signals.budget import Budget
from reelwright.core.signals.coax_signal import ends_of_no_impedance
from reelwright.core.signals.judged import JudgedSignal
from reelwright.core.signals.line_loss import (
    LossLimit,
    loss_budget,
    loss_check,
    loss_doubts,
    told_against,
)
from reelwright.core.signals.practice import GUARD_DB
from reelwright.core.signals.run import Run
from reelwright.core.signals.supply_drop import Supply, supply_checks
from reelwright.core.verdicts import Basis, Check, Outcome, Reason, Source

NOMINAL_OHM = 50.0
"""Impedance [Ω] of both sockets."""

LOWEST_HZ, HIGHEST_HZ = 1e6, 6e9
"""Frequencies [Hz] between which such a feed is judged."""

BORNE_DB = 1.0
"""Mismatch loss [dB] that a receiving feed bears with a word of caution (common practice)."""

_ASKED = Source(text="loss allowed for the feed", basis=Basis.CUSTOMER)
_OPEN = Source(text="no loss allowed was stated", basis=Basis.CUSTOMER)
_MISMATCH = Source(
    text="exact sum of the waves between both ends, at the worst length; up to 1 dB is borne",
    basis=Basis.COMMON_PRACTICE,
)


@dataclass(frozen=True, kw_only=True)
class RadioFeed50(JudgedSignal):
    """A feed at ``frequency_hz`` [Hz], the highest in use, from "radio microphone" or the like.

    ``allowed_db`` [dB] is the loss the receiver allows, None where that is not known;
    ``antenna_supply`` what feeds an amplifier in the antenna over the cable, or None.
    Raises BadValue outside 1 MHz to 6 GHz.
    """

    what: str
    frequency_hz: float
    allowed_db: float | None
    antenna_supply: Supply | None

    needs = SignalNeeds(
        legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=None
    )
    """One conductor and a screen. No class of impedance: what another one costs is computed."""

    families = (Family.COAX,)
    """Coax only."""

    def __post_init__(self) -> None:
        require_text(self, "what")
        require_between(self, "frequency_hz", low=LOWEST_HZ, high=HIGHEST_HZ)
        require_given(self, "allowed_db")

    @property
    def name(self) -> str:
        """The feed with its frequency."""
        return f"{self.what} at {show_megahertz(self.frequency_hz)}"

    @property
    def far_end(self) -> str:
        """What the far end needs."""
        allowed = (
            "" if self.allowed_db is None else f", at most {show_db(self.allowed_db)} below it"
        )
        return f"A receiver of 50\u202fΩ that gets what the antenna gives{allowed}."

    @property
    def limit(self) -> LossLimit:
        """The loss allowed at the frequency; all of it where nobody stated one."""
        return LossLimit(
            frequency_hz=self.frequency_hz,
            limit_db=math.inf if self.allowed_db is None else self.allowed_db,
            guard_db=GUARD_DB,
            source=_OPEN if self.allowed_db is None else _ASKED,
        )

    @property
    def check_name(self) -> str:
        """The loss, with its frequency."""
        return self.limit.check_name

    @property
    def check_source(self) -> Source:
        """Where the loss allowed comes from."""
        return self.limit.source

    def _loss(self, run: Run) -> Budget | Reason:
        """What the run loses, the mismatch at its worst, against what is allowed."""
        own = loss_budget(run, self.limit)
        line_ohm = _impedance_ohm(run)
        if isinstance(own, Reason) or line_ohm is None:
            return own

        def used(lengths_m: FloatArray) -> FloatArray:
            lost = own.used(lengths_m)
            more: FloatArray = (
                lost
                + mismatch_loss(line_ohm=line_ohm, ends_ohm=NOMINAL_OHM, own_loss_db=lost).most_db
            )
            return more

        return replace(own, used=used)

    def budget(self, run: Run) -> Budget | Reason:
        """Return what the run loses against what is allowed, or why that is not known."""
        if self.allowed_db is None:
            return Reason(code="allowed-unknown", sentence="the loss allowed is not known")
        return self._loss(run)

    def main_check(self, run: Run, budget: Budget) -> Check:
        """Return the check of the loss."""
        limit = self.limit
        used, margin = budget.used_at(run.length.mean_m), budget.margin_at(run.length.mean_m)
        start = f"{self._told(run, used)}; {show_plain(limit.limit_db, 'dB')} are allowed"
        told = told_against(limit, budget, start=start, margin_db=margin, beyond="too much")
        return loss_check(limit, used_db=used, margin_db=margin, sentence=told)

    def _told(self, run: Run, used: float) -> str:
        mismatch = self._mismatch_db(run)
        besides = (
            f", up to {show_db(mismatch)} of it because the cable is not of 50\u202fΩ"
            if mismatch >= 0.05
            else ""
        )
        return (
            f"Over {show_both(run.length.mean_m)} {run.cable.code} loses {show_db(used)} at "
            f"{show_megahertz(self.frequency_hz)}{besides}"
        )

    def _mismatch_db(self, run: Run) -> float:
        """What the impedance costs at the worst length [dB]; 0 where it is not known."""
        own, line_ohm = loss_budget(run, self.limit), _impedance_ohm(run)
        if isinstance(own, Reason) or line_ohm is None:
            return 0.0
        found = mismatch_loss(
            line_ohm=line_ohm,
            ends_ohm=NOMINAL_OHM,
            own_loss_db=own.used(np.array([run.length.mean_m])),
        )
        return float(found.most_db[0])

    def unknown(self, run: Run, reason: Reason) -> Check:
        """Return the loss with the question how much of it is allowed."""
        loss = self._loss(run)
        if isinstance(loss, Reason):
            sentence = f"for {run.cable.code} {loss.sentence}"
            return super().unknown(run, Reason(code=reason.code, sentence=sentence))
        used = loss.used_at(run.length.mean_m)
        return Check(
            name=self.check_name,
            outcome=Outcome.CAUTION,
            sentence=(
                f"{self._told(run, used)}. Whether that is little enough depends on antenna and "
                "receiver: how much loss may the cable between them have? Their papers say so "
                "in dB."
            ),
            source=self.check_source,
            value=used,
            limit=None,
            margin=None,
            unit="dB",
        )

    def checks_besides(self, run: Run) -> tuple[Check, ...]:
        """Return the impedance of cable and ends, doubts about the loss, and the supply."""
        supply = () if self.antenna_supply is None else supply_checks(run, self.antenna_supply)
        return (
            self._impedance(run),
            *self._ends(run),
            *ends_of_no_impedance(
                run, signal=self.name, frequency_hz=self.frequency_hz, nominal_ohm=NOMINAL_OHM
            ),
            *loss_doubts(run, self.limit),
            *supply,
        )

    def _impedance(self, run: Run) -> Check:
        name, line_ohm = f"impedance of {run.cable.code}", _impedance_ohm(run)
        if line_ohm is None:
            return not_computed(
                name=name,
                because=f"the {name} is not stated, and {self.name} is made for 50\u202fΩ",
                source=_MISMATCH,
                unit="Ω",
            )
        wanted = impedance_class(NOMINAL_OHM)
        stated = show_in(line_ohm, "Ω", decimals=1)
        if wanted.match(line_ohm) is ImpedanceMatch.SAME:
            outcome, told = Outcome.GOOD, f"The {name} is {stated}, as a 50\u202fΩ feed wants it."
        else:
            mismatch = self._mismatch_db(run)
            back = return_loss_db(reflection_of_step(impedance_ohm=line_ohm, line_ohm=NOMINAL_OHM))
            borne = mismatch <= BORNE_DB
            outcome = Outcome.CAUTION if borne else Outcome.BAD
            told = (
                f"The {name} is {stated} and both sockets are of 50\u202fΩ: at each end the echo "
                f"is {show_db(back)} down, which costs up to {show_db(mismatch)}, depending on the "
                "exact length. "
                + (
                    "A receiver bears that; a transmitter or a measurement does not."
                    if borne
                    else "That is too much: a cable of 50\u202fΩ is needed."
                )
            )
        return Check(
            name=name,
            outcome=outcome,
            sentence=told,
            source=_MISMATCH,
            value=line_ohm,
            limit=NOMINAL_OHM,
            margin=wanted.margin_ohm(line_ohm),
            unit="Ω",
        )

    def _ends(self, run: Run) -> tuple[Check, ...]:
        """A connector of the cable's impedance or of the socket's adds no joint of its own."""
        line_ohm = _impedance_ohm(run)
        allowed = [NOMINAL_OHM] if line_ohm is None else [NOMINAL_OHM, line_ohm]
        return tuple(
            _end_of_other_impedance(end, end.impedance_ohm)
            for end in dict.fromkeys(run.connectors)
            if end.impedance_ohm is not None
            and all(
                impedance_class(each).match(end.impedance_ohm) is ImpedanceMatch.OTHER
                for each in allowed
            )
        )


def _end_of_other_impedance(end: Connector, stated_ohm: float) -> Check:
    return Check(
        name=f"impedance of {end.code}",
        outcome=Outcome.CAUTION,
        sentence=(
            f"{end.name} ({end.code}) is made for {show_plain(stated_ohm, 'Ω')}, and cable and "
            "sockets are not: please look whether your sockets take it without harm."
        ),
        source=impedance_class(NOMINAL_OHM).source,
        value=stated_ohm,
        limit=NOMINAL_OHM,
        margin=impedance_class(NOMINAL_OHM).margin_ohm(stated_ohm),
        unit="Ω",
    )


def _impedance_ohm(run: Run) -> float | None:
    known = known_value(run.cable, run.lot, Stated.IMPEDANCE)
    return None if known is None else known.value
