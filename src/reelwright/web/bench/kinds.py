"""What is read at the bench, pulls, heights, strips, pins: the words and big buttons of each."""

import enum
from dataclasses import dataclass

from reelwright.shop.setups.readings.given import laid_down_told, parts_of
from reelwright.shop.setups.sheet import SetUpSheet
from reelwright.shop.setups.states import CRIMPS, STRIPS, FailureMode, Part


class Kind(enum.StrEnum):
    """What one page of the bench takes in, as its address names it."""

    PULLS = "pulls"
    HEIGHTS = "heights"
    STRIPS = "strips"
    PINS = "pins"


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
    Part.PIN_GROWTH: "Pin growth",
}


_PARTS: dict[Kind, tuple[Part, ...]] = {
    Kind.PULLS: (),
    Kind.HEIGHTS: CRIMPS,
    Kind.STRIPS: STRIPS,
    Kind.PINS: (Part.PIN_GROWTH,),
}


def parts_of_kind(kind: Kind, sheet: SetUpSheet) -> tuple[Part, ...]:
    """Return the parts that a page of this kind offers of an end."""
    return tuple(part for part in parts_of(sheet.numbers) if part in _PARTS[kind])


def kinds_of(sheet: SetUpSheet) -> tuple[Kind, ...]:
    """Return what can be read of an end: pulls always, the rest where it has such."""
    return tuple(kind for kind in Kind if kind is Kind.PULLS or parts_of_kind(kind, sheet))


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
            name="Keep both lengths" if kind is Kind.PINS else _NAMES[part],
            under=f"end {ends[part]}"
            + (f" · {told}" if (told := laid_down_told(sheet.numbers, part)) else ""),
        )
        for part in parts_of_kind(kind, sheet)
    ]


def name_of(part: Part) -> str:
    """Return what a part is called on a page."""
    return _NAMES[part]
