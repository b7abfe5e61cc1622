"""A data sheet held against physics and against itself: a typing mistake has to show.

Each check has its own tolerance, wide enough for rounding and for real cables, narrow enough for a
wrong unit (3.28 between metres and feet, 30.48 between 100 ft and m) or a wrong digit.
"""

from collections.abc import Iterator

from reelwright.core.materials.metals import COPPER
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.layers import LayerRole
from reelwright.core.physics.coax import impedance_ohm
from reelwright.core.physics.consistency import judge_sheet
from reelwright.core.physics.sheet_line import SheetLine, fit_line, loop_resistance_ohm_per_m
from reelwright.core.quantities.constants import SPEED_OF_LIGHT_M_PER_S
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_PHYSICS = Source(text="identity of the line equations", basis=Basis.COMPUTED)

ACCEPTED_LOSS_RESIDUAL = 0.05
"""Distance of a stated loss from the smooth curve through the others [1] (common practice)."""

ACCEPTED_IMPEDANCE_RATIO = 0.08
"""Distance of the stated impedance from that of the sizes [1]: strands, sizes after rounding."""


def judge_whole_sheet(cable: Cable) -> tuple[Check, ...]:
    """Return every check that the stated values of a cable allow; those that lack one are absent.

    The first, capacitance times impedance against delay, is always there.
    """
    return (
        judge_sheet(cable.sheet),
        *_speed(cable),
        *_resistance(cable),
        *_capacitances(cable),
        *_impedance_of_sizes(cable),
        *_losses(cable),
    )


def _check(
    *,
    name: str,
    good: bool,
    value: float,
    limit: float,
    margin: float,
    unit: str,
    finding: str,
    source: Source = _PHYSICS,
) -> Check:
    return Check(
        name=name,
        outcome=Outcome.GOOD if good else Outcome.BAD,
        sentence=finding,
        source=source,
        value=value,
        limit=limit,
        margin=margin,
        unit=unit,
    )


def _speed(cable: Cable) -> Iterator[Check]:
    if cable.sheet.delay_s_per_m is None:
        return
    speed = 1 / (cable.sheet.delay_s_per_m * SPEED_OF_LIGHT_M_PER_S)
    # Nothing insulates with a permittivity above 6.
    good = 0.4 <= speed <= 1.0
    tail = "as cables have it." if good else "which no cable has: the delay is in another unit."
    yield _check(
        name="velocity factor",
        good=good,
        value=speed,
        limit=1.0,
        margin=min(1.0 - speed, speed - 0.4),
        unit="1",
        finding=f"The stated delay is a velocity factor of {speed:.3f}, {tail}",
    )


def _resistance(cable: Cable) -> Iterator[Check]:
    area, stated = cable.sheet.conductor_area_m2, cable.sheet.resistance_conductor_ohm_per_m
    if area is None or stated is None:
        return
    share = COPPER.resistivity_ohm_m / (stated * area)
    good = 0.15 <= share <= 1.06
    tail = (
        "between clad steel and pure copper."
        if good
        else "which no conductor has: resistance or area is a typing mistake or in another unit."
    )
    yield _check(
        name="resistance of the conductor's area",
        good=good,
        value=share,
        limit=1.06,
        margin=min(1.06 - share, share - 0.15),
        unit="1",
        finding=(
            f"Resistance and area make {share * 100:.0f} % of the conductivity of copper, {tail}"
        ),
        source=Source(
            text="ρ/A of IEC 60028 copper; areas are nominal, so up to 6 % above",
            basis=Basis.COMPUTED,
        ),
    )


def _capacitances(cable: Cable) -> Iterator[Check]:
    between, rest = cable.sheet.capacitance_f_per_m, cable.sheet.capacitance_to_rest_f_per_m
    if between is None or rest is None:
        return
    ratio = rest / between
    good = 1.0 <= ratio <= 2.5
    tail = (
        "as it must."
        if good
        else "which cannot be: it holds the one between the cores, and not much more than twice it."
    )
    yield _check(
        name="capacitance to the rest",
        good=good,
        value=ratio,
        limit=1.0,
        margin=min(ratio - 1, 2.5 - ratio),
        unit="1",
        finding=(
            f"One core to the rest has {ratio:.2f} of the capacitance between the cores, {tail}"
        ),
    )


