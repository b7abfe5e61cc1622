"""Cables: the catalogue; one cable with what it states, whether that agrees, what it carries."""

from dataclasses import dataclass
from itertools import groupby
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.http import urlencode
from django.views.decorators.http import require_GET

from reelwright.core.errors import UnknownCode
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.physics.lot_values import known_value
from reelwright.core.physics.sheet_checks import judge_whole_sheet
from reelwright.core.quantities.show import show_dimension, show_in, show_length_m, show_percent
from reelwright.core.quantities.show_scaled import (
    show_area_m2,
    show_loss_per_100m,
    show_megahertz,
)
from reelwright.drawings.section import draw_section, section_table
from reelwright.shop.catalogue.selectors import CableTerms, cable_terms, cables
from reelwright.shop.day.carries import Carried, carried_by
from reelwright.shop.day.judging.run_judged import check_row
from reelwright.shop.reels.selectors import ReelNow, reels_now
from reelwright.shop.setups.selectors import newest_set_ups
from reelwright.web.office.stated_names import STATED_NAMES, show_stated
from reelwright.web.widgets.access import page


@dataclass(frozen=True, kw_only=True)
class CableRow:
    """One cable in the list, with what the rack holds of it."""

    cable: Cable
    terms: CableTerms
    length_mm: int
    reels: int
    released: int
    outside: str


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One stated value with the spread that is taken for it."""

    name: str
    value: str
    spread: str


@dataclass(frozen=True, kw_only=True)
class CarriedRow:
    """One signal that a cable carries; ``at_95`` is empty where it is not judged by length."""

    name: str
    ask: str
    outcome: str
    at_95: str
    at_50: str
    limit: str
    source: str
    why: str


@page()
@require_GET
def cables_page(request: HttpRequest) -> HttpResponse:
    """Show every cable by kind, with what the rack holds."""
    terms, reels, set_ups = cable_terms(), list(reels_now()), newest_set_ups()
    every = sorted(cables().values(), key=lambda cable: (cable.family, cable.code))
    rows = [_row(cable, terms[cable.code], reels, set_ups) for cable in every]
    groups = [
        (str(family), list(members))
        for family, members in groupby(rows, key=lambda row: row.cable.family)
    ]
    return render(request, "office/cables.html", {"groups": groups, "count": len(rows)})


def _row(cable: Cable, terms: CableTerms, reels: list[ReelNow], set_ups: Any) -> CableRow:
    held = [reel for reel in reels if reel.cable_code == cable.code and reel.length_mm > 0]
    return CableRow(
        cable=cable,
        terms=terms,
        length_mm=sum(reel.length_mm for reel in held),
        reels=len(held),
        released=sum(
            1
            for (code, _), sheet in set_ups.items()
            if code == cable.code and str(sheet.state) == "released"
        ),
        outside=f"Ø\u202f{show_dimension(cable.jacket.outside_diameter_m)}",
    )


@page()
@require_GET
def cable_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show one cable: its section, what its sheet states, what it carries and how far."""
    every = cables()
    if code not in every:
        raise UnknownCode(kind="cable", code=code, near=every)
    cable, terms = every[code], cable_terms()[code]
    reels = [reel for reel in reels_now() if reel.cable_code == code and reel.length_mm > 0]
    jacket = reels[0].colour if reels else (terms.colours[0] if terms.colours else "BK")
    checks = judge_whole_sheet(cable)
    return render(
        request,
        "office/cable.html",
        {
            "cable": cable,
            "terms": terms,
            "colours": [(letters, COLOUR_NAMES[letters]) for letters in terms.colours],
            "reels": sorted(reels, key=lambda reel: reel.code),
            "length_mm": sum(reel.length_mm for reel in reels),
            "outside": f"Ø\u202f{show_dimension(cable.jacket.outside_diameter_m)}",
            "bend": show_dimension(cable.bend_radius_fixed_m, decimals=0),
            "mass": show_in(cable.mass_kg_per_m * 1e3, "g/m", decimals=1),
            "svg": draw_section(cable, jacket=jacket, scale=_scale(cable)),
            "section": section_table(cable),
            "figures": _figures(cable),
            "losses": [
                (show_megahertz(point.frequency_hz), show_loss_per_100m(point.loss_db_per_m))
                for point in cable.sheet.loss_points
            ],
            "checks": [check_row(check) for check in checks],
            "contradicts": any(str(check.outcome) == "bad" for check in checks),
            "carried": [_carried(cable, each) for each in carried_by(cable, None)],
            "set_ups": sorted(
                (sheet for (of, _), sheet in newest_set_ups().items() if of == code),
                key=lambda sheet: sheet.code,
            ),
        },
    )


def _scale(cable: Cable) -> float:
    """As large as fits a column: whole numbers, so that a ruler can be laid on."""
    return float(max(2, min(10, int(0.060 / cable.jacket.outside_diameter_m))))


def _figures(cable: Cable) -> list[Figure]:
    figures = []
    for what, name in STATED_NAMES.items():
        known = known_value(cable, None, what)
        if known is not None:
            figures.append(
                Figure(
                    name=name,
                    value=show_stated(what, known.value),
                    spread=show_percent(known.relative_uncertainty, decimals=1),
                )
            )
    sheet = cable.sheet
    if sheet.conductor_area_m2 is not None:
        area = show_area_m2(sheet.conductor_area_m2)
        figures.append(Figure(name="Area of a conductor", value=area, spread=""))
    if sheet.optical_loss_db_per_m is not None:
        loss = f"{sheet.optical_loss_db_per_m:.2f}\u202fdB per metre"
        figures.append(Figure(name="Optical loss", value=loss, spread="not known"))
    return figures


def _carried(cable: Cable, each: Carried) -> CarriedRow:
    judged = each.judged
    return CarriedRow(
        name=each.name,
        ask=urlencode({"signal": each.asked, "cable": cable.code}),
        outcome=str(judged.verdict.outcome),
        at_95=_metres(judged.length_at_95_m),
        at_50=_metres(judged.length_at_50_m),
        limit=check_row(each.main).limit,
        source=str(each.main.source),
        why="" if judged.length_at_95_m else judged.sentence,
    )


def _metres(length_m: float | None) -> str:
    if not length_m:
        return ""
    return show_length_m(length_m, decimals=0 if length_m >= 20 else 1)
