"""The invented people of the demo workshop and what each may do at the benches."""

from dataclasses import dataclass

from reelwright.core.bench.problem import Station
from reelwright.core.parts.connector import Method
from reelwright.shop.people.permissions import Role

WORKSHOP_NAME = "Elm Yard Cables"
CURRENCY = "EUR"
TIME_ZONE = "UTC"

PASSWORD = "demo-workshop"
"""Of every account: the demo holds nothing to protect and says so on its pages."""


@dataclass(frozen=True, kw_only=True)
class PersonEntry:
    """Somebody of the demo; stations and methods they are qualified for."""

    user_name: str
    display_name: str
    role: Role
    stations: tuple[Station, ...] = ()
    methods: tuple[Method, ...] = ()


LEAD = PersonEntry(user_name="mara", display_name="Mara", role=Role.LEAD)

_COAX_BENCH = (
    Station.CUT,
    Station.STRIP,
    Station.PRESS,
    Station.DRESS,
    Station.INSPECT,
    Station.TEST,
    Station.LABEL,
    Station.PACK,
)

OTHERS = (
    PersonEntry(user_name="ivo", display_name="Ivo", role=Role.OFFICE),
    PersonEntry(
        user_name="ana",
        display_name="Ana",
        role=Role.BENCH,
        stations=_COAX_BENCH,
        methods=(Method.CRIMP_CRIMP, Method.COMPRESSION),
    ),
    PersonEntry(
        user_name="bo",
        display_name="Bo",
        role=Role.BENCH,
        stations=(*_COAX_BENCH, Station.SOLDER, Station.WELD, Station.POLISH),
        methods=(Method.SOLDER, Method.WELD, Method.DISPLACEMENT, Method.POLISH),
    ),
    PersonEntry(
        user_name="cy",
        display_name="Cy",
        role=Role.BENCH,
        stations=(Station.CUT, Station.PACK),
    ),
    PersonEntry(user_name="vera", display_name="Vera", role=Role.VIEWER),
)
