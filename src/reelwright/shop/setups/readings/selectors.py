"""Every read of readings: values come out, never rows."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from reelwright.shop.setups.models import BenchFile, EndDimension, Pull
from reelwright.shop.setups.states import FailureMode, Part


@dataclass(frozen=True, kw_only=True)
class EndRead:
    """What every reading says of its end. ``withdrawn``: by whom and why, empty while it counts.

    ``file``: the file it came from, empty where it was typed.
    """

    number: int
    end: str
    on: dt.date
    by: str
    instrument: str
    out_of_calibration: bool
    cavity: str
    tool_count: int | None
    remark: str
    file: str
    withdrawn: str


@dataclass(frozen=True, kw_only=True)
class PullRead(EndRead):
    """One pull in N and where the end gave way."""

    force_n: float
    failure_mode: FailureMode


@dataclass(frozen=True, kw_only=True)
class DimensionRead(EndRead):
    """One dimension in mm: a crimp's height across flats, a stripped length, a pin's length.

    ``before_mm``: the pin's length before its crimp, None of anything but its growth.
    """

    part: Part
    length_mm: Decimal
    before_mm: Decimal | None

    @property
    def result_mm(self) -> Decimal:
        """What the reading says in mm: by how much a pin grew, else the length itself."""
        return self.length_mm if self.before_mm is None else self.length_mm - self.before_mm


@dataclass(frozen=True, kw_only=True)
class FileRead:
    """One file that was read in."""

    name: str
    read_on: dt.date
    read_by: str
    new_rows: int
    known_rows: int


def pulls_read(revision_id: int) -> tuple[PullRead, ...]:
    """Return every pull of a revision, newest first, also those that were taken back."""
    rows = Pull.objects.filter(revision_id=revision_id).select_related(
        "pulled_by", "instrument", "cavity", "file", "withdrawal__withdrawn_by"
    )
    return tuple(
        PullRead(
            force_n=row.force_n,
            failure_mode=FailureMode(row.failure_mode),
            on=row.pulled_on,
            by=row.pulled_by.display_name,
            **_shared(row),
        )
        for row in rows.order_by("-pulled_on", "-pk")
    )


def dimensions_read(
    revision_id: int, *, parts: Sequence[Part] = tuple(Part)
) -> tuple[DimensionRead, ...]:
    """Return every dimension of a revision, newest first, also those that were taken back."""
    rows = EndDimension.objects.filter(
        revision_id=revision_id, part__in=[part.value for part in parts]
    ).select_related("measured_by", "instrument", "cavity", "file", "withdrawal__withdrawn_by")
    return tuple(
        DimensionRead(
            part=Part(row.part),
            length_mm=row.length_mm,
            before_mm=row.before_mm,
            on=row.measured_on,
            by=row.measured_by.display_name,
            **_shared(row),
        )
        for row in rows.order_by("-measured_on", "-pk")
    )


def lengths_mm(revision_id: int, part: Part) -> tuple[float, ...]:
    """Return the lengths of one part that count, in mm, oldest first."""
    rows = EndDimension.objects.filter(
        revision_id=revision_id, part=part.value, withdrawal__isnull=True
    )
    found = rows.order_by("measured_on", "pk").values_list("length_mm", flat=True)
    return tuple(float(length_mm) for length_mm in found)


def next_end(revision_id: int, *, part: Part | None, on: dt.date) -> int:
    """Return the number that the next end of the day gets, counted on from the highest."""
    rows: Iterable[str]
    if part is None:
        rows = Pull.objects.filter(revision_id=revision_id, pulled_on=on).values_list(
            "end", flat=True
        )
    else:
        rows = EndDimension.objects.filter(
            revision_id=revision_id, part=part.value, measured_on=on
        ).values_list("end", flat=True)
    numbers = [int(end) for end in rows if end.isascii() and end.isdigit() and len(end) < 7]
    return max(numbers, default=0) + 1


def file_read(digest: str) -> FileRead | None:
    """Return the file of these bytes where it was read in, else None."""
    row = BenchFile.objects.filter(digest=digest).select_related("read_by").first()
    return None if row is None else _file(row)


def files_read(*, most: int) -> tuple[FileRead, ...]:
    """Return the files that were read in, newest first, ``most`` of them."""
    rows = BenchFile.objects.select_related("read_by").order_by("-pk")[:most]
    return tuple(_file(row) for row in rows)


def _file(row: BenchFile) -> FileRead:
    return FileRead(
        name=row.name,
        read_on=row.read_on,
        read_by=row.read_by.display_name,
        new_rows=row.new_rows,
        known_rows=row.known_rows,
    )


def _shared(row: Pull | EndDimension) -> dict[str, Any]:
    withdrawal = getattr(row, "withdrawal", None)
    return {
        "number": row.pk,
        "end": row.end,
        "instrument": "" if row.instrument is None else row.instrument.code,
        "out_of_calibration": row.out_of_calibration,
        "cavity": "" if row.cavity is None else row.cavity.code,
        "tool_count": row.tool_count,
        "remark": row.remark,
        "file": "" if row.file is None else row.file.name,
        "withdrawn": (
            ""
            if withdrawal is None
            else f"{withdrawal.withdrawn_by.display_name}: {withdrawal.reason}"
        ),
    }
