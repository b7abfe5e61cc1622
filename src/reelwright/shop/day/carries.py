"""How far one cable carries each signal, between the ends that are released on it."""

from dataclasses import dataclass

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.connector import Connector
from reelwright.core.signals.choices import SIGNAL_CHOICES
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.read import read_signal
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Check
from reelwright.shop.catalogue.selectors import connectors
from reelwright.shop.day.judging.run_judged import ROOM_CELSIUS, finished_length
from reelwright.shop.setups.selectors import released_set_ups

# Long enough that the ends do not decide, short enough that most cables carry most things.
_TRIED_M = 5.0


@dataclass(frozen=True, kw_only=True)
class Carried:
    """One signal on a cable: the check it lives by, and the lengths its limit allows [m].

    ``asked`` is the text that asks about it; ``judged`` the verdict on a run of 5 m.
    """

    name: str
    asked: str
    judged: Judgement
    main: Check


def carried_by(cable: Cable, lot: Lot | None) -> tuple[Carried, ...]:
    """Return every signal of the list that this kind of cable carries, in the order of the list.

    Empty where no end is released on the cable: a run has two.
    """
    ends = _ends(cable)
    if ends is None:
        return ()
    run = Run(
        cable=cable,
        lot=lot,
        length=finished_length(_TRIED_M),
        temperature_celsius=ROOM_CELSIUS,
        connectors=ends,
        adapters=0,
    )
    found = []
    for choice in SIGNAL_CHOICES:
        signal = read_signal(choice.typed).signal
        if signal is None or cable.family not in signal.families:
            continue
        judged = signal.judge(run)
        found.append(
            Carried(
                name=choice.name, asked=choice.typed, judged=judged, main=judged.verdict.checks[0]
            )
        )
    return tuple(found)


def _ends(cable: Cable) -> tuple[Connector, Connector] | None:
    """The released ends that suit the cable's own impedance best, twice."""
    known = connectors()
    released = sorted(
        (known[connector] for code, connector in released_set_ups() if code == cable.code),
        key=lambda each: (each.impedance_ohm is None, each.code),
    )
    return (released[0], released[0]) if released else None
