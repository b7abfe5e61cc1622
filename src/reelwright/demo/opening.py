"""The demo workshop as its ledgers were opened: everything that stands before the first day."""

from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.bench.problem import Station
from reelwright.core.ends.dies.press import ForceKnown
from reelwright.core.verdicts import Source
from reelwright.demo import rates, tools
from reelwright.demo.bins import bin_entries
from reelwright.demo.cables import coax_entries
from reelwright.demo.calendar import OPENING, WORKING_DAY, history_days
from reelwright.demo.connectors import LOSS_SOURCE, connector_entries
from reelwright.demo.history_plan import reel_plans
from reelwright.demo.other_cables import other_entries
from reelwright.demo.people import CURRENCY, LEAD, OTHERS, PASSWORD, TIME_ZONE, WORKSHOP_NAME
from reelwright.demo.stock import LOT_DELAY_RELATIVE_UNCERTAINTY
from reelwright.shop.bins import services as bins
from reelwright.shop.catalogue import services as catalogue
from reelwright.shop.people import services as people
from reelwright.shop.people.selectors import person
from reelwright.shop.reels import services as reels
from reelwright.shop.setups import services as setups
from reelwright.shop.tools import machines
from reelwright.shop.tools import services as tool_services
from reelwright.shop.tools.uncertainty_typed import instrument_uncertainty_typed
from reelwright.shop.transactions import write_transaction


@dataclass(frozen=True, kw_only=True)
class Names:
    """Who does what in the demo, by the name they sign in with."""

    lead: str = "mara"
    office: str = "ivo"
    coax: str = "ana"
    other: str = "bo"
    trainee: str = "cy"


NAMES = Names()


@write_transaction()
def open_workshop() -> None:
    """Write everything that the demo workshop has before its first day, in one transaction."""
    _people()
    _catalogue()
    _rates()
    _tools()
    _bins()
    _reels()
    _incoming_check()


def _people() -> None:
    _, lead = people.workshop_begin(
        name=WORKSHOP_NAME,
        currency=CURRENCY,
        time_zone=TIME_ZONE,
        lead_user_name=LEAD.user_name,
        lead_display_name=LEAD.display_name,
        lead_password=PASSWORD,
        demo_day=WORKING_DAY,
    )
    for entry in OTHERS:
        made = people.person_add(
            by=lead,
            user_name=entry.user_name,
            display_name=entry.display_name,
            role=entry.role,
            password=PASSWORD,
        )
        for station in entry.stations:
            people.qualification_record(
                by=lead, person=made, station_code=station.value, since=OPENING, until=None
            )
        for method in entry.methods:
            people.qualification_record(
                by=lead, person=made, method=method.value, since=OPENING, until=None
            )


def _catalogue() -> None:
    lead = person(NAMES.lead)
    for entry in (*coax_entries(), *other_entries()):
        catalogue.cable_add(
            by=lead,
            cable=entry.cable,
            price_per_m=entry.price_per_m,
            smallest_remnant_mm=entry.smallest_remnant_mm,
            colours=entry.colours,
            aliases=entry.aliases,
        )
    for connector in connector_entries():
        source: Source | None = None if connector.loss_db is None else LOSS_SOURCE
        catalogue.connector_add(
            by=lead,
            connector=connector.connector,
            price=connector.price,
            loss_db=connector.loss_db,
            loss_source=source,
            aliases=connector.aliases,
        )


def _rates() -> None:
    lead = person(NAMES.lead)
    catalogue.price_rules_add(
        by=lead,
        valid_from=OPENING,
        labour_per_hour=rates.LABOUR_PER_HOUR,
        order_handling=rates.ORDER_HANDLING,
        rush_floor=rates.RUSH_FLOOR,
        first_pass_yield=rates.FIRST_PASS_YIELD,
        gross_margin=rates.GROSS_MARGIN,
    )
    setups.change_over_times_add(
        by=lead,
        valid_from=OPENING,
        first_article_min=rates.FIRST_ARTICLE_MIN,
        program_min=rates.PROGRAM_MIN,
        blade_set_min=rates.BLADE_SET_MIN,
        die_min=rates.DIE_MIN,
        test_adapters_min=rates.TEST_ADAPTERS_MIN,
        weld_horn_min=rates.WELD_HORN_MIN,
    )
    for family, rows in rates.WORK.items():
        for row in rows:
            setups.work_time_set(
                by=lead,
                family=family,
                station=row.station,
                set_up_min=row.once,
                per_cable_min=row.each,
                per_metre_min=row.per_metre,
            )


