"""A set-up sheet: one revision with all its numbers, as the rest of the house reads it."""

import datetime
from dataclasses import dataclass, fields
from decimal import Decimal

from reelwright.core.ends.strength.pull_rules import PullRules
from reelwright.core.errors import BadValue
from reelwright.core.parts.connector import Method
from reelwright.core.quantities.guard import require_count, require_given
from reelwright.core.verdicts import Source
from reelwright.shop.setups.states import State


def told_mm(value_mm: Decimal) -> str:
    """Return millimetres with two decimals, and a third where it says something; no unit."""
    return f"{value_mm:.3f}".removesuffix("0")


@dataclass(frozen=True, kw_only=True)
class Numbers:
    """What a revision lays down. ``None``: this kind of end has no such number, or not yet.

    Lengths in mm: a, b, c of a coax, or jacket back and cores bared of any other cable; dies by
    their width across flats; ``minimum_pull_n`` of a finished end, in N; ``press_min_per_end``:
    minutes to join one end, at the press, the iron, the welder or the polishing stand.
    ``pull_rules``: whose least pull counts, ``None`` for the shop's own; ``solid_wire_waiver``: who
    lifted that rule set's bar on solid wire, and why.
    ``order``: the operations of the end by their codes, where a person lays down another order than
    the worked-out one; ``steps``: how the shop tells them.
    A weld has its energy in J, the air pressure behind the horn in kPa, the horn's amplitude in µm.
    """

    levels: int
    strip_conductor_mm: Decimal | None = None
    strip_conductor_tolerance_mm: Decimal | None = None
    strip_dielectric_mm: Decimal | None = None
    strip_dielectric_tolerance_mm: Decimal | None = None
    strip_braid_mm: Decimal | None = None
    strip_braid_tolerance_mm: Decimal | None = None
    jacket_back_mm: Decimal | None = None
    cores_bared_mm: Decimal | None = None
    cores_bared_tolerance_mm: Decimal | None = None
    pin_die_mm: Decimal | None = None
    ferrule_die_mm: Decimal | None = None
    crimp_height_mm: Decimal | None = None
    crimp_height_tolerance_mm: Decimal | None = None
    program: str = ""
    blade_set: str = ""
    test_adapter: str = ""
    weld_horn: str = ""
    weld_energy_j: float | None = None
    weld_pressure_kpa: float | None = None
    weld_amplitude_um: float | None = None
    minimum_pull_n: float | None = None
    minimum_pull_source: Source | None = None
    pull_rules: PullRules | None = None
    solid_wire_waiver: str = ""
    press_min_per_end: Decimal
    remark: str = ""
    steps: tuple[str, ...] = ()
    order: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        require_count(self, "levels", at_least=1)
        require_given(
            self, "minimum_pull_n", "weld_energy_j", "weld_pressure_kpa", "weld_amplitude_um"
        )
        for field in fields(self):
            value = getattr(self, field.name)
            if isinstance(value, Decimal) and not (value.is_finite() and value >= 0):
                raise BadValue(
                    owner="Numbers", field=field.name, value=value, accepted="zero or more"
                )
        if (self.minimum_pull_n is None) != (self.minimum_pull_source is None):
            raise BadValue(
                owner="Numbers",
                field="minimum_pull_source",
                value=self.minimum_pull_source,
                accepted="a source where there is a minimum, none where there is none",
            )
        if self.solid_wire_waiver and self.pull_rules is None:
            raise BadValue(
                owner="Numbers",
                field="solid_wire_waiver",
                value=self.solid_wire_waiver,
                accepted="given with the rule set whose bar it lifts, and only with it",
            )


@dataclass(frozen=True, kw_only=True)
class SetUpSheet:
    """One revision of a set-up, its state and who approved it."""

    revision_id: int
    code: str
    letter: str
    cable_code: str
    connector_code: str
    method: Method
    state: State
    drafted_on: datetime.date
    drafted_by: str
    approved_on: datetime.date | None
    approved_by: str | None
    numbers: Numbers

    @property
    def name(self) -> str:
        """Code and revision, as a traveller prints it: ``T-02 rev D``."""
        return f"{self.code} rev {self.letter}"
