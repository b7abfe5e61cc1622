"""Every read of the runs of a day."""

import datetime as dt
from dataclasses import dataclass
from typing import Any

from reelwright.core.errors import UnknownCode
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.words import counted
from reelwright.shop.day.models import DayRun
from reelwright.shop.day.pack.cut_list import cut_sentence
from reelwright.shop.orders.models import LineState
from reelwright.shop.orders.selectors import LineView, lines_by_id
from reelwright.shop.work.selectors import pieces_of_lines


@dataclass(frozen=True, kw_only=True)
class RunView:
    """One run as a list shows it."""

    id: int
    on: dt.date
    number: int
    file_name: str
    lines: int


@dataclass(frozen=True, kw_only=True)
class RunSummary:
    """What a run came to, in numbers and in sentences."""

    on: dt.date
    number: int
    accepted: int
    held: int
    refused: int
    cables: int
    cuts: str
    change_over_min: int
    late: int

    @property
    def sentences(self) -> tuple[str, ...]:
        """The run in plain words."""
        lines = self.accepted + self.held + self.refused
        told = [
            f"{self.on:%A} {self.on.day} {self.on:%B %Y}, run {self.number}: "
            f"{counted(lines, 'line')}, {self.accepted} accepted, {self.held} held, "
            f"{self.refused} refused."
        ]
        if self.cables:
            told.append(
                f"{counted(self.cables, 'cable')} to make. {self.cuts}; "
                f"{self.change_over_min}{NARROW_SPACE}min of change-over; "
                + ("all in time." if not self.late else f"{self.late} late.")
            )
        return tuple(told)

    def to_json(self) -> dict[str, Any]:
        """Return plain values."""
        return {
            "working_day": self.on.isoformat(),
            "run": self.number,
            "accepted": self.accepted,
            "held": self.held,
            "refused": self.refused,
            "cables": self.cables,
            "change_over_min": self.change_over_min,
            "late": self.late,
        }


def runs(*, on: dt.date) -> list[RunView]:
    """Return the runs of a day in their order."""
    return [
        RunView(
            id=row.pk,
            on=row.on,
            number=row.number,
            file_name=row.file_name,
            lines=row.lines.count(),
        )
        for row in DayRun.objects.filter(on=on).order_by("number")
    ]


def run_lines(run_id: int) -> list[LineView]:
    """Return the lines of a run. Raises UnknownCode."""
    return lines_by_id(_run(run_id).lines.values_list("pk", flat=True))


def run_of_line(line_id: int) -> int | None:
    """Return the newest run that holds a line, or None."""
    row = DayRun.objects.filter(lines=line_id).order_by("-on", "-number").first()
    return None if row is None else row.pk


def _run(run_id: int) -> DayRun:
    row = DayRun.objects.filter(pk=run_id).select_related("cut_plan", "bench_plan").first()
    if row is None:
        raise UnknownCode(kind="run of the day", code=str(run_id))
    return row


def run_summary(run_id: int) -> RunSummary:
    """Return what a run came to. Raises UnknownCode."""
    row = _run(run_id)
    lines = run_lines(run_id)
    pieces = pieces_of_lines(view.id for view in lines)
    bench = None if row.bench_plan is None else row.bench_plan.content
    return RunSummary(
        on=row.on,
        number=row.number,
        accepted=sum(1 for view in lines if view.state == LineState.ACCEPTED),
        held=sum(1 for view in lines if view.state == LineState.HELD),
        refused=sum(1 for view in lines if view.state == LineState.REFUSED),
        cables=sum(len(each) for each in pieces.values()),
        cuts="nothing to cut" if row.cut_plan is None else cut_sentence(row.cut_plan.content),
        change_over_min=0 if bench is None else round(bench["change_over_s"] / 60),
        late=0 if bench is None else sum(1 for times in bench["times"] if times["late_s"]),
    )
