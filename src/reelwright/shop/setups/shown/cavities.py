"""Cavities for a cable with a connector: the nearest, what each would do, force and height."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from reelwright.core.ends.dies.cavities import Cavity, CavityUse, usable
from reelwright.core.ends.dies.cavity_choice import CavityChoice, Prediction, Window, choose_cavity
from reelwright.core.ends.dies.crimp_height import HeightTarget, height_target
from reelwright.core.ends.dies.ferrule_crimp import FerruleJoint, FerruleOutcome, ferrule_joint
from reelwright.core.ends.dies.jacket_crimp import judge_jacket_part
from reelwright.core.ends.dies.pin_crimp import PinJoint, PinOutcome, pin_joint
from reelwright.core.ends.dies.press import (
    BRASS_ANNEALED,
    BRASS_HALF_HARD,
    KEEP_OUT,
    Press,
    best_press,
    ferrule_force,
    judge_press,
    pin_force,
)
from reelwright.core.ends.fit.grip import ferrule_window_m, pin_window_m
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector, Method
from reelwright.core.quantities.show import show_dimension
from reelwright.core.quantities.words import sentence
from reelwright.core.verdicts import Check
from reelwright.drawings.crimp_section import (
    CrimpRow,
    draw_ferrule_section,
    draw_pin_section,
    ferrule_rows,
    pin_rows,
)
from reelwright.shop.tools.gauging import cavity_values
from reelwright.shop.tools.machines import presses

_NEAREST = 3
_PIN_SCALE, _FERRULE_SCALE = 15.0, 5.0


@dataclass(frozen=True, kw_only=True)
class CavityRow:
    """One cavity as the table shows it."""

    code: str
    width: str
    outcome: str
    sentence: str
    chosen: bool


@dataclass(frozen=True, kw_only=True)
class CrimpView:
    """Everything about the cavities of one crimp of a pair; ``why_not`` where nothing is known."""

    use: str
    why_not: str
    why: str
    rows: tuple[CavityRow, ...]
    shown: str
    svg: str
    figures: tuple[CrimpRow, ...]
    notes: tuple[tuple[str, str], ...]
    height: HeightTarget | None
    force: Check | None


def crimp_views(
    cable: Cable,
    connector: Connector,
    *,
    cavities: tuple[Cavity, ...],
    machines: Iterable[Press],
    pin_m: float | None,
    ferrule_m: float | None,
) -> tuple[CrimpView, ...]:
    """Return pin and ferrule of a crimped pair; none for ends that no hexagon closes on.

    ``pin_m`` and ``ferrule_m``: the dies that its set-up names, ``None`` where it names none.
    """
    if connector.method is not Method.CRIMP_CRIMP:
        return ()
    press = best_press(machines)
    return (
        _view(
            CavityUse.PIN,
            pin_joint(cable, connector),
            pin_window_m(cable, connector),
            cavities=cavities,
            press=press,
            named_m=pin_m,
            jacket=None,
        ),
        _view(
            CavityUse.FERRULE,
            ferrule_joint(cable, connector),
            ferrule_window_m(cable, connector),
            cavities=cavities,
            press=press,
            named_m=ferrule_m,
            jacket=lambda width_m: judge_jacket_part(cable, connector, across_flats_m=width_m),
        ),
    )


def _view(
    use: CavityUse,
    joint: PinJoint | FerruleJoint | None,
    ends: tuple[float, float] | None,
    *,
    cavities: tuple[Cavity, ...],
    press: Press | None,
    named_m: float | None,
    jacket: Callable[[float], Check | None] | None,
) -> CrimpView:
    """``jacket``: what a hexagon of a width [m] does to the jacket under a ferrule."""
    if joint is None or ends is None:
        part = "the barrel of the pin" if use is CavityUse.PIN else "stem, ferrule and braid"
        return CrimpView(
            use=str(use),
            why_not=f"The drawing does not give {part} in full, so no cavity is judged.",
            why="",
            rows=(),
            shown="",
            svg="",
            figures=(),
            notes=(),
            height=None,
            force=None,
        )
    window = Window(smallest_m=ends[0], largest_m=ends[1])
    choice = choose_cavity(joint, window, cavities, nearest_count=_NEAREST)
    named = None if named_m is None else usable(cavities, use=use, engraved_m=named_m)
    shown = _shown(choice, named)
    force = None if shown is None else _force(joint, shown, press)
    height, beside = None, None
    if shown is not None:
        beside = None if jacket is None else jacket(shown.cavity.across_flats_m)
        height = height_target(across_flats_m=shown.cavity.across_flats_m, window=window)
    return CrimpView(
        use=str(use),
        why_not="" if choice.nearest else f"No {use} cavity is in service.",
        why=sentence(choice.why),
        rows=tuple(
            CavityRow(
                code=each.cavity.code,
                width=show_dimension(each.cavity.across_flats_m)
                + ("" if each.cavity.reading is None else ", as gauged"),
                outcome=str(each.outcome),
                sentence=sentence(each.sentence),
                chosen=named is not None and each.cavity.code == named.code,
            )
            for each in choice.nearest
        ),
        shown="" if shown is None else shown.cavity.code,
        svg="" if shown is None else _svg(joint, shown),
        figures=() if shown is None else _figures(joint, shown),
        notes=() if shown is None else _notes(shown, beside, height, force),
        height=height,
        force=force,
    )


def _shown(choice: CavityChoice, named: Cavity | None) -> Prediction | None:
    """The cavity that the set-up names, else the best, else the nearest."""
    for each in choice.nearest:
        if named is not None and each.cavity.code == named.code:
            return each
    return choice.best or next(iter(choice.nearest), None)


def _svg(joint: PinJoint | FerruleJoint, shown: Prediction) -> str:
    if isinstance(joint, PinJoint) and isinstance(shown.result, PinOutcome):
        return draw_pin_section(joint, shown.result, scale=_PIN_SCALE)
    if isinstance(joint, FerruleJoint) and isinstance(shown.result, FerruleOutcome):
        return draw_ferrule_section(joint, shown.result, scale=_FERRULE_SCALE)
    return ""


def _figures(joint: PinJoint | FerruleJoint, shown: Prediction) -> tuple[CrimpRow, ...]:
    if isinstance(joint, PinJoint) and isinstance(shown.result, PinOutcome):
        return pin_rows(joint, shown.result)
    if isinstance(joint, FerruleJoint) and isinstance(shown.result, FerruleOutcome):
        return ferrule_rows(joint, shown.result)
    return ()


def _notes(
    shown: Prediction, beside: Check | None, target: HeightTarget | None, force: Check | None
) -> tuple[tuple[str, str], ...]:
    """Outcome and sentence of everything else: checks of the crimp, height, force."""
    checks = (*shown.result.checks, *(() if beside is None else (beside,)))
    told = [(str(check.outcome), sentence(check.sentence)) for check in checks]
    if target is not None:
        told.append(("good", f"Height to measure over the flats: {target.told} ({target.source})."))
    if force is not None:
        told.append((str(force.outcome), f"{sentence(force.sentence)} {_METAL}"))
    return tuple(told)


_METAL = "Brass is assumed, its flow stress from memory: the drawing names no metal."


def _force(joint: PinJoint | FerruleJoint, shown: Prediction, press: Press | None) -> Check | None:
    if press is None:
        return None
    if isinstance(joint, PinJoint):
        if joint.crimped_length_m is None:
            return None
        needed = pin_force(
            across_flats_m=shown.cavity.across_flats_m,
            crimped_length_m=joint.crimped_length_m,
            metal=BRASS_HALF_HARD,
        )
        return judge_press("pin", needed, press)
    if joint.ferrule_length_m is None:
        return None
    needed = ferrule_force(
        wall_m=joint.wall_m, crimped_length_m=joint.ferrule_length_m, metal=BRASS_ANNEALED
    )
    return judge_press("ferrule", needed, press)


def crimp_context(
    cable: Cable, connector: Connector, *, pin_mm: Decimal | None, ferrule_mm: Decimal | None
) -> dict[str, Any]:
    """Return what the part of a page about cavities needs, read from the shop's records."""
    return {
        "crimps": crimp_views(
            cable,
            connector,
            cavities=cavity_values(),
            machines=presses(),
            pin_m=None if pin_mm is None else float(pin_mm) / 1e3,
            ferrule_m=None if ferrule_mm is None else float(ferrule_mm) / 1e3,
        ),
        "keep_out": KEEP_OUT,
    }
