"""Every read of the set-ups: sheets and core values come out, never rows."""

import datetime
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from django.db.models import QuerySet

from reelwright.core.bench.problem import ChangeOverRule, Station
from reelwright.core.errors import UnknownCode
from reelwright.core.parts.cable import Family
from reelwright.core.pricing.price import MinutesRule
from reelwright.core.verdicts import Reason
from reelwright.shop.setups.models import (
    ChangeOverTimes,
    Pull,
    Revision,
    SetUp,
    StateMove,
    WorkTime,
)
from reelwright.shop.setups.readings.selectors import lengths_mm
from reelwright.shop.setups.rules import missing_for_next
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import NEXT, FailureMode, Part, State
from reelwright.shop.setups.to_core import sheet_value
from reelwright.shop.tools.uncertainty import SharedUncertainty, shared_uncertainty

_MOST_NEAR = 5


@dataclass(frozen=True, kw_only=True)
class PullValue:
    """One pull test. ``tool_count``: crimps of the ferrule cavity since its regrind, if known.

    ``instrument``: the code of the pull tester, empty where none was named.
    """

    force_n: float
    failure_mode: FailureMode
    pulled_on: datetime.date
    tool_count: int | None
    instrument: str


@dataclass(frozen=True, kw_only=True)
class NextState:
    """The state a revision may reach next (None: there is none) and what is missing for it."""

    state: State | None
    missing: tuple[Reason, ...]


@dataclass(frozen=True, kw_only=True)
class FamilyTimes:
    """Quoted minutes of one family: for each cable by station, and once for a line."""

    each: tuple[MinutesRule, ...]
    set_up_min: dict[Station, float]


def _sheets() -> QuerySet[Revision]:
    return Revision.objects.select_related(
        "set_up__cable", "set_up__connector", "drafted_by", "approved_by"
    ).prefetch_related("notes", "operations")


def revision_sheet(revision_id: int) -> SetUpSheet:
    """Return the sheet of one revision. Raises UnknownCode."""
    row = _sheets().filter(pk=revision_id).first()
    if row is None:
        raise UnknownCode(kind="revision", code=str(revision_id))
    return sheet_value(row)


def sheets_of(revision_ids: Iterable[int]) -> dict[int, SetUpSheet]:
    """Return the sheets of several revisions by number; unknown numbers are left out."""
    return {row.pk: sheet_value(row) for row in _sheets().filter(pk__in=set(revision_ids))}


def set_up_sheets(code: str) -> tuple[SetUpSheet, ...]:
    """Return all revisions of a set-up, newest letter first. Raises UnknownCode."""
    found = tuple(sheet_value(row) for row in _sheets().filter(set_up__code=code))
    if not found:
        codes = list(SetUp.objects.values_list("code", flat=True))
        near = get_close_matches(code.upper(), codes, n=_MOST_NEAR, cutoff=0.3)
        raise UnknownCode(kind="set-up", code=code, near=near)
    return tuple(sorted(found, key=lambda sheet: sheet.letter, reverse=True))


def set_up_code(typed: str) -> str | None:
    """Return the code of the set-up that is typed, in whatever case; None where there is none."""
    found: str | None = (
        SetUp.objects.filter(code__iexact=typed).values_list("code", flat=True).first()
    )
    return found


def chosen_sheet(code: str, letter: str = "") -> tuple[tuple[SetUpSheet, ...], SetUpSheet]:
    """Return all revisions of a set-up, newest first, and the one asked for: the newest without
    ``letter``. Raises UnknownCode."""
    sheets = set_up_sheets(code)
    found = next((sheet for sheet in sheets if not letter or sheet.letter == letter), None)
    if found is None:
        raise UnknownCode(
            kind=f"revision of {code}", code=letter, near=[sheet.letter for sheet in sheets]
        )
    return sheets, found


def released_set_up(cable_code: str, connector_code: str) -> SetUpSheet | None:
    """Return the released revision for a cable with a connector; None where there is none."""
    row = (
        _sheets()
        .filter(
            set_up__cable__code=cable_code,
            set_up__connector__code=connector_code,
            state=State.RELEASED.value,
        )
        .first()
    )
    return None if row is None else sheet_value(row)


