"""Process windows: the searches, where each stands, its trials, and the window written down."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.http import require_GET, require_POST

from reelwright.core.errors import BadValue, InputFaults, ShopRuleBroken
from reelwright.core.quantities.show import show_plain, with_unit
from reelwright.core.quantities.words import counted, sentence
from reelwright.shop.catalogue.selectors import cables
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.selectors import set_up_sheets
from reelwright.shop.trials import services
from reelwright.shop.trials.files import trials_file_read
from reelwright.shop.trials.selectors import (
    TrialView,
    search,
    search_frame,
    search_moves,
    searches,
    trials_of,
)
from reelwright.shop.trials.typed import read_typed
from reelwright.web.widgets.access import is_part, page, person_of
from reelwright.web.widgets.posted import row_number
from reelwright.web.widgets.standings import (
    SearchNow,
    caution_sentences,
    faults_at_fields,
    field_cells,
    search_now,
    standing_chart,
)

if TYPE_CHECKING:
    from reelwright.core.trials.effects import EffectsReading


@dataclass(frozen=True, kw_only=True)
class TrialRow:
    """One trial as the list shows it."""

    view: TrialView
    settings: tuple[str, ...]
    results: tuple[str, ...]


@page()
@require_GET
def window_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show a search: where it stands, once that is known, and all its trials."""
    return show_window(request, code)


def show_window(
    request: HttpRequest,
    code: str,
    *,
    cells: dict[str, str] | None = None,
    faults: dict[str, str] | None = None,
) -> HttpResponse:
    """Render the page of a search, with a trial half typed where one was refused."""
    now = _now(code, wait=faults is not None)
    view = now.search
    return render(
        request,
        "office/window.html",
        {
            **_standing_context(request, now, cells, faults),
            "rows": [_row(now, one) for one in now.trials],
            "may_take_back": view.is_open,
            "sheets": _sheets(view.cable_code, view.connector_code),
            "moves": search_moves(code),
            "longest": services.LONGEST_REASON,
        },
        status=422 if faults else 200,
    )


def _now(code: str, *, wait: bool) -> SearchNow:
    return search_now(search(code), search_frame(code), trials_of(code), wait=wait)


def _standing_context(
    request: HttpRequest,
    now: SearchNow,
    cells: dict[str, str] | None,
    faults: dict[str, str] | None,
) -> dict[str, Any]:
    words = now.words
    cells = dict(cells or {})
    if words is not None and words.next and faults is None:
        cells |= {one.key: one.typed for one in words.next[0].settings}
    names = [one.name for one in now.frame.settings]
    axes = {key: request.GET.get(key, "") for key in ("across", "up")}
    faults = faults or {}
    return {
        "now": now,
        "search": now.search,
        "words": words,
        "cautions": caution_sentences(now.search, cables()[now.search.cable_code]),
        "fields": field_cells(now.frame, cells, faults),
        "failure": cells.get("failure", ""),
        "note": cells.get("note", ""),
        "faults": faults,
        "names": names if len(names) > 2 else [],
        "axes": axes,
        "asked": urlencode({key: name for key, name in axes.items() if name}),
    }


def _row(now: SearchNow, view: TrialView) -> TrialRow:
    trial, frame = view.trial, now.frame
    results = []
    for response in frame.responses:
        values = trial.values_of(response.name)
        told = "; ".join(show_plain(value, "") for value in values)
        results.append(with_unit(told, response.unit) if values else "")
    for looks in frame.looks:
        seen = trial.seen_of(looks.name)
        results.append("" if seen is None else f"{seen.good} of {seen.seen_count}")
    return TrialRow(
        view=view,
        settings=tuple(
            one.show(value) for one, value in zip(frame.settings, trial.values, strict=True)
        ),
        results=tuple(results),
    )


def _sheets(cable_code: str, connector_code: str) -> list[tuple[int, str]]:
    """The revisions of the pair's set-up, which may name a window."""
    from reelwright.shop.setups.selectors import standing_set_ups

    standing = standing_set_ups().get((cable_code, connector_code))
    if standing is None:
        return []
    return [(one.revision_id, one.name) for one in set_up_sheets(standing.code)]


