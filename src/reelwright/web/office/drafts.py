"""Drafting on a page: the next revision of a set-up, and a set-up of a pair that has none yet."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from reelwright.core.errors import InputFaults, ShopRuleBroken, UnknownCode
from reelwright.core.quantities.words import sentence
from reelwright.shop.people.permissions import Action
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.opening import (
    code_problem,
    free_code,
    set_up_of,
    set_up_opened,
    why_not_open,
)
from reelwright.shop.setups.ordering import standing_order
from reelwright.shop.setups.overrides import fit_overrides
from reelwright.shop.setups.pair import PairNow, pair_now
from reelwright.shop.setups.proposals import Proposed, proposed_for
from reelwright.shop.setups.services import revision_draft, set_up_open
from reelwright.shop.trials.gauges import known_gauges
from reelwright.web.office.draft_fields import (
    FIELDS,
    cells_of,
    cells_of_proposed,
    groups_of,
    number_in,
)
from reelwright.web.office.draft_form import REFUSED_AT, DraftBegan, read_draft
from reelwright.web.office.draft_order import order_cells, order_rows
from reelwright.web.widgets.access import page, person_of
from reelwright.web.widgets.errors import faults_by_field


@dataclass(frozen=True, kw_only=True)
class _Drafted:
    """What the page is about. ``code`` is typed where a set-up is opened; ``base``: the revision
    that the form begins with; ``said``: the lead who says that the pair is possible after all."""

    opening: bool
    code: str
    letter: str
    now: PairNow
    base: str
    said: str


@page(Action.DRAFT_SETUPS)
@require_http_methods(["GET", "POST"])
def draft_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show the form of the next revision, filled in from one that is there; take it in."""
    opened = set_up_opened(code)
    letter = opened.next_letter
    if letter is None:
        raise ShopRuleBroken(
            "letter_not_next", f"{code} has come to rev Z: no letter is left for another."
        )
    wanted = request.GET.get("rev", "")
    base = next((each for each in opened.sheets if not wanted or each.letter == wanted), None)
    if base is None and wanted:
        raise UnknownCode(
            kind=f"revision of {code}", code=wanted, near=[each.letter for each in opened.sheets]
        )
    now = pair_now(opened.cable_code, opened.connector_code)
    about = _Drafted(
        opening=False,
        code=code,
        letter=letter,
        now=now,
        base="" if base is None else base.name,
        said="",
    )
    began = DraftBegan(order=(), steps=(), proposed=False)
    if base is not None:
        # Where none of its operations is there any more, what the form shows is the usual order.
        order = standing_order(now.cable, now.connector, base.numbers.order)
        began = DraftBegan(order=order, steps=base.numbers.steps, proposed=False)
    if request.method != "POST":
        cells = None if base is None else cells_of(base.numbers)
        return _show(request, about, cells, {}, order=began.order)
    cells = _typed(request)
    faults: dict[str, str] = {}
    try:
        # The letter is the one that the page showed: who was slower is told so.
        revision_draft(
            by=person_of(request),
            set_up_code=code,
            letter=request.POST.get("letter", ""),
            numbers=read_draft(cells, now.cable, now.connector, began),
            on=today(workshop()),
        )
    except InputFaults as error:
        faults = faults_by_field(error.faults)
    except ShopRuleBroken as error:
        faults = _refused(error)
    if faults:
        return _show(request, about, cells, faults)
    messages.success(request, f"{code} rev {letter} is drafted.")
    return redirect(f"{reverse('set_up', args=[code])}?rev={letter}")


@page(Action.DRAFT_SETUPS)
@require_http_methods(["GET", "POST"])
def open_page(request: HttpRequest, cable: str, connector: str) -> HttpResponse:
    """Show the form of a first set-up for a pair, filled in as proposed; open it."""
    now = pair_now(cable, connector)
    said = fit_overrides().get((cable, connector))
    there = set_up_of(cable, connector)
    if there is not None and request.method != "POST":
        return redirect("set_up_draft", there)
    against = why_not_open(now, said)
    if against:
        raise ShopRuleBroken("pair_not_possible", against)
    code = request.POST.get("code", "").strip() if request.method == "POST" else free_code()
    about = _Drafted(
        opening=True,
        code=code,
        letter="A",
        now=now,
        base="",
        said=""
        if said is None or now.possible
        else f"{now.headline}. {said.said_by} says that it is possible: {sentence(said.reason)}",
    )
    if request.method != "POST":
        return _show(request, about, None, {})
    cells = _typed(request)
    problem = code_problem(code)
    faults = {"code": problem} if problem else {}
    try:
        began = DraftBegan(order=(), steps=_proposed(now, cells).steps, proposed=True)
        numbers = read_draft(cells, now.cable, now.connector, began)
        if not faults:
            set_up_open(
                by=person_of(request),
                code=code,
                cable_code=cable,
                connector_code=connector,
                numbers=numbers,
                on=today(workshop()),
            )
    except InputFaults as error:
        faults |= faults_by_field(error.faults)
    except ShopRuleBroken as error:
        faults |= _refused(error)
    if faults:
        return _show(request, about, cells, faults)
    messages.success(request, f"{code} is opened, and its rev A drafted.")
    return redirect("set_up", code)


def _typed(request: HttpRequest) -> dict[str, str]:
    ordered = [key for key in request.POST if key.startswith("order_")]
    return {key: request.POST.get(key, "") for key in (*FIELDS, *ordered)}


def _proposed(now: PairNow, cells: Mapping[str, str]) -> Proposed:
    return proposed_for(now, gauges=known_gauges(), pin_die_mm=number_in(cells, "pin_die_mm"))


def _refused(error: ShopRuleBroken) -> dict[str, str]:
    """A refusal of the service by the field it is about; others are pages of their own."""
    if error.code not in REFUSED_AT:
        raise error
    return {REFUSED_AT[error.code]: error.sentence}


def _show(
    request: HttpRequest,
    about: _Drafted,
    cells: dict[str, str] | None,
    faults: dict[str, str],
    *,
    order: tuple[str, ...] = (),
) -> HttpResponse:
    """Show the form; ``cells`` is None where it begins with what is proposed.

    ``order``: what is laid down by the revision that it begins with.
    """
    now = about.now
    proposed = _proposed(now, cells or {})
    begun = order_cells(now.cable, now.connector, order)
    filled = begun | (cells_of_proposed(proposed) if cells is None else cells)
    groups = groups_of(now.connector.method, filled, faults, cable=now.cable, proposed=proposed)
    rows = order_rows(now.cable, now.connector, filled, faults)
    shown = [cell for _, group in groups for cell in group]
    return render(
        request,
        "office/draft.html",
        {
            "about": about,
            "cable": now.cable,
            "connector": now.connector,
            "groups": groups,
            "order_rows": rows,
            "wanting": [
                *((("code", "Code of the set-up"),) if "code" in faults else ()),
                *((cell.key, cell.label) for cell in shown if cell.fault),
                *((row.key, row.text) for row in rows if row.fault),
            ],
            "order_base": about.base if order else "",
            "differing": sum(cell.differs for cell in shown),
            "faults": faults,
            "fault_count": len(faults),
        },
        status=422 if faults else 200,
    )
