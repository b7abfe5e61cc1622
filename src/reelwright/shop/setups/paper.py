"""The set-up sheet as paper, from the records."""

import datetime
import re
from collections.abc import Callable

from reelwright.core.ends.care.cautions import RULES_BASIS
from reelwright.core.ends.order.inspection import SOURCE, inspection_points
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.show_office import show_date_short
from reelwright.core.quantities.words import sentence
from reelwright.documents.pictures import photograph_svg, read_picture
from reelwright.documents.set_up_sheet import (
    CautionRow,
    Figure,
    PhotographPrint,
    PointRow,
    RevisionRow,
    SetUpPaper,
    Told,
)
from reelwright.documents.set_up_sheet.content import (
    PHOTOGRAPH_ROOM_MM,
    SECTION_ROOM_MM,
    STRIP_ROOM_MM,
)
from reelwright.documents.sheet import SheetMark
from reelwright.documents.strip_rows import strip_rows
from reelwright.drawings.check_bar import draw_check_bar
from reelwright.drawings.end import EndView, draw_end
from reelwright.drawings.section import draw_section
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.people.selectors import workshop
from reelwright.shop.setups.end_view import end_view, jacket_letters
from reelwright.shop.setups.making import (
    cautions_of,
    machine_rows,
    steps_of,
    threaded_first,
    told_step,
)
from reelwright.shop.setups.ordering import order_minds, steps_in_order
from reelwright.shop.setups.paper_results import (
    blade_rows,
    crimps,
    measured_rows,
    measured_told,
    pull_proof,
    strip_told,
    tip,
    weld,
)
from reelwright.shop.setups.photographs import photograph_bytes, standing_photographs
from reelwright.shop.setups.selectors import chosen_sheet, moves, next_state
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.shown.blades import set_up_blades
from reelwright.shop.setups.shown.body import body_shown
from reelwright.shop.setups.shown.growth import measured_growth
from reelwright.shop.setups.shown.handling import bend_shown, braid_point, braid_source
from reelwright.shop.setups.shown.heights import heights_shown
from reelwright.shop.setups.states import State
from reelwright.shop.setups.to_core import WeldedGauge

_SCALES = (10.0, 8.0, 5.0, 4.0, 3.0, 2.0, 1.0)
_SECTION_SCALES = (8.0, 6.0, 5.0, 4.0, 3.0, 2.0)
_MARKS = {
    State.RELEASED: "good",
    State.PROVEN: "caution",
    State.ON_TRIAL: "caution",
    State.DRAFTED: "caution",
    State.WITHDRAWN: "bad",
}


def set_up_paper(
    code: str, *, letter: str = "", on: datetime.date, gauges: tuple[WeldedGauge, ...]
) -> SetUpPaper:
    """Return the sheet of a revision as it stands, printed on that day. Raises UnknownCode.

    ``gauges``: what the shop welds well, for the law of energy.
    """
    sheets, sheet = chosen_sheet(code, letter)
    cable, connector = cables()[sheet.cable_code], connectors()[sheet.connector_code]
    view = end_view(sheet, cable)
    ahead = next_state(sheet)
    growth = measured_growth(sheet.revision_id)
    blades = set_up_blades(sheet, cable, connector, growth=growth)
    measured = heights_shown(sheet, cable, connector)
    bend, braid = bend_shown(cable), braid_point(cable, sheet.method)
    looks = inspection_points(sheet.method)
    if braid is not None:
        # Right under the braid itself, where the end has a point for it.
        at = next(
            (at for at, each in enumerate(looks, start=1) if each.name == "braid"), len(looks)
        )
        looks = (*looks[:at], braid, *looks[at:])
    section = _largest(
        _SECTION_SCALES,
        SECTION_ROOM_MM,
        lambda scale: draw_section(cable, jacket=jacket_letters(cable), scale=scale),
    )
    return SetUpPaper(
        mark=SheetMark(
            workshop=workshop().name,
            code=sheet.code,
            date=f"as of {on:%a} {on.day} {on:%b %Y}",
            revision=sheet.letter,
        ),
        code=sheet.name,
        cable=cable.code,
        connector=connector.code,
        state=sheet.state.value,
        state_mark=_MARKS[sheet.state],
        released=sheet.state is State.RELEASED,
        lead=sentence(f"{cable.name}; {connector.name}. {sheet.numbers.remark}".strip()),
        block=_block(sheet),
        missing_for="" if ahead.state is None else ahead.state.value,
        missing=tuple(reason.sentence for reason in ahead.missing),
        strip_svg="" if view is None else _drawn(view),
        strip_true_svg="" if view is None else draw_end(view, scale=1.0, key=False),
        check_bar_svg=draw_check_bar(),
        strip_rows=() if view is None else strip_rows(view),
        threaded_first=threaded_first(sheet, cable, connector),
        steps=steps_of(sheet, cable, connector),
        order_told=_order_told(sheet, cable, connector),
        operations=_operations(sheet, cable, connector),
        machines=tuple(Figure(name=name, value=value) for name, value in machine_rows(sheet)),
        blades=blade_rows(blades),
        strip_told=strip_told(blades),
        crimps=crimps(sheet, cable, connector),
        tip=tip(sheet, cable, connector, growth=growth),
        weld=weld(sheet, cable, connector, gauges),
        measured=measured_rows(measured),
        measured_told=measured_told(measured),
        section_svg=section,
        bend_told=()
        if bend is None
        else (Told(mark=bend.mark, sentence=f"{bend.sentence} {bend.source}."),),
        body_told=body_shown(cable, connector),
        pulls=pull_proof(sheet, cable),
        points=tuple(PointRow(name=point.name, good=point.good, bad=point.bad) for point in looks),
        points_source=sentence(
            f"{str(SOURCE)[:1].upper()}{str(SOURCE)[1:]}{f'; {braid_source()}' if braid else ''}; "
            "what a customer's workmanship standard asks comes first"
        ),
        cautions=tuple(
            CautionRow(sentence=caution.sentence, rules=caution.rules)
            for caution in cautions_of(sheet, cable)
        ),
        cautions_note=f"Rules are named {RULES_BASIS}: look them up as they stand where you work.",
        photographs=_photographs(sheet),
        revisions=tuple(_revision(each) for each in sheets),
        moves=moves(sheet.revision_id),
    )