def _impedance_of_sizes(cable: Cable) -> Iterator[Check]:
    sheet = cable.sheet
    centre, insulation = cable.layer(LayerRole.CONDUCTOR), cable.layer(LayerRole.DIELECTRIC)
    if (
        cable.family is not Family.COAX
        or centre is None
        or insulation is None
        or sheet.impedance_ohm is None
        or sheet.delay_s_per_m is None
        or not centre.outside_diameter_m < insulation.outside_diameter_m
    ):
        return
    electrical = centre.outside_diameter_m * (1.0 if cable.solid_conductor else 0.939)
    speed = 1 / (sheet.delay_s_per_m * SPEED_OF_LIGHT_M_PER_S)
    ours = impedance_ohm(
        inner_m=electrical, outer_m=insulation.outside_diameter_m, velocity_factor=speed
    )
    away = abs(ours / sheet.impedance_ohm - 1)
    good = away <= ACCEPTED_IMPEDANCE_RATIO
    tail = (
        "they agree."
        if good
        else "a diameter, the delay or the impedance is a typing mistake or in another unit."
    )
    yield _check(
        name="impedance of the sizes",
        good=good,
        value=ours,
        limit=sheet.impedance_ohm,
        margin=(ACCEPTED_IMPEDANCE_RATIO - away) * sheet.impedance_ohm,
        unit="Ω",
        finding=(
            f"Diameters and delay make {ours:.1f}\u202fΩ, "
            f"stated are {sheet.impedance_ohm:g}\u202fΩ: {tail}"
        ),
    )


def _losses(cable: Cable) -> Iterator[Check]:
    sheet = cable.sheet
    if sheet.impedance_ohm is None or sheet.delay_s_per_m is None or len(sheet.loss_points) < 3:
        return
    if sheet.delay_s_per_m * SPEED_OF_LIGHT_M_PER_S < 1:
        return  # no line is faster than light; the velocity factor has told it

    def fitted(without: int | None) -> SheetLine | None:
        points = tuple(one for at, one in enumerate(sheet.loss_points) if at != without)
        assert sheet.impedance_ohm is not None
        assert sheet.delay_s_per_m is not None
        found = fit_line(
            impedance_ohm=sheet.impedance_ohm,
            delay_s_per_m=sheet.delay_s_per_m,
            direct_ohm_per_m=loop_resistance_ohm_per_m(cable, None),
            points=points,
        )
        return found if isinstance(found, SheetLine) else None

    whole = fitted(None)
    source = Source(
        text="the exact wire in a lossy dielectric, fitted to the stated losses; 5 % allowed",
        basis=Basis.COMPUTED,
    )
    if whole is not None and whole.worst_residual <= ACCEPTED_LOSS_RESIDUAL:
        yield _check(
            name="stated losses",
            good=True,
            value=whole.worst_residual,
            limit=ACCEPTED_LOSS_RESIDUAL,
            margin=ACCEPTED_LOSS_RESIDUAL - whole.worst_residual,
            unit="1",
            finding=(
                "The stated losses lie on one smooth curve, the farthest "
                f"{whole.worst_residual * 100:.1f}\u202f% off."
            ),
            source=source,
        )
        return
    tried = [(at, fitted(at)) for at in range(len(sheet.loss_points))]
    left = [(one.worst_residual, at) for at, one in tried if one is not None]
    culprit = min(left, default=None)
    off = 1.0 if whole is None else whole.worst_residual
    finding = "The stated losses do not lie on any smooth curve that a cable has."
    if len(sheet.loss_points) > 3 and culprit and culprit[0] <= ACCEPTED_LOSS_RESIDUAL:
        point = sheet.loss_points[culprit[1]]
        finding = (
            f"Without the loss at {point.frequency_hz / 1e6:g}\u202fMHz the others lie on one "
            "smooth curve: that one is a typing mistake or in another unit."
        )
    yield _check(
        name="stated losses",
        good=False,
        value=off,
        limit=ACCEPTED_LOSS_RESIDUAL,
        margin=ACCEPTED_LOSS_RESIDUAL - off,
        unit="1",
        finding=finding,
        source=source,
    )
