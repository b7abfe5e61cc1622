"""The day: orders in, answers, pieces, cut plan, bench plan, travellers, in one transaction.

A run that is killed leaves nothing behind; the same file again finds what was recorded. The
transaction is held while the engines work (seconds), so that two runs never share a reel.
"""

import dataclasses
import datetime as dt
import hashlib
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import Max

from reelwright.core.cutting.plan import Unserved
from reelwright.core.errors import ShopRuleBroken
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import show_chance
from reelwright.core.quantities.words import counted
from reelwright.core.statistics.yields import chance_of_at_least
from reelwright.shop.day.benches import record_benches
from reelwright.shop.day.cut_content import cut_plan_content, cut_wishes
from reelwright.shop.day.cuts_planned import Cutting, WantedPiece, plan_cuts
from reelwright.shop.day.judging.judge import judge_line
from reelwright.shop.day.judging.stock_answer import answer_for_stock
from reelwright.shop.day.load import load_habits, load_shelf
from reelwright.shop.day.models import DayRun
from reelwright.shop.day.progress import Progress, silent
from reelwright.shop.day.rush import with_rush
from reelwright.shop.day.shelf import Shelf
from reelwright.shop.day.waiting import waiting_pieces
from reelwright.shop.orders.answer import ACCEPTED, LineAnswer, Make
from reelwright.shop.orders.columns import ReadLine, read_orders
from reelwright.shop.orders.services import (
    line_digest,
    line_take,
    lines_sort_out,
)
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.transactions import write_transaction
from reelwright.shop.work.models import CutPlan
from reelwright.shop.work.selectors import newest_bench_plan, pieces_not_cut
from reelwright.shop.work.services import (
    PieceWish,
    cut_plan_record,
    pieces_start,
    traveller_issue,
)


@dataclass(frozen=True, kw_only=True)
class RunResult:
    """What a run came to: its row, and whether it was recorded now or stood there already."""

    run_id: int
    recorded_now: bool


@dataclass(frozen=True, kw_only=True)
class _Judged:
    """A new line with its answer, under the name it has until it is recorded."""

    key: str
    line: ReadLine
    answer: LineAnswer


def day_run(
    *,
    by: Person,
    name: str,
    content: bytes,
    on: dt.date,
    now: dt.time | None = None,
    progress: Progress = silent,
) -> RunResult:
    """Take in an order file, answer every line, plan the cuts and the benches.

    ``now``: the hour from which benches still have time; the start of the day where not given.
    Raises InputFaults with everything wrong with the file, or with an order that is known with
    other content; nothing is written then. Raises ShopRuleBroken ``not_allowed``.
    """
    require_may(by, Action.TAKE_ORDERS)
    require_may(by, Action.PLAN)
    progress("reading the orders", 0.0)
    vocabulary = load_shelf(on).vocabulary
    lines = read_orders(name=name, content=content, vocabulary=vocabulary)
    digest = _digest(lines)
    with write_transaction():
        found = DayRun.objects.filter(digest=digest).first()
        if found is not None:
            return RunResult(run_id=found.pk, recorded_now=False)
        shelf = load_shelf(on)
        sorted_out = lines_sort_out(file=name, lines=lines)
        judged = _judge(sorted_out.new, shelf, progress)
        run = _new_run(on=on, name=name, digest=digest)
        run.lines.add(*(row.pk for row in sorted_out.known))
        _plan_and_record(
            by=by, run=run, judged=judged, shelf=shelf, on=on, now=now, progress=progress
        )
    progress("recorded", 1.0)
    return RunResult(run_id=run.pk, recorded_now=True)


def line_accept(
    *, by: Person, line: ReadLine, on: dt.date, now: dt.time | None = None
) -> RunResult:
    """Take in one line typed at the desk, as ``day_run`` takes in a file of one line."""
    require_may(by, Action.TAKE_ORDERS)
    require_may(by, Action.PLAN)
    with write_transaction():
        digest = _digest([line])
        found = DayRun.objects.filter(digest=digest).first()
        if found is not None:
            return RunResult(run_id=found.pk, recorded_now=False)
        shelf = load_shelf(on)
        sorted_out = lines_sort_out(file="order desk", lines=[line])
        run = _new_run(on=on, name="", digest=digest)
        run.lines.add(*(row.pk for row in sorted_out.known))
        judged = _judge(sorted_out.new, shelf, silent)
        _plan_and_record(
            by=by, run=run, judged=judged, shelf=shelf, on=on, now=now, progress=silent
        )
    return RunResult(run_id=run.pk, recorded_now=True)


