"""The drawing of a connector's back end, with the tolerances its maker states.

Only the mating face follows a standard (``parts.mating_face``); nothing fixes the back end, so
every dimension is the drawing's own. ``None`` means: this kind of connector has no such feature.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import TypeGuard

from reelwright.core.errors import Fault, InputFaults
from reelwright.core.quantities.show import show_dimension
from reelwright.core.verdicts import Source


@dataclass(frozen=True, kw_only=True)
class DrawingTolerances:
    """Half width of the band that the maker keeps each dimension of the same name in.

    ``None``: none is stated. Clearances and reliefs have none: they are what the maker advises,
    and how well they are kept is the workshop's own affair (``ends.strip.StripTolerances``).
    """

    barrel_depth_m: float | None
    barrel_bore_m: float | None
    barrel_outside_m: float | None
    hole_far_edge_m: float | None
    pin_crimp_length_m: float | None
    seat_to_flange_m: float | None
    stem_bore_m: float | None
    stem_outside_m: float | None
    stem_length_m: float | None
    ferrule_bore_m: float | None
    ferrule_outside_m: float | None
    ferrule_length_m: float | None
    boot_bore_m: float | None
    plane_to_seat_m: float | None
    shoulder_to_tip_m: float | None
    floor_to_plane_m: float | None

    @classmethod
    def stating(cls, **half_widths_m: float) -> "DrawingTolerances":
        """Return the tolerances given by the dimension's name [m]; all others are not stated."""
        return cls(**{name: half_widths_m.pop(name, None) for name in TOLERANCED}, **half_widths_m)


TOLERANCED = tuple(field.name for field in fields(DrawingTolerances))
"""The dimensions that a maker may state a tolerance for."""

