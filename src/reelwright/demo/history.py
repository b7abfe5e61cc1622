"""The two weeks before the demo's working day, one transaction for each day, through services."""

import dataclasses
import datetime as dt
import random
from decimal import Decimal

from reelwright.demo import tools, weld_traces, windows
from reelwright.demo.calendar import EVE, OPENING, SEED, history_days
from reelwright.demo.history_plan import ReelPlan, reel_plans
from reelwright.demo.opening import NAMES
from reelwright.demo.set_ups import SetUpEntry, set_up_entries
from reelwright.shop.bins import services as bins
from reelwright.shop.people.selectors import person
from reelwright.shop.reels import services as reels
from reelwright.shop.setups import selectors as setup_reads
from reelwright.shop.setups import services as setups
from reelwright.shop.setups.readings.given import Given
from reelwright.shop.setups.readings.services import readings_record
from reelwright.shop.setups.sheet import Numbers
from reelwright.shop.setups.states import FailureMode, Part, State
from reelwright.shop.tools import services as tool_services
from reelwright.shop.tools.gauging import cavity_gauge_record
from reelwright.shop.transactions import write_transaction

_WATCHED = "T-02"
"""The set-up that is pulled three times a day: its ferrule cavity is wearing."""

_WATCHED_CAVITY = "F-6.48"
_WATCHED_MEAN_N = 216.0
_WATCHED_FALL_N_A_DAY = 1.5
_WATCHED_SPREAD_N = 5.0

_MEAN_OVER_MINIMUM = 1.32
_RELATIVE_SPREAD = 0.04
_PULLS_TO_RELEASE = 12
_PULLS_ON_TRIAL = 5

_PULL_TESTER, _HEIGHT_GAUGE = "I-5", "I-6"
_ENDS_MEASURED = 8
_HEIGHT_SPREAD_MM = 0.0025
_STRIP_SPREAD_MM = 0.02
_STRIPS_MEASURED = 30

_PINS_MEASURED = "T-03"
"""The set-up whose first pins were measured before and after their crimp."""

_PIN_MM, _GROWTH_MM, _GROWTH_SPREAD_MM = 17.90, 0.062, 0.005
_PINS = 8

_WINDOW_INDEX = 2
"""The day, counted from the opening, on which the welder's window for SPK-14 was found."""