def released_set_ups() -> dict[tuple[str, str], SetUpSheet]:
    """Return every released revision by (cable code, connector code)."""
    found = (sheet_value(row) for row in _sheets().filter(state=State.RELEASED.value))
    return {(sheet.cable_code, sheet.connector_code): sheet for sheet in found}


def newest_set_ups() -> dict[tuple[str, str], SetUpSheet]:
    """Return the newest revision not withdrawn, in any state, by (cable code, connector code)."""
    rows = _sheets().exclude(state=State.WITHDRAWN.value).order_by("set_up__code", "letter")
    found = (sheet_value(row) for row in rows)
    return {(sheet.cable_code, sheet.connector_code): sheet for sheet in found}


def standing_set_ups() -> dict[tuple[str, str], SetUpSheet]:
    """Return the revision that counts by (cable code, connector code): released, else newest."""
    return {**newest_set_ups(), **released_set_ups()}


def pulls(revision_id: int) -> tuple[PullValue, ...]:
    """Return the pulls of a revision that count, oldest first."""
    return tuple(
        PullValue(
            force_n=row.force_n,
            failure_mode=FailureMode(row.failure_mode),
            pulled_on=row.pulled_on,
            tool_count=row.tool_count,
            instrument="" if row.instrument is None else row.instrument.code,
        )
        for row in Pull.objects.filter(revision_id=revision_id, withdrawal__isnull=True)
        .select_related("instrument")
        .order_by("pulled_on", "pk")
    )


def pull_uncertainty(made: Iterable[PullValue]) -> SharedUncertainty:
    """Return the standard uncertainty in N of what these pulls were read with."""
    return shared_uncertainty(
        ((pull.instrument, pull.pulled_on) for pull in made), unit="N", what="pull tester"
    )


def next_state(sheet: SetUpSheet) -> NextState:
    """Return which state comes next for a revision and everything missing for it."""
    made = pulls(sheet.revision_id)
    return NextState(
        state=NEXT[sheet.state],
        missing=missing_for_next(
            state=sheet.state,
            method=sheet.method,
            numbers=sheet.numbers,
            pulls_n=[pull.force_n for pull in made],
            modes=[pull.failure_mode for pull in made],
            heights_mm=lengths_mm(sheet.revision_id, Part.PIN_CRIMP),
            tester_uncertainty_n=pull_uncertainty(made).value,
        ),
    )


def moves(revision_id: int) -> tuple[str, ...]:
    """Return the history of a revision as sentences, oldest first."""
    rows = StateMove.objects.filter(revision_id=revision_id).select_related("moved_by")
    return tuple(
        f"{row.moved_on:%Y-%m-%d}: {row.old} → {row.new}, {row.moved_by.display_name}. {row.reason}"
        for row in rows.order_by("pk")
    )


def family_times() -> dict[Family, FamilyTimes]:
    """Return the quoted minutes of every family that has any."""
    found: dict[Family, FamilyTimes] = {}
    for family in Family:
        rows = list(WorkTime.objects.filter(family=family.value).order_by("pk"))
        if rows:
            found[family] = FamilyTimes(
                each=tuple(
                    MinutesRule(
                        station=row.station,
                        each_min=row.per_cable_min,
                        per_m_min=row.per_metre_min,
                    )
                    for row in rows
                ),
                set_up_min={
                    Station(row.station): float(row.set_up_min) for row in rows if row.set_up_min
                },
            )
    return found


def change_over_rule_on(day: datetime.date) -> ChangeOverRule:
    """Return the change-over times in force on a day, in seconds. Raises UnknownCode."""
    row = ChangeOverTimes.objects.filter(valid_from__lte=day).order_by("-valid_from").first()
    if row is None:
        raise UnknownCode(kind="change-over times in force on", code=day.isoformat())
    return ChangeOverRule(
        first_article_s=round(row.first_article_min * 60),
        program_s=round(row.program_min * 60),
        blade_set_s=round(row.blade_set_min * 60),
        die_s=round(row.die_min * 60),
        test_adapters_s=round(row.test_adapters_min * 60),
        weld_horn_s=round(row.weld_horn_min * 60),
    )
