"""What is looked at on a made end, how it looks when it is good, and how when it is bad.

Common practice, no published source; what a customer's workmanship standard asks comes first.
"""

from dataclasses import dataclass

from reelwright.core.parts.connector import Method
from reelwright.core.quantities.guard import require_text
from reelwright.core.verdicts import Basis, Source

SOURCE = Source(text="looks of a good and a bad end", basis=Basis.COMMON_PRACTICE)


@dataclass(frozen=True, kw_only=True)
class InspectionPoint:
    """One thing to look at, and both its looks."""

    name: str
    good: str
    bad: str

    def __post_init__(self) -> None:
        require_text(self, "name", "good", "bad")


def _points(*rows: tuple[str, str, str]) -> tuple[InspectionPoint, ...]:
    return tuple(InspectionPoint(name=name, good=good, bad=bad) for name, good, bad in rows)


_CONDUCTOR = ("conductor", "bright, round, cut square", "a nick, a scrape or a burr")
_CORES = ("cores", "every strand there and as it lay", "a strand cut, nicked or spread")

_OF_METHOD: dict[Method, tuple[InspectionPoint, ...]] = {
    Method.CRIMP_CRIMP: _points(
        _CONDUCTOR,
        ("pin", "conductor seen in its hole, pin straight", "hole empty, pin bent or split"),
        ("braid", "every strand back, on the stem", "one strand forward: a short"),
        ("body", "clicked home, pin at its height", "pin short of the gauge or proud of it"),
        ("ferrule", "against the body, six clean flats", "a gap, an ear, strands beyond its end"),
        ("jacket", "whole up to the ferrule", "cut, crushed or drawn back"),
    ),
    Method.COMPRESSION: _points(
        _CONDUCTOR,
        ("braid", "folded back evenly all round", "a strand at the conductor"),
        ("dielectric", "flush with the floor of the connector", "short of it, or pushed past it"),
        ("conductor length", "as the strip says, from the face", "short, bent, or touching"),
        ("sleeve", "pressed in one full stroke, even all round", "half pressed or tilted"),
    ),
    Method.SOLDER: _points(
        _CORES,
        ("joint", "wetted all round, its shape still seen", "a ball, a spike, a bridge, grey"),
        ("insulation", "close to the joint, not drawn back", "scorched, shrunk or cut into"),
        ("clamp", "closed on the jacket", "closed on the cores, or jacket short of it"),
    ),
    Method.WELD: _points(
        _CORES,
        ("joint", "all strands in one block, none outside", "a strand outside, or cut through"),
        ("height", "inside its window", "outside: too little or too much energy"),
        ("colour", "bright, as the metal is", "blue or brown: overheated"),
        ("sleeve", "shrunk over metal and insulation", "bare metal seen"),
    ),
    Method.SCREW: _points(
        _CORES,
        (
            "strands",
            "bare and twisted as they lay",
            "tinned: solder creeps and the screw comes loose",
        ),
        (
            "screw",
            "tight to the maker's torque, nothing moves",
            "a strand outside, or cut by the screw",
        ),
        ("insulation", "up to the contact", "under the screw, or bare metal seen"),
    ),
    Method.DISPLACEMENT: _points(
        ("order", "as the contact table says", "two cores changed, a pair split"),
        ("cores", "every one at the wall of the plug", "one short of the wall"),
        ("contacts", "all pressed to one height", "one proud of the others"),
        ("jacket", "under its clamp", "outside: the cores take the pull"),
    ),
    Method.POLISH: _points(
        ("end face", "round, clear, level with the plug", "a scratch, a chip, a step"),
        ("fibre", "held, does not move in the plug", "turns or slides"),
        ("jacket", "up to the plug", "fibre bare or bent behind it"),
    ),
}


def inspection_points(method: Method) -> tuple[InspectionPoint, ...]:
    """Return what to look at on an end of this method, in the order in which it is made."""
    return _OF_METHOD[method]