_REVISED_ON = OPENING + dt.timedelta(days=7)
"""When the watched set-up's connector changed, and its next revision was made."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Day:
    day: dt.date
    index: int
    chance: random.Random


def write_history() -> int:
    """Write every day that is not written yet, oldest first; return how many there were."""
    missing = [(i, day) for i, day in enumerate(history_days()) if not _is_written(day)]
    for index, day in missing:
        _write_day(index, day)
    return len(missing)


def _is_written(day: dt.date) -> bool:
    """Each day ends with pulls of the watched set-up, so their day tells that it is complete."""
    try:
        sheets = setup_reads.set_up_sheets(_WATCHED)
    except LookupError:
        return False
    return any(
        pull.pulled_on == day for sheet in sheets for pull in setup_reads.pulls(sheet.revision_id)
    )


@write_transaction()
def _write_day(index: int, day: dt.date) -> None:
    now = _Day(
        day=day,
        index=index,
        chance=random.Random(f"{SEED} pulls {day.isoformat()}"),
    )
    _check_wheel(now)
    if day == OPENING:
        _draft_all(now)
    if index == 1:
        _release_all(now)
    if day == _REVISED_ON:
        _revise_watched(now)
    if index == _WINDOW_INDEX:
        windows.write_proven(day)
    if day == EVE:
        windows.write_open(day)
        weld_traces.write_traces(day)
    for plan in reel_plans():
        _cut(now, plan)
    for cavity in tools.CAVITIES:
        tool_services.cavity_use_book(
            by=person(NAMES.coax), code=cavity.code, closings=cavity.a_day
        )
    if day == EVE:
        for gauging in tools.GAUGINGS:
            cavity_gauge_record(
                by=person(NAMES.coax),
                code=gauging.code,
                across_flats_mm=Decimal(gauging.across_flats_mm),
                uncertainty_mm=Decimal(gauging.uncertainty_mm),
                instrument_code="I-6",
                on=day,
            )
        for plan in reel_plans():
            _count(now, plan)
    _watch(now)


def _check_wheel(now: _Day) -> None:
    for check in tools.WHEEL_CHECKS:
        if EVE - dt.timedelta(days=check.days_before_eve) == now.day:
            tool_services.wheel_calibration_record(
                by=person(NAMES.lead),
                station_code="cut",
                set_mm=tools.WHEEL_SET_MM,
                delivered_mm=check.delivered_mm,
                fixed_uncertainty_mm=tools.WHEEL_FIXED_MM,
                relative_uncertainty=tools.WHEEL_RELATIVE,
                on=now.day,
            )


def _maker(entry: SetUpEntry) -> str:
    return NAMES.coax if entry.numbers.blade_set else NAMES.other


def _first_revision(entry: SetUpEntry) -> tuple[str, Numbers]:
    """The watched set-up begins one revision earlier, with the connector as it was then."""
    if entry.code != _WATCHED:
        return entry.letter, entry.numbers
    return "C", dataclasses.replace(entry.numbers, strip_dielectric_mm=Decimal("4.50"), remark="")


def _draft_all(now: _Day) -> None:
    for entry in set_up_entries():
        letter, numbers = _first_revision(entry)
        by = person(_maker(entry))
        setups.set_up_add(
            by=by,
            code=entry.code,
            cable_code=entry.cable_code,
            connector_code=entry.connector_code,
        )
        row = setups.revision_draft(
            by=by, set_up_code=entry.code, letter=letter, numbers=numbers, on=now.day
        )
        setups.revision_try(by=by, revision_id=row.pk, on=now.day)


def _release_all(now: _Day) -> None:
    for entry in set_up_entries():
        (sheet,) = setup_reads.set_up_sheets(entry.code)
        released = entry.state is State.RELEASED
        count = _PULLS_TO_RELEASE if released else _PULLS_ON_TRIAL
        _pull(now, entry, sheet.revision_id, count)
        _measure(now, entry, sheet.revision_id)
        if released:
            setups.revision_prove(by=person(NAMES.lead), revision_id=sheet.revision_id, on=now.day)
            setups.revision_release(
                by=person(NAMES.lead), revision_id=sheet.revision_id, on=now.day
            )


def _release(now: _Day, revision_id: int) -> None:
    lead = person(NAMES.lead)
    setups.revision_prove(by=lead, revision_id=revision_id, on=now.day)
    setups.revision_release(by=lead, revision_id=revision_id, on=now.day)


def _revise_watched(now: _Day) -> None:
    entry = _watched_entry()
    row = setups.revision_draft(
        by=person(NAMES.coax),
        set_up_code=entry.code,
        letter=entry.letter,
        numbers=entry.numbers,
        on=now.day,
    )
    setups.revision_try(by=person(NAMES.coax), revision_id=row.pk, on=now.day)
    _pull(now, entry, row.pk, _PULLS_TO_RELEASE)
    _measure(now, entry, row.pk)
    _release(now, row.pk)


def _watched_entry() -> SetUpEntry:
    return next(entry for entry in set_up_entries() if entry.code == _WATCHED)


def _watch(now: _Day) -> None:
    """Three pulls a day of the watched set-up's newest revision."""
    entry = _watched_entry()
    newest = setup_reads.set_up_sheets(_WATCHED)[0]
    _pull(now, entry, newest.revision_id, 3)


def _pull(now: _Day, entry: SetUpEntry, revision_id: int, count: int) -> None:
    minimum_n = entry.numbers.minimum_pull_n
    assert minimum_n is not None  # every demo set-up states one
    mean_n, spread_n = minimum_n * _MEAN_OVER_MINIMUM, minimum_n * _RELATIVE_SPREAD
    tool_count = None
    if entry.code == _WATCHED:
        mean_n = _WATCHED_MEAN_N - _WATCHED_FALL_N_A_DAY * now.index
        spread_n = _WATCHED_SPREAD_N
        cavity = next(each for each in tools.CAVITIES if each.code == _WATCHED_CAVITY)
        tool_count = cavity.closings - cavity.a_day * (len(history_days()) - 1 - now.index)
    pulls: list[tuple[float, FailureMode]] = [
        (round(now.chance.gauss(mean_n, spread_n), 1), entry.gives_way) for _ in range(count)
    ]
    setups.pulls_record(
        by=person(_maker(entry)),
        revision_id=revision_id,
        pulls_n=pulls,
        on=now.day,
        tool_count=tool_count,
        instrument_code=_PULL_TESTER,
    )


