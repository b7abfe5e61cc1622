"""The run of a line judged by its signal: the core's values in, rows for people out."""

from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.connector import Connector
from reelwright.core.parts.length import Length
from reelwright.core.physics.prediction import ExpectedValue, predict
from reelwright.core.signals.judgement import Judgement
from reelwright.core.signals.run import Run
from reelwright.core.signals.signal import Signal
from reelwright.core.verdicts import Check
from reelwright.shop.day.words import SPACE, digits_of
from reelwright.shop.orders.answer import CheckRow, ExpectedRow

ROOM_CELSIUS = 20.0
# A −0 tolerance and a wheel corrected against a tape keep a cut to about this (common practice).
_LENGTH_SPREAD = 0.001
_LENGTH_SPREAD_M = 0.003

_PREFIXES = ((1e-12, "p"), (1e-9, "n"), (1e-6, "µ"), (1e-3, "m"), (1.0, ""), (1e3, "k"), (1e6, "M"))


def finished_length(length_m: float) -> Length:
    """Return a finished length with what cutting leaves uncertain of it."""
    return Length(
        mean_m=length_m,
        standard_uncertainty_m=(_LENGTH_SPREAD_M**2 + (_LENGTH_SPREAD * length_m) ** 2) ** 0.5,
    )


def judge_run(
    *,
    signal: Signal,
    cable: Cable,
    lot: Lot | None,
    ends: tuple[Connector, Connector],
    length_m: float,
) -> Judgement:
    """Return the verdict on one run at room temperature, without adapters inside it."""
    run = Run(
        cable=cable,
        lot=lot,
        length=finished_length(length_m),
        temperature_celsius=ROOM_CELSIUS,
        connectors=ends,
        adapters=0,
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


def shown(value: float | str | None, unit: str) -> str:
    """Return a value with its unit, in the prefix that suits it; an empty text where unknown."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    scaled, prefixed = in_prefix(value, unit)
    return f"{digits_of(scaled)}{SPACE}{prefixed}" if prefixed else digits_of(scaled)


def in_prefix(value: float, unit: str) -> tuple[float, str]:
    """Return (value, unit) scaled so that the number lies near 1 to 1000; dB and % stay."""
    if unit not in ("F", "s", "Ω", "V", "A", "H", "Hz") or value == 0:
        return value, unit
    factor, prefix = _PREFIXES[0]
    for candidate, name in _PREFIXES:
        if abs(value) >= candidate:
            factor, prefix = candidate, name
    return value / factor, f"{prefix}{unit}"
