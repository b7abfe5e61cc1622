"""How far instruments may be off: recorded here, and read here for readings made with them."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.core.quantities.show import show_plain
from reelwright.core.quantities.words import counted, listed
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.tools.models import Instrument, InstrumentUncertainty, UncertaintyUnit
from reelwright.shop.transactions import write_transaction

LONGEST_SOURCE = 200
_FINEST = Decimal("0.00001")
_LARGEST = {UncertaintyUnit.MILLIMETRE: Decimal(1), UncertaintyUnit.NEWTON: Decimal(1000)}
"""Above these it is a slip of the unit, or of the decimal point."""


@dataclass(frozen=True, kw_only=True)
class KnownUncertainty:
    """Standard uncertainty of one reading in ``unit``, who says so and since when."""

    value: float
    unit: str
    source: str
    on: dt.date

    @property
    def told(self) -> str:
        """The figure with its unit."""
        return show_plain(self.value, self.unit)


@dataclass(frozen=True, kw_only=True)
class InstrumentNow:
    """One instrument; ``holds``: its calibration holds today; ``uncertainty`` None: unrecorded."""

    code: str
    name: str
    measures: str
    calibration_due: dt.date | None
    holds: bool
    uncertainty: KnownUncertainty | None


@dataclass(frozen=True, kw_only=True)
class SharedUncertainty:
    """What holds for many readings: the largest of their instruments, and from where it comes.

    ``value`` is None where it is not known of every reading, and ``told`` says what is missing.
    """

    value: float | None
    told: str


@write_transaction()
def instrument_uncertainty_record(
    *,
    by: Person,
    code: str,
    standard_uncertainty: Decimal,
    unit: str,
    source: str,
    on: dt.date,
    today: dt.date,
) -> None:
    """Record the standard uncertainty of one reading of an instrument, known from that day on.

    Raises ShopRuleBroken ``not_allowed``, ``unit_unknown``, ``size_bad``, ``source_missing``,
    ``day_bad``; UnknownCode of the instrument.
    """
    require_may(by, Action.KEEP_TOOLS)
    instrument = Instrument.objects.filter(code=code).first()
    if instrument is None:
        raise UnknownCode(kind="instrument", code=code)
    if unit not in UncertaintyUnit.values:
        raise ShopRuleBroken(
            "unit_unknown", f"{unit!r} is no unit of it. Accepted: mm, N.", field="unit"
        )
    most = _LARGEST[UncertaintyUnit(unit)]
    if not standard_uncertainty.is_finite() or not _FINEST <= standard_uncertainty <= most:
        raise ShopRuleBroken(
            "size_bad",
            f"{standard_uncertainty} is no standard uncertainty. Accepted: "
            f"{_FINEST} to {most}\u202f{unit}.",
            field="uncertainty",
        )
    told = source.strip()[:LONGEST_SOURCE]
    if not told:
        raise ShopRuleBroken(
            "source_missing",
            "Say where it comes from: a certificate with its number, the shop's own check.",
            field="source",
        )
    if on > today:
        raise ShopRuleBroken(
            "day_bad", f"{on.isoformat()} has not come yet: the day of the certificate.", field="on"
        )
    InstrumentUncertainty.objects.create(
        instrument=instrument,
        standard_uncertainty=standard_uncertainty.quantize(_FINEST),
        unit=unit,
        source=told,
        by=by,
        on=on,
    )


def instruments_now(*, on: dt.date) -> tuple[InstrumentNow, ...]:
    """Return every instrument by code, with what is known of it on that day."""
    known = _known()
    return tuple(
        InstrumentNow(
            code=row.code,
            name=row.name,
            measures=row.measures,
            calibration_due=row.calibration_due,
            holds=row.calibration_due is not None and row.calibration_due >= on,
            uncertainty=_of(known.get(row.code, ()), on),
        )
        for row in Instrument.objects.order_by("code")
    )


def shared_uncertainty(
    readings: Iterable[tuple[str, dt.date]], *, unit: str, what: str
) -> SharedUncertainty:
    """Return what holds for readings made with the instrument of that code on that day.

    ``what``: what was made with them, such as "pull tester", for the words.
    """
    made, known = list(readings), _known()
    unnamed = sum(not code for code, _ in made)
    found: dict[str, KnownUncertainty] = {}
    missing: set[str] = set()
    for code, on in made:
        if not code:
            continue
        held = _of([each for each in known.get(code, ()) if each.unit == unit], on)
        if held is None:
            missing.add(code)
        elif code not in found or found[code].value < held.value:
            found[code] = held
    if not made or unnamed or missing:
        why = []
        if missing:
            why.append(f"none stands for {listed(sorted(missing))} in {unit} on those days")
        if unnamed:
            names = "names" if unnamed == 1 else "name"
            why.append(f"{counted(unnamed, 'reading')} of {len(made)} {names} no instrument")
        told = f"The {what}'s uncertainty is not recorded"
        return SharedUncertainty(value=None, told=f"{told}: {'; '.join(why)}." if why else "")
    told = "; ".join(
        f"{found[code].told} of {code} ({found[code].source})" for code in sorted(found)
    )
    return SharedUncertainty(
        value=max(each.value for each in found.values()),
        told=f"Standard uncertainty of the {what}: {told}.",
    )


def _known() -> dict[str, list[KnownUncertainty]]:
    """Return all that is recorded, by code, oldest first."""
    found: dict[str, list[KnownUncertainty]] = {}
    rows = InstrumentUncertainty.objects.select_related("instrument").order_by("on", "pk")
    for row in rows:
        found.setdefault(row.instrument.code, []).append(
            KnownUncertainty(
                value=float(row.standard_uncertainty), unit=row.unit, source=row.source, on=row.on
            )
        )
    return found


def _of(known: Iterable[KnownUncertainty], on: dt.date) -> KnownUncertainty | None:
    return next((each for each in reversed(list(known)) if each.on <= on), None)
