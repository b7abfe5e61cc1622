"""Who makes what, when: pieces in batches by set-up -> one bench plan."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.bench.plan import BenchPlan
from reelwright.core.bench.problem import (
    Batch,
    BenchProblem,
    ChangeOverRule,
    Line,
    Person,
    Station,
    StationSetting,
    StationWork,
    Weights,
)
from reelwright.core.bench.search import sequence
from reelwright.core.parts.cable import Family
from reelwright.core.pricing.price import minutes_each
from reelwright.shop.setups.selectors import FamilyTimes
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.to_core import setting_value

# The working day of the house, and when the courier must find today's parcels packed.
DAY_STARTS = dt.time(8, 0)
DAY_ENDS = dt.time(16, 30)
COURIER_AT = dt.time(16, 0)

# A second late weighs as much as ten of change-over (common practice, no published source).
_WEIGHTS = Weights(change_over=1.0, late=10.0)
_QUALIFIED_AT = frozenset({Station.PRESS, Station.SOLDER, Station.WELD, Station.POLISH})


@dataclass(frozen=True, kw_only=True)
class BenchPiece:
    """One piece to be made: its line, set-ups, cable family, length, day and hour it is due."""

    code: str
    line_label: str
    family: Family
    end_a: SetUpSheet
    end_b: SetUpSheet
    finished_mm: int
    due: dt.date | None


@dataclass(frozen=True, kw_only=True)
class BatchContent:
    """What one batch of the plan holds: its pieces and the lines they belong to."""

    id: str
    set_ups: tuple[str, ...]
    piece_codes: tuple[str, ...]
    line_labels: tuple[str, ...]
    due: dt.date | None


@dataclass(frozen=True, kw_only=True)
class SoFar:
    """Where the benches stand when a day is planned again, taken to have gone by the last plan.

    ``left_s``: work left by (batch, station), 0 where it is done; ``pieces``: what the last plan
    held, by batch; ``mounted``: how each line of machines stands.
    """

    left_s: Mapping[tuple[str, str], int]
    pieces: Mapping[str, frozenset[str]]
    mounted: Mapping[str, StationSetting]


NOTHING_YET = SoFar(left_s={}, pieces={}, mounted={})


@dataclass(frozen=True, kw_only=True)
class Benches:
    """The plan with what its batches hold."""

    plan: BenchPlan
    batches: tuple[BatchContent, ...]


def seconds(at: dt.time) -> int:
    """Return an hour of the day in seconds from the start of work."""
    return (at.hour - DAY_STARTS.hour) * 3600 + (at.minute - DAY_STARTS.minute) * 60


def plan_benches(
    *,
    pieces: Iterable[BenchPiece],
    people: tuple[Person, ...],
    qualified: Mapping[str, frozenset[str]],
    family_times: Mapping[Family, FamilyTimes],
    change_over: ChangeOverRule,
    today: dt.date,
    start_s: int,
    so_far: SoFar,
) -> Benches:
    """Return the plan of the day.

    One batch for each pair of set-ups. ``qualified``: who may make ends by a method (its text);
    ``start_s``: seconds into the day from which there is still time; a batch that ``so_far`` has
    finished is left out.
    """
    groups: dict[tuple[str, str], list[BenchPiece]] = {}
    for piece in pieces:
        key = tuple(sorted((piece.end_a.name, piece.end_b.name)))
        groups.setdefault((key[0], key[1]), []).append(piece)
    batches, contents = [], []
    for names, members in sorted(groups.items()):
        batch_id = names[0] if names[0] == names[1] else f"{names[0]} + {names[1]}"
        work = _work(batch_id, members, family_times, so_far)
        if not work:
            continue
        dues = [piece.due for piece in members if piece.due is not None]
        due = min(dues, default=None)
        contents.append(
            BatchContent(
                id=batch_id,
                set_ups=tuple(dict.fromkeys(names)),
                piece_codes=tuple(piece.code for piece in members),
                line_labels=tuple(dict.fromkeys(piece.line_label for piece in members)),
                due=due,
            )
        )
        batches.append(
            Batch(
                id=batch_id,
                line=line_of(members[0].family),
                setting=setting_value((members[0].end_a, members[0].end_b)),
                piece_ids=tuple(piece.code for piece in members),
                work=work,
                ready_s=start_s,
                due_s=seconds(COURIER_AT) if due is not None and due <= today else None,
                late_weight=1.0,
                qualified=_who(members[0], qualified),
            )
        )
    lines = sorted({batch.line for batch in batches})
    problem = BenchProblem(
        batches=tuple(batches),
        people=tuple(
            Person(
                id=person.id,
                stations=person.stations,
                from_s=max(person.from_s, start_s),
                until_s=person.until_s,
            )
            for person in people
        ),
        lines=tuple(Line(name=name, setting_now=so_far.mounted.get(name)) for name in lines),
        rule=change_over,
        weights=_WEIGHTS,
        qualified_stations=_QUALIFIED_AT,
    )
    return Benches(plan=sequence(problem), batches=tuple(contents))


def line_of(family: Family) -> str:
    """Return the line of machines that makes cables of a family."""
    return {
        Family.COAX: "coax",
        Family.PAIR: "solder",
        Family.LOUDSPEAKER: "weld",
        Family.DATA: "data",
        Family.FIBRE: "fibre",
    }[family]


def _who(piece: BenchPiece, qualified: Mapping[str, frozenset[str]]) -> frozenset[str]:
    return qualified.get(str(piece.end_a.method), frozenset()) & qualified.get(
        str(piece.end_b.method), frozenset()
    )


def _work(
    batch_id: str,
    members: Iterable[BenchPiece],
    family_times: Mapping[Family, FamilyTimes],
    so_far: SoFar,
) -> tuple[StationWork, ...]:
    known = so_far.pieces.get(batch_id, frozenset())
    seconds_at: dict[Station, float] = {}
    for piece in members:
        if piece.code in known:
            continue
        times = family_times[piece.family]
        length_m = Decimal(piece.finished_mm) / 1000
        for row in minutes_each(times.each, length_m=length_m):
            station = Station(row.station)
            seconds_at[station] = seconds_at.get(station, 0.0) + float(row.minutes) * 60
    for (batch, name), left_s in so_far.left_s.items():
        if batch == batch_id and left_s:
            station = Station(name)
            seconds_at[station] = seconds_at.get(station, 0.0) + left_s
    return tuple(
        StationWork(station=station, duration_s=max(1, round(seconds_at[station])))
        for station in sorted(seconds_at, key=lambda each: each.rank)
    )
