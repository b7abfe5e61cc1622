"""How an end is made, as its sheet tells it: steps, settings, cautions."""

from decimal import Decimal

from reelwright.core.ends.care.cautions import Caution, Job, cautions
from reelwright.core.ends.order.steps import Step
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.marks import NARROW_SPACE
from reelwright.core.quantities.show import show_length_mm, show_plain
from reelwright.core.quantities.words import sentence
from reelwright.shop.setups.ordering import steps_in_order
from reelwright.shop.setups.sheet import Numbers, SetUpSheet, told_mm


def steps_of(sheet: SetUpSheet, cable: Cable, connector: Connector) -> tuple[str, ...]:
    """Return the steps as the sheet lays them down, else those that its method takes."""
    if sheet.numbers.steps:
        return sheet.numbers.steps
    steps = steps_in_order(cable, connector, sheet.numbers)
    return tuple(sentence(told_step(step)) for step in steps)


_THREADED = ("boot", "ferrule", "clamp", "shell", "sleeve")


def threaded_first(sheet: SetUpSheet, cable: Cable, connector: Connector) -> str:
    """Return what goes onto the cable before anything else; empty where nothing does.

    The sheet's own first step where it names such a part. A boot and a ferrule that its steps
    forget are told all the same: an end whose boot was not threaded is made again. Nothing is first
    where the order laid down begins otherwise.
    """
    own = sheet.numbers.steps
    if own and any(part in own[0].lower() for part in _THREADED):
        return own[0]
    steps = steps_in_order(cable, connector, sheet.numbers)
    if sheet.numbers.order and steps and "onto the cable" not in steps[0].text:
        return ""
    usual = [step for step in steps if "onto the cable" in step.text]
    needed = not own or any(part in step.text for step in usual for part in ("boot", "ferrule"))
    return sentence(told_step(usual[0])) if usual and needed else ""


def told_step(step: Step) -> str:
    """Return a step with what to look at before the next."""
    return step.text if step.check is None else f"{step.text}: {step.check}"


def crimp_height_told(numbers: Numbers) -> str:
    """Return the height of the crimp with its tolerance; empty where none is laid down."""
    if numbers.crimp_height_mm is None:
        return ""
    told = told_mm(numbers.crimp_height_mm)
    if numbers.crimp_height_tolerance_mm is not None:
        told += f" ± {told_mm(numbers.crimp_height_tolerance_mm)}"
    return f"{told}{NARROW_SPACE}mm"


def has_fluoropolymer(cable: Cable) -> bool:
    """Return whether any layer is of a fluoropolymer: its fume and its tearing need care."""
    return any(
        word in layer.material.upper()
        for layer in cable.layers
        for word in ("FEP", "PTFE", "FLUORO")
    )


def machine_rows(sheet: SetUpSheet) -> list[tuple[str, str]]:
    """Return what the machines are set to; what this kind of end does not have is left out."""
    numbers = sheet.numbers

    def hexagon(value_mm: Decimal | None) -> str:
        if value_mm is None:
            return ""
        return f"{show_length_mm(float(value_mm), decimals=2)} across flats"

    def given(value: float | None, unit: str) -> str:
        return "" if value is None else show_plain(value, unit)

    rows = (
        ("Stripper program", numbers.program),
        ("Blade set", numbers.blade_set),
        ("Pin die", hexagon(numbers.pin_die_mm)),
        ("Ferrule die", hexagon(numbers.ferrule_die_mm)),
        ("Crimp height to expect", crimp_height_told(numbers)),
        ("Horn of the welder", numbers.weld_horn),
        ("Energy of the weld", given(numbers.weld_energy_j, "J")),
        ("Pressure of the weld", given(numbers.weld_pressure_kpa, "kPa")),
        ("Amplitude of the horn", given(numbers.weld_amplitude_um, "µm")),
        ("Test adapter", numbers.test_adapter),
        ("Time to join one end", show_plain(float(numbers.press_min_per_end), "min")),
    )
    return [(name, value) for name, value in rows if value]


def cautions_of(sheet: SetUpSheet, cable: Cable) -> tuple[Caution, ...]:
    """Return the sheet's own cautions, then those of its method, each sentence once."""
    own = [Caution(code="own", sentence=told, rules="") for told in sheet.numbers.cautions]
    usual = cautions(
        Job(
            methods=(sheet.method,),
            fluoropolymer=has_fluoropolymer(cable),
            line_v=None,
            test_v=None,
        )
    )
    told = dict.fromkeys(caution.sentence for caution in (*own, *usual))
    known = {caution.sentence: caution for caution in (*own, *usual)}
    return tuple(known[sentence] for sentence in told)
