"""The travellers: one sheet for each accepted line."""

import re
from functools import lru_cache

from reelwright.core.ends.care.cautions import Job, cautions
from reelwright.core.ends.fit.pin_map import PinMap, pin_map
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.colour import colour_words
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import (
    show_feet_inches,
    show_metres,
    show_plain,
)
from reelwright.core.quantities.show_office import show_minus_plus
from reelwright.core.signals.distributed_line import DistributedLine
from reelwright.core.signals.read import read_signal
from reelwright.documents.strip_rows import strip_rows
from reelwright.documents.traveller import (
    STRIP_ROOM_MM,
    Die,
    PinRow,
    Traveller,
    TravellerEnd,
    Travellers,
)
from reelwright.drawings.end import EndView, draw_end
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.pack.labels import label_lines
from reelwright.shop.day.waiting import due_of
from reelwright.shop.orders.answer import Make
from reelwright.shop.orders.selectors import LineView
from reelwright.shop.setups.making import crimp_height_told, has_fluoropolymer, steps_of
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.to_core import strip_value
from reelwright.shop.work.selectors import PieceView, TravellerView

# What finished cables are tested at where their set-up names no other (common practice).
TEST_V = 500.0
_SIGN_FOR = ("cut", "ends", "inspected", "tested", "packed")


def travellers_paper(data: PackData) -> Travellers | None:
    """Return the sheets of all accepted lines in the order of work, or None where there is none."""
    lines = [view for view in data.lines if view.id in data.travellers and data.pieces.get(view.id)]
    if not lines:
        return None
    order = _order_of_work(data)
    lines.sort(key=lambda view: (order.get(view.label, len(order)), view.order, view.number))
    return Travellers(
        mark=data.mark("TRV"),
        travellers=tuple(_traveller(data, view, data.travellers[view.id]) for view in lines),
    )


def one_traveller(data: PackData, line_id: int) -> Travellers | None:
    """Return the sheet of one line, or None where it has none."""
    view = next((each for each in data.lines if each.id == line_id), None)
    if view is None or line_id not in data.travellers or not data.pieces.get(line_id):
        return None
    return Travellers(
        mark=data.mark("TRV"), travellers=(_traveller(data, view, data.travellers[line_id]),)
    )


def _order_of_work(data: PackData) -> dict[str, int]:
    if data.bench_plan is None:
        return {}
    content = data.bench_plan.content
    starts = {times["batch_id"]: times["start_s"] for times in content["times"]}
    batches = sorted(
        content["batches"], key=lambda each: (starts.get(each["id"], 10**9), each["id"])
    )
    labels = [label for batch in batches for label in batch["lines"]]
    return {label: place for place, label in enumerate(dict.fromkeys(labels))}


def _traveller(data: PackData, view: LineView, sheet: TravellerView) -> Traveller:
    make = view.answer.make
    assert make is not None  # a traveller is issued for accepted lines only
    pieces = data.pieces[view.id]
    cable = data.cables[make.cable]
    due = due_of(view)
    colours = list(dict.fromkeys(piece.colour for piece in pieces))
    ends = _ends(data, cable, make, sheet, colours[0])
    pins = _pin_map(data, cable, make)
    return Traveller(
        number=sheet.number,
        order=view.order,
        line=str(view.number),
        customer_number=view.customer_code,
        due="" if due is None else f"{due:%a} {due.day} {due:%b}",
        quantity=len(pieces),
        cable=cable.code,
        colour=colour_words(colours),
        colour_letters=" ".join(colours),
        sources=_sources(pieces, data),
        wheel_setting=show_metres(make.wheel_setting_mm),
        cut_length=show_metres(make.cut_length_mm),
        cut_feet=show_feet_inches(make.cut_length_mm / 1000),
        finished_length=show_metres(make.finished_mm),
        finished_feet=show_feet_inches(make.finished_mm / 1000),
        tolerance=tolerance_words(make),
        ends=ends,
        pin_map=pins,
        cautions=_cautions(data, cable, view, make),
        serials=tuple(piece.serial for piece in pieces),
        label_text=tuple(
            line for colour in colours for line in label_lines(view.label, cable.code, colour)
        ),
        first_article=_first_article(ends, pins),
        sign_for=_SIGN_FOR,
    )


def _first_article(ends: tuple[TravellerEnd, ...], pins: tuple[PinRow, ...]) -> tuple[str, ...]:
    """Return what is looked at on the first piece: only what these ends have."""
    looks = (
        ("cut length", True),
        ("strip against the drawing", any(end.strip_svg for end in ends)),
        ("height", any(end.expected_height for end in ends)),
        ("pull on scrap", any(end.minimum_pull for end in ends)),
        ("pin map", bool(pins)),
    )
    return tuple(name for name, has in looks if has)


def tolerance_words(make: Make) -> str:
    """Return a tolerance as people write it."""
    return show_minus_plus(make.tolerance_minus_mm, make.tolerance_plus_mm)


