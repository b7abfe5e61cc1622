"""The day on one page."""

from collections import defaultdict
from decimal import Decimal

from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import with_unit
from reelwright.core.quantities.words import counted
from reelwright.documents.shortages import Shortages
from reelwright.documents.summary import Fetch, LookFirst, SevenNumber, Summary
from reelwright.drawings.day import draw_day
from reelwright.shop.day.pack.bench_plan import beyond_the_day, clock, day_view
from reelwright.shop.day.pack.cut_list import cut_sentence
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.waiting import due_of
from reelwright.shop.orders.answer import ACCEPTED, HELD, REFUSED

_DRAWING_PX = 760.0
_NO_BREAK = "\N{NO-BREAK SPACE}"


def summary_paper(data: PackData, shortages: Shortages) -> Summary:
    """Return the page that the lead reads first."""
    accepted, held, refused = (data.with_state(each) for each in (ACCEPTED, HELD, REFUSED))
    cables = sum(len(data.pieces.get(view.id, [])) for view in accepted)
    sales = sum(
        (Decimal(view.answer.price.line_price) for view in accepted if view.answer.price),
        Decimal(0),
    )
    bench = None if data.bench_plan is None else data.bench_plan.content
    late = [] if bench is None else [each for each in bench["times"] if each["late_s"]]
    cut = "nothing to cut" if data.cut_plan is None else cut_sentence(data.cut_plan.content)
    change_over = 0 if bench is None else round(bench["change_over_s"] / 60)
    return Summary(
        mark=data.mark("DAY"),
        sentence=_sentence(
            cables,
            planned=sum(count for _, count in data.planned),
            held=len(held),
            refused=len(refused),
        ),
        lead=(
            f"{counted(len(data.lines), 'line')} "
            + (f"from {data.file_name}." if data.file_name else "entered at the desk.")
        ),
        numbers=(
            SevenNumber(name="accepted", value=str(len(accepted)), note=counted(cables, "cable")),
            SevenNumber(name="held", value=str(len(held)), note="wait for an answer"),
            SevenNumber(name="refused", value=str(len(refused)), note="each with its reason"),
            SevenNumber(
                name="accepted value", value=with_unit(f"{sales:,.2f}", data.currency), note=""
            ),
            SevenNumber(
                name="cuts", value=cut.split(",")[0], note=cut.partition(", ")[2] or "none planned"
            ),
            SevenNumber(
                name="change-over",
                value=f"{change_over}{NARROW_SPACE}min",
                note="" if bench is None else counted(len(bench["batches"]), "batch", "batches"),
            ),
            SevenNumber(
                name="late",
                value=str(len(late)),
                note="in time for the courier" if not late else "",
            ),
        ),
        look_first=_look_first(data, shortages),
        day_svg=(
            "" if bench is None else draw_day(day_view(bench), width_px=_DRAWING_PX, compact=True)
        ),
        due_today=_due_today(data),
        fetch=_fetch(data),
    )


def _sentence(cables: int, *, planned: int, held: int, refused: int) -> str:
    told = f"{counted(cables, 'cable')} to make"
    if planned > cables:
        told += f", {planned} with those that wait"
    waiting = [
        *([f"{counted(held, 'line')} held"] if held else []),
        *([f"{refused if held else counted(refused, 'line')} refused"] if refused else []),
    ]
    # No line ends between a number and its noun.
    return (
        (f"{told}; {', '.join(waiting)}" if waiting else told)
        .replace(" ", _NO_BREAK)
        .replace(f";{_NO_BREAK}", "; ")
    )


def _due_today(data: PackData) -> tuple[str, ...]:
    """The lines that leave with today's courier, and when they are packed."""
    if data.bench_plan is None:
        return ()
    content = data.bench_plan.content
    finish = {times["batch_id"]: times["finish_s"] for times in content["times"]}
    packed: dict[str, str] = {}
    for batch in content["batches"]:
        for label in batch["lines"]:
            if batch["id"] in finish:
                packed[label] = f"packed {clock(finish[batch['id']])}"
    told = []
    for view, count in data.planned:
        due = due_of(view)
        if due is not None and due <= data.on:
            told.append(
                f"{view.label}, {view.customer_name}: {counted(count, 'cable')}, "
                f"{packed.get(view.label, 'not planned')}"
            )
    return tuple(told)


def _fetch(data: PackData) -> tuple[Fetch, ...]:
    places: dict[str, list[str]] = defaultdict(list)
    for reel in data.cut_reels:
        places[reel["location"] or "no place on record"].append(reel["reel"])
    return tuple(Fetch(place=place, reels=tuple(places[place])) for place in sorted(places))


def _look_first(data: PackData, shortages: Shortages) -> tuple[LookFirst, ...]:
    looks = []
    if data.bench_plan is not None:
        content = data.bench_plan.content
        looks += [
            LookFirst(
                level="bad",
                sentence=f"{each['batch']}: {' '.join(each['reasons'])}",
                where="bench plan",
            )
            for each in content["not_planned"]
        ]
        looks += [
            LookFirst(
                level="bad",
                sentence=(
                    f"{each['batch_id']} misses the courier by {round(each['late_s'] / 60)} min."
                ),
                where="bench plan",
            )
            for each in content["times"]
            if each["late_s"]
        ]
        beyond = beyond_the_day(content, on=data.on)
        if beyond:
            looks.append(LookFirst(level="caution", sentence=beyond, where="bench plan"))
    if data.cut_plan is not None:
        looks += [
            LookFirst(level="caution", sentence=warning, where="cut list")
            for warning in data.cut_plan.content["warnings"]
        ]
    held = {view.label for view in data.with_state(HELD)}
    asked: dict[str, list[str]] = defaultdict(list)
    for view in data.with_state(HELD):
        asked[view.answer.questions[0]].append(view.label)
    looks += [
        LookFirst(level="caution", sentence=f"{', '.join(labels)}: {question}", where="answers")
        for question, labels in asked.items()
    ]
    looks += [
        LookFirst(
            level="caution",
            sentence=f"{each.item} {each.colour}".strip() + f": {each.missing} missing.",
            where="shortages",
        )
        for each in shortages.shortages
        # What a held line lacks stands in its question already.
        if not set(each.orders) <= held
    ]
    if not looks:
        looks.append(
            LookFirst(level="good", sentence="Nothing stands in the way of this day.", where="")
        )
    return tuple(looks)