def _measure(now: _Day, entry: SetUpEntry, revision_id: int) -> None:
    """Measure the first ends of a crimped set-up: heights, stripped lengths, growth of pins."""
    numbers, chance = entry.numbers, random.Random(f"{SEED} ends {entry.code} {now.day}")
    if numbers.crimp_height_tolerance_mm is None:
        return
    cavity = next(
        each.code
        for each in tools.CAVITIES
        if each.use == tools.PIN and Decimal(each.across_flats_mm) == numbers.pin_die_mm
    )

    def measured(part: Part, target_mm: Decimal | None, spread_mm: float) -> list[Given]:
        assert target_mm is not None  # every crimped set-up of the demo lays them down
        crimp = part is Part.PIN_CRIMP
        # The height gauge shows micrometres, the rule at the stripper hundredths.
        places = 3 if crimp else 2
        count = _STRIPS_MEASURED if entry.state is State.RELEASED and not crimp else _ENDS_MEASURED
        return [
            Given(
                revision_id=revision_id,
                on=now.day,
                end=str(number),
                part=part,
                length_mm=target_mm + Decimal(f"{chance.gauss(0.0, spread_mm):.{places}f}"),
                instrument=_HEIGHT_GAUGE if crimp else "",
                cavity=cavity if crimp else "",
            )
            for number in range(1, count + 1)
        ]

    def pins() -> list[Given]:
        lengths = random.Random(f"{SEED} pins {entry.code} {now.day}")
        found = []
        for number in range(1, _PINS + 1):
            before_mm = Decimal(f"{lengths.gauss(_PIN_MM, 0.02):.3f}")
            grown_mm = Decimal(f"{lengths.gauss(_GROWTH_MM, _GROWTH_SPREAD_MM):.3f}")
            found.append(
                Given(
                    revision_id=revision_id,
                    on=now.day,
                    end=str(number),
                    part=Part.PIN_GROWTH,
                    before_mm=before_mm,
                    length_mm=before_mm + grown_mm,
                    instrument=_HEIGHT_GAUGE,
                    cavity=cavity,
                )
            )
        return found

    readings_record(
        by=person(_maker(entry)),
        given=[
            *(pins() if entry.code == _PINS_MEASURED else ()),
            *measured(Part.PIN_CRIMP, numbers.crimp_height_mm, _HEIGHT_SPREAD_MM),
            *measured(Part.CONDUCTOR, numbers.strip_conductor_mm, _STRIP_SPREAD_MM),
            *measured(Part.DIELECTRIC, numbers.strip_dielectric_mm, _STRIP_SPREAD_MM),
            *measured(Part.BRAID, numbers.strip_braid_mm, _STRIP_SPREAD_MM),
        ],
        on=now.day,
    )


_USUAL_CONNECTOR = {
    "PHO-61": "RCA-60",
    "AUD-BP": "XLR3F",
    "DAT-6": "8P8C",
    "POF-22": "F05",
    "SPK-14x2W": "TAILS",
}


def _cut(now: _Day, plan: ReelPlan) -> None:
    today = [cut for cut in plan.cuts if cut.day == now.day]
    for cut in today:
        reels.reel_cut_book(
            by=person(NAMES.coax),
            reel_code=plan.reel.code,
            piece=cut.piece,
            cut_mm=cut.cut_mm,
            standard_uncertainty_mm=tools.WHEEL_FIXED_MM,
            wheel_uncertainty_mm=tools.WHEEL_RELATIVE * cut.cut_mm,
            on=now.day,
        )
    if today:
        cable = plan.reel.lot.cable_code
        usual = "BANANA" if cable.startswith("SPK") else cable.replace("VID", "BNC")
        bins.bin_take(
            by=person(NAMES.coax),
            code=_USUAL_CONNECTOR.get(cable, usual),
            quantity=2 * len(today),
            on=now.day,
            used_for=f"cables from {plan.reel.code}",
        )
    if today and plan.scrapped_mm and today[-1] == plan.cuts[-1]:
        reels.reel_scrap_book(
            by=person(NAMES.coax),
            reel_code=plan.reel.code,
            scrapped_mm=plan.scrapped_mm,
            standard_uncertainty_mm=tools.WHEEL_FIXED_MM,
            on=now.day,
            reason="last end, too short to keep",
        )


def _count(now: _Day, plan: ReelPlan) -> None:
    reel = plan.reel
    if not reel.counted or reel.left_mm == 0:
        return
    if reel.flaw is not None:
        reels.flaw_record(
            by=person(NAMES.coax),
            reel_code=reel.code,
            from_outer_mm=reel.flaw.from_outer_mm,
            length_mm=reel.flaw.length_mm,
            note=reel.flaw.note,
            on=now.day,
        )
    reels.reel_count_book(
        by=person(NAMES.coax),
        reel_code=reel.code,
        counted_mm=reel.left_mm,
        standard_uncertainty_mm=reel.uncertainty_mm,
        on=now.day,
        reason="evening count, weight and resistance combined",
    )