def _sources(pieces: list[PieceView], data: PackData) -> tuple[str, ...]:
    places = {reel["reel"]: reel["location"] for reel in data.cut_reels}
    told = []
    for piece in pieces:
        if piece.reel is None:
            continue
        place = places.get(piece.reel, "")
        told.append(f"{piece.reel} · lot {piece.lot}" + (f" · {place}" if place else ""))
    return tuple(f"{told.count(each)} × {each}" for each in dict.fromkeys(told))


def _ends(
    data: PackData, cable: Cable, make: Make, sheet: TravellerView, colour: str
) -> tuple[TravellerEnd, ...]:
    if sheet.revision_a == sheet.revision_b:
        return (_end(data, cable, "A and B", data.sheets[sheet.revision_a], colour, ends=1),)
    return (
        _end(data, cable, "A", data.sheets[sheet.revision_a], colour, ends=2),
        _end(data, cable, "B", data.sheets[sheet.revision_b], colour, ends=2),
    )


def _end(
    data: PackData, cable: Cable, which: str, sheet: SetUpSheet, colour: str, *, ends: int
) -> TravellerEnd:
    numbers = sheet.numbers
    strip = strip_value(sheet)
    dies = []
    if numbers.pin_die_mm is not None:
        dies.append(Die(closes="pin", cavity=f"{numbers.pin_die_mm:.2f}"))
    if numbers.ferrule_die_mm is not None:
        dies.append(Die(closes="ferrule", cavity=f"{numbers.ferrule_die_mm:.2f}"))
    view = (
        None
        if strip is None
        else EndView(title=f"{sheet.name}, strip", cable=cable, strip=strip, jacket=colour)
    )
    return TravellerEnd(
        which=which,
        connector=data.connectors[sheet.connector_code].code,
        setup=sheet.code,
        revision=sheet.letter,
        strip_svg="" if view is None else strip_drawing(view, room_mm=STRIP_ROOM_MM[ends]),
        strip_text=strip_text(sheet),
        strip_rows=() if view is None else strip_rows(view),
        program=numbers.program,
        blade_set=numbers.blade_set,
        dies=tuple(dies),
        expected_height=crimp_height_told(numbers),
        minimum_pull=(
            "" if numbers.minimum_pull_n is None else show_plain(numbers.minimum_pull_n, "N")
        ),
        order_of_work=steps_of(sheet, cable, data.connectors[sheet.connector_code]),
    )


# True scales that a ruler can be laid on; text as usual, then as small as can be read.
_SCALES = (2.0, 1.0)
_TEXTS_MM = (3.0, 2.6)


@lru_cache(maxsize=64)
def strip_drawing(view: EndView, *, room_mm: tuple[float, float]) -> str:
    """Return the strip drawn 2 : 1 where the room takes it, else 1 : 1."""
    for scale in _SCALES:
        for text_mm in _TEXTS_MM:
            drawn = draw_end(view, scale=scale, key=False, text_mm=text_mm)
            width, height = _size_mm(drawn)
            if width <= room_mm[0] and height <= room_mm[1]:
                return drawn
    return drawn


def _size_mm(svg: str) -> tuple[float, float]:
    width = re.search(r'width="([\d.]+)mm"', svg)
    height = re.search(r'height="([\d.]+)mm"', svg)
    assert width
    assert height
    return float(width[1]), float(height[1])


def strip_text(sheet: SetUpSheet) -> str:
    """Return the strip's figures in one line."""
    numbers = sheet.numbers
    named = (
        ("a", numbers.strip_conductor_mm),
        ("b", numbers.strip_dielectric_mm),
        ("c", numbers.strip_braid_mm),
        ("jacket back", numbers.jacket_back_mm),
        ("cores bared", numbers.cores_bared_mm),
    )
    told = [f"{name} {float(value):.2f}" for name, value in named if value is not None]
    return f"{' · '.join(told)}{NARROW_SPACE}mm" if told else ""


def _pin_map(data: PackData, cable: Cable, make: Make) -> tuple[PinRow, ...]:
    found = pin_map(cable, data.connectors[make.connector_a], data.connectors[make.connector_b])
    if not isinstance(found, PinMap):
        return ()
    return tuple(
        PinRow(end_a=row.contact_a, conductor=row.conductor, end_b=row.contact_b)
        for row in found.rows
    )


def _cautions(data: PackData, cable: Cable, view: LineView, make: Make) -> tuple[str, ...]:
    signal = read_signal(view.cells.get("signal", "")).signal
    methods = dict.fromkeys(
        data.connectors[code].method for code in (make.connector_a, make.connector_b)
    )
    return tuple(
        caution.sentence
        for caution in cautions(
            Job(
                methods=tuple(methods),
                fluoropolymer=has_fluoropolymer(cable),
                line_v=signal.line_v if isinstance(signal, DistributedLine) else None,
                test_v=None if cable.family is Family.FIBRE else TEST_V,
            )
        )
    )
