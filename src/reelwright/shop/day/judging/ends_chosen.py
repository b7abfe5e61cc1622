"""Which connectors a line's words come to on one cable, with their released set-ups."""

from dataclasses import dataclass

from reelwright.core.ends.compatibility import Fit, judge_fit
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.verdicts import Outcome
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.setups.sheet import SetUpSheet


@dataclass(frozen=True, kw_only=True)
class EndChoice:
    """One end: the connector and its released set-up, or why there is none.

    ``impossible``: no connector of that word can be put on this cable, ``reasons`` say which
    dimension; else ``reasons`` say that its set-up is not released yet.
    """

    connector: Connector
    set_up: SetUpSheet | None
    impossible: bool
    reasons: tuple[str, ...]


def choose_end(cable: Cable, codes: tuple[str, ...], shelf: Shelf) -> EndChoice:
    """Return the end for a word that may mean several connectors (``BNC`` is a family)."""
    for code in codes:
        set_up = shelf.set_ups.get((cable.code, code))
        if set_up is not None:
            return EndChoice(
                connector=shelf.connectors[code], set_up=set_up, impossible=False, reasons=()
            )
    fits = [judge_fit(cable, shelf.connectors[code]) for code in codes]
    possible = [fit for fit in fits if fit.possible]
    if possible:
        code = possible[0].connector_code
        state = shelf.unreleased.get((cable.code, code))
        how = f"its set-up is {state.state}" if state else "no set-up was ever made for it"
        return EndChoice(
            connector=shelf.connectors[code],
            set_up=None,
            impossible=False,
            reasons=(
                f"{code} can be put on {cable.code}, but {how}, and only a released set-up is sold",
            ),
        )
    nearest = min(fits, key=_distance)
    return EndChoice(
        connector=shelf.connectors[nearest.connector_code],
        set_up=None,
        impossible=any(check.outcome is Outcome.BAD for fit in fits for check in fit.checks),
        reasons=tuple(
            f"{nearest.connector_code} on {cable.code}: {reason.sentence}"
            for reason in nearest.reasons
        ),
    )


def _distance(fit: Fit) -> tuple[int, float]:
    """The connector that fails by least is the one the customer meant."""
    against = [check for check in fit.checks if check.outcome is Outcome.BAD]
    lacking = sum(-check.margin for check in against if check.margin is not None)
    return (len(against), lacking)
