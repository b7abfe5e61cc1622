"""Set-ups: the list, and one sheet with its drawings, dimensions, pulls and history."""

from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from reelwright.core.ends.cautions import Job, cautions
from reelwright.core.ends.order_of_work import order_of_work
from reelwright.core.errors import UnknownCode
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.show import show_plain
from reelwright.drawings.end import draw_end, end_table
from reelwright.drawings.section import draw_section, section_table
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.setups.selectors import (
    moves,
    newest_set_ups,
    next_state,
    pulls,
    set_up_sheets,
)
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.web.office.end_view import end_set_up, end_view, jacket_letters
from reelwright.web.office.pin_tip_view import pin_tip_view
from reelwright.web.office.pulls_view import pulls_shown
from reelwright.web.widgets.access import page

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


@dataclass(frozen=True, kw_only=True)
class Row:
    """One line of a table of figures."""

    name: str
    value: str


@page()
@require_GET
def set_up_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show one revision of a set-up, the newest where none is named."""
    sheets, sheet = _chosen(request, code)
    cable = cables()[sheet.cable_code]
    connector = connectors()[sheet.connector_code]
    view = end_view(sheet, cable)
    nexts, made = next_state(sheet), pulls(sheet.revision_id)
    return render(
        request,
        "office/set_up.html",
        {
            "sheet": sheet,
            "sheets": sheets,
            "cable": cable,
            "connector": connector,
            "end_svg": "" if view is None else draw_end(view, scale=_SCALE),
            "end_rows": () if view is None else end_table(view),
            "section_svg": draw_section(cable, jacket=jacket_letters(cable), scale=_SCALE),
            "section_rows": section_table(cable),
            "machine": _machine(sheet),
            "tip": pin_tip_view(sheet, cable, connector),
            "steps": _steps(sheet, cable, connector),
            "cautions": _cautions(sheet, cable),
            "shown": pulls_shown(sheet, cable, made),
            "pulls": made,
            "next": nexts.state,
            "missing": nexts.missing,
            "moves": moves(sheet.revision_id),
        },
    )


@page()
@require_GET
def strip_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show the stripped end alone, 1 : 1, to be printed and an end laid on it."""
    _, sheet = _chosen(request, code)
    cable = cables()[sheet.cable_code]
    view = end_view(sheet, cable)
    if view is None:
        raise UnknownCode(kind="strip drawing of set-up", code=sheet.name)
    return render(
        request,
        "office/strip.html",
        {"sheet": sheet, "cable": cable, "svg": draw_end(view, scale=1.0)},
    )


def _chosen(request: HttpRequest, code: str) -> tuple[tuple[SetUpSheet, ...], SetUpSheet]:
    sheets = set_up_sheets(code)
    letter = request.GET.get("rev", "")
    found = next((sheet for sheet in sheets if not letter or sheet.letter == letter), None)
    if found is None:
        raise UnknownCode(
            kind=f"revision of {code}", code=letter, near=[sheet.letter for sheet in sheets]
        )
    return sheets, found


def _machine(sheet: SetUpSheet) -> list[Row]:
    """What the machines are set to; what this kind of end does not have is left out."""
    numbers = sheet.numbers
    height = ""
    if numbers.crimp_height_mm is not None:
        height = f"{numbers.crimp_height_mm:.2f}"
        if numbers.crimp_height_tolerance_mm is not None:
            height += f" ± {numbers.crimp_height_tolerance_mm:.2f}"
        height += "\u202fmm"

    def die(value: Any) -> str:
        return "" if value is None else f"{value:.2f}\u202fmm across flats"

    def given(value: float | None, unit: str) -> str:
        return "" if value is None else show_plain(value, unit)

    rows = (
        ("Stripper program", numbers.program),
        ("Blade set", numbers.blade_set),
        ("Pin die", die(numbers.pin_die_mm)),
        ("Ferrule die", die(numbers.ferrule_die_mm)),
        ("Crimp height to expect", height),
        ("Horn of the welder", numbers.weld_horn),
        ("Energy of the weld", given(numbers.weld_energy_j, "J")),
        ("Pressure of the weld", given(numbers.weld_pressure_kpa, "kPa")),
        ("Amplitude of the horn", given(numbers.weld_amplitude_um, "µm")),
        ("Test adapter", numbers.test_adapter),
        ("Minutes to join one end", f"{numbers.press_min_per_end:g}"),
    )
    return [Row(name=name, value=value) for name, value in rows if value]


def _steps(sheet: SetUpSheet, cable: Cable, connector: Connector) -> tuple[str, ...]:
    set_up = end_set_up(sheet, cable)
    if sheet.numbers.steps or set_up is None:
        return sheet.numbers.steps
    return tuple(
        step.text if step.check is None else f"{step.text}: {step.check}"
        for step in order_of_work(set_up, cable=cable, connector=connector)
    )


def _cautions(sheet: SetUpSheet, cable: Cable) -> list[str]:
    fluoropolymer = any(
        word in layer.material.upper()
        for layer in cable.layers
        for word in ("FEP", "PTFE", "FLUORO")
    )
    job = Job(methods=(sheet.method,), fluoropolymer=fluoropolymer, line_v=None, test_v=None)
    told = [*sheet.numbers.cautions, *(caution.sentence for caution in cautions(job))]
    return list(dict.fromkeys(told))
