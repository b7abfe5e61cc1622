"""Which connectors a line's words come to on one cable, with their released set-ups."""

import dataclasses
from dataclasses import dataclass

from reelwright.core.ends.fit.compatibility import Fit, judge_fit
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.verdicts import Outcome
from reelwright.shop.day.judging.findings import Findings, Weight
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.orders.columns import ReadLine
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


def settle_faces(line: ReadLine, shelf: Shelf, findings: Findings) -> ReadLine:
    """Return the line with one face at each end, where a word names both (``XLR``).

    A cable with one word at both ends joins an output to an input: one face of each, the female
    one first, since it goes onto the microphone or the output. Beside another kind of plug it has
    to be asked.
    """
    faces = tuple(_faces(codes, shelf) for codes in line.ends)
    if all(len(each) < 2 for each in faces):
        return line
    word = line.cells["end_a"] if len(faces[0]) > 1 else line.cells["end_b"]
    if faces[0] == faces[1]:
        first, *others = sorted(faces[0])
        chosen: tuple[str, ...] = (first, others[0])
        findings.notes.append(
            f"“{word}” at both ends is taken as one of each, {chosen[0]} at end A and {chosen[1]} "
            "at end B."
        )
    elif set(faces[0]) & set(faces[1]):
        known = faces[0] if len(faces[0]) == 1 else faces[1]
        other = min((faces[0] | faces[1]) - known)
        chosen = tuple(min(each) if len(each) == 1 else other for each in faces)
        findings.notes.append(f"“{word}” is taken as {other}, to go with {min(known)}.")
    else:
        chosen = tuple(min(each) for each in faces)
        both = " or ".join(sorted(faces[0] if len(faces[0]) > 1 else faces[1]))
        findings.ask(
            f"which “{word}” is it, {both}: does it go onto an output or into an input?",
            Weight.ENDS,
        )
    ends = tuple(
        tuple(code for code in codes if shelf.connectors[code].mating == face)
        for codes, face in zip(line.ends, chosen, strict=True)
    )
    return dataclasses.replace(line, ends=(ends[0], ends[1]))


def _faces(codes: tuple[str, ...], shelf: Shelf) -> frozenset[str]:
    return frozenset(shelf.connectors[code].mating for code in codes)


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
            f"{_named(nearest.connector_code, fits, shelf)} on {cable.code}: {reason.sentence}"
            for reason in nearest.reasons
        ),
    )


def _named(code: str, fits: list[Fit], shelf: Shelf) -> str:
    """One size of many fails like all the others where the kind of cable is wrong."""
    if len(fits) > 1 and all(fit.checks[0].outcome is Outcome.BAD for fit in fits):
        return shelf.connectors[code].mating
    return code


def _distance(fit: Fit) -> tuple[int, float]:
    """The connector that fails by least is the one the customer meant."""
    against = [check for check in fit.checks if check.outcome is Outcome.BAD]
    lacking = sum(-check.margin for check in against if check.margin is not None)
    return (len(against), lacking)
