"""The day on one page."""

from decimal import Decimal

from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import with_unit
from reelwright.core.quantities.words import counted
from reelwright.documents.shortages import Shortages
from reelwright.documents.summary import LookFirst, SevenNumber, Summary
from reelwright.shop.day.pack.cut_list import cut_sentence
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.orders.answer import ACCEPTED, HELD, REFUSED

_MOST_TO_LOOK_AT = 8


def summary_paper(data: PackData, shortages: Shortages) -> Summary:
    """Return the page that the lead reads first."""
    accepted, held, refused = (data.with_state(each) for each in (ACCEPTED, HELD, REFUSED))
    cables = sum(len(data.pieces.get(view.id, [])) for view in accepted)
    sales = sum(
        (Decimal(view.answer.price.line_price) for view in accepted if view.answer.price),
        Decimal(0),
    )
    currency = next((view.answer.price.currency for view in accepted if view.answer.price), "")
    bench = None if data.bench_plan is None else data.bench_plan.content
    late = [] if bench is None else [each for each in bench["times"] if each["late_s"]]
    cut = "nothing to cut" if data.cut_plan is None else cut_sentence(data.cut_plan.content)
    change_over = 0 if bench is None else round(bench["change_over_s"] / 60)
    return Summary(
        mark=data.mark("DAY"),
        sentence=(
            f"{counted(len(data.lines), 'line')} in: {len(accepted)} accepted, {len(held)} held, "
            f"{len(refused)} refused; {counted(cables, 'cable')} to make"
        ),
        lead=(f"From {data.file_name}." if data.file_name else "Entered at the desk."),
        numbers=(
            SevenNumber(name="accepted", value=str(len(accepted)), note=counted(cables, "cable")),
            SevenNumber(name="held", value=str(len(held)), note="one question each first"),
            SevenNumber(name="refused", value=str(len(refused)), note="each with its reason"),
            SevenNumber(name="accepted value", value=with_unit(f"{sales:,.2f}", currency), note=""),
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
        look_first=_look_first(data, shortages)[:_MOST_TO_LOOK_AT],
    )


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
    if data.cut_plan is not None:
        looks += [
            LookFirst(level="caution", sentence=warning, where="cut list")
            for warning in data.cut_plan.content["warnings"]
        ]
    looks += [
        LookFirst(
            level="caution",
            sentence=f"{view.label}: {view.answer.questions[0]}",
            where="answers",
        )
        for view in data.with_state(HELD)
    ]
    looks += [
        LookFirst(
            level="caution",
            sentence=f"{each.item} {each.colour}".strip() + f": {each.missing} missing.",
            where="shortages",
        )
        for each in shortages.shortages
    ]
    if not looks:
        looks.append(
            LookFirst(level="good", sentence="Nothing stands in the way of this day.", where="")
        )
    return tuple(looks)