_MAY_BE_NOTHING = frozenset(
    {
        "barrel_clearance_m",
        "dielectric_relief_m",
        "braid_relief_m",
        "plane_to_seat_m",
        "floor_to_plane_m",
    }
)
# Behind the reference plane is negative: a tip may be recessed.
_MAY_BE_NEGATIVE = frozenset({"tip_least_m", "tip_most_m"})
# The first must stay smaller than the second, wherever both lie in their tolerances.
_SMALLER_THAN = (
    ("barrel_bore_m", "barrel_outside_m", "the pin's barrel has no wall"),
    ("stem_bore_m", "stem_outside_m", "the stem has no wall"),
    ("ferrule_bore_m", "ferrule_outside_m", "the ferrule has no wall"),
    ("stem_outside_m", "ferrule_bore_m", "the ferrule does not pass over the stem"),
    ("tip_least_m", "tip_most_m", "the window of the pin's tip is shut"),
)


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """Dimensions of a crimped or compressed connector's back end, and who stated them.

    Depths are taken along the axis from the body's seat towards the pin tip (barrel, flange) or
    towards the cable (stem, ferrule). ``pin_crimp_length_m``: how much of the barrel's length the
    hexagon closes on. ``conductor_protrusion_m``: how far the conductor of a compressed end stands
    out of its dielectric.

    Where the tip lands: ``plane_to_seat_m`` from the reference plane of the mating face back to the
    seat of the pin's shoulder, ``shoulder_to_tip_m`` along the pin, ``floor_to_plane_m`` from the
    floor that the dielectric of a compressed end is pushed against, forward to the plane;
    ``tip_least_m`` and ``tip_most_m`` are how far the maker lets the tip stand out of the plane,
    both or neither.

    Raises InputFaults with everything that cannot be: what is no length, bores without a wall, a
    ferrule that does not pass over the stem, a tolerance of a dimension that is not drawn.
    """

    source: Source
    tolerances: DrawingTolerances
    barrel_depth_m: float | None
    barrel_bore_m: float | None
    barrel_outside_m: float | None
    barrel_clearance_m: float | None
    hole_far_edge_m: float | None
    pin_crimp_length_m: float | None
    seat_to_flange_m: float | None
    dielectric_relief_m: float | None
    stem_bore_m: float | None
    stem_outside_m: float | None
    stem_length_m: float | None
    braid_relief_m: float | None
    ferrule_bore_m: float | None
    ferrule_outside_m: float | None
    ferrule_length_m: float | None
    boot_bore_m: float | None
    conductor_protrusion_m: float | None
    plane_to_seat_m: float | None
    shoulder_to_tip_m: float | None
    floor_to_plane_m: float | None
    tip_least_m: float | None
    tip_most_m: float | None

    def __post_init__(self) -> None:
        faults = [*self._unreadable(), *self._loose()]
        # What is no number cannot be compared with another.
        faults += [] if faults else self._contradictions()
        if faults:
            raise InputFaults(faults)

    def tolerance_m(self, dimension: str) -> float:
        """Return the half width stated for a dimension, named as its field; 0 where none is [m]."""
        return getattr(self.tolerances, dimension, None) or 0.0

    def smallest_m(self, dimension: str) -> float | None:
        """Return a dimension at the lower end of its tolerance; None where it is not drawn [m]."""
        value_m: float | None = getattr(self, dimension)
        return None if value_m is None else value_m - self.tolerance_m(dimension)

    def largest_m(self, dimension: str) -> float | None:
        """Return a dimension at the upper end of its tolerance; None where it is not drawn [m]."""
        value_m: float | None = getattr(self, dimension)
        return None if value_m is None else value_m + self.tolerance_m(dimension)

    def _unreadable(self) -> Iterator[Fault]:
        for name in DIMENSIONS:
            value = getattr(self, name)
            if value is None:
                continue
            if not _is_number(value):
                yield self._fault(name, value, "is no length", "a number of metres")
            elif value < 0 and name not in _MAY_BE_NEGATIVE:
                yield self._fault(name, value, "is less than nothing", "zero or more")
            elif value == 0 and name not in _MAY_BE_NOTHING | _MAY_BE_NEGATIVE:
                yield self._fault(name, value, "is nothing", "more than zero, or not drawn")

    def _loose(self) -> Iterator[Fault]:
        for name in TOLERANCED:
            half_m, value_m = getattr(self.tolerances, name), getattr(self, name)
            if half_m is None:
                continue
            field = f"tolerances.{name}"
            if not _is_number(half_m) or half_m < 0:
                yield self._fault(field, half_m, "is no tolerance", "zero or more")
            elif value_m is None:
                yield self._fault(field, half_m, "its dimension is not drawn", "not stated")
            elif _is_number(value_m) and half_m >= value_m > 0:
                accepted = f"less than {show_dimension(value_m)}"
                yield self._fault(field, half_m, "is as large as its dimension", accepted)

    def _contradictions(self) -> Iterator[Fault]:
        for small, large, what in _SMALLER_THAN:
            widest_m, narrowest_m = self.largest_m(small), self.smallest_m(large)
            if widest_m is None or narrowest_m is None or widest_m < narrowest_m:
                continue
            accepted = f"less than {_plain(large)}, {show_dimension(narrowest_m)} at its smallest"
            yield self._fault(small, widest_m, what, accepted)
        if (self.tip_least_m is None) != (self.tip_most_m is None):
            given = "tip_most_m" if self.tip_least_m is None else "tip_least_m"
            yield self._fault(
                given, getattr(self, given), "a window has two ends", "both ends, or neither"
            )
        deep_m, edge_m = self.largest_m("barrel_depth_m"), self.hole_far_edge_m
        if deep_m is not None and edge_m is not None and edge_m > deep_m:
            accepted = f"at most the barrel's depth, {show_dimension(deep_m)}"
            yield self._fault("hole_far_edge_m", edge_m, "the hole shows nothing", accepted)

    def _fault(self, field: str, value: object, problem: str, accepted: str) -> Fault:
        shown = show_dimension(value) if _is_number(value) else str(value)
        return Fault(
            file=self.source.text,
            row=None,
            field=_plain(field),
            value=shown,
            problem=problem,
            accepted=accepted,
        )


DIMENSIONS = tuple(
    field.name for field in fields(Drawing) if field.name not in ("source", "tolerances")
)
"""Every dimension of a drawing, in its order."""


def _is_number(value: object) -> TypeGuard[float]:
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def _plain(field: str) -> str:
    return field.removesuffix("_m").replace("tolerances.", "tolerance of ").replace("_", " ")
