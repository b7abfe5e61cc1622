"""What was measured of a set-up's ends: part by part, and every reading."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from reelwright.core.ends.dies.cavity_choice import Window
from reelwright.core.ends.dies.crimp_height import (
    HeightsJudged,
    HeightTarget,
    judge_heights,
    judge_laid_down,
    measured_target,
)
from reelwright.core.ends.fit.grip import pin_window_m
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.show import show_in, show_length_mm
from reelwright.core.verdicts import Check
from reelwright.shop.setups.readings.given import laid_down, laid_down_told, parts_of
from reelwright.shop.setups.readings.selectors import (
    DimensionRead,
    EndRead,
    PullRead,
    dimensions_read,
    pulls_read,
)
from reelwright.shop.setups.rules import CONFIDENCE, COVERAGE
from reelwright.shop.setups.sheet import SetUpSheet, told_mm
from reelwright.shop.setups.shown.strips import CutFigures, StripsShown, cut_figures, strips_shown
from reelwright.shop.setups.states import Part, State
from reelwright.shop.tools.uncertainty import shared_uncertainty


@dataclass(frozen=True, kw_only=True)
class PartRow:
    """One part: what is laid down, and what the readings that count come to.

    ``figures``: the capability of a cut of the strip, None where none is computed.
    """

    name: str
    laid_down: str
    count: int
    mean: str
    spread: str
    least: str
    most: str
    outside: int | None
    figures: CutFigures | None


@dataclass(frozen=True, kw_only=True)
class ReadingRow:
    """One reading as it was made."""

    sent: str
    on: object
    end: str
    name: str
    value: str
    by: str
    tools: str
    cautions: str
    withdrawn: str
    counts: bool


@dataclass(frozen=True, kw_only=True)
class HeightsShown:
    """The section of heights and strips. ``gauge``: how far the height gauge may be off.

    ``pins``: the end has a pin that is crimped, whose growth can be measured.
    """

    laid_down: Check | None
    rows: tuple[PartRow, ...]
    checks: tuple[Check, ...]
    gauge: str
    gauge_known: bool
    strips: StripsShown
    readings: tuple[ReadingRow, ...]
    measurable: bool
    pins: bool


def heights_shown(sheet: SetUpSheet, cable: Cable, connector: Connector) -> HeightsShown:
    """Return what is shown of a set-up's readings, and of the height that it lays down."""
    dimensions = dimensions_read(sheet.revision_id)
    counting = [each for each in dimensions if not each.withdrawn]
    strips, heights = strips_shown(sheet, counting), _of(counting, Part.PIN_CRIMP)
    gauge = shared_uncertainty(
        ((each.instrument, each.on) for each in heights), unit="mm", what="height gauge"
    )
    judged = _judged(sheet, heights, gauge.value)
    figures = dict(strips.figures)
    if judged is not None and judged.capability is not None:
        figures[Part.PIN_CRIMP.value] = cut_figures(judged.capability)
    rows = [_part_row(sheet, part, counting, figures.get(part.value)) for part in Part]
    everything: list[EndRead] = [*pulls_read(sheet.revision_id), *dimensions]
    return HeightsShown(
        laid_down=_laid_down(sheet, cable, connector),
        rows=tuple(row for row in rows if row is not None),
        checks=() if judged is None else judged.checks,
        gauge=gauge.told,
        gauge_known=gauge.value is not None,
        strips=strips,
        readings=tuple(_reading_row(each) for each in everything),
        measurable=sheet.state not in (State.DRAFTED, State.WITHDRAWN),
        pins=Part.PIN_GROWTH in parts_of(sheet.numbers),
    )


def _laid_down(sheet: SetUpSheet, cable: Cable, connector: Connector) -> Check | None:
    """Whether the pin stands all that the tolerance lets pass; None where it is not known."""
    target, ends = _target(sheet), pin_window_m(cable, connector)
    if target is None or ends is None:
        return None
    return judge_laid_down(target, Window(smallest_m=ends[0], largest_m=ends[1]))


def _target(sheet: SetUpSheet) -> HeightTarget | None:
    found = laid_down(sheet.numbers, Part.PIN_CRIMP)
    if found is None or found[1] is None or not found[1]:
        return None
    return measured_target(target_m=float(found[0]) / 1e3, tolerance_m=float(found[1]) / 1e3)


def _part_row(
    sheet: SetUpSheet, part: Part, made: Sequence[DimensionRead], figures: CutFigures | None
) -> PartRow | None:
    lengths_mm = [float(each.result_mm) for each in _of(made, part)]
    if not lengths_mm:
        return None
    found = laid_down(sheet.numbers, part)
    outside = None
    if found is not None and found[1] is not None:
        target, tolerance = found[0], found[1]
        outside = sum(abs(each.length_mm - target) > tolerance for each in _of(made, part))
    return PartRow(
        name=part.value,
        laid_down=laid_down_told(sheet.numbers, part),
        count=len(lengths_mm),
        mean=show_length_mm(fmean(lengths_mm), decimals=3),
        spread=show_length_mm(stdev(lengths_mm), decimals=3) if len(lengths_mm) > 1 else "",
        least=show_length_mm(min(lengths_mm), decimals=3),
        most=show_length_mm(max(lengths_mm), decimals=3),
        outside=outside,
        figures=figures,
    )


def _of(made: Sequence[DimensionRead], part: Part) -> list[DimensionRead]:
    return [each for each in made if each.part is part]


def _judged(
    sheet: SetUpSheet, heights: Sequence[DimensionRead], uncertainty_mm: float | None
) -> HeightsJudged | None:
    """What the heights of the pin's crimp say; None where none is laid down or measured."""
    target = _target(sheet)
    if target is None or not heights:
        return None
    return judge_heights(
        [float(each.length_mm) / 1e3 for each in heights],
        target,
        gauge_uncertainty_m=None if uncertainty_mm is None else uncertainty_mm / 1e3,
        coverage=COVERAGE,
        confidence=CONFIDENCE,
    )


def _reading_row(each: EndRead) -> ReadingRow:
    if isinstance(each, PullRead):
        sent, name = f"pull-{each.number}", f"pull: {each.failure_mode}"
        value = show_in(each.force_n, "N", decimals=1)
    else:
        assert isinstance(each, DimensionRead)
        sent, name = f"dimension-{each.number}", each.part.value
        value = show_length_mm(float(each.result_mm), decimals=3)
        if each.before_mm is not None:
            name += f", {told_mm(each.before_mm)} to {told_mm(each.length_mm)}"
    tools = [each.instrument, each.cavity]
    if each.tool_count is not None:
        tools.append(f"{each.tool_count:,} crimps")
    cautions = []
    if not each.instrument:
        cautions.append("instrument not named")
    if each.out_of_calibration:
        cautions.append(f"{each.instrument} was past its calibration")
    return ReadingRow(
        sent=sent,
        on=each.on,
        end=each.end,
        name=name,
        value=value,
        by=each.by,
        tools=", ".join(tool for tool in tools if tool),
        cautions="; ".join([*cautions, *filter(None, [each.remark, each.file])]),
        withdrawn=each.withdrawn,
        counts=not each.withdrawn,
    )
