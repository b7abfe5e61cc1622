"""Cavities, gaugings and presses as they are typed: every field read, all faults told together."""

import datetime as dt
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import TypeVar

from reelwright.core.ends.dies.press import ForceKnown
from reelwright.core.errors import Fault, InputFaults, UnreadableQuantity
from reelwright.core.quantities.date_text import read_date
from reelwright.core.quantities.dimension_text import read_dimension
from reelwright.core.quantities.force_text import read_force
from reelwright.core.quantities.reading import Reading
from reelwright.core.trials.number_text import read_plain_number
from reelwright.shop.people.models import Person
from reelwright.shop.tools.gauging import cavity_gauge_record
from reelwright.shop.tools.machines import PressFacts, press_change, press_enter
from reelwright.shop.tools.models import CavityUse
from reelwright.shop.tools.services import cavity_add

_T = TypeVar("_T")
_FORM = "the form"
_WIDEST_M, _WIDEST_BORE_M = 0.05, 1.0
"""No hexagon of a cable's end is as wide, no cylinder of a bench press has such a bore: what is
longer is a slip of the unit."""
MOST_FORCE_N = 1e6
"""A hundred tonnes stand at no bench: more is a slip of the unit. Common practice."""
_MOST_KPA, _MOST_RATIO = 100_000.0, 1_000.0
_KPA_IN = {"kPa": 1.0, "bar": 100.0, "MPa": 1000.0}
_MOST_CLOSINGS = 99_999_999
_NOTHING = "nothing stands here"


def gauging_typed(*, by: Person, code: str, fields: Mapping[str, str], today: dt.date) -> None:
    """Record a gauging as typed: ``width``, ``spread``, ``instrument``, ``on`` (empty: today).

    Bare sizes are in mm. Raises InputFaults with every fault, else as ``cavity_gauge_record``.
    """
    form = _Form(fields)
    width_mm = form.size_mm("width", _WIDEST_M)
    spread_mm = form.size_mm("spread", _WIDEST_M)
    on = form.day("on", today)
    if not form.text("instrument"):
        form.fault("instrument", "none is chosen", "the instrument that it was read on")
    form.raise_faults()
    assert width_mm is not None
    assert spread_mm is not None
    assert on is not None
    cavity_gauge_record(
        by=by,
        code=code,
        across_flats_mm=width_mm,
        uncertainty_mm=spread_mm,
        instrument_code=form.text("instrument"),
        on=on,
    )


def cavity_typed(*, by: Person, fields: Mapping[str, str]) -> None:
    """Enter a cavity as typed: ``code``, ``use``, ``width``, ``closings``, ``service``, ``note``.

    Raises InputFaults with every fault, else as ``cavity_add``.
    """
    form = _Form(fields)
    width_mm = form.size_mm("width", _WIDEST_M)
    closings, service = form.count("closings", 0), form.count("service", 1)
    if form.text("use") not in CavityUse.values:
        form.fault("use", "none is chosen", ", ".join(CavityUse.values))
    if not form.text("code"):
        form.fault("code", _NOTHING, "what is engraved on the die, or a name of yours")
    if len(form.text("note")) > 200:
        form.fault("note", "that is too long", "at most 200 characters")
    form.raise_faults()
    assert width_mm is not None
    assert closings is not None
    assert service is not None
    cavity_add(
        by=by,
        code=form.text("code"),
        use=form.text("use"),
        across_flats_mm=width_mm.quantize(Decimal("0.001")),
        closings=closings,
        service_after=service,
        note=form.text("note"),
    )


def press_typed(*, by: Person, fields: Mapping[str, str]) -> None:
    """Enter a press as typed: ``code``, ``station`` and the facts of ``press_change_typed``.

    Raises InputFaults with every fault, else as ``press_enter``.
    """
    form = _Form(fields)
    facts = _facts(form)
    for name in ("code", "station"):
        if not form.text(name):
            form.fault(name, _NOTHING, "a code" if name == "code" else "where it stands")
    form.raise_faults()
    assert facts is not None
    press_enter(by=by, code=form.text("code"), station_code=form.text("station"), facts=facts)


def press_change_typed(*, by: Person, code: str, fields: Mapping[str, str], today: dt.date) -> None:
    """Change a press as typed: ``known``, then ``force``, or ``bore``, ``pressure``, ``ratio`` and
    ``efficiency`` in percent; ``in_use`` yes or empty; ``reason``.

    Raises InputFaults with every fault, else as ``press_change``.
    """
    form = _Form(fields)
    facts = _facts(form)
    if not 1 <= len(form.text("reason")) <= 200:
        form.fault("reason", "it is not said why", "1 to 200 characters")
    form.raise_faults()
    assert facts is not None
    press_change(
        by=by,
        code=code,
        facts=facts,
        in_use=form.text("in_use") == "yes",
        reason=form.text("reason"),
        on=today,
    )


