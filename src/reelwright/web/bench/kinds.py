"""What is read at the bench, pulls, heights and strips: the words and big buttons of each."""

import enum
from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.quantities.show import show_length_mm, show_number
from reelwright.shop.setups.readings.given import parts_of
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import CRIMPS, FailureMode, Part


class Kind(enum.StrEnum):
    """What one page of the bench takes in, as its address names it."""

    PULLS = "pulls"
    HEIGHTS = "heights"
    STRIPS = "strips"


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One big button: what it is called, what small words stand under it, what it sends."""

    value: str
    name: str
    under: str


_NAMES = {
    Part.PIN_CRIMP: "Pin crimp",
    Part.FERRULE_CRIMP: "Ferrule crimp",
    Part.CONDUCTOR: "a, bare conductor",
    Part.DIELECTRIC: "b, dielectric",
    Part.BRAID: "c, braid",
    Part.JACKET_BACK: "Jacket back",
    Part.CORES_BARED: "Cores bared",
}
_LAID_DOWN = {
    Part.PIN_CRIMP: ("crimp_height_mm", "crimp_height_tolerance_mm"),
    Part.CONDUCTOR: ("strip_conductor_mm", "strip_conductor_tolerance_mm"),
    Part.DIELECTRIC: ("strip_dielectric_mm", "strip_dielectric_tolerance_mm"),
    Part.BRAID: ("strip_braid_mm", "strip_braid_tolerance_mm"),
    Part.JACKET_BACK: ("jacket_back_mm", ""),
    Part.CORES_BARED: ("cores_bared_mm", "cores_bared_tolerance_mm"),
}


def parts_of_kind(kind: Kind, sheet: SetUpSheet) -> tuple[Part, ...]:
    """Return the parts that a page of this kind offers of an end."""
    crimps = kind is Kind.HEIGHTS
    if kind is Kind.PULLS:
        return ()
    return tuple(part for part in parts_of(sheet.numbers) if (part in CRIMPS) is crimps)


def laid_down(sheet: SetUpSheet, part: Part) -> tuple[Decimal, Decimal | None] | None:
    """Return what the sheet lays down of a part and its tolerance, in mm; None: nothing."""
    names = _LAID_DOWN.get(part)
    target = getattr(sheet.numbers, names[0]) if names else None
    if names is None or target is None:
        return None
    return target, getattr(sheet.numbers, names[1]) if names[1] else None


def laid_down_told(sheet: SetUpSheet, part: Part) -> str:
    """Return it as it is read: "1.62 ± 0.03 mm"; nothing where nothing is laid down."""
    found = laid_down(sheet, part)
    if found is None:
        return ""
    target, tolerance = found
    if tolerance is None:
        return show_length_mm(float(target), decimals=2)
    number = show_number(float(target), decimals=2)
    return f"{number} ± {show_length_mm(float(tolerance), decimals=2)}"


def choices(kind: Kind, sheet: SetUpSheet, ends: dict[str, int]) -> list[Choice]:
    """Return the big buttons of a page; ``ends``: the next end's number by what is chosen.

    A button sends that number too, so that a second touch is the same end and doubles nothing.
    """
    if kind is Kind.PULLS:
        return [
            Choice(value=f"{mode}|{ends['pull']}", name=mode[:1].upper() + mode[1:], under="")
            for mode in FailureMode
        ]
    return [
        Choice(
            value=f"{part}|{ends[part]}",
            name=_NAMES[part],
            under=f"end {ends[part]}"
            + (f" · {told}" if (told := laid_down_told(sheet, part)) else ""),
        )
        for part in parts_of_kind(kind, sheet)
    ]


def name_of(part: Part) -> str:
    """Return what a part is called on a page."""
    return _NAMES[part]
