"""The run of a line judged by its signal: the core's values in, rows for people out."""

import math

from reelwright.core.ends.strip.cut_length import (
    COMMON_FIXED_UNCERTAINTY_MM,
    COMMON_RELATIVE_UNCERTAINTY,
)
from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.length import Length
from reelwright.core.physics.prediction import ExpectedValue, predict
from reelwright.core.quantities.show_scaled import show_quantity
from reelwright.core.signals.judgement import Judgement, PhysicalReach
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.core.verdicts import Check
from reelwright.shop.orders.answer import CheckRow, ExpectedRow, PossibleRow

ROOM_CELSIUS = 20.0


def finished_length(length_m: float) -> Length:
    """Return a finished length with what cutting leaves uncertain of it."""
    return Length(
        mean_m=length_m,
        standard_uncertainty_m=math.hypot(
            COMMON_FIXED_UNCERTAINTY_MM / 1000, COMMON_RELATIVE_UNCERTAINTY * length_m
        ),
    )


def judge_run(
    *,
    signal: Signal,
    cable: Cable,
    lot: Lot | None,
    ends: tuple[Connector, Connector],
    length_m: float,
    celsius: float,
    adapters: int,
) -> Judgement:
    """Return the verdict on one run at a temperature [°C], with adapters inside it."""
    run = Run(
        cable=cable,
        lot=lot,
        length=finished_length(length_m),
        temperature_celsius=celsius,
        connectors=ends,
        adapters=adapters,
    )
    return signal.judge(run)


def expect(*, cable: Cable, lot: Lot | None, length_m: float) -> list[ExpectedRow]:
    """Return what the finished cable is expected to show."""
    values = predict(
        cable=cable,
        lot=lot,
        length=finished_length(length_m),
        temperature_celsius=ROOM_CELSIUS,
    )
    return [_expected_row(value) for value in values]


def _expected_row(value: ExpectedValue) -> ExpectedRow:
    return ExpectedRow(
        name=value.name,
        value=value.value,
        standard_uncertainty=value.standard_uncertainty,
        unit=value.unit,
        source=str(value.source),
    )


def check_row(check: Check) -> CheckRow:
    """Return a check as it is shown."""
    return CheckRow(
        name=check.name,
        outcome=str(check.outcome),
        value=shown(check.value, check.unit),
        limit=shown(check.limit, check.unit),
        margin=shown(check.margin, check.unit),
        sentence=check.sentence,
        source=str(check.source),
    )


def possible_row(reach: PhysicalReach | None) -> PossibleRow | None:
    """Return how far physics would let the signal go, as it is told; None where not known."""
    if reach is None:
        return None
    return PossibleRow(length_m=reach.length_m, sentence=reach.sentence, source=str(reach.source))


def shown(value: float | str | None, unit: str) -> str:
    """Return a value with its unit, in the prefix that suits it; an empty text where unknown."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    return show_quantity(value, unit)
