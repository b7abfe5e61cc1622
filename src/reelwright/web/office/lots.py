"""One lot: what the data sheet states, what was measured of it, and which of the two counts."""

from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from reelwright.core.errors import InputFaults, ShopRuleBroken, UnknownCode
from reelwright.core.parts.cable import Cable, Lot
from reelwright.core.parts.colour import COLOUR_NAMES
from reelwright.core.physics.known_loss import KnownLoss, known_loss
from reelwright.core.physics.lot_values import Stated, known_value
from reelwright.core.quantities.show import show_number, show_percent
from reelwright.core.quantities.show_scaled import (
    show_loss_per_100m,
    show_megahertz,
)
from reelwright.shop.catalogue.selectors import cables
from reelwright.shop.people.permissions import Action, may
from reelwright.shop.people.selectors import today, workshop
from reelwright.shop.reels.measuring import lot_measure_typed, lot_measurement_withdraw
from reelwright.shop.reels.selectors import lot_measurements, reels_now
from reelwright.shop.reels.to_core import lot_values
from reelwright.web.office.stated_names import STATED_NAMES, show_stated
from reelwright.web.widgets.access import page, person_of

_TYPED_AS = {
    "relative_uncertainty": "spread",
    "frequency_hz": "frequency",
}
"""The field of the form in which a value of the service is typed, where it has another name."""
_FIELDS = ("what", "value", "spread", "readings", "frequency", "note")
# What a lot is measured for: a data sheet alone tells the capacitance to all the rest.
_MEASURED = tuple(what for what in STATED_NAMES if what is not Stated.CAPACITANCE_TO_REST)
CHOICES = (*((str(what), STATED_NAMES[what]) for what in _MEASURED), ("loss_db_per_m", "Loss"))


Readings = dict[tuple[str, float | None], str]
"""How many readings stand behind what counts, by value and frequency."""


@dataclass(frozen=True, kw_only=True)
class ValueRow:
    """One value: the book's, this lot's own of so many readings, and how far they lie apart.

    ``moved_along``: not measured itself, but carried with the losses measured beside it.
    """

    name: str
    book: str
    own: str
    spread: str
    change: str
    readings: str
    moved_along: bool


@dataclass(frozen=True, kw_only=True)
class MeasuredRow:
    """One entry as it was made; ``counts``: the newest of its kind that was not withdrawn."""

    number: int
    on: Any
    name: str
    value: str
    spread: str
    readings: int
    by: str
    note: str
    counts: bool
    withdrawn: str


@page()
@require_http_methods(["GET", "POST"])
def lot_page(request: HttpRequest, code: str) -> HttpResponse:
    """Show a lot's values, book beside own; take in what was measured."""
    known = lot_values()
    if code not in known:
        raise UnknownCode(kind="lot", code=code, near=known)
    lot = known[code]
    if request.method != "POST":
        return _show(request, lot, dict.fromkeys(_FIELDS, ""), {})
    if "withdraw" in request.POST:
        return _withdraw(request, lot)
    fields = {name: request.POST.get(name, "").strip() for name in _FIELDS}
    faults: dict[str, str] = {}
    try:
        lot_measure_typed(by=person_of(request), lot_code=code, fields=fields, on=today(workshop()))
    except InputFaults as error:
        for fault in error.faults:
            told = f"{fault.problem[:1].upper()}{fault.problem[1:]}."
            faults[fault.field or "value"] = f"{told} Accepted: {fault.accepted}."
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        field = str(error.data.get("field", "value"))
        faults[_TYPED_AS.get(field, field)] = str(error)
    if faults:
        return _show(request, lot, fields, faults, status=422)
    messages.success(request, "The measurement is entered; from now on it stands before the book.")
    return redirect("lot", code)


def _withdraw(request: HttpRequest, lot: Lot) -> HttpResponse:
    number, reason = request.POST["withdraw"], request.POST.get("reason", "").strip()
    if number not in {str(each.pk) for each in lot_measurements(lot.code)}:
        raise UnknownCode(kind="measurement", code=number)
    try:
        lot_measurement_withdraw(
            by=person_of(request), measurement=int(number), on=today(workshop()), reason=reason
        )
    except ShopRuleBroken as error:
        if error.code == "not_allowed":
            raise
        nothing = dict.fromkeys(_FIELDS, "")
        return _show(request, lot, nothing, {"reason": str(error)}, status=422)
    messages.success(request, "The measurement is withdrawn; what stood before it counts again.")
    return redirect("lot", lot.code)


