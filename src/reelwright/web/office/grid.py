"""The grid: every cable against every connector, with what decides in each cell."""

from dataclasses import dataclass
from itertools import groupby

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from reelwright.core.ends.fit.grid import Cell, CellState, judge_grid
from reelwright.core.parts.cable import Family
from reelwright.core.parts.needs import SignalNeeds
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.setups.overrides import FitSaid, fit_overrides
from reelwright.shop.setups.selectors import standing_set_ups
from reelwright.shop.setups.to_core import pair_set_ups
from reelwright.shop.tools.gauging import cavity_values
from reelwright.web.office.grid_words import MARKS, short_words
from reelwright.web.widgets.access import page

_CARRIES = {
    "": ("Any signal", None),
    "line": (
        "A 75 ohm line",
        SignalNeeds(legs=1, balanced=False, phantom_power=False, screen=True, impedance_ohm=75.0),
    ),
    "balanced": (
        "A balanced line",
        SignalNeeds(legs=2, balanced=True, phantom_power=False, screen=True, impedance_ohm=None),
    ),
    "microphone": (
        "A microphone with phantom power",
        SignalNeeds(legs=2, balanced=True, phantom_power=True, screen=True, impedance_ohm=None),
    ),
    "loudspeaker": (
        "A loudspeaker",
        SignalNeeds(legs=2, balanced=False, phantom_power=False, screen=False, impedance_ohm=None),
    ),
}


@dataclass(frozen=True, kw_only=True)
class GridCell:
    """One cell as it is shown: its mark and word, what decides in few words, what a lead says."""

    cable: str
    connector: str
    state: str
    mark: str
    short: str
    said: FitSaid | None


@page()
@require_GET
def grid_page(request: HttpRequest) -> HttpResponse:
    """Show the grid, or the part of it that was asked for."""
    family, mating, carry = (request.GET.get(name, "") for name in ("family", "mating", "carry"))
    every, columns = cables(), connectors()
    rows = sorted(
        (c for c in every.values() if not family or c.family == family),
        key=lambda c: (list(Family).index(c.family), c.code),
    )
    shown = sorted(
        (c for c in columns.values() if not mating or c.mating == mating),
        key=lambda c: (c.mating, c.code),
    )
    _, needs = _CARRIES.get(carry, _CARRIES[""])
    cells = judge_grid(
        rows,
        shown,
        set_ups=pair_set_ups(standing_set_ups().values()),
        needs=needs,
        cavities=cavity_values(),
    )
    said = fit_overrides()
    count = {state: sum(cell.state is state for cell in cells.values()) for state in CellState}
    return render(
        request,
        "office/grid.html",
        {
            "rows": [
                (cable, [_shown(cells[cable.code, each.code], said) for each in shown])
                for cable in rows
            ],
            "faces": [
                (face, list(members))
                for face, members in groupby(shown, key=lambda each: each.mating)
            ],
            "pairs": len(cells),
            "released": count[CellState.RELEASED],
            "to_develop": count[CellState.TO_DEVELOP],
            "not_known": count[CellState.NOT_KNOWN],
            "impossible": count[CellState.IMPOSSIBLE],
            "said": sum(pair in said for pair in cells),
            "contradicted": [cell for cell in cells.values() if cell.contradicted and not needs],
            "catalogue_empty": not every or not columns,
            "family": family,
            "families": [str(each) for each in Family],
            "mating": mating,
            "matings": sorted({each.mating for each in columns.values()}),
            "carry": carry,
            "carries": [(code, name) for code, (name, _) in _CARRIES.items()],
        },
    )


def _shown(cell: Cell, said: dict[tuple[str, str], FitSaid]) -> GridCell:
    return GridCell(
        cable=cell.cable_code,
        connector=cell.connector_code,
        state=str(cell.state),
        mark=MARKS[cell.state],
        short=short_words(cell),
        said=said.get((cell.cable_code, cell.connector_code)),
    )
