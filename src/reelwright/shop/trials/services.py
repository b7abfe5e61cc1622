"""Every write of the searches but that of files (``files``). Evidence only grows."""

import datetime as dt
from collections.abc import Iterable, Sequence

from reelwright.core.errors import Fault, InputFaults, ShopRuleBroken, UnknownCode
from reelwright.core.trials.frame import SearchFrame
from reelwright.core.trials.record import Trial
from reelwright.core.trials.search_text import SearchText
from reelwright.core.trials.window import Window
from reelwright.shop.catalogue.models import CableType, ConnectorType
from reelwright.shop.catalogue.selectors import cables
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reasons import kept_reason
from reelwright.shop.setups.models import Revision
from reelwright.shop.transactions import write_transaction
from reelwright.shop.trials.models import (
    Search,
    SearchLooks,
    SearchMove,
    SearchResponse,
    SearchSetting,
    TrialFile,
    TrialMade,
    TrialReading,
    TrialSeen,
    TrialTakenBack,
    WeldGauge,
    WindowCited,
    WindowFound,
)
from reelwright.shop.trials.selectors import search_problem, search_row, trial_rows
from reelwright.shop.trials.standing import standing
from reelwright.shop.trials.states import Process, SearchState
from reelwright.shop.trials.to_core import frame_value, guess_columns, trial_value, window_content

LONGEST_REASON = 300
_ENERGY_UNIT = "J"


@write_transaction()
def search_begin(
    *,
    by: Person,
    text: SearchText,
    process: Process,
    cable_code: str,
    connector_code: str,
    on: dt.date,
) -> str:
    """Begin a search for a cable with a connector; return its code.

    Raises ShopRuleBroken ``not_allowed``; UnknownCode.
    """
    require_may(by, Action.DRAFT_SETUPS)
    cable = CableType.objects.filter(code=cable_code).first()
    if cable is None:
        raise UnknownCode(kind="cable", code=cable_code)
    connector = ConnectorType.objects.filter(code=connector_code).first()
    if connector is None:
        raise UnknownCode(kind="connector", code=connector_code)
    # Counted, not the last id: a sequence of the server skips numbers. Searches are never removed.
    there = len(Search.objects.select_for_update().values_list("pk"))
    frame, demand = text.frame, text.frame.demand
    row = Search.objects.create(
        code=f"W-{there + 1:02d}",
        name=text.name[:80],
        question=text.question[:300],
        process=process.value,
        cable=cable,
        connector=connector,
        state=SearchState.OPEN.value,
        opened_on=on,
        opened_by=by,
        coverage=demand.coverage,
        confidence=demand.confidence,
        unsafe_chance=demand.unsafe_chance,
        expected_good_fraction=demand.expected_good_fraction,
        clear_drifts_ratio=demand.clear_drifts_ratio,
        most_trials=text.most_trials,
    )
    SearchSetting.objects.bulk_create(
        SearchSetting(
            search=row,
            position=position,
            name=one.name,
            unit=one.unit,
            low=one.low,
            high=one.high,
            step=one.step,
            drift=one.drift,
        )
        for position, one in enumerate(frame.settings, start=1)
    )
    SearchResponse.objects.bulk_create(
        SearchResponse(
            search=row,
            position=position,
            name=one.name,
            unit=one.unit,
            lower_limit=one.lower_limit,
            upper_limit=one.upper_limit,
            unsafe_below=one.unsafe_below,
            unsafe_above=one.unsafe_above,
            **guess_columns(one.guess),
        )
        for position, one in enumerate(frame.responses, start=1)
    )
    SearchLooks.objects.bulk_create(
        SearchLooks(search=row, position=position, name=one.name, least_share=one.least_share)
        for position, one in enumerate(frame.looks, start=1)
    )
    return row.code


@write_transaction()
def trial_record(*, by: Person, search_code: str, trial: Trial, note: str = "", on: dt.date) -> int:
    """Write down one trial; return the number it got (that of ``trial`` does not count).

    Raises ShopRuleBroken ``not_allowed``, ``search_closed``; UnknownCode; InputFaults where the
    trial contradicts the search or the trials before it.
    """
    require_may(by, Action.BOOK_WORK)
    row = open_search(search_code)
    rows = list(trial_rows(row.pk))
    number = max((one.number for one in rows), default=0) + 1
    new = Trial(
        number=number,
        values=trial.values,
        readings=trial.readings,
        seen=trial.seen,
        failure=trial.failure,
    )
    before = [trial_value(one) for one in rows if not hasattr(one, "taken_back")]
    faults = new_faults(frame_value(row), before, [new])
    if faults:
        raise InputFaults(faults)
    trials_write(by=by, search=row, trials=[(new, note)], file=None, on=on)
    return number


