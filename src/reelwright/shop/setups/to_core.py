"""Rows of the set-ups to sheets and to values of the core."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from decimal import Decimal
from statistics import fmean, geometric_mean

from reelwright.core.bench.problem import StationSetting
from reelwright.core.ends.fit.compatibility import Dies
from reelwright.core.ends.fit.grid import PairSetUp
from reelwright.core.ends.order.assembly import LEVELLED
from reelwright.core.ends.strength.pull_rules import PullRules
from reelwright.core.ends.strip.plan import StripPlan, StripTolerances, WireStrip
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Method
from reelwright.core.trials.weld_energy import KnownGauge, are_one_gauge
from reelwright.core.verdicts import Basis, Source
from reelwright.shop.setups.models import Revision
from reelwright.shop.setups.sheet import Numbers, SetUpSheet
from reelwright.shop.setups.states import NoteKind, State

_FROM_ELSEWHERE = ("minimum_pull_source", "pull_rules", "steps", "cautions", "order")


def numbers_value(row: Revision) -> Numbers:
    """Return the numbers of a revision; its notes and operations must be prefetched."""
    notes = list(row.notes.all())
    source = None
    if row.minimum_pull_source:
        source = Source(text=row.minimum_pull_source, basis=Basis(row.minimum_pull_basis))
    return Numbers(
        minimum_pull_source=source,
        pull_rules=PullRules(row.pull_rules) if row.pull_rules else None,
        steps=tuple(note.text for note in notes if note.kind == NoteKind.STEP),
        cautions=tuple(note.text for note in notes if note.kind == NoteKind.CAUTION),
        order=tuple(each.code for each in row.operations.all()),
        **{
            field.name: getattr(row, field.name)
            for field in fields(Numbers)
            if field.name not in _FROM_ELSEWHERE
        },
    )


def sheet_value(row: Revision) -> SetUpSheet:
    """Return the sheet of a revision; set-up, cable, connector and people come with the row."""
    return SetUpSheet(
        revision_id=row.pk,
        code=row.set_up.code,
        letter=row.letter,
        cable_code=row.set_up.cable.code,
        connector_code=row.set_up.connector.code,
        method=Method(row.set_up.connector.method),
        state=State(row.state),
        drafted_on=row.drafted_on,
        drafted_by=row.drafted_by.display_name,
        approved_on=row.approved_on,
        approved_by=None if row.approved_by is None else row.approved_by.display_name,
        numbers=numbers_value(row),
    )


def strip_value(sheet: SetUpSheet) -> StripPlan | WireStrip | None:
    """Return what is stripped off an end, or None where the sheet does not say all of it."""
    return strip_laid_down(sheet.method, sheet.numbers)


def strip_laid_down(method: Method, numbers: Numbers) -> StripPlan | WireStrip | None:
    """Return the strip of an end of this method, or None where the numbers lack any of it."""
    if method in LEVELLED:
        lengths = (
            numbers.strip_conductor_mm,
            numbers.strip_dielectric_mm,
            numbers.strip_braid_mm,
            numbers.strip_conductor_tolerance_mm,
            numbers.strip_dielectric_tolerance_mm,
            numbers.strip_braid_tolerance_mm,
        )
        given = [float(length) for length in lengths if length is not None]
        if len(given) != len(lengths):
            return None
        return StripPlan(
            conductor_mm=given[0],
            dielectric_mm=given[1],
            braid_mm=given[2],
            tolerances=StripTolerances(
                conductor_mm=given[3], dielectric_mm=given[4], braid_mm=given[5]
            ),
            folds_braid=method is Method.COMPRESSION,
        )
    if numbers.cores_bared_mm is None or numbers.cores_bared_tolerance_mm is None:
        return None
    back = numbers.jacket_back_mm
    return WireStrip(
        jacket_back_mm=None if back is None else float(back),
        bared_mm=float(numbers.cores_bared_mm),
        tolerance_mm=float(numbers.cores_bared_tolerance_mm),
    )


def pair_set_ups(sheets: Iterable[SetUpSheet]) -> dict[tuple[str, str], PairSetUp]:
    """Return how far each pair's set-up has come, by (cable code, connector code)."""

    def metres(value_mm: Decimal | None) -> float | None:
        return None if value_mm is None else float(value_mm) / 1e3

    return {
        (sheet.cable_code, sheet.connector_code): PairSetUp(
            code=sheet.code,
            state=sheet.state.value,
            released=sheet.state is State.RELEASED,
            dies=Dies(
                pin_across_flats_m=metres(sheet.numbers.pin_die_mm),
                ferrule_across_flats_m=metres(sheet.numbers.ferrule_die_mm),
            ),
        )
        for sheet in sheets
    }


