"""Fire ratings as printed: levels of type marks, and which may stand in for which."""

from reelwright.core.parts.jacket import JacketClass
from reelwright.core.parts.type_marks import LARGEST_LIMITED_M, level_of, mark_may_replace
from reelwright.core.quantities.constants import INCH_M
from tests.references.harness import Basis, LeftOut, ReferenceCheck, exact, reference_test, relative

_LEVELS = "page on flame tests of a national accelerator laboratory, hall A"
_TABLE = "textbook on data wiring, table 5.3 of permitted substitutions"
_ORDER = (JacketClass.PLENUM, JacketClass.RISER, JacketClass.GENERAL, JacketClass.LIMITED)

_FAMILIES = {
    "CMP": ("CMP", "CMR", "CM", "CMX"),
    "CL3P": ("CL3P", "CL3R", "CL3", "CL3X"),
    "CL2P": ("CL2P", "CL2R", "CL2", "CL2X"),
    "FPLP": ("FPLP", "FPLR", "FPL"),
}
_SUBSTITUTES = {
    "CL3P": ("CMP", "FPLP", "MPP"),
    "CL3": ("CL3P", "CL3R", "MP", "MPG", "CM", "CMG", "FPL"),
    "CMR": ("MPP", "CMP", "MPR"),
    "CM": ("MPP", "CMR", "MPG", "MP"),
    "CMX": ("CMG", "CM"),
}


def _in_order(marks: tuple[str, ...]) -> float:
    return sum(level_of(mark) is level for mark, level in zip(marks, _ORDER, strict=False))


CHECKS = (
    *(
        ReferenceCheck(
            id=f"nec.{first}",
            module="core.parts",
            quantity=f"marks of the {first} family that stand on the level printed",
            source=_LEVELS,
            basis=Basis.SEEN,
            expected=float(len(marks)),
            unit="1",
            within=exact(because="an order, each mark counted"),
            ours=lambda marks=marks: _in_order(marks),
        )
        for first, marks in _FAMILIES.items()
    ),
    *(
        ReferenceCheck(
            id=f"nec.sub.{needed}",
            module="core.parts",
            quantity=f"marks that may take the place of {needed}, of those printed",
            source=_TABLE,
            basis=Basis.SEEN,
            expected=float(len(better)),
            unit="1",
            within=exact(because="a table, each mark counted"),
            ours=lambda needed=needed, better=better: float(
                sum(mark_may_replace(mark, needed) for mark in better)
            ),
        )
        for needed, better in _SUBSTITUTES.items()
    ),
    ReferenceCheck(
        id="nec.cmx",
        module="core.parts",
        quantity="diameter below which CMX may be used in dwellings",
        source="Handbook for Sound Engineers, chapters 14 and 39",
        basis=Basis.SEEN,
        expected=0.25,
        unit="in",
        within=relative(1e-9, because="stated in inches"),
        ours=lambda: LARGEST_LIMITED_M / INCH_M,
    ),
)
test_fire_classes = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("cpr.B1ca", "cpr.Dca", "cpr.Cca", "cpr.Aca", "cpr.s1", "cpr.a"),
        quantity="heat, flame spread, smoke and acidity limits of the European classes",
        reason=(
            "limits of a laboratory's test; a workshop reads the class off the jacket and nothing "
            "here computes it from heat"
        ),
    ),
    LeftOut(
        names=("cpr.date",),
        quantity="day from which the European class must be printed",
        reason="a date of law, no quantity of the engine",
    ),
)