def open_search(code: str) -> Search:
    """Return an open search, its row locked; a write transaction must be open.

    Raises UnknownCode; ShopRuleBroken ``search_closed``.
    """
    row = search_row(code)
    state = Search.objects.select_for_update().values_list("state", flat=True).get(pk=row.pk)
    if state != SearchState.OPEN:
        raise ShopRuleBroken(
            "search_closed", f"{code} is closed: open it again before trials are added to it."
        )
    return row


def new_faults(
    frame: SearchFrame, before: Sequence[Trial], new: Sequence[Trial]
) -> tuple[Fault, ...]:
    """Return what ``new`` trials make wrong that was not wrong ``before`` them."""
    found = _faults(frame, [*before, *new])
    if not found:
        return ()
    old = set(_faults(frame, before))
    return tuple(fault for fault in found if fault not in old)


def _faults(frame: SearchFrame, trials: Sequence[Trial]) -> tuple[Fault, ...]:
    try:
        frame.problem(trials)
    except InputFaults as error:
        return error.faults
    return ()


def trials_write(
    *,
    by: Person,
    search: Search,
    trials: Iterable[tuple[Trial, str]],
    file: TrialFile | None,
    on: dt.date,
) -> None:
    """Write trials that were checked, each with its note; a write transaction must be open."""
    responses = {one.name: one for one in search.responses.all()}
    looks = {one.name: one for one in search.looks.all()}
    for trial, note in trials:
        made = TrialMade.objects.create(
            search=search,
            number=trial.number,
            values=list(trial.values),
            failure=trial.failure or "",
            note=note.strip()[:300],
            made_on=on,
            made_by=by,
            file=file,
        )
        TrialReading.objects.bulk_create(
            TrialReading(
                trial=made, response=responses[one.response], position=position, value=value
            )
            for one in trial.readings
            for position, value in enumerate(one.values, start=1)
        )
        TrialSeen.objects.bulk_create(
            TrialSeen(trial=made, looks=looks[one.looks], good=one.good, seen_count=one.seen_count)
            for one in trial.seen
        )


@write_transaction()
def trial_take_back(*, by: Person, search_code: str, number: int, reason: str, on: dt.date) -> None:
    """Let a trial count no more, saying why.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``reason_long``, ``search_closed``,
    ``taken_back_already``; UnknownCode.
    """
    require_may(by, Action.BOOK_WORK)
    told = kept_reason(reason, ask="Say why this trial does not count.", at_most=LONGEST_REASON)
    row = open_search(search_code)
    made = TrialMade.objects.filter(search=row, number=number).first()
    if made is None:
        raise UnknownCode(kind=f"trial of {search_code}", code=str(number))
    if TrialTakenBack.objects.filter(trial=made).exists():
        raise ShopRuleBroken(
            "taken_back_already", f"Trial {number} of {search_code} was taken back already."
        )
    TrialTakenBack.objects.create(trial=made, reason=told, taken_back_on=on, taken_back_by=by)


def window_write(*, by: Person, search_code: str, on: dt.date) -> None:
    """Write down the window that the trials prove, and close the search.

    Raises ShopRuleBroken ``not_allowed``, ``search_closed``, ``no_window``, ``trials_moved`` where
    a trial came in meanwhile; UnknownCode; InputFaults where the trials contradict each other.
    """
    require_may(by, Action.RELEASE_SETUPS)
    # Computed before the transaction: it takes a second, and nobody else may write meanwhile.
    problem = search_problem(search_code)
    found = standing(problem, most_trials=search_row(search_code).most_trials)
    if not isinstance(found.window, Window) or not found.found:
        raise ShopRuleBroken("no_window", f"{found.headline}. There is no window to write down.")
    with write_transaction():
        row = open_search(search_code)
        if search_problem(search_code) != problem:
            raise ShopRuleBroken(
                "trials_moved", f"Trials of {search_code} were added meanwhile: look at it again."
            )
        WindowFound.objects.create(
            search=row,
            content=window_content(found.window, problem.settings, problem.trials),
            found_on=on,
            found_by=by,
        )
        _move(row, by=by, new=SearchState.CLOSED, on=on, reason="The window is written down.")
        _remember_gauge(row, found.window, by=by, on=on)


