"""One cable with one connector: all that was compared, and what a lead says of it."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from reelwright.core.errors import ShopRuleBroken
from reelwright.core.quantities.words import sentence
from reelwright.core.verdicts import Reason
from reelwright.drawings.end import EndView, draw_end, end_table
from reelwright.drawings.section import draw_section, section_table
from reelwright.shop.people.permissions import Action, may
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.end_view import end_view, jacket_letters
from reelwright.shop.setups.opening import set_up_of, why_not_open
from reelwright.shop.setups.overrides import (
    REASON_AT_MOST,
    fit_override_history,
    fit_override_record,
    fit_overrides,
)
from reelwright.shop.setups.pair import PairNow, pair_now
from reelwright.shop.setups.shown.blades import blades_view
from reelwright.shop.setups.shown.cavities import crimp_context
from reelwright.shop.setups.states import FitAnswer
from reelwright.web.office.check_rows import dimension_row, strip_checks
from reelwright.web.office.connector_view import back_end, face
from reelwright.web.office.grid_words import MARKS
from reelwright.web.widgets.access import page, person_of

_SCALE = 5.0


@page()
@require_http_methods(["GET", "POST"])
def pair_page(request: HttpRequest, cable: str, connector: str) -> HttpResponse:
    """Show all that was compared of one pair; take in what a lead says of it."""
    pair_now(cable, connector)
    if request.method != "POST":
        return _show_pair(request, cable, connector, {"answer": "", "reason": ""}, {})
    fields = {name: request.POST.get(name, "").strip() for name in ("answer", "reason")}
    try:
        fit_override_record(
            by=person_of(request),
            cable_code=cable,
            connector_code=connector,
            answer=fields["answer"],
            reason=fields["reason"],
            on=today(workshop()),
        )
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        faults = {str(error.data.get("field", "reason")): str(error)}
        return _show_pair(request, cable, connector, fields, faults, status=422)
    messages.success(request, "It is written down, and stands beside what is computed.")
    return redirect("pair", cable, connector)


def _to_begin_with(now: PairNow, jacket: str) -> EndView | None:
    """The strip that the drawing asks for, where the pair can be made at all."""
    strip = now.proposed_strip
    if not now.possible or isinstance(strip, Reason):
        return None
    return EndView(
        title=f"{now.cable.code} in {now.connector.code}, to begin with",
        cable=now.cable,
        strip=strip,
        jacket=jacket,
    )


def _show_pair(
    request: HttpRequest,
    cable_code: str,
    connector_code: str,
    fields: dict[str, str],
    faults: dict[str, str],
    **answer: Any,
) -> HttpResponse:
    now = pair_now(cable_code, connector_code)
    cable, connector, cell, sheet = now.cable, now.connector, now.cell, now.sheet
    view = None if sheet is None else end_view(sheet, cable)
    letters = jacket_letters(cable)
    proposed = None if view is not None else _to_begin_with(now, letters)
    blades = None
    if proposed is not None:
        blades = blades_view(
            proposed.strip, cable, connector, jacket=letters, title=proposed.title, dies=None
        )
    history = fit_override_history(cable_code, connector_code)
    said = fit_overrides().get((cable_code, connector_code))
    set_up = set_up_of(cable_code, connector_code)
    may_draft = may(person_of(request), Action.DRAFT_SETUPS)
    return render(
        request,
        "office/pair.html",
        {
            "cell": cell,
            "mark": MARKS[cell.state],
            "answer": now.headline,
            "cable": cable,
            "connector": connector,
            "sheet": sheet,
            "reasons": now.reasons,
            "cautions": now.cautions,
            "checks": [dimension_row(check) for check in cell.checks],
            "section_svg": draw_section(cable, jacket=letters, scale=_SCALE),
            "section": section_table(cable),
            "back_end": back_end(connector),
            "face": face(connector),
            "drawing_source": None if connector.drawing is None else connector.drawing.source,
            **crimp_context(
                cable,
                connector,
                pin_mm=None if sheet is None else sheet.numbers.pin_die_mm,
                ferrule_mm=None if sheet is None else sheet.numbers.ferrule_die_mm,
            ),
            "end_svg": "" if view is None else draw_end(view, scale=_SCALE),
            "end_rows": () if view is None else end_table(view),
            "proposed_svg": "" if proposed is None else draw_end(proposed, scale=_SCALE),
            "proposed_rows": () if proposed is None else end_table(proposed),
            "blades": blades,
            "strip_checks": strip_checks(blades),
            "said": said,
            "because": "" if said is None else sentence(said.reason),
            "history": history,
            "set_up": set_up if may_draft else None,
            "may_open": may_draft and set_up is None and not why_not_open(now, said),
            "may_say": may(person_of(request), Action.RELEASE_SETUPS),
            "answers": [str(each) for each in FitAnswer if history or each != "as computed"],
            "fields": fields,
            "faults": faults,
            "longest": REASON_AT_MOST,
        },
        **answer,
    )