def _tools() -> None:
    lead = person(NAMES.lead)
    for station, name in tools.STATIONS.items():
        tool_services.station_add(
            by=lead,
            code=station.value,
            name=name,
            kind=station,
            cost_per_hour=rates.LABOUR_PER_HOUR,
        )
    for cavity in tools.CAVITIES:
        tool_services.cavity_add(
            by=lead,
            code=cavity.code,
            use=cavity.use,
            across_flats_mm=Decimal(cavity.across_flats_mm),
            closings=cavity.closings - cavity.a_day * len(history_days()),
            service_after=cavity.service_after,
            note=cavity.note,
        )
    for code, ends, service_after in tools.BLADE_SETS:
        tool_services.blade_set_add(by=lead, code=code, ends=ends, service_after=service_after)
    for instrument in tools.INSTRUMENTS:
        tool_services.instrument_add(
            by=lead,
            code=instrument.code,
            name=instrument.name,
            measures=instrument.measures,
            calibration_due=instrument.due,
        )
        if instrument.uncertainty:
            instrument_uncertainty_typed(
                by=lead,
                fields={
                    "instrument": instrument.code,
                    "uncertainty": instrument.uncertainty,
                    "source": "certificate, half of what it states with k = 2",
                },
                today=OPENING,
            )
    machines.press_add(
        by=lead,
        code="PR-1",
        station_code=Station.PRESS.value,
        known=ForceKnown.STATED,
        force_n=tools.PRESS_FORCE_N,
    )
    machines.welder_add(
        by=lead,
        code="W-1",
        station_code=Station.WELD.value,
        most_energy_j=tools.WELDER_ENERGY_J,
        most_power_w=tools.WELDER_POWER_W,
        longest_s=tools.WELDER_LONGEST_S,
    )


def _bins() -> None:
    office = person(NAMES.office)
    for entry in bin_entries():
        bins.bin_item_add(
            by=office,
            code=entry.code,
            name=entry.name,
            kind=entry.kind,
            unit_price=entry.unit_price,
            connector_code=entry.connector_code,
            location="bins",
        )
        bins.bin_receive(by=office, code=entry.code, quantity=entry.opened_with, on=OPENING)


# What the incoming check of one blue lot found; the other lots go by the book but for their delay.
_CHECKED_LOT = "L2418"
_FOUND = (
    ("impedance_ohm", None, 75.2, 0.004, 3),
    ("capacitance_f_per_m", None, 53.4e-12, 0.005, 3),
    ("resistance_conductor_ohm_per_m", None, 0.03342, 0.004, 3),
    ("loss_db_per_m", 135e6, 0.0907, 0.01, 2),
    ("loss_db_per_m", 742.5e6, 0.2203, 0.01, 2),
    ("loss_db_per_m", 1485e6, 0.3190, 0.01, 2),
)


def _incoming_check() -> None:
    for what, frequency_hz, value, spread, readings in _FOUND:
        reels.lot_measure(
            by=person(NAMES.office),
            lot_code=_CHECKED_LOT,
            what=what,
            value=value,
            relative_uncertainty=spread,
            readings=readings,
            frequency_hz=frequency_hz,
            on=OPENING,
            note="incoming check, samples of 2 m" if frequency_hz is None else "incoming check",
        )


def _reels() -> None:
    office = person(NAMES.office)
    for plan in reel_plans():
        lot = plan.reel.lot
        reels.lot_receive(
            by=office,
            code=lot.code,
            cable_code=lot.cable_code,
            colour=lot.colour,
            received_on=lot.received_on,
            delay_s_per_m=lot.delay_s_per_m,
            delay_relative_uncertainty=(
                None if lot.delay_s_per_m is None else LOT_DELAY_RELATIVE_UNCERTAINTY
            ),
            note=lot.note,
        )
        reels.reel_receive(
            by=office,
            code=plan.reel.code,
            lot_code=lot.code,
            length_mm=plan.received_mm,
            standard_uncertainty_mm=plan.received_uncertainty_mm,
            on=OPENING,
            location=plan.reel.location,
        )
