"""The invented stations, dies, blades and instruments of the demo workshop, as of this morning."""

import datetime as dt
from dataclasses import dataclass

from reelwright.core.bench.problem import Station
from reelwright.demo.calendar import EVE

STATIONS: dict[Station, str] = {
    Station.CUT: "Cutting bench with the length wheel",
    Station.STRIP: "Rotary stripper",
    Station.PRESS: "Pneumatic press",
    Station.SOLDER: "Solder bench with extraction",
    Station.WELD: "Ultrasonic welder",
    Station.POLISH: "Polishing stand for fibre",
    Station.DRESS: "Dressing bench",
    Station.INSPECT: "Inspection with the microscope",
    Station.TEST: "Test bench",
    Station.LABEL: "Label printer",
    Station.PACK: "Packing table",
}


PIN, FERRULE = "pin", "ferrule"


@dataclass(frozen=True, kw_only=True)
class CavityEntry:
    """One cavity; ``closings`` since its last service, this morning; ``a_day`` in the history."""

    code: str
    use: str
    across_flats_mm: str
    closings: int
    service_after: int = 60_000
    a_day: int = 10
    note: str = ""


CAVITIES = (
    CavityEntry(code="P-1.07", use=PIN, across_flats_mm="1.07", closings=12_400, a_day=80),
    CavityEntry(code="P-1.60", use=PIN, across_flats_mm="1.60", closings=28_000, a_day=320),
    CavityEntry(code="P-1.73", use=PIN, across_flats_mm="1.73", closings=1_100),
    CavityEntry(code="F-3.25", use=FERRULE, across_flats_mm="3.25", closings=400),
    CavityEntry(code="F-4.52", use=FERRULE, across_flats_mm="4.52", closings=11_300, a_day=60),
    CavityEntry(code="F-6.00", use=FERRULE, across_flats_mm="6.00", closings=2_200),
    CavityEntry(
        code="F-6.48",
        use=FERRULE,
        across_flats_mm="6.48",
        closings=41_000,
        a_day=240,
        note="Counted since its regrind. Pulls are drifting down: check before a long batch.",
    ),
    CavityEntry(code="F-7.36", use=FERRULE, across_flats_mm="7.36", closings=3_000),
    CavityEntry(code="F-8.23", use=FERRULE, across_flats_mm="8.23", closings=9_000, a_day=40),
    CavityEntry(code="F-9.09", use=FERRULE, across_flats_mm="9.09", closings=1_100),
)

BLADE_SETS = (("PVC", 6_100, 8_000), ("FEP", 1_900, 4_000))
"""Code, ends since new, ends until they are changed."""


@dataclass(frozen=True, kw_only=True)
class InstrumentEntry:
    """One instrument and how many days from the eve its calibration still holds.

    ``uncertainty``: standard uncertainty of one reading with its unit, as its certificate says;
    empty where none is recorded.
    """

    code: str
    name: str
    measures: str
    days_left: int
    uncertainty: str = ""

    @property
    def due(self) -> dt.date:
        """The last day its calibration holds."""
        return EVE + dt.timedelta(days=self.days_left)


INSTRUMENTS = (
    InstrumentEntry(
        code="I-1", name="Four-wire milliohm meter", measures="resistance", days_left=190
    ),
    InstrumentEntry(code="I-2", name="Capacitance meter", measures="capacitance", days_left=120),
    InstrumentEntry(code="I-3", name="Insulation tester", measures="insulation", days_left=75),
    InstrumentEntry(
        code="I-4", name="Network analyser", measures="loss and reflection", days_left=240
    ),
    InstrumentEntry(
        code="I-5", name="Pull tester", measures="force", days_left=33, uncertainty="0.2 N"
    ),
    InstrumentEntry(
        code="I-6",
        name="Height gauge",
        measures="crimp height",
        days_left=33,
        uncertainty="0.001 mm",
    ),
    InstrumentEntry(code="I-7", name="Optical power meter", measures="light", days_left=12),
    InstrumentEntry(code="I-8", name="Reel scale", measures="mass", days_left=300),
)


@dataclass(frozen=True, kw_only=True)
class WheelEntry:
    """What the length wheel delivered when it was set to 10 m, and how many days before the eve."""

    days_before_eve: int
    delivered_mm: float


WHEEL_SET_MM = 10_000.0
WHEEL_FIXED_MM = 3.0
WHEEL_RELATIVE = 0.001
WHEEL_CHECKS = (
    WheelEntry(days_before_eve=13, delivered_mm=9_961.0),
    WheelEntry(days_before_eve=7, delivered_mm=9_960.0),
    WheelEntry(days_before_eve=0, delivered_mm=9_958.0),
)


@dataclass(frozen=True, kw_only=True)
class GaugingEntry:
    """What a cavity was gauged at on the eve, across flats in mm, with its standard uncertainty."""

    code: str
    across_flats_mm: str
    uncertainty_mm: str


GAUGINGS = (GaugingEntry(code="F-6.48", across_flats_mm="6.500", uncertainty_mm="0.003"),)
"""The cavity whose pulls drift: worn by two hundredths, and still inside its window."""

PRESS_FORCE_N = 29_000.0
"""A bench press of about three tonnes, as its maker would state it."""

WELDER_ENERGY_J = 500.0
WELDER_POWER_W = 1_500.0
WELDER_LONGEST_S = 1.0
"""Limits of an invented welder."""
