"""Tolerance stacks and mating faces against textbook cases and published figures."""

from functools import cache
from typing import Any

import numpy as np

from reelwright.core.ends.stack import (
    Contributor,
    Keeper,
    LinearStack,
    Reading,
    Simulated,
    Window,
    improvements,
    linearise,
    simulate,
)
from reelwright.core.parts.mating_face import FACES, FaceFigure, MatingFace
from reelwright.core.verdicts import Basis as SourceBasis
from reelwright.core.verdicts import Source
from tests.references.harness import (
    Basis,
    LeftOut,
    ReferenceCheck,
    absolute,
    reference_test,
    relative,
)

PRINTED = "all printed digits"
_P23 = (
    "worked problem of the trade (P23): totals and the creep of ±0.12 are printed; the three other "
    "tolerances are put back together from the totals"
)
_CLUTCH = (
    "one-way clutch of the tolerance textbooks (Fortini 1967; radii and tolerances from memory of "
    "Chase), drawn two million times apart from this code"
)


def _part(name: str, nominal: float, tolerance: float) -> Contributor:
    return Contributor(
        name=name,
        nominal=nominal,
        sensitivity=1.0,
        tolerance=tolerance,
        shift=0.0,
        reading=Reading.NORMAL,
        keeper=Keeper.SHOP,
        source=Source(text="the textbook", basis=SourceBasis.PUBLISHED),
    )


_PIN = LinearStack(
    contributors=(
        _part("seat", 5.60, 0.05),
        _part("pin", 0.0, 0.05),
        _part("seating", 0.0, 0.08),
        _part("creep", 0.0, 0.12),
    )
)
_WINDOW = Window(low=5.45, high=5.79)


def _creep_halved() -> tuple[float, float]:
    """Cpk with the creep halved, and with the mean moved to the middle as well."""
    (found,) = [each for each in improvements(_PIN, _WINDOW) if each.name == "creep"]
    return found.cpk_ratio, found.centred_cpk_ratio


# Hub, roller and ring by their radii, in mm: 55.29, 22.86 and 101.60 mm across.
_HUB, _ROLLER, _RING = (
    _part("hub", 27.645, 0.05),
    _part("roller", 11.430, 0.01),
    _part("ring", 50.800, 0.0125),
)


def _contact_angle_deg(radii: Any) -> Any:
    hub, roller, ring = radii
    return np.degrees(np.arccos((hub + roller) / (ring - roller)))


@cache
def _clutch() -> Simulated:
    return simulate(
        (_HUB, _ROLLER, _RING),
        window=None,
        draw_count=2_000_000,
        seed=1967,
        outcome=_contact_angle_deg,
    )


def _face(name: str, impedance_ohm: float | None) -> MatingFace:
    (found,) = [f for f in FACES if (f.name, f.impedance_ohm) == (name, impedance_ohm)]
    return found


def _most(figure: FaceFigure | None) -> float:
    assert figure is not None
    assert figure.most_m is not None
    return figure.most_m * 1e3


def _least(figure: FaceFigure | None) -> float:
    assert figure is not None
    assert figure.least_m is not None
    return figure.least_m * 1e3


_STACK = "core.ends.stack"
_FACE = "core.parts.mating_face"

