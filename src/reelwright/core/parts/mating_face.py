"""The mating face of a connector: the one part of it that a standard fixes.

What is not known here is None, and whoever needs it says "not computed". A figure from memory must
be confirmed in the document named before a customer sees it as a limit.
"""

from dataclasses import dataclass

from reelwright.core.errors import BadValue
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.constants import INCH_M
from reelwright.core.quantities.guard import require_finite, require_positive, require_text
from reelwright.core.verdicts import Basis, Source


@dataclass(frozen=True, kw_only=True)
class FaceFigure:
    """One dimension of a mating face, from ``least_m`` to ``most_m``; None: no limit known."""

    least_m: float | None
    most_m: float | None
    source: Source

    def __post_init__(self) -> None:
        given = [name for name in ("least_m", "most_m") if getattr(self, name) is not None]
        require_finite(self, *given)
        if not given:
            raise BadValue(owner="FaceFigure", field="least_m", value=None, accepted="one limit")
        if self.least_m is not None and self.most_m is not None and self.least_m > self.most_m:
            raise BadValue(
                owner="FaceFigure",
                field="least_m",
                value=self.least_m,
                accepted=f"at most {self.most_m}",
            )


@dataclass(frozen=True, kw_only=True)
class MatingFace:
    """A plug's face. ``None``: not known.

    ``tip``: how far the tip of the centre contact stands out of the reference plane;
    ``shoulder``: how far the contact's shoulder lies behind it; ``pin_diameter`` of the contact;
    ``outer_bore``: the inside of the outer conductor.
    """

    name: str
    impedance_ohm: float | None
    tip: FaceFigure | None
    shoulder: FaceFigure | None
    pin_diameter: FaceFigure | None
    outer_bore: FaceFigure | None

    def __post_init__(self) -> None:
        require_text(self, "name")
        if self.impedance_ohm is not None:
            require_positive(self, "impedance_ohm")


def _remembered(least_m: float | None, most_m: float | None, document: str) -> FaceFigure:
    return FaceFigure(
        least_m=least_m, most_m=most_m, source=Source(text=document, basis=Basis.FROM_MEMORY)
    )


_BNC_BORE = FaceFigure(
    least_m=6.5e-3,
    most_m=6.5e-3,
    source=Source(text="IEC 61169-8:2007, its title: 6,5 mm (0,256 in)", basis=Basis.STANDARD),
)

FACES = (
    MatingFace(
        name="BNC",
        impedance_ohm=50.0,
        tip=None,
        shoulder=_remembered(None, 0.208 * INCH_M, "MIL-STD-348, recess of the 50 Ω class"),
        pin_diameter=_remembered(1.32e-3, 1.37e-3, "MIL-STD-348"),
        outer_bore=_BNC_BORE,
    ),
    # The 75 Ω face mates with the other; where its own pin ends, its maker's drawing says.
    MatingFace(
        name="BNC",
        impedance_ohm=75.0,
        tip=None,
        shoulder=None,
        pin_diameter=None,
        outer_bore=_BNC_BORE,
    ),
    MatingFace(
        name="N",
        impedance_ohm=50.0,
        tip=None,
        shoulder=None,
        pin_diameter=None,
        outer_bore=_remembered(7.0e-3, 7.0e-3, "IEC 61169-16"),
    ),
    MatingFace(
        name="F",
        impedance_ohm=75.0,
        tip=_remembered(INCH_M / 16, INCH_M / 4, "IEC 61169-24, 1/16 to 1/4 in"),
        shoulder=None,
        pin_diameter=None,
        outer_bore=None,
    ),
    MatingFace(
        name="phono",
        impedance_ohm=None,
        tip=_remembered(14.5e-3, 15.1e-3, "IEC 60130-1, length of the pin"),
        shoulder=None,
        pin_diameter=_remembered(3.10e-3, 3.24e-3, "IEC 60130-1"),
        outer_bore=None,
    ),
)


def mating_face(connector: Connector) -> MatingFace | None:
    """Return the face that a connector mates with; None where none is written down here."""
    return next(
        (
            face
            for face in FACES
            if face.name.casefold() == connector.mating.casefold()
            and face.impedance_ohm in (None, connector.impedance_ohm)
        ),
        None,
    )
