"""What stands in the records beside readings that are about to be written."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from reelwright.core.quantities.show import show_in, show_length_mm
from reelwright.shop.setups.models import EndDimension, Pull
from reelwright.shop.setups.readings.given import Given, Problem
from reelwright.shop.setups.selectors import sheets_of
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import Part
from reelwright.shop.tools.models import Cavity, CavityUse, Instrument

Reading = Pull | EndDimension

CLOSED_IN = {
    Part.PIN_CRIMP: CavityUse.PIN,
    Part.PIN_GROWTH: CavityUse.PIN,
    Part.FERRULE_CRIMP: CavityUse.FERRULE,
}
"""Which kind of cavity closed what is read; none closes a stripped length."""

_SAME_N = 0.005
"""Forces nearer than this, in N, are one reading: testers show a tenth."""


@dataclass(frozen=True, kw_only=True)
class Books:
    """Sheets by revision, tools by code, and what was read of the same ends, oldest first."""

    sheets: Mapping[int, SetUpSheet]
    instruments: Mapping[str, Instrument]
    cavities: Mapping[str, Cavity]
    readings: Mapping[tuple[object, ...], list[Reading]]

    def stands(self, given: Given) -> bool:
        """Return whether exactly this was read of this end before."""
        return any(self._same(given, row) for row in self.readings.get(given.key, ()))

    def was_taken_back(self, given: Given) -> bool:
        """Return whether it was taken back, and nothing since says the same."""
        rows = [row for row in self.readings.get(given.key, ()) if self._same(given, row)]
        return bool(rows) and all(_withdrawn(row) for row in rows)

    def contradicted(self, given: Given) -> Problem | None:
        """Return what the records say of this end instead, None where they say nothing."""
        standing = [row for row in self.readings.get(given.key, ()) if not _withdrawn(row)]
        if not standing:
            return None
        sheet = self.sheets[given.revision_id]
        return Problem(
            field="end",
            value=given.end,
            problem=f"end {given.end} of {sheet.name} stands in the records of "
            f"{given.on.isoformat()} with {self._told(standing[-1])}; now {self._told(given)}",
            accepted="the same again, another end for what is new, or the wrong one taken back "
            "first",
        )

    def twice(self, given: Given, first: Given) -> Problem:
        """Return what is wrong where one end stands twice among the same readings."""
        place = "above" if first.row is None else f"in row {first.row}"
        return Problem(
            field="end",
            value=given.end,
            problem=f"end {given.end} stands {place} already with {self._told(first)}",
            accepted="each end of a day once for what is measured of it",
        )

    def problems_of(self, given: Given) -> Iterator[Problem]:
        """Yield what is wrong with the tools of a reading."""
        if given.instrument and self.instrument(given) is None:
            yield Problem(
                field="instrument",
                value=given.instrument,
                problem="no instrument is called so",
                accepted=", ".join(row.code for row in self.instruments.values())
                or "nothing: none is entered yet",
            )
        cavity = self.cavity(given)
        if given.cavity and cavity is None:
            yield Problem(
                field="cavity",
                value=given.cavity,
                problem="no cavity is called so",
                accepted=", ".join(row.code for row in self.cavities.values())
                or "nothing: none is entered yet",
            )
        if cavity is not None and given.part in CLOSED_IN:
            use = CLOSED_IN[given.part]
            if cavity.use != use:
                yield Problem(
                    field="cavity",
                    value=given.cavity,
                    problem=f"this cavity closes on a {cavity.use}",
                    accepted=f"the cavity that closed the {use}",
                )
        if given.tool_count is not None and given.tool_count < 0:
            yield Problem(
                field="closings",
                value=str(given.tool_count),
                problem="below zero",
                accepted="a whole number, 0 or more, or nothing",
            )

    def instrument(self, given: Given) -> Instrument | None:
        """Return the instrument that was named."""
        return self.instruments.get(given.instrument.casefold())

    def cavity(self, given: Given) -> Cavity | None:
        """Return the cavity that was named."""
        return self.cavities.get(given.cavity.casefold())

    def _same(self, given: Given, row: Reading) -> bool:
        """What was not said is not compared."""
        if isinstance(row, Pull):
            assert given.force_n is not None
            same = abs(row.force_n - given.force_n) < _SAME_N
            same = same and row.failure_mode == given.failure_mode
            person = row.pulled_by_id
        else:
            same = row.length_mm == given.length_mm and row.before_mm == given.before_mm
            person = row.measured_by_id
        instrument, cavity = self.instrument(given), self.cavity(given)
        return (
            same
            and given.person_id in (None, person)
            and (not given.instrument or (instrument and instrument.pk) == row.instrument_id)
            and (not given.cavity or (cavity and cavity.pk) == row.cavity_id)
            and given.tool_count in (None, row.tool_count)
            and given.remark in ("", row.remark)
        )

    def _told(self, reading: Given | Reading) -> str:
        if isinstance(reading, EndDimension) or (
            isinstance(reading, Given) and reading.part is not None
        ):
            after = show_length_mm(float(reading.length_mm or 0), decimals=3)
            if reading.before_mm is None:
                return after
            return f"{show_length_mm(float(reading.before_mm), decimals=3)} to {after}"
        return f"{show_in(reading.force_n or 0.0, 'N', decimals=1)}, {reading.failure_mode}"


def _withdrawn(row: Reading) -> bool:
    return hasattr(row, "withdrawal")


def books_of(given: Iterable[Given]) -> Books:
    """Return what stands beside the readings; five queries, however many they are."""
    wanted = list(given)
    revisions = {each.revision_id for each in wanted}
    days = {each.on for each in wanted}
    readings: dict[tuple[object, ...], list[Reading]] = {}
    for pull in _pulls(revisions, days):
        pulled = (pull.revision_id, None, pull.pulled_on, pull.end.casefold())
        readings.setdefault(pulled, []).append(pull)
    for row in _dimensions(revisions, days):
        measured = (row.revision_id, Part(row.part), row.measured_on, row.end.casefold())
        readings.setdefault(measured, []).append(row)
    return Books(
        sheets=sheets_of(revisions),
        instruments={row.code.casefold(): row for row in Instrument.objects.order_by("code")},
        cavities={row.code.casefold(): row for row in Cavity.objects.order_by("code")},
        readings=readings,
    )


def _pulls(revisions: Iterable[int], days: Iterable[dt.date]) -> Iterable[Pull]:
    found: Iterable[Pull] = (
        Pull.objects.filter(revision_id__in=revisions, pulled_on__in=days)
        .select_related("withdrawal")
        .order_by("pk")
    )
    return found


def _dimensions(revisions: Iterable[int], days: Iterable[dt.date]) -> Iterable[EndDimension]:
    found: Iterable[EndDimension] = (
        EndDimension.objects.filter(revision_id__in=revisions, measured_on__in=days)
        .select_related("withdrawal")
        .order_by("pk")
    )
    return found
