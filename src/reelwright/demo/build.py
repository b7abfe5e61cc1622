"""Build the demo workshop in REELWRIGHT_HOME, or find it there. Django must be set up before."""

from dataclasses import asdict, dataclass
from datetime import date
from importlib import resources
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command

from reelwright.core.errors import ShopRuleBroken
from reelwright.demo.calendar import WORKING_DAY
from reelwright.demo.history import write_history
from reelwright.demo.opening import open_workshop
from reelwright.demo.people import LEAD, OTHERS, PASSWORD
from reelwright.shop.people.selectors import workshop, workshop_or_none

ORDERS_FILE = "orders-2026-11-24.csv"
LATE_ORDERS_FILE = "orders-2026-11-24-1410.csv"


@dataclass(frozen=True, kw_only=True)
class Account:
    """One account of the demo."""

    role: str
    name: str
    password: str


@dataclass(frozen=True, kw_only=True)
class DemoFound:
    """The demo workshop; ``built`` False: it stood there already."""

    built: bool
    name: str
    home: Path
    working_day: date
    orders: Path
    late_orders: Path
    packs: Path
    sign_in: tuple[Account, ...]

    def to_json(self) -> dict[str, Any]:
        """Return it for programs: paths and dates as text."""
        return {
            **asdict(self),
            "home": str(self.home),
            "working_day": self.working_day.isoformat(),
            "orders": str(self.orders),
            "late_orders": str(self.late_orders),
            "packs": str(self.packs),
        }


def build_or_find() -> DemoFound:
    """Build the demo workshop where none is; finish one whose building was stopped.

    Raises ShopRuleBroken ``other_workshop`` where a real workshop lives here.
    """
    home, orders = Path(settings.HOME), Path(settings.ORDERS_FOLDER)
    home.mkdir(parents=True, exist_ok=True)
    call_command("migrate", verbosity=0, interactive=False)
    there = workshop_or_none()
    if there is not None and not there.is_demo:
        raise ShopRuleBroken(
            "other_workshop",
            f"{home} holds the workshop {there.name}. The demo is kept apart: give it another "
            "folder in REELWRIGHT_HOME.",
            home=str(home),
        )
    if there is None:
        open_workshop()
    built = write_history()
    return DemoFound(
        built=built > 0,
        name=workshop().name,
        home=home,
        working_day=WORKING_DAY,
        orders=_copy(ORDERS_FILE, orders),
        late_orders=_copy(LATE_ORDERS_FILE, orders),
        packs=Path(settings.PACKS_FOLDER),
        sign_in=tuple(
            Account(role=entry.role.value, name=entry.user_name, password=PASSWORD)
            for entry in (LEAD, *OTHERS)
        ),
    )


def _copy(name: str, folder: Path) -> Path:
    """Put an order file into the folder unless one of that name lies there; return its path."""
    target = folder / name
    if not target.exists():
        folder.mkdir(parents=True, exist_ok=True)
        packed = resources.files("reelwright.demo") / "orders" / name
        target.write_bytes(packed.read_bytes())
    return target
