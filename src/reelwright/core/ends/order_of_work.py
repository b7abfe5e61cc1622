"""In which order an end is made. What goes onto the cable first comes first: a boot that was
forgotten means that the end is made again."""

from dataclasses import dataclass

from reelwright.core.ends.strip import StripPlan, WireStrip
from reelwright.core.parts.connector import Method


@dataclass(frozen=True, kw_only=True)
class EndSetUp:
    """What a set-up says of one end; ``None``: this end has no such thing.

    ``program`` is the stripper's; dies are named as engraved on the cavity, ``1.60``.
    """

    method: Method
    strip: StripPlan | WireStrip
    boot: bool
    program: str | None
    pin_die: str | None
    ferrule_die: str | None


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step, numbered from 1; ``check`` is what to look at before the next."""

    number: int
    text: str
    check: str | None


def order_of_work(set_up: EndSetUp) -> tuple[Step, ...]:
    """Return the steps of one end in their order. Common practice, no published source."""
    steps = [*_threading(set_up), _stripping(set_up), *_joining(set_up)]
    if set_up.boot:
        steps.append(("slide the boot home", None))
    return tuple(
        Step(number=number, text=text, check=check)
        for number, (text, check) in enumerate(steps, start=1)
    )


def _threading(set_up: EndSetUp) -> list[tuple[str, str | None]]:
    loose = ["boot"] if set_up.boot else []
    if set_up.method is Method.CRIMP_CRIMP:
        loose.append("ferrule")
    if set_up.method is Method.SOLDER:
        loose.append("shell and clamp")
    return [(f"{', then '.join(loose)}, onto the cable", "right way round")] if loose else []


def _stripping(set_up: EndSetUp) -> tuple[str, str | None]:
    program = f" with program {set_up.program}" if set_up.program else " as drawn"
    if isinstance(set_up.strip, StripPlan):
        text = f"strip{program}"
        if set_up.strip.folds_braid:
            return (f"{text}, braid folded back", "conductor bright, without a nick")
        return (text, "conductor without a nick, no strand forward")
    if set_up.method is Method.POLISH:
        return (f"take the jacket back{program}", "fibre without a scratch")
    if set_up.strip.bared_mm == 0:
        return (f"take the jacket back{program}, cores left insulated", "no core cut into")
    return (f"take the jacket back and bare the cores{program}", "no strand cut")


def _joining(set_up: EndSetUp) -> list[tuple[str, str | None]]:
    match set_up.method:
        case Method.CRIMP_CRIMP:
            return [
                (f"pin on, press it{_cavity(set_up.pin_die)}", "conductor seen in the hole"),
                ("body home until it clicks, stem under the braid", "pin at its height"),
                (
                    f"ferrule forward to the body, press it{_cavity(set_up.ferrule_die)}",
                    "no strand beyond the ferrule",
                ),
            ]
        case Method.COMPRESSION:
            return [
                ("connector on, dielectric flush with its floor", "no braid at the conductor"),
                ("compress once, full stroke", "conductor at its length"),
            ]
        case Method.SOLDER:
            return [
                ("tin the cores and the screen", None),
                ("solder as the contact table says", "wetted, no bridge, no strand out"),
                ("close the clamp on the jacket, shell on", "jacket held"),
            ]
        case Method.WELD:
            return [
                ("all strands into the plug, none outside", None),
                ("weld", "time, power and height inside the window"),
                ("tug each plug", "nothing moves"),
            ]
        case Method.DISPLACEMENT:
            return [
                ("lay the cores flat in their order, cut them even", "order by the contact table"),
                ("cores to the end of the plug, jacket under its clamp", None),
                ("press once, full stroke", "every core reaches the end"),
            ]
        case Method.POLISH:
            return [
                ("fibre into the plug, fixed, a little proud", None),
                ("cleave, then polish square", "end face round, clear, without a scratch"),
            ]


def _cavity(die: str | None) -> str:
    return f", cavity {die}" if die else ""