CHECKS = (
    *(
        ReferenceCheck(
            id=f"stack.pin.{name}",
            module=_STACK,
            quantity=quantity,
            source=_P23,
            basis=Basis.COMPUTED,
            expected=expected,
            unit=unit,
            within=absolute(within, because=PRINTED),
            ours=ours,
        )
        for name, quantity, expected, unit, within, ours in (
            ("worst", "pin tip, worst case", 0.30, "mm", 0.005, lambda: _PIN.worst_case),
            ("rss", "pin tip, root-sum-square", 0.1606, "mm", 5e-5, lambda: _PIN.root_sum_square),
            ("cpk", "pin tip, Cpk in 5.45 to 5.79", 0.93, "1", 5e-3, lambda: _PIN.cpk(_WINDOW)),
            (
                "halved.cpk",
                "pin tip, Cpk with the creep halved",
                1.22,
                "1",
                5e-3,
                lambda: _creep_halved()[0],
            ),
            (
                "halved.width",
                "pin tip, three standard deviations with the creep halved",
                0.1225,
                "mm",
                5e-5,
                lambda: _WINDOW.width / 2 / _creep_halved()[1],
            ),
            (
                "centred.cpk",
                "pin tip, Cpk with the creep halved and the mean moved by 0.02 mm",
                1.39,
                "1",
                5e-3,
                lambda: _creep_halved()[1],
            ),
        )
    ),
    ReferenceCheck(
        id="stack.clutch.nominal",
        module=_STACK,
        quantity="contact angle of the one-way clutch, nominal",
        source="trigonometry: arccos(39.075/39.37)",
        basis=Basis.COMPUTED,
        expected=7.01839,
        unit="deg",
        within=absolute(5e-6, because=PRINTED),
        ours=lambda: _clutch().nominal,
    ),
    ReferenceCheck(
        id="stack.clutch.mean",
        module=_STACK,
        quantity="contact angle of the one-way clutch, mean of the draws, not re-centred",
        source=_CLUTCH,
        basis=Basis.COMPUTED,
        expected=7.0147,
        unit="deg",
        within=absolute(9e-4, because="four uncertainties of the means of both sets of draws"),
        ours=lambda: _clutch().mean,
    ),
    ReferenceCheck(
        id="stack.clutch.spread",
        module=_STACK,
        quantity="contact angle of the one-way clutch, three standard deviations of the draws",
        source=_CLUTCH,
        basis=Basis.COMPUTED,
        expected=0.6586,
        unit="deg",
        within=absolute(0.003, because="as stated with the value"),
        ours=lambda: 3 * _clutch().deviation,
    ),
    ReferenceCheck(
        id="stack.clutch.rss",
        module=_STACK,
        quantity="contact angle of the one-way clutch, root-sum-square by its slopes",
        source="derivatives of the angle by hand: 11.910, 23.732 and 11.821 °/mm",
        basis=Basis.COMPUTED,
        expected=0.6579,
        unit="deg",
        within=relative(2e-4, because="derivatives are given to five digits"),
        ours=lambda: linearise((_HUB, _ROLLER, _RING), _contact_angle_deg).root_sum_square,
    ),
    ReferenceCheck(
        id="face.bnc.bore",
        module=_FACE,
        quantity="BNC, inner diameter of the outer conductor",
        source="IEC 61169-8:2007, title (0,256 in)",
        basis=Basis.SEEN,
        expected=6.5,
        unit="mm",
        within=absolute(0.1, because="0,256 in and 6,5 mm stand side by side in the title"),
        ours=lambda: _most(_face("BNC", 75.0).outer_bore),
    ),
    *(
        ReferenceCheck(
            id=f"face.{name}",
            module=_FACE,
            quantity=quantity,
            source=f"{document}, from memory",
            basis=Basis.MEMORY,
            expected=expected,
            unit="mm",
            within=absolute(0.051, because="told to a tenth of a millimetre"),
            ours=ours,
        )
        for name, quantity, document, expected, ours in (
            (
                "bnc.pin.least",
                "BNC male pin, thinnest, 50 Ω",
                "MIL-STD-348",
                1.32,
                lambda: _least(_face("BNC", 50.0).pin_diameter),
            ),
            (
                "bnc.shoulder",
                "BNC male pin, shoulder behind the reference plane at most, 50 Ω",
                "MIL-STD-348",
                5.3,
                lambda: _most(_face("BNC", 50.0).shoulder),
            ),
            (
                "n.bore",
                "type N, inner diameter of the outer conductor",
                "IEC 61169-16",
                7.0,
                lambda: _most(_face("N", 50.0).outer_bore),
            ),
            (
                "f.tip.least",
                "F male, centre conductor beyond the reference plane, least",
                "IEC 61169-24",
                1.6,
                lambda: _least(_face("F", 75.0).tip),
            ),
            (
                "f.tip.most",
                "F male, centre conductor beyond the reference plane, most",
                "IEC 61169-24",
                6.4,
                lambda: _most(_face("F", 75.0).tip),
            ),
            (
                "phono.tip.least",
                "phono male pin, length, least",
                "IEC 60130-1",
                14.5,
                lambda: _least(_face("phono", None).tip),
            ),
            (
                "phono.tip.most",
                "phono male pin, length, most",
                "IEC 60130-1",
                15.1,
                lambda: _most(_face("phono", None).tip),
            ),
            (
                "phono.pin",
                "phono male pin, middle of its diameters",
                "IEC 60130-1",
                3.175,
                lambda: (
                    (
                        _least(_face("phono", None).pin_diameter)
                        + _most(_face("phono", None).pin_diameter)
                    )
                    / 2
                ),
            ),
        )
    ),
)
test_stacks = reference_test(CHECKS)

LEFT_OUT = (
    LeftOut(
        names=("stack-linear-rss",),
        quantity="root-sum-square of a linear stack, 0.4387482 mm",
        reason=(
            "it comes without the tolerances it was made from: its square is 0.1925 mm², which "
            "many sets add up to, and one of our own choice would check nothing"
        ),
    ),
)
