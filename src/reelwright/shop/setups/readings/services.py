"""Every write of readings: taken in together or not at all, and taken back with a reason."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from reelwright.core.errors import Fault, InputFaults, ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.setups.models import (
    BenchFile,
    EndDimension,
    EndDimensionWithdrawal,
    Pull,
    PullWithdrawal,
    Revision,
)
from reelwright.shop.setups.readings.books import Books, books_of
from reelwright.shop.setups.readings.given import Given, problems_of
from reelwright.shop.setups.readings.selectors import next_end
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.states import FailureMode, State
from reelwright.shop.transactions import write_transaction

TYPED = "what was measured"
"""What stands for the name of the file in faults of what was typed."""

PULL, DIMENSION = "pull", "dimension"
_TABLES: dict[str, Any] = {PULL: Pull, DIMENSION: EndDimension}


@dataclass(frozen=True, kw_only=True)
class Recorded:
    """How many readings were new, how many stood there, how many of those were taken back."""

    new: int
    known: int
    taken_back: int


@write_transaction()
def readings_record(
    *,
    by: Person,
    given: Iterable[Given],
    on: dt.date,
    name: str = TYPED,
    digest: str = "",
    faults: Iterable[Fault] = (),
) -> Recorded:
    """Write readings, all or none; ``on`` is today, ``digest`` that of the file they come from.

    ``faults`` of rows that could not be read are told with those found here.
    A reading that stands there with the same content is known and changes nothing, also where it
    was taken back. Raises ShopRuleBroken ``not_allowed``; InputFaults with everything that cannot
    be, of every reading.
    """
    require_may(by, Action.BOOK_WORK)
    wanted = list(given)
    revisions = {each.revision_id for each in wanted}
    # Whoever records for the same revision meanwhile waits, so that no end gets two readings.
    list(Revision.objects.select_for_update().filter(pk__in=revisions).order_by("pk"))
    books = books_of(wanted)
    new, known, taken_back = _sorted_out(wanted, books, today=on, name=name, faults=faults)
    file = None
    if digest and new:
        file = BenchFile.objects.create(
            digest=digest,
            name=name[:200],
            read_on=on,
            read_by=by,
            new_rows=len(new),
            known_rows=known,
        )
    _write(new, books, by=by, file=file)
    return Recorded(new=len(new), known=known, taken_back=taken_back)


def _sorted_out(
    wanted: Sequence[Given], books: Books, *, today: dt.date, name: str, faults: Iterable[Fault]
) -> tuple[list[Given], int, int]:
    new: list[Given] = []
    found = list(faults)
    seen: dict[tuple[object, ...], Given] = {}
    known = taken_back = 0
    for each in wanted:
        first = seen.setdefault(each.key, each)
        if first is not each:
            problems = [books.twice(each, first)]
        elif books.stands(each):
            known += 1
            taken_back += books.was_taken_back(each)
            continue
        else:
            sheet = books.sheets[each.revision_id]
            contradicted = books.contradicted(each)
            problems = [
                *problems_of(each, sheet, today=today),
                *books.problems_of(each),
                *([] if contradicted is None else [contradicted]),
            ]
        found.extend(problem.fault(file=name, row=each.row) for problem in problems)
        new.append(each)
    if found:
        raise InputFaults(sorted(found, key=lambda fault: fault.row or 0))
    return new, known, taken_back


def _write(new: Iterable[Given], books: Books, *, by: Person, file: BenchFile | None) -> None:
    pulls, dimensions = [], []
    for each in new:
        instrument = books.instrument(each)
        due = None if instrument is None else instrument.calibration_due
        row = {
            "revision_id": each.revision_id,
            "end": each.end,
            "instrument": instrument,
            "out_of_calibration": instrument is not None and (due is None or due < each.on),
            "cavity": books.cavity(each),
            "tool_count": each.tool_count,
            "remark": each.remark,
            "file": file,
        }
        who = by.pk if each.person_id is None else each.person_id
        if each.part is None:
            # Every pull has its force and says where it gave way.
            assert each.force_n is not None
            assert each.failure_mode is not None
            pulls.append(
                Pull(
                    force_n=each.force_n,
                    failure_mode=each.failure_mode.value,
                    pulled_on=each.on,
                    pulled_by_id=who,
                    **row,
                )
            )
        else:
            dimensions.append(
                EndDimension(
                    part=each.part.value,
                    length_mm=each.length_mm,
                    before_mm=each.before_mm,
                    measured_on=each.on,
                    measured_by_id=who,
                    **row,
                )
            )
    Pull.objects.bulk_create(pulls)
    EndDimension.objects.bulk_create(dimensions)


@write_transaction()
def pulls_record(
    *,
    by: Person,
    revision_id: int,
    pulls_n: Iterable[tuple[float, FailureMode]],
    on: dt.date,
    tool_count: int | None = None,
    instrument_code: str = "",
) -> None:
    """Record ends of one day pulled until they gave way: force in N and where. They are numbered.

    Raises ShopRuleBroken ``not_allowed``, ``not_pulled_yet`` for a draft or a withdrawn revision;
    InputFaults as ``readings_record``.
    """
    require_may(by, Action.BOOK_WORK)
    sheet = revision_sheet(revision_id)
    if sheet.state in (State.DRAFTED, State.WITHDRAWN):
        raise ShopRuleBroken(
            "not_pulled_yet",
            f"{sheet.name} is {sheet.state}: only a revision in use or on trial is pulled.",
            state=sheet.state.value,
        )
    first = next_end(revision_id, part=None, on=on)
    one = Given(
        revision_id=revision_id, on=on, end="", tool_count=tool_count, instrument=instrument_code
    )
    readings_record(
        by=by,
        given=[
            replace(one, end=str(number), force_n=force_n, failure_mode=mode)
            for number, (force_n, mode) in enumerate(pulls_n, start=first)
        ],
        on=on,
    )


@write_transaction()
def reading_take_back(*, by: Person, kind: str, number: int, on: dt.date, reason: str) -> None:
    """Take back a reading (``PULL`` or ``DIMENSION``, by its number) by a row that says why.

    A bench takes back what was read that day; what is older is the lead's to correct. Raises
    ShopRuleBroken ``not_allowed``, ``reason_missing``, ``already_withdrawn``; UnknownCode.
    """
    require_may(by, Action.BOOK_WORK)
    told = reason.strip()[:200]
    if not told:
        raise ShopRuleBroken("reason_missing", "Say why it no longer counts.", field="reason")
    row: Any = None
    if kind in _TABLES:
        row = _TABLES[kind].objects.filter(pk=number).first()
    if row is None:
        raise UnknownCode(kind="reading", code=str(number))
    # Two touches at once: the second waits here, and then finds the first one's row.
    list(Revision.objects.select_for_update().filter(pk=row.revision_id))
    if (row.pulled_on if kind == PULL else row.measured_on) != on:
        require_may(by, Action.CORRECT)
    withdrawals: Any = PullWithdrawal if kind == PULL else EndDimensionWithdrawal
    if withdrawals.objects.filter(reading=row).exists():
        raise ShopRuleBroken("already_withdrawn", "This reading was taken back already.")
    withdrawals.objects.create(reading=row, withdrawn_on=on, withdrawn_by=by, reason=told)
