"""Every read of the searches: values come out, never rows."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Prefetch, QuerySet

from reelwright.core.errors import UnknownCode
from reelwright.core.parts.connector import Method
from reelwright.core.trials.frame import SearchFrame
from reelwright.core.trials.problem import TrialsProblem
from reelwright.core.trials.record import Trial
from reelwright.shop.trials.models import (
    Search,
    TrialMade,
    TrialReading,
    TrialSeen,
    WeldGauge,
    WindowCited,
    WindowFound,
)
from reelwright.shop.trials.states import Process, SearchState
from reelwright.shop.trials.to_core import frame_value, trial_value


@dataclass(frozen=True, kw_only=True)
class WindowView:
    """A window as it was written down. ``cited``: the revisions that name it."""

    id: int
    content: Mapping[str, Any]
    found_on: dt.date
    found_by: str
    cited: tuple[str, ...]

    @property
    def centre(self) -> str:
        """The settings recommended, as a sentence has them."""
        return ", ".join(f"{one['name']} {one['centre_shown']}" for one in self.content["settings"])


@dataclass(frozen=True, kw_only=True)
class SearchView:
    """A search as lists and pages show it; ``trial_count`` counts what was not taken back."""

    id: int
    code: str
    name: str
    question: str
    process: Process
    cable_code: str
    connector_code: str
    method: Method
    state: SearchState
    opened_on: dt.date
    opened_by: str
    most_trials: int | None
    trial_count: int
    windows: tuple[WindowView, ...]

    @property
    def is_open(self) -> bool:
        """Whether trials may still be added."""
        return self.state is SearchState.OPEN


@dataclass(frozen=True, kw_only=True)
class TrialView:
    """One trial with who made it; ``taken_back``: why it does not count, empty where it does."""

    trial: Trial
    note: str
    made_on: dt.date
    made_by: str
    file: str
    taken_back: str


@dataclass(frozen=True, kw_only=True)
class GaugeView:
    """A conductor that the shop welds well, as it was written down; ``order`` grows with time."""

    order: int
    area_mm2: float
    energy_j: float
    note: str
    known_on: dt.date
    known_by: str


def _searches() -> QuerySet[Search]:
    return Search.objects.select_related("cable", "connector", "opened_by").prefetch_related(
        Prefetch("windows", WindowFound.objects.select_related("found_by").order_by("pk")),
        Prefetch(
            "windows__cited", WindowCited.objects.select_related("revision__set_up").order_by("pk")
        ),
        Prefetch("trials", TrialMade.objects.select_related("taken_back")),
    )


def _view(row: Search) -> SearchView:
    return SearchView(
        id=row.pk,
        code=row.code,
        name=row.name,
        question=row.question,
        process=Process(row.process),
        cable_code=row.cable.code,
        connector_code=row.connector.code,
        method=Method(row.connector.method),
        state=SearchState(row.state),
        opened_on=row.opened_on,
        opened_by=row.opened_by.display_name,
        most_trials=row.most_trials,
        trial_count=sum(1 for trial in row.trials.all() if not hasattr(trial, "taken_back")),
        windows=tuple(_window(window) for window in row.windows.all()),
    )


def _window(row: WindowFound) -> WindowView:
    return WindowView(
        id=row.pk,
        content=row.content,
        found_on=row.found_on,
        found_by=row.found_by.display_name,
        cited=tuple(
            f"{one.revision.set_up.code} rev {one.revision.letter}" for one in row.cited.all()
        ),
    )


def searches(*, cable_code: str = "", connector_code: str = "") -> tuple[SearchView, ...]:
    """Return every search, or those of a pair: the open ones first, each part by code."""
    rows = _searches()
    if cable_code:
        rows = rows.filter(cable__code=cable_code)
    if connector_code:
        rows = rows.filter(connector__code=connector_code)
    found = [_view(row) for row in rows.order_by("code")]
    return tuple(sorted(found, key=lambda one: (not one.is_open, one.code)))


def search_row(code: str) -> Search:
    """Return the row of a search with all it asks, for this room alone. Raises UnknownCode."""
    row = (
        Search.objects.prefetch_related("settings", "responses", "looks").filter(code=code).first()
    )
    if row is None:
        raise UnknownCode(
            kind="search", code=code, near=Search.objects.values_list("code", flat=True)
        )
    return row


def search(code: str) -> SearchView:
    """Return one search. Raises UnknownCode."""
    row = _searches().filter(code=code).first()
    return _view(search_row(code) if row is None else row)


def search_frame(code: str) -> SearchFrame:
    """Return what a search asks. Raises UnknownCode."""
    return frame_value(search_row(code))


def trial_rows(search_id: int) -> QuerySet[TrialMade]:
    """Return the rows of all trials of a search, for this room alone."""
    return (
        TrialMade.objects.filter(search_id=search_id)
        .select_related("taken_back", "made_by", "file")
        .prefetch_related(
            Prefetch(
                "readings",
                TrialReading.objects.select_related("response").order_by(
                    "response__position", "position"
                ),
            ),
            Prefetch("seen", TrialSeen.objects.select_related("looks").order_by("looks__position")),
        )
        .order_by("number")
    )


def trials_of(code: str) -> tuple[TrialView, ...]:
    """Return every trial of a search by number, also those taken back. Raises UnknownCode."""
    return tuple(
        TrialView(
            trial=trial_value(row),
            note=row.note,
            made_on=row.made_on,
            made_by=row.made_by.display_name,
            file="" if row.file is None else row.file.name,
            taken_back=row.taken_back.reason if hasattr(row, "taken_back") else "",
        )
        for row in trial_rows(search_row(code).pk)
    )


def counting(trials: tuple[TrialView, ...]) -> tuple[Trial, ...]:
    """Return the trials that count: those that were not taken back."""
    return tuple(one.trial for one in trials if not one.taken_back)


def search_problem(code: str) -> TrialsProblem:
    """Return a search with its trials, for the engine.

    Raises UnknownCode; InputFaults where the trials contradict each other.
    """
    return search_frame(code).problem(counting(trials_of(code)))


def search_moves(code: str) -> tuple[str, ...]:
    """Return how a search was opened and closed, as sentences, oldest first."""
    rows = search_row(code).moves.select_related("moved_by").order_by("pk")
    return tuple(
        f"{row.moved_on:%Y-%m-%d}: {row.new}, {row.moved_by.display_name}. {row.reason}"
        for row in rows
    )


def windows_cited(revision_id: int) -> tuple[tuple[str, WindowView], ...]:
    """Return the windows that a revision of a set-up names, each with the code of its search."""
    rows = (
        WindowFound.objects.filter(cited__revision_id=revision_id)
        .select_related("found_by", "search")
        .prefetch_related("cited__revision__set_up")
        .order_by("pk")
    )
    return tuple((row.search.code, _window(row)) for row in rows)


def weld_gauges() -> tuple[GaugeView, ...]:
    """Return the gauges that were written down, by area, of one area the newest.

    Which of them count beside the released set-ups, ``gauges.shop_gauges`` says.
    """
    rows = WeldGauge.objects.select_related("known_by").order_by("pk")
    newest = {round(row.area_mm2, 6): row for row in rows}
    return tuple(
        GaugeView(
            order=row.pk,
            area_mm2=row.area_mm2,
            energy_j=row.energy_j,
            note=row.note,
            known_on=row.known_on,
            known_by=row.known_by.display_name,
        )
        for _, row in sorted(newest.items())
    )
