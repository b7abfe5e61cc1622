"""Set-ups: the list, and one sheet with its drawings, dimensions, pulls and history."""

from collections.abc import Mapping
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from reelwright.core.errors import UnknownCode
from reelwright.documents.set_up_sheet import render_set_up_sheet
from reelwright.drawings.check_bar import draw_check_bar
from reelwright.drawings.end import draw_end, end_table
from reelwright.drawings.section import draw_section, section_table
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.setups.end_view import end_view, jacket_letters
from reelwright.shop.setups.making import cautions_of, machine_rows, steps_of
from reelwright.shop.setups.ordering import order_minds, steps_in_order
from reelwright.shop.setups.paper import set_up_paper, sheet_file_name
from reelwright.shop.setups.selectors import (
    chosen_sheet,
    moves,
    newest_set_ups,
    next_state,
    pulls,
)
from reelwright.shop.setups.shown.blades import set_up_blades
from reelwright.shop.setups.shown.body import body_shown
from reelwright.shop.setups.shown.cavities import crimp_context
from reelwright.shop.setups.shown.growth import measured_growth
from reelwright.shop.setups.shown.handling import bend_shown
from reelwright.shop.setups.shown.heights import heights_shown
from reelwright.shop.setups.shown.pin_tip import pin_tip_view
from reelwright.shop.setups.shown.pulls import pulls_shown
from reelwright.shop.setups.shown.weld import weld_view
from reelwright.shop.trials.gauges import shop_gauges
from reelwright.web.office.check_rows import strip_checks
from reelwright.web.office.packs import file_answer
from reelwright.web.office.set_up_doing import doing
from reelwright.web.office.weld_trace_view import traces_shown
from reelwright.web.office.windows import pair_windows
from reelwright.web.widgets.access import page, person_of

_SCALE = 5.0


@page()
@require_GET
def set_ups_page(request: HttpRequest) -> HttpResponse:
    """Show every set-up with its state, by cable and connector."""
    sheets = sorted(newest_set_ups().values(), key=lambda sheet: sheet.code)
    cable = request.GET.get("cable", "")
    released = sum(1 for sheet in sheets if str(sheet.state) == "released")
    return render(
        request,
        "office/set_ups.html",
        {
            "sheets": [sheet for sheet in sheets if not cable or sheet.cable_code == cable],
            "count": len(sheets),
            "released": released,
            "others": len(sheets) - released,
            "cable": cable,
        },
    )


@page()
@require_GET
def set_up_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show one revision of a set-up, the newest where none is named."""
    return show_set_up(request, code, request.GET.get("rev", ""))


# The forms stand far down the page; each fault leads to its field.
_FIELDS = {
    "taken_back": "back_reason",
    "withdraw": "withdraw_reason",
    "trace_back": "trace-back-reason",
}


def _field_of(fault: str) -> str:
    return _FIELDS.get(fault, fault.replace("_", "-"))


def show_set_up(
    request: HttpRequest,
    code: str,
    letter: str,
    *,
    told: str = "",
    faults: Mapping[str, str] | None = None,
    fields: Mapping[str, str] | None = None,
    **answer: Any,
) -> HttpResponse:
    """Show one revision of a set-up, the newest where ``letter`` is empty.

    ``told``: why what was asked for was not done; ``faults``: what is wrong, by field of a form.
    """
    sheets, sheet = chosen_sheet(code, letter)
    cable = cables()[sheet.cable_code]
    connector = connectors()[sheet.connector_code]
    view = end_view(sheet, cable)
    growth = measured_growth(sheet.revision_id)
    blades = set_up_blades(sheet, cable, connector, growth=growth)
    nexts, made = next_state(sheet), pulls(sheet.revision_id)
    crimps = crimp_context(
        cable,
        connector,
        pin_mm=sheet.numbers.pin_die_mm,
        ferrule_mm=sheet.numbers.ferrule_die_mm,
    )
    tip = pin_tip_view(sheet, cable, connector, growth=growth)
    traces = traces_shown(sheet, cable)
    welded = weld_view(sheet, cable, connector, shop_gauges())
    return render(
        request,
        "office/set_up.html",
        {
            "on_page": _on_page(
                blades=blades is not None,
                cavities=[crimp.use for crimp in crimps["crimps"]],
                weld=welded is not None,
                traces=bool(traces),
                tip=tip is not None,
            ),
            "sheet": sheet,
            "sheets": sheets,
            "cable": cable,
            "connector": connector,
            "faulty": [(_field_of(key), text) for key, text in (faults or {}).items()],
            "end_svg": "" if view is None else draw_end(view, scale=_SCALE),
            "end_rows": () if view is None else end_table(view),
            "section_svg": draw_section(cable, jacket=jacket_letters(cable), scale=_SCALE),
            "section_rows": section_table(cable),
            "bend": bend_shown(cable),
            "body": body_shown(cable, connector),
            "machine": machine_rows(sheet),
            "tip": tip,
            "steps": steps_of(sheet, cable, connector),
            "order": steps_in_order(cable, connector, sheet.numbers),
            "order_minds": order_minds(cable, connector, sheet.numbers),
            "blades": blades,
            "strip_checks": strip_checks(blades),
            "cautions": cautions_of(sheet, cable),
            "weld": welded,
            "traces": traces,
            **crimps,
            "shown": pulls_shown(sheet, cable, made),
            "pulls": made,
            "next": nexts.state,
            "missing": nexts.missing,
            "moves": moves(sheet.revision_id),
            "windows": pair_windows(sheet.cable_code, sheet.connector_code, sheet.revision_id),
            "told": told,
            "faults": faults or {},
            "fields": fields or {},
            **doing(person_of(request), sheet, nexts),
            "measured": heights_shown(sheet, cable, connector),
        },
        **answer,
    )


def _on_page(
    *, blades: bool, cavities: list[str], weld: bool, traces: bool, tip: bool
) -> tuple[tuple[str, str], ...]:
    """Return anchor and name of the sections that are there, in their order on the page."""
    return (
        ("strip", "Strip"),
        ("order", "Order of work"),
        *((("blades", "Blades"),) if blades else ()),
        ("section", "Section"),
        ("machine", "Machines"),
        *((f"cavity-{use}", "Cavities") for use in cavities[:1]),
        *((("energy", "Energy"),) if weld else ()),
        *((("traces", "Power traces"),) if traces else ()),
        *((("pin-tip", "Pin tip"),) if tip else ()),
        ("pulls", "Pulls"),
        ("history", "Revisions"),
        ("heights", "Heights and strips"),
        ("windows", "Windows"),
        ("photographs", "Photographs"),
    )


@page()
@require_GET
def sheet_pdf(request: HttpRequest, code: str) -> HttpResponse:
    """Send the set-up sheet of one revision, the newest where none is named, as it stands today."""
    letter = request.GET.get("rev", "")
    _, sheet = chosen_sheet(code, letter)
    content = set_up_paper(code, letter=letter, on=today(workshop()), gauges=shop_gauges())
    return file_answer(sheet_file_name(sheet), render_set_up_sheet(content))


@page()
@require_GET
def strip_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show the stripped end alone, 1 : 1, to be printed and an end laid on it."""
    _, sheet = chosen_sheet(code, request.GET.get("rev", ""))
    cable = cables()[sheet.cable_code]
    view = end_view(sheet, cable)
    if view is None:
        raise UnknownCode(kind="strip drawing of set-up", code=sheet.name)
    return render(
        request,
        "office/strip.html",
        {
            "sheet": sheet,
            "cable": cable,
            "svg": draw_end(view, scale=1.0),
            "bar_svg": draw_check_bar(),
        },
    )