def _facts(form: "_Form") -> PressFacts | None:
    known = form.text("known")
    if known not in list(ForceKnown):
        form.fault("known", "none is chosen", ", ".join(ForceKnown))
        return None
    cylinder = ("bore", "pressure", "ratio", "efficiency")
    computed = known == ForceKnown.COMPUTED
    for name in ("force",) if computed else cylinder:
        if form.text(name):
            form.fault(
                name,
                f"this is given, and the force is {known}",
                "nothing here, or another choice of how the force is known",
            )
    if not computed:
        force_n = form.read("force", read_force)
        if force_n is not None and force_n > MOST_FORCE_N:
            form.fault("force", "no bench press has that", "up to 1000\u202fkN")
        return PressFacts(known=ForceKnown(known), force_n=force_n)
    bore_mm = form.size_mm("bore", _WIDEST_BORE_M)
    efficiency_percent = form.number("efficiency", "%", 100.0)
    return PressFacts(
        known=ForceKnown.COMPUTED,
        bore_mm=None if bore_mm is None else float(bore_mm),
        pressure_kpa=form.pressure_kpa("pressure"),
        ratio=form.number("ratio", "", _MOST_RATIO),
        efficiency=None if efficiency_percent is None else efficiency_percent / 100,
    )


class _Form:
    def __init__(self, fields: Mapping[str, str]) -> None:
        self._fields = fields
        self._faults: list[Fault] = []

    def text(self, name: str) -> str:
        return self._fields.get(name, "").strip()

    def fault(self, name: str, problem: str, accepted: str) -> None:
        self._faults.append(
            Fault(
                file=_FORM,
                row=None,
                field=name,
                value=self.text(name) or None,
                problem=problem,
                accepted=accepted,
            )
        )

    def raise_faults(self) -> None:
        if self._faults:
            raise InputFaults(self._faults)

    def read(self, name: str, reader: Callable[[str], Reading[_T]]) -> _T | None:
        typed = self.text(name)
        try:
            reading = reader(typed)
        except UnreadableQuantity as error:
            problem = f"“{typed}” is not a {error.quantity}" if typed else _NOTHING
            self.fault(name, problem, error.accepted)
            return None
        if reading.value is None:
            self.fault(name, reading.question or "unclear", "one that reads in one way only")
        return reading.value

    def size_mm(self, name: str, at_most_m: float) -> Decimal | None:
        """A bare number is in mm, as every gauge of the bench shows it."""
        typed = self.text(name)
        bare = bool(typed) and all(letter.isdigit() or letter in ".," for letter in typed)
        value_m = self.read(
            name,
            lambda text: read_dimension(f"{text} mm" if bare else text, at_most_m=at_most_m),
        )
        # A tenth of a micrometre is finer than any gauge, and all that the table keeps.
        size_mm = None if value_m is None else Decimal(repr(round(value_m * 1e3, 4)))
        if size_mm is not None and not 0 < size_mm <= Decimal(repr(at_most_m * 1e3)):
            self.fault(
                name,
                f"“{typed}” cannot be",
                f"above 0 to {at_most_m * 1e3:g}\u202fmm",
            )
            return None
        return size_mm

    def number(self, name: str, unit: str, most: float) -> float | None:
        typed = self.text(name)
        accepted = f"above 0 to {most:g}" + (f"\u202f{unit}" if unit else "")
        if not typed:
            self.fault(name, _NOTHING, accepted)
            return None
        try:
            value = read_plain_number(typed, unit=unit)
        except UnreadableQuantity as error:
            self.fault(name, f"“{typed}” is not a {error.quantity}", error.accepted)
            return None
        if not 0 < value <= most:
            self.fault(name, f"“{typed}” cannot be", accepted)
            return None
        return value

    def pressure_kpa(self, name: str) -> float | None:
        typed = self.text(name)
        accepted = "a pressure over the atmosphere with its unit, such as 6 bar or 600 kPa"
        unit = next((each for each in _KPA_IN if typed.endswith(each)), None)
        if unit is None:
            self.fault(name, f"“{typed}” has no unit" if typed else _NOTHING, accepted)
            return None
        try:
            value = read_plain_number(typed.removesuffix(unit)) * _KPA_IN[unit]
        except UnreadableQuantity:
            self.fault(name, f"“{typed}” is not a pressure", accepted)
            return None
        if not 0 < value <= _MOST_KPA:
            self.fault(name, f"“{typed}” cannot be", f"above 0 to {_MOST_KPA / 1e3:g}\u202fMPa")
            return None
        return value

    def count(self, name: str, least: int) -> int | None:
        typed = self.text(name)
        whole = typed.isascii() and typed.isdigit() and len(typed) <= len(str(_MOST_CLOSINGS))
        if not whole or int(typed) < least:
            self.fault(
                name,
                f"“{typed}” is no count" if typed else _NOTHING,
                f"a whole number, {least} to {_MOST_CLOSINGS}",
            )
            return None
        return int(typed)

    def day(self, name: str, today: dt.date) -> dt.date | None:
        if not self.text(name):
            return today
        day = self.read(name, read_date)
        if day is not None and day > today:
            self.fault(name, "this day is still to come", f"up to {today:%Y-%m-%d}")
            return None
        return day