def plan_again(*, by: Person, on: dt.date, now: dt.time | None = None) -> RunResult:
    """Plan everything that is not cut yet anew, without new orders: the rack may have changed.

    Raises ShopRuleBroken ``not_allowed``, ``nothing_to_plan``.
    """
    require_may(by, Action.PLAN)
    with write_transaction():
        waiting = pieces_not_cut()
        if not waiting:
            raise ShopRuleBroken(
                "nothing_to_plan",
                "Every piece is cut, so there is nothing to plan. Take in orders first.",
            )
        run = _new_run(on=on, name="", digest="")
        run.lines.add(*{piece.line_id for piece in waiting})
        _plan_and_record(
            by=by, run=run, judged=[], shelf=load_shelf(on), on=on, now=now, progress=silent
        )
    return RunResult(run_id=run.pk, recorded_now=True)


def _digest(lines: Iterable[ReadLine]) -> str:
    parts = sorted(
        f"{line.customer.casefold()}\x1f{line.order}\x1f{line.number}\x1f{line_digest(line.cells)}"
        for line in lines
    )
    return hashlib.sha256("\x1e".join(parts).encode()).hexdigest()


def _judge(lines: Iterable[ReadLine], shelf: Shelf, progress: Progress) -> list[_Judged]:
    habits = load_habits()
    ordered = sorted(lines, key=lambda line: (line.order, line.customer.casefold(), line.number))
    seen: Counter[tuple[str, int]] = Counter()
    judged = []
    for count, line in enumerate(ordered, start=1):
        progress(f"judging line {count} of {len(ordered)}", 0.05 + 0.45 * count / len(ordered))
        judged.append(
            _Judged(
                key=_key(line, seen),
                line=line,
                answer=judge_line(line, shelf, habits),
            )
        )
    return judged


def _key(line: ReadLine, seen: Counter[tuple[str, int]]) -> str:
    """Two customers may number their orders alike; people read this in warnings of the plan.

    Never the customer's name: plans and pieces stand on when a customer is erased.
    """
    seen[line.order, line.number] += 1
    number = seen[line.order, line.number]
    label = f"{line.order}/{line.number}"
    return label if number == 1 else f"{label} ({number})"


def _new_run(*, on: dt.date, name: str, digest: str) -> DayRun:
    last = DayRun.objects.filter(on=on).aggregate(last=Max("number"))["last"] or 0
    return DayRun.objects.create(on=on, number=last + 1, file_name=name[-200:], digest=digest)


def _plan_and_record(
    *,
    by: Person,
    run: DayRun,
    judged: list[_Judged],
    shelf: Shelf,
    on: dt.date,
    now: dt.time | None,
    progress: Progress,
) -> None:
    progress("choosing reels", 0.55)
    wanted = [piece for each in judged for piece in _pieces_of(each)]
    waiting = waiting_pieces()
    fixed = frozenset(piece.key for piece in waiting)
    cutting = plan_cuts(wanted=[*waiting, *wanted], fixed=fixed, shelf=shelf)
    plan_now = newest_bench_plan(on=on)
    settled = [
        dataclasses.replace(
            each,
            answer=with_rush(
                answer=_after_stock(each, cutting, shelf),
                due=each.line.due,
                plan=None if plan_now is None else plan_now.content,
                shelf=shelf,
                now=now,
            ),
        )
        for each in judged
    ]
    progress("recording the answers", 0.75)
    line_ids = {
        each.key: line_take(by=by, line=each.line, answer=each.answer, on=on).pk for each in settled
    }
    run.lines.add(*line_ids.values())
    codes = _start_pieces(by=by, settled=settled, line_ids=line_ids, cutting=cutting, on=on)
    if codes or waiting:
        run.cut_plan = _record_cuts(by=by, on=on, cutting=cutting, codes=codes, shelf=shelf)
    _issue_travellers(by=by, settled=settled, line_ids=line_ids, shelf=shelf, on=on)
    progress("ordering the benches", 0.85)
    run.bench_plan = record_benches(by=by, shelf=shelf, on=on, now=now)
    run.save(update_fields=["cut_plan", "bench_plan"])


def _pieces_of(judged: _Judged) -> Iterable[WantedPiece]:
    make = judged.answer.make
    if judged.answer.state != ACCEPTED or make is None:
        return
    for number in range(1, make.quantity + make.spare_wanted + 1):
        spare = number > make.quantity
        yield WantedPiece(
            id=f"{judged.key} #{number:04d}",
            key=judged.key,
            cable=make.cable,
            colour=make.colours[(number - 1) % len(make.colours)],
            cut_length_mm=make.cut_length_mm,
            due=judged.line.due,
            spare=spare,
            group=None if spare else _group(judged.key, make, number),
            group_hard=make.lot_group_hard,
        )


