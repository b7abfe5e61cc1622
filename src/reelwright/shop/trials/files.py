"""A file of trials into a search: all of it or nothing, and the same file again changes nothing."""

import datetime as dt
import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass, replace

from reelwright.core.errors import Fault, InputFaults
from reelwright.core.trials.record import Trial
from reelwright.core.trials.trials_text import ReadTrial, read_trials
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.tables import read_lines
from reelwright.shop.transactions import write_transaction
from reelwright.shop.trials.models import TrialFile
from reelwright.shop.trials.selectors import search_frame, trial_rows
from reelwright.shop.trials.services import new_faults, open_search, trials_write
from reelwright.shop.trials.to_core import frame_value, trial_value


@dataclass(frozen=True, kw_only=True)
class FileRead:
    """What a file brought: how many trials were new, and how many were known already."""

    new: int
    known: int


@write_transaction()
def trials_file_read(
    *, by: Person, search_code: str, name: str, content: bytes, on: dt.date
) -> FileRead:
    """Take in a file of trials.

    A trial whose number is known already must say the same as before. Raises ShopRuleBroken
    ``not_allowed``, ``search_closed``; UnknownCode; InputFaults with all faults of the file.
    """
    require_may(by, Action.BOOK_WORK)
    lines = read_lines(name=name, content=content, each="trial")
    found = read_trials(lines, file=name, frame=search_frame(search_code))
    row = open_search(search_code)
    rows = {one.number: one for one in trial_rows(row.pk)}
    old = {number: trial_value(one) for number, one in rows.items()}
    digest = _digest(found)
    known = [one for one in found if one.trial.number in old]
    faults = [
        _other_content(name, one, old[one.trial.number])
        for one in known
        if one.trial != old[one.trial.number]
    ]
    new = [one for one in found if one.trial.number not in old]
    counting = [old[number] for number, one in rows.items() if not hasattr(one, "taken_back")]
    at = {one.trial.number: one.row for one in found}
    faults += [
        replace(fault, file=name, row=at.get(fault.row or 0))
        for fault in new_faults(frame_value(row), counting, [one.trial for one in new])
    ]
    if faults:
        raise InputFaults(faults)
    if new:
        file = TrialFile.objects.create(
            search=row, name=name[:200], digest=digest, read_on=on, read_by=by
        )
        trials_write(
            by=by, search=row, trials=[(one.trial, one.note) for one in new], file=file, on=on
        )
    return FileRead(new=len(new), known=len(known))


def _digest(found: Iterable[ReadTrial]) -> str:
    told = [repr((one.trial, one.note)) for one in found]
    return hashlib.sha256(json.dumps(told).encode()).hexdigest()


def _other_content(name: str, one: ReadTrial, old: Trial) -> Fault:
    parts = [
        field
        for field in ("values", "readings", "seen", "failure")
        if getattr(old, field) != getattr(one.trial, field)
    ]
    words = {"values": "settings", "seen": "looks"}
    differs = ", ".join(words.get(part, part) for part in parts)
    return Fault(
        file=name,
        row=one.row,
        field="number",
        value=str(old.number),
        problem=f"trial {old.number} is written down already, with other {differs}",
        accepted="the same again, or a number of its own; a mistake is taken back first",
    )
