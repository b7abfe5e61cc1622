"""Die cavities as they are today, and whether the one that a set-up names can be used."""

import enum
from collections.abc import Iterable
from dataclasses import dataclass

from reelwright.core.quantities.guard import require_count, require_positive, require_text
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_SAME_ENGRAVING_M = 0.005e-3
"""Widths are engraved to a hundredth of a millimetre; nearer than half of that is the same."""

_RECORDS = Source(text="the shop's own records of its cavities", basis=Basis.OWN_SHOP)


class CavityUse(enum.StrEnum):
    """What a cavity closes on."""

    PIN = "pin"
    FERRULE = "ferrule"


@dataclass(frozen=True, kw_only=True)
class WidthReading:
    """Width across flats of a closed cavity as gauged, with its standard uncertainty, in metres."""

    across_flats_m: float
    standard_uncertainty_m: float

    def __post_init__(self) -> None:
        require_positive(self, "across_flats_m", "standard_uncertainty_m")


@dataclass(frozen=True, kw_only=True)
class Cavity:
    """One hexagonal cavity. ``closings_count`` since its last service, due at ``due_count``.

    ``engraved_m`` [m] is its width across flats by name; ``reading`` what was gauged of it since
    that service, ``None`` where nothing was.
    """

    code: str
    use: CavityUse
    engraved_m: float
    reading: WidthReading | None
    closings_count: int
    due_count: int
    in_service: bool

    def __post_init__(self) -> None:
        require_text(self, "code")
        require_positive(self, "engraved_m")
        require_count(self, "closings_count")
        require_count(self, "due_count", at_least=1)

    @property
    def across_flats_m(self) -> float:
        """The width [m] to reckon with: as gauged, else as engraved."""
        return self.engraved_m if self.reading is None else self.reading.across_flats_m

    @property
    def left_count(self) -> int:
        """Closings until its service is due; below zero: overdue."""
        return self.due_count - self.closings_count


def usable(cavities: Iterable[Cavity], *, use: CavityUse, engraved_m: float) -> Cavity | None:
    """Return the cavity in service of that use and engraved width [m], the least worn of several.

    ``None`` where none is in service.
    """
    found = [
        each
        for each in cavities
        if each.use is use
        and each.in_service
        and abs(each.engraved_m - engraved_m) <= _SAME_ENGRAVING_M
    ]
    return max(found, key=lambda each: (each.left_count, each.code), default=None)


def judge_cavity(cavities: Iterable[Cavity], *, use: CavityUse, engraved_m: float) -> Check:
    """Return whether the cavity that a set-up names by its width [m] is there and in service.

    Bad where there is none, or none in service; a caution where its service is due.
    """
    known = tuple(cavities)
    width = show_dimension(engraved_m)
    cavity = usable(known, use=use, engraved_m=engraved_m)
    if cavity is None:
        resting = [
            each.code
            for each in known
            if each.use is use and abs(each.engraved_m - engraved_m) <= _SAME_ENGRAVING_M
        ]
        told = (
            f"{', '.join(resting)} is out of service, and the set-up needs a {use} die of {width}"
            if resting
            else f"there is no {use} die of {width} across flats, and the set-up needs it"
        )
        return _service_check(use, Outcome.BAD, told, None)
    if cavity.left_count < 0:
        told = (
            f"{cavity.code} is {-cavity.left_count} closings past its service at {cavity.due_count}"
        )
        return _service_check(use, Outcome.CAUTION, told, cavity)
    told = f"{cavity.code} is in service, {cavity.left_count} closings before its next one"
    return _service_check(use, Outcome.GOOD, told, cavity)


def _service_check(use: CavityUse, outcome: Outcome, told: str, cavity: Cavity | None) -> Check:
    return Check(
        name=f"{use} die in service",
        outcome=outcome,
        sentence=told,
        source=_RECORDS,
        value=None if cavity is None else float(cavity.closings_count),
        limit=None if cavity is None else float(cavity.due_count),
        margin=None if cavity is None else float(cavity.left_count),
        unit="closings",
    )
