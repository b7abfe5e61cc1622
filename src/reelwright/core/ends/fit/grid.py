"""Every cable against every connector: what can be made, what is to be developed, what cannot.

States of set-ups come in as plain values; what a lead thinks of a pair never comes in at all.
"""

import enum
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from reelwright.core.ends.dies.cavities import Cavity, CavityUse, judge_cavity, usable
from reelwright.core.ends.fit.compatibility import Dies, judge_fit
from reelwright.core.ends.fit.contacts import judge_contacts
from reelwright.core.ends.fit.logic import judge_logic
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.quantities.guard import require_text
from reelwright.core.verdicts import Check, Outcome, Reason

_AGAINST = (Outcome.BAD, Outcome.NOT_COMPUTED)


class CellState(enum.StrEnum):
    """What one pair is, from best to worst."""

    RELEASED = "released"
    TO_DEVELOP = "to be developed"
    NOT_KNOWN = "not known"
    IMPOSSIBLE = "impossible"


@dataclass(frozen=True, kw_only=True)
class PairSetUp:
    """How far the set-up of a pair has come; ``dies`` where its sheet names them, as engraved."""

    code: str
    state: str
    released: bool
    dies: Dies | None

    def __post_init__(self) -> None:
        require_text(self, "code", "state")


@dataclass(frozen=True, kw_only=True)
class Cell:
    """One pair: its state, what was compared, and every reason against it.

    ``reasons`` hold what the dimensions, the contacts, the dies of the released set-up and, where a
    signal was named, its needs have against the pair. ``against`` are the checks among them.
    """

    cable_code: str
    connector_code: str
    state: CellState
    set_up: PairSetUp | None
    checks: tuple[Check, ...]
    against: tuple[Check, ...]
    reasons: tuple[Reason, ...]

    @property
    def cautions(self) -> tuple[Check, ...]:
        """The checks that let the pair pass and still want to be read."""
        return tuple(check for check in self.checks if check.outcome is Outcome.CAUTION)

    @property
    def contradicted(self) -> bool:
        """A set-up is released, and what was computed speaks against it."""
        return self.set_up is not None and self.set_up.released and bool(self.reasons)


def judge_cell(
    cable: Cable,
    connector: Connector,
    *,
    set_up: PairSetUp | None = None,
    needs: SignalNeeds | None = None,
    cavities: Sequence[Cavity] | None = None,
) -> Cell:
    """Return what one pair is; with ``needs``, whether it can carry that at both ends.

    Impossible by a dimension or by logic stays impossible whatever set-up there is; a released
    set-up whose dies do not grip is to be developed again. With ``cavities``, so is one whose die
    is not there or not in service, and a worn die is judged by what it was gauged at; ``None``:
    what cavities there are is not asked.
    """
    checks = judge_fit(cable, connector).checks
    if checks[0].outcome is Outcome.GOOD:
        # Of the wrong kind of cable nothing else is compared, contacts neither.
        checks += (judge_contacts(cable, connector),)
    logic = (
        ()
        if needs is None
        else judge_logic(cable=cable, connector_a=connector, connector_b=connector, needs=needs)
    )
    state = _state({check.outcome for check in checks}, logic)
    if state is CellState.TO_DEVELOP and set_up is not None and set_up.released:
        if set_up.dies is not None:
            dies = set_up.dies if cavities is None else _as_gauged(set_up.dies, cavities)
            with_dies = judge_fit(cable, connector, dies=dies).checks
            service = () if cavities is None else _judge_service(set_up.dies, cavities)
            checks = (*with_dies, *service, checks[-1])
        if not any(check.outcome in _AGAINST for check in checks):
            state = CellState.RELEASED
    against = tuple(check for check in checks if check.outcome in _AGAINST)
    return Cell(
        cable_code=cable.code,
        connector_code=connector.code,
        state=state,
        set_up=set_up,
        checks=checks,
        against=against,
        reasons=(
            *(Reason(code=each.name.replace(" ", "_"), sentence=each.sentence) for each in against),
            *logic,
        ),
    )


def judge_grid(
    cables: Iterable[Cable],
    connectors: Iterable[Connector],
    *,
    set_ups: Mapping[tuple[str, str], PairSetUp],
    needs: SignalNeeds | None = None,
    cavities: Sequence[Cavity] | None = None,
) -> dict[tuple[str, str], Cell]:
    """Return the cell of every cable with every connector, by (cable code, connector code)."""
    columns = tuple(connectors)
    return {
        (cable.code, connector.code): judge_cell(
            cable,
            connector,
            set_up=set_ups.get((cable.code, connector.code)),
            needs=needs,
            cavities=cavities,
        )
        for cable in cables
        for connector in columns
    }


def _named(dies: Dies) -> tuple[tuple[CavityUse, float | None], ...]:
    return (
        (CavityUse.PIN, dies.pin_across_flats_m),
        (CavityUse.FERRULE, dies.ferrule_across_flats_m),
    )


def _as_gauged(dies: Dies, cavities: Sequence[Cavity]) -> Dies:
    """The dies as wide as the cavities in service measure; as engraved where there is none."""
    widths = []
    for use, engraved_m in _named(dies):
        cavity = None if engraved_m is None else usable(cavities, use=use, engraved_m=engraved_m)
        widths.append(engraved_m if cavity is None else cavity.across_flats_m)
    return Dies(pin_across_flats_m=widths[0], ferrule_across_flats_m=widths[1])


def _judge_service(dies: Dies, cavities: Sequence[Cavity]) -> tuple[Check, ...]:
    return tuple(
        judge_cavity(cavities, use=use, engraved_m=engraved_m)
        for use, engraved_m in _named(dies)
        if engraved_m is not None
    )


def _state(outcomes: set[Outcome], logic: tuple[Reason, ...]) -> CellState:
    if logic or Outcome.BAD in outcomes:
        return CellState.IMPOSSIBLE
    if Outcome.NOT_COMPUTED in outcomes:
        return CellState.NOT_KNOWN
    return CellState.TO_DEVELOP