@page()
@require_GET
def stands_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show where a search stands, computing it: a part of its page, or the whole without script."""
    if not is_part(request):
        _now(code, wait=True)
        return show_window(request, code)
    now = _now(code, wait=True)
    return render(request, "office/window_stands.html", _standing_context(request, now, None, None))


@page()
@require_GET
def plot_page(request: HttpRequest, code: str) -> HttpResponse:
    """Draw what was tried, what is proven and what comes next."""
    now = _now(code, wait=True)
    chart = None
    if now.standing is not None:
        try:
            chart = standing_chart(
                now.standing, request.GET.get("across", ""), request.GET.get("up", "")
            )
        except BadValue:
            chart = standing_chart(now.standing, "", "")
    template = "office/window_plot_part.html" if is_part(request) else "office/window_plot.html"
    return render(request, template, {"chart": chart, "search": now.search, "now": now})


@page(Action.BOOK_WORK)
@require_POST
def trial_add(request: HttpRequest, code: str) -> HttpResponse:
    """Write down a trial that was typed."""
    cells = {key: value for key, value in request.POST.items() if isinstance(value, str)}
    frame = search_frame(code)
    try:
        number = services.trial_record(
            by=person_of(request),
            search_code=code,
            trial=read_typed(frame, cells),
            note=cells.get("note", ""),
            on=today(workshop()),
        )
    except InputFaults as error:
        return show_window(request, code, cells=cells, faults=faults_at_fields(error, frame))
    messages.success(request, f"Trial {number} is written down.")
    return redirect("window", code)


@page(Action.BOOK_WORK)
@require_POST
def trials_upload(request: HttpRequest, code: str) -> HttpResponse:
    """Take in a file of trials."""
    file = request.FILES.get("trials")
    if file is None:
        messages.error(request, "Choose a file of trials first: CSV or XLSX.", extra_tags="bad")
        return redirect("window", code)
    try:
        found = trials_file_read(
            by=person_of(request),
            search_code=code,
            name=str(file.name),
            content=file.read(),
            on=today(workshop()),
        )
    except InputFaults as error:
        told = {"faults": error.faults, "back": reverse("window", args=[code]), "back_to": code}
        return render(request, "widgets/faults.html", told, status=422)
    if found.new:
        messages.success(request, f"{counted(found.new, 'trial')} came in from {file.name}.")
    else:
        messages.info(request, "These trials were taken in before: nothing changed.")
    return redirect("window", code)


@page(Action.BOOK_WORK)
@require_POST
def trial_back(request: HttpRequest, code: str) -> HttpResponse:
    """Let a trial count no more."""
    number = row_number(request.POST.get("number", ""))
    try:
        services.trial_take_back(
            by=person_of(request),
            search_code=code,
            number=number,
            reason=request.POST.get("reason", ""),
            on=today(workshop()),
        )
    except ShopRuleBroken as error:
        return _refused(request, code, error)
    messages.success(request, f"Trial {number} counts no more.")
    return redirect("window", code)


def _refused(request: HttpRequest, code: str, error: ShopRuleBroken) -> HttpResponse:
    if error.code == "not_allowed":
        raise error
    messages.error(request, f"{error.sentence} Nothing was changed.", extra_tags="bad")
    return redirect("window", code)


@page(Action.RELEASE_SETUPS)
@require_POST
def window_write(request: HttpRequest, code: str) -> HttpResponse:
    """Write the window down and close the search."""
    try:
        services.window_write(by=person_of(request), search_code=code, on=today(workshop()))
    except ShopRuleBroken as error:
        return _refused(request, code, error)
    messages.success(request, "The window is written down, and the search is closed.")
    return redirect("window", code)


@page(Action.RELEASE_SETUPS)
@require_POST
def search_move(request: HttpRequest, code: str) -> HttpResponse:
    """Close an open search without a window, or open a closed one again."""
    move = services.search_close if search(code).is_open else services.search_open_again
    try:
        move(
            by=person_of(request),
            search_code=code,
            reason=request.POST.get("reason", ""),
            on=today(workshop()),
        )
    except ShopRuleBroken as error:
        return _refused(request, code, error)
    return redirect("window", code)


@page(Action.DRAFT_SETUPS)
@require_POST
def window_cite(request: HttpRequest, code: str) -> HttpResponse:
    """Let a revision of the set-up name the window."""
    window, revision = (row_number(request.POST.get(key, "")) for key in ("window", "revision"))
    try:
        services.window_cite(
            by=person_of(request), window_id=window, revision_id=revision, on=today(workshop())
        )
    except ShopRuleBroken as error:
        return _refused(request, code, error)
    messages.success(request, "The set-up names this window now.")
    return redirect("window", code)


@page()
@require_GET
def designs_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show classical designs over the settings, and what the trials say read that way."""
    from reelwright.core.trials.classical import (
        Design,
        DesignKind,
        classical_design,
        read_surface,
    )
    from reelwright.core.trials.effects import EffectsReading, read_effects
    from reelwright.core.trials.problem import TrialsProblem
    from reelwright.core.verdicts import Reason
    from reelwright.shop.trials.standing import SEED

    now = _now(code, wait=False)
    frame = now.frame
    asked = request.GET.get("design", "")
    kind = DesignKind(asked) if asked in list(DesignKind) else DesignKind.FULL
    problem: TrialsProblem = frame.problem(())
    if not now.faults:
        problem = frame.problem([one.trial for one in now.trials if not one.taken_back])
    design = classical_design(problem, kind, seed=SEED)
    runs = []
    if isinstance(design, Design):
        runs = [
            (
                run.number,
                [one.show(v) for one, v in zip(frame.settings, run.values, strict=True)],
            )
            for run in design.runs
        ]
    surfaces, missing, designs = [], [], []
    for response in frame.responses:
        effects = read_effects(problem, response)
        if isinstance(effects, EffectsReading):
            designs.append((effects, _effects_svg(effects)))
            continue
        found = read_surface(problem, response)
        if isinstance(found, Reason):
            missing.append(sentence(found.sentence))
        else:
            surfaces.append(found)
    return render(
        request,
        "office/window_designs.html",
        {
            "search": now.search,
            "kinds": list(DesignKind),
            "kind": kind,
            "told": sentence(design.sentence),
            "settings": frame.settings,
            "runs": runs,
            "designs": designs,
            "surfaces": surfaces,
            "missing": missing,
        },
    )


def _effects_svg(effects: "EffectsReading") -> str:
    from reelwright.charts.effects import EffectBar, draw_effects

    return draw_effects(
        f"Effects on {effects.response}",
        effects.unit,
        tuple(
            EffectBar(name=row.name, change=row.change, error=row.error, stands_out=row.stands_out)
            for row in effects.effects
        ),
    )


def pair_windows(cable_code: str, connector_code: str, revision_id: int) -> dict[str, Any]:
    """Return what the page of a set-up shows of the searches for its windows."""
    from reelwright.shop.trials.selectors import windows_cited

    return {
        "searches": searches(cable_code=cable_code, connector_code=connector_code),
        "cited": windows_cited(revision_id),
    }