def _group(key: str, make: Make, number: int) -> str | None:
    if make.lot_group_size is None:
        return None
    return f"{key} group {(number - 1) // make.lot_group_size + 1}"


def _after_stock(judged: _Judged, cutting: Cutting, shelf: Shelf) -> LineAnswer:
    """The answer once the rack has spoken."""
    missing = cutting.given_up.get(judged.key)
    if missing:
        return answer_for_stock(
            line=judged.line, answer=judged.answer, missing=missing, shelf=shelf
        )
    mixed = tuple(
        warning.sentence
        for warning in cutting.plan.warnings
        if warning.sentence.startswith(f"{judged.key} group ")
    )
    answer = dataclasses.replace(judged.answer, notes=(*judged.answer.notes, *mixed))
    if answer.state != ACCEPTED or answer.make is None or not answer.make.spare_wanted:
        return answer
    spares_missing = _count_of(cutting.unserved, judged.key)
    started = answer.make.quantity + answer.make.spare_wanted - spares_missing
    chance = chance_of_at_least(
        good=answer.make.quantity,
        starts=started,
        yield_fraction=float(shelf.pricing.first_pass_yield),
    )
    note = (
        f"{counted(started, 'piece')} are started for {answer.make.quantity}: "
        f"{show_chance(chance)} sure that enough come out good"
    )
    if spares_missing:
        note += (
            f"; {answer.make.quantity + answer.make.spare_wanted} would make it 95{NARROW_SPACE}%, "
            "but the rack gives no more"
        )
    return dataclasses.replace(answer, notes=(*answer.notes, note + "."))


def _count_of(unserved: Iterable[Unserved], key: str) -> int:
    return sum(1 for each in unserved if each.piece_id.startswith(f"{key} #"))


def _start_pieces(
    *,
    by: Person,
    settled: Iterable[_Judged],
    line_ids: Mapping[str, int],
    cutting: Cutting,
    on: dt.date,
) -> dict[str, str]:
    """Enter the pieces the plan serves; return their codes by the plan's names for them."""
    placed = {place.piece_id for place in cutting.plan.placements}
    names: list[str] = []
    wishes: list[PieceWish] = []
    for each in settled:
        make = each.answer.make
        if each.answer.state != ACCEPTED or make is None:
            continue
        label = piece_label(each.line)
        number = 0
        for piece in _pieces_of(each):
            if piece.id not in placed:
                continue
            number += 1
            names.append(piece.id)
            wishes.append(
                PieceWish(
                    line_id=line_ids[each.key],
                    number=number,
                    code=f"{label}-{number}",
                    cable_code=piece.cable,
                    colour=piece.colour,
                    lot_group=piece.group or "",
                    spare=piece.spare,
                    finished_mm=make.finished_mm,
                    cut_length_mm=make.cut_length_mm,
                    wheel_setting_mm=make.wheel_setting_mm,
                    cut_uncertainty_mm=make.cut_uncertainty_mm,
                )
            )
    rows = pieces_start(by=by, wishes=wishes, on=on)
    return {name: row.code for name, row in zip(names, rows, strict=True)}


def piece_label(line: ReadLine) -> str:
    """Return what the codes of a line's pieces begin with: O-04, or O-04.2 from line 2 on."""
    return line.order if line.number == 1 else f"{line.order}.{line.number}"


def _record_cuts(
    *, by: Person, on: dt.date, cutting: Cutting, codes: Mapping[str, str], shelf: Shelf
) -> CutPlan:
    return cut_plan_record(
        by=by,
        on=on,
        content=cut_plan_content(cutting=cutting, codes=codes, shelf=shelf),
        cuts=cut_wishes(cutting.plan, codes),
    )


def _issue_travellers(
    *,
    by: Person,
    settled: Iterable[_Judged],
    line_ids: Mapping[str, int],
    shelf: Shelf,
    on: dt.date,
) -> None:
    for each in settled:
        make = each.answer.make
        if each.answer.state != ACCEPTED or make is None:
            continue
        traveller_issue(
            by=by,
            line_id=line_ids[each.key],
            revision_a=shelf.set_ups[make.cable, make.connector_a].revision_id,
            revision_b=shelf.set_ups[make.cable, make.connector_b].revision_id,
            on=on,
        )
