"""The invented rates of the demo workshop: labour, margin, minutes at the stations."""

from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.bench.problem import Station
from reelwright.core.parts.cable import Family

LABOUR_PER_HOUR = Decimal("38.00")
ORDER_HANDLING = Decimal("4.20")
RUSH_FLOOR = Decimal("25.00")
FIRST_PASS_YIELD = Decimal("0.97")
GROSS_MARGIN = Decimal("0.42")

FIRST_ARTICLE_MIN = Decimal("3.0")
PROGRAM_MIN = Decimal("2.0")
BLADE_SET_MIN = Decimal("6.0")
DIE_MIN = Decimal("1.5")
TEST_ADAPTERS_MIN = Decimal("4.0")
WELD_HORN_MIN = Decimal("10.0")


@dataclass(frozen=True, kw_only=True)
class WorkEntry:
    """Minutes at one station: once for a line, for each cable, and for each metre of it."""

    station: Station
    once: Decimal
    each: Decimal
    per_metre: Decimal


def _row(station: Station, each: str, *, once: str = "0", per_metre: str = "0") -> WorkEntry:
    return WorkEntry(
        station=station, once=Decimal(once), each=Decimal(each), per_metre=Decimal(per_metre)
    )


WORK: dict[Family, tuple[WorkEntry, ...]] = {
    Family.COAX: (
        _row(Station.CUT, "0.6", per_metre="0.02"),
        _row(Station.STRIP, "0.5", once="6"),
        _row(Station.PRESS, "1.9", once="3"),
        _row(Station.DRESS, "0.4"),
        _row(Station.INSPECT, "0.8"),
        _row(Station.TEST, "1.6", once="4"),
        _row(Station.LABEL, "0.5"),
        _row(Station.PACK, "1.2"),
    ),
    Family.PAIR: (
        _row(Station.CUT, "0.6", per_metre="0.02"),
        _row(Station.STRIP, "1.5", once="6"),
        _row(Station.SOLDER, "6.0", once="10"),
        _row(Station.DRESS, "0.43", once="1"),
        _row(Station.INSPECT, "1.17"),
        _row(Station.TEST, "1.0", once="4"),
        _row(Station.LABEL, "1.0"),
        _row(Station.PACK, "0.5"),
    ),
    Family.LOUDSPEAKER: (
        _row(Station.CUT, "0.6", per_metre="0.02"),
        _row(Station.STRIP, "0.8", once="2"),
        _row(Station.WELD, "2.4", once="10"),
        _row(Station.DRESS, "0.6"),
        _row(Station.INSPECT, "0.6"),
        _row(Station.TEST, "1.0", once="4"),
        _row(Station.LABEL, "0.5"),
        _row(Station.PACK, "1.2"),
    ),
    Family.DATA: (
        _row(Station.CUT, "0.6", per_metre="0.02"),
        _row(Station.STRIP, "0.6", once="2"),
        _row(Station.PRESS, "2.4", once="3"),
        _row(Station.INSPECT, "0.6"),
        _row(Station.TEST, "1.2", once="4"),
        _row(Station.LABEL, "0.5"),
        _row(Station.PACK, "1.0"),
    ),
    Family.FIBRE: (
        _row(Station.CUT, "0.4", per_metre="0.02"),
        _row(Station.STRIP, "0.4"),
        _row(Station.POLISH, "3.0", once="6"),
        _row(Station.INSPECT, "0.8"),
        _row(Station.TEST, "1.0", once="4"),
        _row(Station.LABEL, "0.4"),
        _row(Station.PACK, "0.8"),
    ),
}