@dataclass(frozen=True, kw_only=True)
class WeldedGauge:
    """A gauge that the shop welds, and the released set-ups that it is known from.

    One that no released set-up welds was written down: then ``known_on`` says when, and ``note``
    of which weld.
    """

    gauge: KnownGauge
    set_ups: tuple[str, ...]
    note: str
    known_on: dt.date | None

    @property
    def name(self) -> str:
        """Where it is known from, as a drawing names it."""
        return ", ".join(self.set_ups) or self.note or "the bench"


def welded_gauges(
    sheets: Iterable[SetUpSheet], cables: Mapping[str, Cable]
) -> tuple[WeldedGauge, ...]:
    """Return the gauges of released welds by area, smallest first.

    Several set-ups of one gauge count once, at the mean of their areas and the geometric mean of
    their energies: the same conductor in another jacket tells nothing new. A cable whose area is
    not stated is left out.
    """
    welded: list[tuple[float, SetUpSheet]] = []
    for sheet in sheets:
        cable = cables.get(sheet.cable_code)
        area_m2 = None if cable is None else cable.sheet.conductor_area_m2
        if (
            sheet.state is State.RELEASED
            and sheet.method is Method.WELD
            and sheet.numbers.weld_energy_j is not None
            and area_m2 is not None
        ):
            welded.append((area_m2, sheet))
    welded.sort(key=lambda each: each[0])
    gauges: list[list[tuple[float, SetUpSheet]]] = []
    for each in welded:
        # Held against the smallest of a gauge, so that a row of near areas does not run together.
        if gauges and are_one_gauge(gauges[-1][0][0], each[0]):
            gauges[-1].append(each)
        else:
            gauges.append([each])
    return tuple(
        WeldedGauge(
            gauge=KnownGauge(
                area_m2=fmean(area_m2 for area_m2, _ in found),
                energy_j=geometric_mean(
                    sheet.numbers.weld_energy_j
                    for _, sheet in found
                    if sheet.numbers.weld_energy_j is not None
                ),
            ),
            set_ups=tuple(sorted(sheet.code for _, sheet in found)),
            note="",
            known_on=None,
        )
        for found in gauges
    )


def setting_value(sheets: Iterable[SetUpSheet]) -> StationSetting:
    """Return how the machines stand for the ends of one batch, made in one go.

    Dies are named as the benches name them, by two decimals of a millimetre: ``6.48``.
    """
    ends = sorted({sheet.revision_id: sheet for sheet in sheets}.values(), key=lambda s: s.code)
    programs = [end.numbers.program for end in ends if end.numbers.program]
    blades = sorted({end.numbers.blade_set for end in ends if end.numbers.blade_set})
    horns = sorted({end.numbers.weld_horn for end in ends if end.numbers.weld_horn})
    dies = {
        f"{die:.2f}"
        for end in ends
        for die in (end.numbers.pin_die_mm, end.numbers.ferrule_die_mm)
        if die is not None
    }
    return StationSetting(
        program="+".join(programs) or None,
        blade_set="+".join(blades) or None,
        dies=frozenset(dies),
        test_adapters=frozenset(
            end.numbers.test_adapter for end in ends if end.numbers.test_adapter
        ),
        weld_horn="+".join(horns) or None,
    )
