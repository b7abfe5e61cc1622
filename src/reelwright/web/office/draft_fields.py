"""The fields of a drafted revision, in the groups of its page, and what is shown at each."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from decimal import Decimal

from reelwright.core.ends.strength.pull_rules import PullRules, rule_set, wire_of
from reelwright.core.errors import UnreadableQuantity
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Method
from reelwright.core.quantities.show import show_plain
from reelwright.core.trials.number_text import read_plain_number
from reelwright.core.verdicts import Basis, Reason
from reelwright.shop.setups.proposals import Proposed
from reelwright.shop.setups.rules import needed_fields
from reelwright.shop.setups.sheet import Numbers

SHOPS_OWN = "the shop's own"


@dataclass(frozen=True, kw_only=True)
class Field:
    """One field. ``unit`` makes it a number; ``longest`` counts characters of text, of each line
    where ``lines``."""

    label: str
    unit: str | None = None
    longest: int = 0
    lines: bool = False
    zero: bool = False
    decimals: int = 3


def _mm(label: str, *, zero: bool = False) -> Field:
    return Field(label=label, unit="mm", zero=zero)


FIELDS: dict[str, Field] = {
    "levels": Field(label="Levels", unit="", decimals=0),
    "strip_conductor_mm": _mm("a, bare conductor"),
    "strip_conductor_tolerance_mm": _mm("a may differ by ±"),
    "strip_dielectric_mm": _mm("b, dielectric", zero=True),
    "strip_dielectric_tolerance_mm": _mm("b may differ by ±"),
    "strip_braid_mm": _mm("c, braid", zero=True),
    "strip_braid_tolerance_mm": _mm("c may differ by ±"),
    "jacket_back_mm": _mm("Jacket taken back"),
    "cores_bared_mm": _mm("Cores bared", zero=True),
    "cores_bared_tolerance_mm": _mm("Bared cores may differ by ±"),
    "program": Field(label="Program of the stripper", longest=12),
    "blade_set": Field(label="Blade set", longest=40),
    "pin_die_mm": _mm("Pin die, across flats"),
    "ferrule_die_mm": _mm("Ferrule die, across flats"),
    "crimp_height_mm": _mm("Height of the pin's crimp"),
    "crimp_height_tolerance_mm": _mm("The height may differ by ±"),
    "weld_horn": Field(label="Horn of the welder", longest=40),
    "weld_energy_j": Field(label="Energy", unit="J", decimals=6),
    "weld_pressure_kpa": Field(label="Air pressure", unit="kPa", decimals=6),
    "weld_amplitude_um": Field(label="Amplitude of the horn", unit="µm", decimals=6),
    "pull_rules": Field(label="Whose rule counts"),
    "minimum_pull_n": Field(label="Least pull", unit="N", decimals=6),
    "minimum_pull_source": Field(label="Where it comes from", longest=200),
    "minimum_pull_basis": Field(label="What that rests on"),
    "solid_wire_waiver": Field(label="Bar on solid wire lifted by whom, and why", longest=200),
    "test_adapter": Field(label="Test adapter", longest=40),
    "press_min_per_end": Field(label="Time to join one end", unit="min", decimals=2),
    "remark": Field(label="Remark", longest=300),
    "steps": Field(label="Steps, one a line", longest=300, lines=True),
    "cautions": Field(label="Cautions, one a line", longest=300, lines=True),
}

_GROUPS = (
    (
        "Strip, from the end inwards",
        (
            "strip_conductor_mm",
            "strip_conductor_tolerance_mm",
            "strip_dielectric_mm",
            "strip_dielectric_tolerance_mm",
            "strip_braid_mm",
            "strip_braid_tolerance_mm",
            "jacket_back_mm",
            "cores_bared_mm",
            "cores_bared_tolerance_mm",
            "levels",
            "program",
            "blade_set",
        ),
    ),
    ("Crimp", ("pin_die_mm", "ferrule_die_mm", "crimp_height_mm", "crimp_height_tolerance_mm")),
    ("Weld", ("weld_horn", "weld_energy_j", "weld_pressure_kpa", "weld_amplitude_um")),
    (
        "What an end must hold",
        (
            "pull_rules",
            "minimum_pull_n",
            "minimum_pull_basis",
            "test_adapter",
            "minimum_pull_source",
            "solid_wire_waiver",
        ),
    ),
    ("Work", ("press_min_per_end", "remark", "steps", "cautions")),
)

_EVERY_END = (
    "levels",
    "program",
    "blade_set",
    "pull_rules",
    "minimum_pull_n",
    "minimum_pull_source",
    "minimum_pull_basis",
    "solid_wire_waiver",
    "press_min_per_end",
    "remark",
    "cautions",
)
_WIDE = ("minimum_pull_source", "solid_wire_waiver", "remark", "steps", "cautions")
_MAY: dict[Method, tuple[str, ...]] = {
    Method.CRIMP_CRIMP: ("crimp_height_tolerance_mm",),
    Method.COMPRESSION: (),
}
_MAY_OTHERWISE = ("jacket_back_mm",)


@dataclass(frozen=True, kw_only=True)
class Cell:
    """One field as the page shows it; ``hint`` says what is proposed, ``differs`` that what stands
    there is something else."""

    key: str
    label: str
    unit: str
    value: str
    fault: str
    hint: str
    differs: bool
    lines: bool
    longest: int
    wide: bool
    choices: tuple[tuple[str, str], ...]


def groups_of(
    method: Method,
    cells: Mapping[str, str],
    faults: Mapping[str, str],
    *,
    cable: Cable,
    proposed: Proposed,
) -> list[tuple[str, list[Cell]]]:
    """Return the groups of the page with their cells; a group without any is left out.

    Shown is what an end of this method has, and whatever else is filled in.
    """
    has = {*needed_fields(method), *_MAY.get(method, _MAY_OTHERWISE), *_EVERY_END}
    found = [
        (
            title,
            [
                _cell(key, method, cells, faults, cable=cable, proposed=proposed)
                for key in keys
                if key in has or cells.get(key)
            ],
        )
        for title, keys in _GROUPS
    ]
    return [(title, shown) for title, shown in found if shown]


def _cell(
    key: str,
    method: Method,
    cells: Mapping[str, str],
    faults: Mapping[str, str],
    *,
    cable: Cable,
    proposed: Proposed,
) -> Cell:
    field, value = FIELDS[key], cells.get(key, "")
    offer = proposed.numbers.get(key)
    hint = "" if offer is None else offer.told
    if not hint and key == "minimum_pull_source":
        hint = "Empty: what the rule set chosen says itself."
    if not hint and key in needed_fields(method) and not value:
        hint = "Needed before its trial."
    elif not hint and key == "press_min_per_end" and not value:
        hint = "Needed to draft: benches are planned by it."
    stands = number_in(cells, key)
    return Cell(
        key=key,
        label=field.label,
        unit=field.unit or "",
        value=value,
        fault=faults.get(key, ""),
        hint=hint,
        differs=offer is not None and stands is not None and not offer.agrees(stands),
        lines=field.lines,
        longest=0 if field.lines else field.longest,
        wide=key in _WIDE,
        choices=_choices(key, cable),
    )


def number_in(cells: Mapping[str, str], key: str) -> Decimal | None:
    """Return the number that stands in a field; None where none can be read there."""
    typed, unit = cells.get(key, "").strip(), FIELDS[key].unit
    if unit is None or not typed:
        return None
    try:
        return Decimal(repr(read_plain_number(typed, unit=unit)))
    except UnreadableQuantity:
        return None


def _choices(key: str, cable: Cable) -> tuple[tuple[str, str], ...]:
    if key == "pull_rules":
        return (("", SHOPS_OWN), *((rules.value, _asks(rules, cable)) for rules in PullRules))
    if key == "minimum_pull_basis":
        return (("", "not said"), *((basis.value, basis.value) for basis in Basis))
    return ()


def _asks(rules: PullRules, cable: Cable) -> str:
    wire = wire_of(cable)
    asked = wire if isinstance(wire, Reason) else rule_set(rules).minimum_for(wire)
    if isinstance(asked, Reason):
        return (
            f"{rules}: none for this wire"
            if asked.code != "solid_wire_barred"
            else (f"{rules}: bars solid wire")
        )
    return f"{rules}: {show_plain(asked.minimum_n, 'N')}"


def cells_of(numbers: Numbers) -> dict[str, str]:
    """Return the numbers of a revision as they stand in the fields."""
    found: dict[str, str] = {}
    for field in fields(Numbers):
        value = getattr(numbers, field.name)
        if isinstance(value, Decimal):
            found[field.name] = told_number(value)
        elif isinstance(value, float):
            found[field.name] = told_number(Decimal(repr(value)), decimals=0)
        elif isinstance(value, tuple):
            found[field.name] = "\n".join(value)
        elif value is not None:
            found[field.name] = str(value)
    source = numbers.minimum_pull_source
    found["minimum_pull_source"] = "" if source is None else source.text
    found["minimum_pull_basis"] = "" if source is None else source.basis.value
    return found


def cells_of_proposed(proposed: Proposed) -> dict[str, str]:
    """Return what is proposed as it stands in the fields of a set-up that begins."""
    found = {
        key: told_number(offer.value, decimals=2 if key.endswith("_mm") else 0)
        for key, offer in proposed.numbers.items()
        if offer.value is not None
    }
    return found | {"steps": "\n".join(proposed.steps)}


def told_number(value: Decimal, *, decimals: int = 2) -> str:
    """Return a number with at least ``decimals`` decimals and as many as it has."""
    plain = f"{value.normalize():f}"
    whole, _, part = plain.partition(".")
    part = part.ljust(decimals, "0")
    return f"{whole}.{part}" if part else whole
