"""The order of the batches of one line: least change-over and least lateness, weighed.

The line is taken as one pair of hands: a batch occupies it for its change-over and its work at
the stations that need the qualification, may not begin before it is ready and cut, and is
finished when the stations behind have had it too. Up to ``EXACT_UP_TO`` batches the best order of
this model is found by dynamic programming over the sets already made; of each set and last batch
every pair (weight so far, time) that no other pair beats is kept, since a later but cheaper start
may still win. Above, moves and swaps are tried until none helps.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from reelwright.core.bench.change_over import change_over
from reelwright.core.bench.plan import LineOrder
from reelwright.core.bench.problem import Batch, BenchProblem, Line, Station

EXACT_UP_TO = 12
MOVES = 20_000

Order = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Label:
    weight: float
    time_s: int
    order: Order


@dataclass(frozen=True)
class OneBench:
    """The model of one line: batches sorted by id, so that a shuffled problem is the same."""

    problem: BenchProblem
    line: Line
    batches: tuple[Batch, ...]

    @cached_property
    def change_over_s(self) -> tuple[tuple[int, ...], ...]:
        """``[before][after]``; the last row is how the line stands now."""
        settings = [*(batch.setting for batch in self.batches), self.line.setting_now]
        return tuple(
            tuple(
                change_over(self.problem.rule, before, batch).duration_s for batch in self.batches
            )
            for before in settings
        )

    @cached_property
    def spans_s(self) -> tuple[tuple[int, int, int], ...]:
        """Seconds (in front of, at, behind) the stations that need the qualification."""
        return tuple(_span(batch, self.problem.qualified_stations) for batch in self.batches)

    @cached_property
    def _figures(self) -> tuple[tuple[int, int, int | None, float], ...]:
        """Of each batch: the earliest it reaches the line, seconds there, hour there, weight."""
        late = self.problem.weights.late
        return tuple(
            (
                batch.ready_s + front,
                mine,
                None if batch.due_s is None else batch.due_s - behind,
                late * batch.late_weight,
            )
            for batch, (front, mine, behind) in zip(self.batches, self.spans_s, strict=True)
        )

    def after(self, weight: float, time_s: int, before: int, at: int) -> tuple[float, int]:
        """Return (weight, time) after one more batch."""
        earliest, mine, due, late_weight = self._figures[at]
        change = self.change_over_s[before][at]
        time_s = max(time_s + change, earliest) + mine
        weight += self.problem.weights.change_over * change
        if due is not None and time_s > due:
            weight += late_weight * (time_s - due)
        return weight, time_s

    def step(self, label: _Label, at: int) -> _Label:
        """Return the label after one more batch."""
        before = label.order[-1] if label.order else len(self.batches)
        weight, time = self.after(label.weight, label.time_s, before, at)
        return _Label(weight, time, (*label.order, at))

    @cached_property
    def begin(self) -> _Label:
        """Nothing made yet: the line begins with the first of its people."""
        stations = self.problem.qualified_stations or frozenset(Station)
        starts = [person.from_s for person in self.problem.people if person.stations & stations]
        return _Label(0.0, min(starts, default=0), ())

    def weigh(self, order: Order) -> tuple[float, int, Order]:
        """Return what an order weighs, when it ends, and itself: to be compared."""
        weight, time, before = 0.0, self.begin.time_s, len(self.batches)
        for at in order:
            weight, time = self.after(weight, time, before, at)
            before = at
        return (weight, time, order)


def order_line(problem: BenchProblem, line: Line, batches: tuple[Batch, ...]) -> LineOrder:
    """Return the order of the batches of one line. ``proven`` holds for the model above."""
    bench = OneBench(problem, line, tuple(sorted(batches, key=lambda batch: batch.id)))
    exact = len(batches) <= EXACT_UP_TO
    order = _exact(bench) if exact else _local(bench)
    made = [bench.batches[at] for at in order]
    before = line.setting_now
    changes = []
    for batch in made:
        changes.append(change_over(problem.rule, before, batch))
        before = batch.setting
    return LineOrder(
        line=line.name,
        batch_ids=tuple(batch.id for batch in made),
        change_overs=tuple(changes),
        proven=exact,
    )


def _span(batch: Batch, qualified: frozenset[Station]) -> tuple[int, int, int]:
    inside = [at for at, work in enumerate(batch.work) if work.station in qualified]
    first, last = (inside[0], inside[-1]) if inside else (0, len(batch.work) - 1)
    seconds = [work.duration_s for work in batch.work]
    return sum(seconds[:first]), sum(seconds[first : last + 1]), sum(seconds[last + 1 :])


def _exact(bench: OneBench) -> Order:
    count = len(bench.batches)
    if not count:
        return ()
    # A quick order first: what weighs more than it already need not be followed.
    # The hair on top is for sums of the same figures in another order.
    quick = bench.weigh(_local(bench))
    limit = quick[0] * (1 + 1e-9)
    labels: dict[tuple[int, int], list[_Label]] = {
        (1 << at, at): [bench.step(bench.begin, at)] for at in range(count)
    }
    for _ in range(count - 1):
        longer: dict[tuple[int, int], list[_Label]] = {}
        for (made, _last), known in labels.items():
            for at in range(count):
                if made & 1 << at:
                    continue
                kept = longer.setdefault((made | 1 << at, at), [])
                for label in known:
                    longer_label = bench.step(label, at)
                    if longer_label.weight <= limit:
                        _keep(kept, longer_label)
        labels = longer
    ends = [
        (label.weight, label.time_s, label.order) for known in labels.values() for label in known
    ]
    return min([*ends, quick])[2]


def _keep(kept: list[_Label], label: _Label) -> None:
    """Add a label unless one as cheap and as early is there; drop those it makes useless."""
    for other in kept:
        if other.weight <= label.weight and other.time_s <= label.time_s:
            same = (other.weight, other.time_s) == (label.weight, label.time_s)
            if not same or other.order <= label.order:
                return
    kept[:] = [
        other for other in kept if other.weight < label.weight or other.time_s < label.time_s
    ]
    kept.append(label)


def _local(bench: OneBench) -> Order:
    everyone = range(len(bench.batches))
    by_due = sorted(
        everyone,
        key=lambda at: (
            bench.batches[at].due_s is None,
            bench.batches[at].due_s or 0,
            bench.batches[at].id,
        ),
    )
    starts = (_nearest(bench), _inserted(bench, by_due))
    return min(_improve(bench, start) for start in starts)[2]


def _nearest(bench: OneBench) -> Order:
    order: list[int] = []
    left = set(range(len(bench.batches)))
    before = len(bench.batches)
    while left:
        before = min(left, key=lambda at: (bench.change_over_s[before][at], at))
        order.append(before)
        left.remove(before)
    return tuple(order)


def _inserted(bench: OneBench, queue: list[int]) -> Order:
    """Put one batch after the other where it weighs least in the order so far."""
    order: Order = ()
    for at in queue:
        places = ((*order[:place], at, *order[place:]) for place in range(len(order) + 1))
        order = min(bench.weigh(longer) for longer in places)[2]
    return order


def _improve(bench: OneBench, order: Order) -> tuple[float, int, Order]:
    """Take the first move or swap that helps, again and again; at most ``MOVES`` are tried."""
    best = bench.weigh(order)
    left = MOVES
    improved = True
    while improved and left > 0:
        improved = False
        for moved in _neighbours(best[2]):
            left -= 1
            weighed = bench.weigh(moved)
            if weighed < best:
                best, improved = weighed, True
                break
            if left <= 0:
                break
    return best


def _neighbours(order: Order) -> Iterator[Order]:
    for source in range(len(order)):
        rest = order[:source] + order[source + 1 :]
        for target in range(len(order)):
            if target != source:
                yield (*rest[:target], order[source], *rest[target:])
            if target > source:
                swapped = list(order)
                swapped[source], swapped[target] = order[target], order[source]
                yield tuple(swapped)