def _remember_gauge(row: Search, window: Window, *, by: Person, on: dt.date) -> None:
    """A weld's window found is one more gauge for the law of energy, where its area is known."""
    area_m2 = cables()[row.cable.code].sheet.conductor_area_m2
    energies = [
        centre
        for one, centre in zip(row.settings.all(), window.centre, strict=True)
        if one.unit == _ENERGY_UNIT
    ]
    if row.process == Process.WELD and area_m2 is not None and len(energies) == 1:
        WeldGauge.objects.create(
            area_mm2=round(area_m2 * 1e6, 6),
            energy_j=energies[0],
            note=f"window of {row.code}",
            known_on=on,
            known_by=by,
        )


@write_transaction()
def search_close(*, by: Person, search_code: str, reason: str, on: dt.date) -> None:
    """Close a search without a window, saying why.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``search_closed``; UnknownCode.
    """
    require_may(by, Action.RELEASE_SETUPS)
    told = kept_reason(reason, ask="Say why nothing more is tried.", at_most=LONGEST_REASON)
    _move(open_search(search_code), by=by, new=SearchState.CLOSED, on=on, reason=told)


@write_transaction()
def search_open_again(*, by: Person, search_code: str, reason: str, on: dt.date) -> None:
    """Open a closed search for more trials; windows written down of it stay.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``search_open``; UnknownCode.
    """
    require_may(by, Action.RELEASE_SETUPS)
    told = kept_reason(reason, ask="Say why more is tried.", at_most=LONGEST_REASON)
    row = search_row(search_code)
    _move(row, by=by, new=SearchState.OPEN, on=on, reason=told)


def _move(row: Search, *, by: Person, new: SearchState, on: dt.date, reason: str) -> None:
    moved = Search.objects.filter(pk=row.pk).exclude(state=new.value).update(state=new.value)
    if moved != 1:
        raise ShopRuleBroken(f"search_{new}", f"{row.code} is {new} already.")
    SearchMove.objects.create(search=row, new=new.value, moved_on=on, moved_by=by, reason=reason)


@write_transaction()
def window_cite(*, by: Person, window_id: int, revision_id: int, on: dt.date) -> None:
    """Let a revision of the same cable and connector name a window written down.

    Raises ShopRuleBroken ``not_allowed``, ``other_pair``, ``cited_already``; UnknownCode.
    """
    require_may(by, Action.DRAFT_SETUPS)
    window = WindowFound.objects.select_related("search").filter(pk=window_id).first()
    if window is None:
        raise UnknownCode(kind="window", code=str(window_id))
    revision = Revision.objects.select_related("set_up").filter(pk=revision_id).first()
    if revision is None:
        raise UnknownCode(kind="revision", code=str(revision_id))
    pair = (revision.set_up.cable_id, revision.set_up.connector_id)
    if pair != (window.search.cable_id, window.search.connector_id):
        raise ShopRuleBroken(
            "other_pair",
            f"{revision.set_up.code} is another cable or connector than {window.search.code}.",
        )
    name = f"{revision.set_up.code} rev {revision.letter}"
    if WindowCited.objects.filter(window=window, revision=revision).exists():
        raise ShopRuleBroken("cited_already", f"{name} names this window already.")
    WindowCited.objects.create(window=window, revision=revision, cited_on=on, cited_by=by)


@write_transaction()
def weld_gauge_record(
    *, by: Person, area_mm2: float, energy_j: float, note: str, on: dt.date
) -> None:
    """Write down a conductor that the shop welds well: its area, the energy it takes.

    Raises ShopRuleBroken ``not_allowed``, ``gauge_impossible``.
    """
    require_may(by, Action.DRAFT_SETUPS)
    if not (0.01 <= area_mm2 <= 100 and 0.1 <= energy_j <= 100_000):
        raise ShopRuleBroken(
            "gauge_impossible", "Accepted: 0.01 to 100 mm², and 0.1 to 100000 J.", field="gauge"
        )
    WeldGauge.objects.create(
        area_mm2=area_mm2, energy_j=energy_j, note=note.strip()[:200], known_on=on, known_by=by
    )