def _show(
    request: HttpRequest, lot: Lot, fields: dict[str, str], faults: dict[str, str], **answer: Any
) -> HttpResponse:
    cable = cables()[lot.cable_code]
    history = lot_measurements(lot.code)
    entries = _entries(history)
    counting = zip(history, entries, strict=True)
    readings = {
        (row.what, row.frequency_hz): str(row.readings) for row, each in counting if each.counts
    }
    return render(
        request,
        "office/lot.html",
        {
            "lot": lot,
            "cable": cable,
            "colour_name": COLOUR_NAMES.get(lot.colour, lot.colour),
            "rows": [*_values(cable, lot, readings), *_losses(cable, lot, readings)],
            "history": entries,
            "reels": [r for r in reels_now() if r.lot_code == lot.code],
            "choices": CHOICES,
            "fields": fields,
            "faults": faults,
            "may_withdraw": may(person_of(request), Action.CORRECT),
            "may_measure": may(person_of(request), Action.RECEIVE),
        },
        **answer,
    )


def _values(cable: Cable, lot: Lot, readings: Readings) -> list[ValueRow]:
    rows = []
    for what in _MEASURED:
        book, own = known_value(cable, None, what), known_value(cable, lot, what)
        if own is None:
            continue
        measured = getattr(lot, what) is not None
        rows.append(
            ValueRow(
                name=STATED_NAMES[what],
                book="" if book is None else show_stated(what, book.value),
                own=show_stated(what, own.value) if measured else "",
                spread=show_percent(own.relative_uncertainty, decimals=1),
                change=_change(own.value, book.value) if measured and book else "",
                readings=readings.get((str(what), None), ""),
                moved_along=False,
            )
        )
    return rows


def _losses(cable: Cable, lot: Lot, readings: Readings) -> list[ValueRow]:
    book, own = known_loss(cable, None), known_loss(cable, lot)
    if not isinstance(own, KnownLoss):
        return []
    measured = {point.frequency_hz for point in lot.loss_points}
    frequencies = sorted({*measured, *(p.frequency_hz for p in cable.sheet.loss_points)})
    rows = []
    for frequency in frequencies:
        ours = float(own.loss_db_per_m(frequency, temperature_celsius=20.0))
        stated = (
            float(book.loss_db_per_m(frequency, temperature_celsius=20.0))
            if isinstance(book, KnownLoss)
            else None
        )
        moved = bool(measured)
        rows.append(
            ValueRow(
                name=f"Loss at {show_megahertz(frequency)}",
                book="" if stated is None else show_loss_per_100m(stated),
                own=show_loss_per_100m(ours) if moved else "",
                moved_along=moved and frequency not in measured,
                spread=show_percent(own.spread_at(frequency), decimals=1),
                change=_change(ours, stated) if moved and stated else "",
                readings=readings.get(("loss_db_per_m", frequency), ""),
            )
        )
    return rows


def _change(own: float, book: float) -> str:
    percent = show_number(100 * (own / book - 1), decimals=1)
    return f"{'' if percent.startswith('−') else '+'}{percent}\u202f%"


def _entries(newest_first: list[Any]) -> list[MeasuredRow]:
    rows, known = [], set()
    for row in newest_first:
        withdrawn = getattr(row, "withdrawal", None)
        kind = (row.what, row.frequency_hz)
        rows.append(_entry(row, withdrawn, counts=withdrawn is None and kind not in known))
        if withdrawn is None:
            known.add(kind)
    return rows


def _entry(row: Any, withdrawn: Any, *, counts: bool) -> MeasuredRow:
    if row.frequency_hz is not None:
        name = f"Loss at {show_megahertz(row.frequency_hz)}"
        value = show_loss_per_100m(row.value)
    else:
        name = STATED_NAMES[Stated(row.what)]
        value = show_stated(Stated(row.what), row.value)
    return MeasuredRow(
        number=row.pk,
        on=row.on,
        name=name,
        value=value,
        spread=show_percent(row.relative_uncertainty, decimals=1),
        readings=row.readings,
        by=row.by.display_name,
        note=row.note,
        counts=counts,
        withdrawn=(
            ""
            if withdrawn is None
            else f"Withdrawn by {withdrawn.by.display_name}: {withdrawn.reason}"
        ),
    )