def _order_told(sheet: SetUpSheet, cable: Cable, connector: Connector) -> str:
    if not sheet.numbers.order:
        return ""
    minds = "".join(f" Mind: {told}" for told in order_minds(cable, connector, sheet.numbers))
    return f"This order is laid down by rev {sheet.letter}; worked out it would be another.{minds}"


def _operations(sheet: SetUpSheet, cable: Cable, connector: Connector) -> tuple[str, ...]:
    """The order laid down, where the steps on the sheet are the shop's own words."""
    if not (sheet.numbers.order and sheet.numbers.steps):
        return ()
    steps = steps_in_order(cable, connector, sheet.numbers)
    return tuple(sentence(told_step(step)) for step in steps)


def _block(sheet: SetUpSheet) -> tuple[Figure, ...]:
    approved = "not approved"
    if sheet.approved_on is not None:
        approved = f"{show_date_short(sheet.approved_on)}, {sheet.approved_by}"
    return (
        Figure(name="set-up", value=sheet.code),
        Figure(name="revision", value=sheet.letter),
        Figure(name="state", value=sheet.state.value),
        Figure(name="how the end is made", value=sheet.method.value),
        Figure(name="cable", value=sheet.cable_code),
        Figure(name="connector", value=sheet.connector_code),
        Figure(name="drafted", value=f"{show_date_short(sheet.drafted_on)}, {sheet.drafted_by}"),
        Figure(name="approved", value=approved),
    )


def _largest(
    scales: tuple[float, ...], room_mm: tuple[float, float], draw: Callable[[float], str]
) -> str:
    """Return the drawing at the largest of these scales that the room takes, else the smallest."""
    drawn = ""
    for scale in scales:
        drawn = draw(scale)
        size = read_picture(drawn)
        if size.width_mm <= room_mm[0] and size.height_mm <= room_mm[1]:
            break
    return drawn


def _drawn(view: EndView) -> str:
    return _largest(_SCALES, STRIP_ROOM_MM, lambda scale: draw_end(view, scale=scale, key=False))


def _photographs(sheet: SetUpSheet) -> tuple[PhotographPrint, ...]:
    return tuple(
        PhotographPrint(
            mark=each.shows.value,
            caption=each.caption,
            photograph_svg=photograph_svg(
                photograph_bytes(each),
                kind=each.kind,
                width_px=each.width_px,
                height_px=each.height_px,
                turned=each.turned,
                title=each.caption,
                room_mm=PHOTOGRAPH_ROOM_MM,
            ),
        )
        for each in standing_photographs(sheet.revision_id)
    )


def _revision(sheet: SetUpSheet) -> RevisionRow:
    approved = ""
    if sheet.approved_on is not None:
        approved = f"{show_date_short(sheet.approved_on)}, {sheet.approved_by}"
    return RevisionRow(
        letter=sheet.letter,
        state=sheet.state.value,
        drafted=f"{show_date_short(sheet.drafted_on)}, {sheet.drafted_by}",
        approved=approved,
    )


def sheet_file_name(sheet: SetUpSheet) -> str:
    """Return the name of the sheet's file: letters that every disk takes."""
    return re.sub(r"[^A-Za-z0-9.-]+", "-", f"{sheet.code} rev {sheet.letter}") + ".pdf"
